using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;

namespace FlowSim.Fuzz.Targets;

/// <summary>A table of timed readings, of a run that is over and of one that goes on.</summary>
internal static class TableTarget
{
    /// <summary>Reads a table.</summary>
    /// <param name="bytes">Bytes of the file.</param>
    public static string Read(byte[] bytes) => FuzzTarget.TextOf(bytes) is { } text ? Read(text, goesOn: false) + Read(text, goesOn: true) : string.Empty;

    private static string Read(string text, bool goesOn)
    {
        Problems problems = new();
        RunFile? run = RunCsvReader.Read("fuzzed.csv", text, problems, goesOn);
        if (run is null && !problems.Any)
            throw new FuzzFindingException("a table is refused without a reason");
        return FuzzTarget.Told(problems) + Numbers.Of(run);
    }
}
