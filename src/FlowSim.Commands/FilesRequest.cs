using FlowSim.Commands.Input;
using FlowSim.Commands.Output.Sheets;

namespace FlowSim.Commands;

/// <summary>What a command can be asked that also writes files; a path is null for one that was not asked for.</summary>
internal abstract record FilesRequest : BatchRequest
{
    /// <summary>Path of the table.</summary>
    public string? Csv { get; init; }

    /// <summary>Path of the figure.</summary>
    public string? Plot { get; init; }

    /// <summary>Path of the run sheet.</summary>
    public string? Report { get; init; }

    /// <summary>Whether files may be replaced.</summary>
    public bool Force { get; init; }

    /// <summary>The command that makes the run sheet again.</summary>
    /// <param name="command">Name of the command.</param>
    /// <param name="loaded">The input.</param>
    /// <param name="own">Options that the command alone has, with their values; null for one that was not given.</param>
    public Provenance Again(string command, Loaded loaded, params IEnumerable<(string Option, string? Value)> own) => Provenance.Of(
        command, File, loaded, [.. ShellWords.Repeated("--set", Settings), .. own, ("--units", Words.Of(Units)), (Asked.ReportOption, Provenance.NameOf(Report))]);
}
