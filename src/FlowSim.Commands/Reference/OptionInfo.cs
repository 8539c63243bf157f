namespace FlowSim.Commands.Reference;

/// <summary>What stands after an option, as far as a shell can help with it.</summary>
internal enum ValueHint
{
    /// <summary>Nothing: the option is a switch.</summary>
    None,

    /// <summary>A text that nobody can foretell.</summary>
    Text,

    /// <summary>One of some words.</summary>
    Word,

    /// <summary>A file.</summary>
    File,

    /// <summary>A key of a batch and its value.</summary>
    Setting,

    /// <summary>A key of a batch that is a number, and a range.</summary>
    Range,
}

/// <summary>An option of a command.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Aliases">Its other names.</param>
/// <param name="Description">What it does.</param>
/// <param name="Value">What it takes, as the help names it; empty for a switch.</param>
/// <param name="Hint">What that is.</param>
/// <param name="Words">The words it takes, when it takes only some or some are common.</param>
/// <param name="Default">What is taken without it; null for nothing.</param>
/// <param name="Repeats">Whether it may be given several times.</param>
internal sealed record OptionInfo(
    string Name, IReadOnlyList<string> Aliases, string Description, string Value, ValueHint Hint, IReadOnlyList<string> Words, string? Default, bool Repeats)
{
    /// <summary>All its names, the long one first.</summary>
    public IEnumerable<string> Names => [Name, .. Aliases];
}

/// <summary>What stands in a command line without an option.</summary>
/// <param name="Name">Name in the help.</param>
/// <param name="Description">What it is.</param>
/// <param name="IsRequired">Whether it must be there.</param>
/// <param name="Repeats">Whether there may be several.</param>
/// <param name="IsFile">Whether it is a file.</param>
/// <param name="Words">The words it may be; empty when it may be anything.</param>
internal sealed record ArgumentInfo(string Name, string Description, bool IsRequired, bool Repeats, bool IsFile, IReadOnlyList<string> Words);
