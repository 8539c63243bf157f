using FlowSim.Numerics.Sampling;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>The moisture of a honey as it was measured, and how well it is known.</summary>
public sealed record MoistureMeasurement
{
    /// <summary>Moisture, share of mass.</summary>
    public required Ratio Moisture { get; init; }

    /// <summary>Standard deviation, share of mass.</summary>
    public required Ratio StandardDeviation { get; init; }

    /// <summary>Where the error comes from, largest part first.</summary>
    public required IReadOnlyList<ErrorShare> Contributions { get; init; }

    /// <summary>What the user should know.</summary>
    public IReadOnlyList<Notice> Notices { get; init; } = [];

    /// <summary>Where the relation comes from.</summary>
    public required Source Source { get; init; }

    /// <summary>Interval that holds the moisture with 95 %, it being normal.</summary>
    public (Ratio Low, Ratio High) Interval95
    {
        get
        {
            Ratio half = StandardDeviation * NormalDistribution.HalfWidth95;
            return (Moisture - half, Moisture + half);
        }
    }

    /// <summary>
    /// What the error of the moisture alone does to the viscosity that a correlation gives: multiplied or divided by so much, for one standard
    /// deviation. 1.07 is 7 %.
    /// </summary>
    /// <param name="temperature">Temperature of the honey.</param>
    /// <param name="viscosity">Correlation; null for the library's default.</param>
    /// <exception cref="ArgumentOutOfRangeException">The correlation does not reach the temperature or the moisture.</exception>
    public double ViscosityFactorAt(Temperature temperature, ViscosityCorrelation? viscosity = null)
    {
        ViscosityCorrelation correlation = viscosity ?? ViscosityCorrelations.Default;
        correlation.TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        correlation.MoistureRange.Require(Moisture.Percent, nameof(Moisture));
        double percent = Moisture.Percent, spread = StandardDeviation.Percent, kelvin = temperature.Kelvins;
        return Math.Sqrt(correlation.ViscosityPaS(percent - spread, kelvin) / correlation.ViscosityPaS(percent + spread, kelvin));
    }
}
