namespace FlowSim.Plots;

/// <summary>What came out while one input was set to one value after the other, in the units it is to be shown in.</summary>
public sealed record ScanTable
{
    /// <summary>What was scanned, in one line.</summary>
    public required string Title { get; init; }

    /// <summary>What it is called or a remark; shown under the title. Empty for nothing.</summary>
    public string Subtitle { get; init; } = "";

    /// <summary>The input.</summary>
    public required string XName { get; init; }

    /// <summary>Its unit, as shown; empty for none.</summary>
    public required string XUnit { get; init; }

    /// <summary>Its values.</summary>
    public required IReadOnlyList<double> X { get; init; }

    /// <summary>Whether the horizontal axis is logarithmic; values that are not above 0 are then left out.</summary>
    public bool LogarithmicX { get; init; }

    /// <summary>The value that the setup has; null for none. It is marked.</summary>
    public double? Nominal { get; init; }

    /// <summary>What the bands are.</summary>
    public string BandName { get; init; } = "eight runs in ten";

    /// <summary>What came out; series of one unit share a panel, in the order in which the units first occur.</summary>
    public required IReadOnlyList<ScanSeries> Series { get; init; }
}

/// <summary>One output of a scan.</summary>
public sealed record ScanSeries
{
    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Unit, as shown; empty for none.</summary>
    public required string Unit { get; init; }

    /// <summary>One value for each of <see cref="ScanTable.X"/>; NaN where there is none, which leaves a gap.</summary>
    public required IReadOnlyList<double> Values { get; init; }

    /// <summary>Low end of a band at each value; null for no band.</summary>
    public IReadOnlyList<double>? Low { get; init; }

    /// <summary>High end of a band at each value; null for no band.</summary>
    public IReadOnlyList<double>? High { get; init; }

    /// <summary>What its band is; null for that of the table. In a panel the first that is given counts.</summary>
    public string? BandName { get; init; }

    /// <summary>A level to draw, as a rim's height or a tolerance; null for none.</summary>
    public double? Limit { get; init; }

    /// <summary>What the level is called, in a word.</summary>
    public string LimitName { get; init; } = "limit";
}
