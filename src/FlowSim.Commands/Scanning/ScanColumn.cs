namespace FlowSim.Commands.Scanning;

/// <summary>What a curve measures, for its unit in a figure.</summary>
internal enum CurveMeasure
{
    Time,
    Length,
    Temperature,
    Share,
    Energy,
    Content,
}

/// <summary>What is told of each run of a scan.</summary>
/// <typeparam name="T">Result of a run.</typeparam>
/// <param name="Json">Key in JSON, SI unit in the name.</param>
/// <param name="Csv">Name of the column in CSV, SI unit in the name.</param>
/// <param name="Value">Value, SI: a number, a word, or null where there is none.</param>
internal sealed record ScanColumn<T>(string Json, string Csv, Func<T, object?> Value)
{
    /// <summary>Head of its column in the text; null when it is not shown there.</summary>
    public string? Head { get; init; }

    /// <summary>Its value as text.</summary>
    public Func<T, string>? Text { get; init; }

    /// <summary>Its curve in a figure; null when it has none.</summary>
    public ScanCurve<T>? Curve { get; init; }
}

/// <summary>A curve of a scan.</summary>
/// <typeparam name="T">Result of a run.</typeparam>
/// <param name="Name">Name.</param>
/// <param name="Measure">What it measures.</param>
internal sealed record ScanCurve<T>(string Name, CurveMeasure Measure)
{
    /// <summary>Low end of its band; null for no band.</summary>
    public Func<T, double?>? Low { get; init; }

    /// <summary>What the band is, in a few words.</summary>
    public string BandName { get; init; } = "eight runs in ten";

    /// <summary>High end.</summary>
    public Func<T, double?>? High { get; init; }

    /// <summary>Whether it is drawn of a grid too, once for each value of the second key.</summary>
    public bool InGrid { get; init; } = true;

    /// <summary>A level to draw; null for none.</summary>
    public Func<T, double?>? Limit { get; init; }

    /// <summary>Its name, in a word.</summary>
    public string LimitName { get; init; } = "limit";
}
