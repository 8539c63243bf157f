namespace FlowSim.Commands.Input.Timed;

/// <summary>The largest table that is read: a reading a second for a day is within it.</summary>
internal static class RunLimits
{
    /// <summary>Bytes of a file.</summary>
    public const int Bytes = 16_000_000;

    /// <summary>Rows below the headings.</summary>
    public const int Rows = 100_000;

    /// <summary>Columns.</summary>
    public const int Columns = 64;

    /// <summary>Characters of a row.</summary>
    public const int RowLength = 4096;

    /// <summary>Readings of all tables of a fit together.</summary>
    public const int AllReadings = 1_000_000;

    /// <summary>Fewest readings of a quantity, as the library takes them.</summary>
    public const int FewestReadings = 4;
}
