using FlowSim.Commands.Input;

namespace FlowSim.Commands.Scanning;

/// <summary>What a command can be asked that also runs its input with one value after the other.</summary>
internal abstract record ScanRequest : FilesRequest
{
    /// <summary>Keys that are scanned, with their values; none for a single run.</summary>
    public IReadOnlyList<string> Scans { get; init; } = [];

    /// <summary>Options of the command's own that set a key each.</summary>
    public virtual IReadOnlyList<OptionSetting> More => [];
}
