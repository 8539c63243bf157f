using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Scanning;

/// <summary>A key and the values it is to have, one run each.</summary>
/// <param name="Option">The option as it was given.</param>
/// <param name="Key">Key, section and name.</param>
/// <param name="Dimension">What it measures; null for a plain number.</param>
/// <param name="Unit">Unit of the values as shown; null for a plain number.</param>
/// <param name="Values">Values, SI, in the order given.</param>
internal sealed record Scan(string Option, string Key, Dimension? Dimension, Unit? Unit, IReadOnlyList<double> Values)
{
    /// <summary>A value as it is shown, and as it is set.</summary>
    /// <param name="si">Value, SI.</param>
    public string Text(double si) => Units.Text(si, Unit);

    /// <summary>A value as people look at it: four figures.</summary>
    /// <param name="si">Value, SI.</param>
    public string InShort(double si) => Units.Text(si, Unit, figures: 4);

    /// <summary>A value in the unit shown.</summary>
    /// <param name="si">Value, SI.</param>
    public double Shown(double si) => Unit is null ? si : (si - Unit.Offset) / Unit.Factor;

    /// <summary>Name of its column in CSV: the key with the SI unit behind it.</summary>
    public string Column => Key.Replace('.', '_') + (Dimension is { } measured ? "_" + DimensionFacts.Of(measured).ColumnUnit : string.Empty);
}
