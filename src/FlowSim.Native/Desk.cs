using FlowSim.Commands;
using FlowSim.Commands.Input;
using static System.FormattableString;

namespace FlowSim.Native;

/// <summary>Answers requests, each on a thread of its own: the caller's stack may be small, and what a request can nest must fit.</summary>
internal static class Desk
{
    private const int StackBytes = 16 << 20;

    /// <summary>Answers a request.</summary>
    /// <param name="request">Its bytes.</param>
    /// <returns>The reply; null when memory runs out.</returns>
    public static Reply? Answer(byte[] request)
    {
        Reply? reply = null;
        Thread thread = new(() => reply = OrRefusal(request), StackBytes) { IsBackground = true };
        thread.Start();
        thread.Join();
        return reply;
    }

    /// <summary>The reply; null when memory runs out.</summary>
    private static Reply? OrRefusal(byte[] request)
    {
        try
        {
            return Run(Request.Read(request));
        }
        catch (BadRequestException bad)
        {
            return Reply.Refusal(bad.Status, bad.Message);
        }
        catch (OutOfMemoryException)
        {
            return null;
        }
#pragma warning disable CA1031 // Nothing may leave: the caller's program would end.
        catch (Exception unexpected)
#pragma warning restore CA1031
        {
            return Reply.Refusal(Status.Failed, $"{unexpected.GetType().Name}: {Commands.Output.Printable.Of(unexpected.Message, 400)}");
        }
    }

    private static Reply Run(Request request)
    {
        using StringWriter text = new();
        using StringWriter json = new();
        using StringWriter messages = new();
        List<Problem> wrong = [];
        Surroundings around = new(text, messages) { Json = json, Wrong = wrong, Files = request.Files, Clock = new UtcClock() };
        using CancellationTokenSource limit = new(request.Limit);
        int code = FlowSimCommand.Run(request.Arguments, around, limit.Token);
        if (code == ExitCode.Cancelled)
            messages.Write(Invariant($"it took longer than {request.Limit.TotalSeconds} s\n"));
        return Reply.Of(code, wrong, messages.ToString(), text.ToString(), json.ToString());
    }
}
