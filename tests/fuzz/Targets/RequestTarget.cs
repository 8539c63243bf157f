using FlowSim.Native;

namespace FlowSim.Fuzz.Targets;

/// <summary>A request of the C library up to the command that it asks for, which is not run.</summary>
internal static class RequestTarget
{
    /// <summary>Reads a request.</summary>
    /// <param name="bytes">Bytes of the request.</param>
    public static string Read(byte[] bytes)
    {
        try
        {
            Request request = Request.Read(bytes);
            if (request.Arguments.Count == 0 || !(request.Limit > TimeSpan.Zero))
                throw new FuzzFindingException("a request without a command or a limit is accepted");
            return string.Join('\n', request.Arguments) + request.Limit + request.Files.IsThere("run.toml");
        }
        catch (BadRequestException bad)
        {
            if (string.IsNullOrWhiteSpace(bad.Message) || bad.Message.Any(c => char.IsControl(c) || c is '\u202E' or '\u2028'))
                throw new FuzzFindingException($"a request is refused without a reason, or with one that steers a terminal: {bad.Message}", bad);
            return bad.Status + bad.Message;
        }
    }
}
