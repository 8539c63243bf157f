namespace FlowSim.Plots;

/// <summary>The units figures are labelled in.</summary>
public enum DisplayUnits
{
    /// <summary>Centimetres, kilograms, degrees Celsius.</summary>
    Metric,

    /// <summary>Inches, pounds, degrees Fahrenheit.</summary>
    UsCustomary,
}
