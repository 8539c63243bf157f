using System.Globalization;
using FlowSim.Numerics.Sampling;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>The viscosity of a honey as it was measured, and how well it is known.</summary>
/// <remarks>
/// It is the viscosity at whatever temperature the honey really had, so the thermometer's error is not in it (but for what it does to
/// the density). That error comes in when the viscosity is compared with a correlation: <see cref="LotFactor"/>.
/// </remarks>
public sealed record ViscosityMeasurement
{
    /// <summary>Largest standard deviation of ln μ that is answered. Engineering choice: beyond it the honey could as well be seven times thicker or thinner.</summary>
    internal const double LargestLogStandardDeviation = 1;

    /// <summary>Viscosity.</summary>
    public required DynamicViscosity Viscosity { get; init; }

    /// <summary>Standard deviation of ln μ: 0.05 is about 5 %.</summary>
    public required double LogStandardDeviation { get; init; }

    /// <summary>Where the error comes from, largest part first.</summary>
    public required IReadOnlyList<ErrorShare> Contributions { get; init; }

    /// <summary>The honey it was measured on.</summary>
    public required HoneySample Sample { get; init; }

    /// <summary>Temperature it was measured at.</summary>
    public Temperature Temperature => Sample.Temperature;

    /// <summary>Density that was used, from the moisture and the temperature.</summary>
    public required Density Density { get; init; }

    /// <summary>What the user should know.</summary>
    public IReadOnlyList<Notice> Notices { get; init; } = [];

    /// <summary>What to mind while measuring.</summary>
    public IReadOnlyList<Caution> Cautions { get; init; } = [];

    /// <summary>Where the equation comes from.</summary>
    public required Source Source { get; init; }

    /// <summary>Interval that holds the viscosity with 95 %, its logarithm being normal.</summary>
    public (DynamicViscosity Low, DynamicViscosity High) Interval95
    {
        get
        {
            double factor = Math.Exp(NormalDistribution.HalfWidth95 * LogStandardDeviation);
            return (Viscosity / factor, Viscosity * factor);
        }
    }

    /// <summary>Kinematic viscosity.</summary>
    public KinematicViscosity KinematicViscosity => Viscosity / Density;

    /// <summary>The lot factor of a honey: this viscosity over that of its correlation at its moisture and the temperature of the measurement.</summary>
    /// <param name="honey">The honey; its own lot factor is not looked at.</param>
    /// <exception cref="ArgumentOutOfRangeException">The correlation does not reach the moisture or the temperature, or the factor is beyond what a honey may have.</exception>
    /// <exception cref="FlowSim.Properties.HoneyRefusedException">The honey is not a simple liquid and no measured viscosity is given.</exception>
    public LotFactorEstimate LotFactor(Honey honey) => LotFactorEstimate.Of(this, honey);

    /// <summary>Puts a measurement together.</summary>
    /// <param name="viscosityPaS">Viscosity, Pa·s.</param>
    /// <param name="budget">Its errors, on ln μ.</param>
    /// <param name="sample">The honey.</param>
    /// <param name="notices">Notices of the method.</param>
    /// <param name="cautions">Cautions of the method.</param>
    /// <param name="source">Where the equation comes from.</param>
    /// <exception cref="MeasurementRefusedException">The errors leave nothing of the measurement.</exception>
    internal static ViscosityMeasurement Of(double viscosityPaS, ErrorBudget budget, HoneySample sample, IEnumerable<Notice> notices, IEnumerable<Caution> cautions, Source source)
    {
        // NaN fails the comparison too.
        if (!(budget.StandardDeviation <= LargestLogStandardDeviation))
        {
            throw MeasurementRefusedException.Of(
                nameof(LogStandardDeviation),
                string.Create(CultureInfo.InvariantCulture, $"The errors leave nothing of the measurement: ln of the viscosity has a standard deviation of {budget.StandardDeviation:0.0}, at most {LargestLogStandardDeviation:0} is answered."),
                budget.Shares.Count > 0 ? $"Most comes from: {budget.Shares[0].Name}. Measure that more closely, or over a longer time." : "Measure over a longer time.");
        }

        return new ViscosityMeasurement
        {
            Viscosity = DynamicViscosity.FromPascalSeconds(viscosityPaS),
            LogStandardDeviation = budget.StandardDeviation,
            Contributions = budget.Shares,
            Sample = sample,
            Density = Density.FromKilogramsPerCubicMeter(sample.DensityKgPerM3),
            Notices = [.. sample.Notices, .. notices],
            Cautions = [.. MeasurementCautions.Of(sample), .. cautions],
            Source = source,
        };
    }
}
