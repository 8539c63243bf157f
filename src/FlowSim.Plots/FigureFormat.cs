namespace FlowSim.Plots;

/// <summary>How a figure is written.</summary>
public enum FigureFormat
{
    /// <summary>Portable Network Graphics: pixels.</summary>
    Png,

    /// <summary>Scalable Vector Graphics, UTF-8: text stays text.</summary>
    Svg,
}
