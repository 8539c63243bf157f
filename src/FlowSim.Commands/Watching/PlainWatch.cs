using FlowSim.Attending;
using FlowSim.Commands.Output;
using UnitsNet;

namespace FlowSim.Commands.Watching;

/// <summary>A watch without a screen: lines in, lines out. For pipes, scripts, and terminals that cannot be drawn over.</summary>
/// <param name="session">Session.</param>
/// <param name="around">Surroundings.</param>
/// <param name="display">Units.</param>
/// <param name="json">Whether the last outlook is told as JSON and nothing else.</param>
internal sealed class PlainWatch(WatchSession session, Surroundings around, Display display, bool json)
{
    /// <summary>Reads lines to their end, or until somebody quits.</summary>
    /// <param name="lines">Lines.</param>
    /// <param name="eachTime">Whether the outlook is told after each entry, as somebody at a keyboard wants it, or once at the end.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <returns>The code of the process.</returns>
    public int Run(IEnumerable<string> lines, bool eachTime, CancellationToken cancellation)
    {
        RunForecast? forecast = null;
        bool refused = false;
        int number = 0;
        if (eachTime)
            Tell(ref forecast, cancellation);
        foreach (string line in lines)
        {
            cancellation.ThrowIfCancellationRequested();
            number++;
            Reply reply = session.Take(line);
            if (reply.Refused)
                around.Error.Write(eachTime ? reply.Said + "\n" : FormattableString.Invariant($"line {number}: {reply.Said}\n"));
            else if (reply.Said.Length > 0 && !json)
                around.Output.Write(reply.Said + "\n");
            refused |= reply.Refused;
            if (reply.Word == WatchWord.Quit)
                break;
            if (reply.Word == WatchWord.Help && !json)
                Print(session.Grammar.Help.Select(one => new ScreenLine(one)));
            if (reply.Word == WatchWord.Why && !json)
                Print(Text().Reasons(Outlook(ref forecast, cancellation)));
            if (eachTime && (reply.Changed || line.Trim().Length == 0))
                Tell(ref forecast, cancellation);
            around.Output.Flush();
        }

        if (!eachTime)
            Tell(ref forecast, cancellation);
        return refused && !eachTime ? ExitCode.BadInput : ExitCode.Done;
    }

    private OutlookText Text() => new(display, session.IsOpened ? session.OpenedAt : null, session.Zone);

    private RunOutlook Outlook(ref RunForecast? forecast, CancellationToken cancellation)
    {
        if (forecast is null || !ReferenceEquals(forecast.Run, session.Run))
            forecast = RunForecast.Of(session.Run, forecast, cancellation);
        return forecast.At(Duration.FromSeconds(session.ElapsedS));
    }

    private void Tell(ref RunForecast? forecast, CancellationToken cancellation) => Tell(Outlook(ref forecast, cancellation), Text());

    /// <summary>Tells an outlook.</summary>
    /// <param name="outlook">Outlook.</param>
    /// <param name="text">Puts it into words.</param>
    private void Tell(RunOutlook outlook, OutlookText text)
    {
        if (json)
            around.Json.Write(OutlookJson.Of(outlook));
        else
            Print([new ScreenLine($"{Display.Time(Math.Floor(outlook.Now.Seconds))} since the gate was opened"), .. text.Lines(outlook)]);
        around.Output.Flush();
    }

    private void Print(IEnumerable<ScreenLine> lines) => Print(around, lines);

    /// <summary>Prints lines, folded.</summary>
    /// <param name="around">Surroundings.</param>
    /// <param name="lines">Lines.</param>
    public static void Print(Surroundings around, IEnumerable<ScreenLine> lines)
    {
        foreach ((string text, _) in LiveScreen.Fold([.. lines], around.Width + 1))
            around.Output.Write(text + "\n");
    }
}
