using System.Globalization;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>A bubble timed as it rises through a closed tube of the honey. Spreads are one standard deviation.</summary>
/// <remarks>
/// In the tube of ASTM D1545 (10.65 mm inside, filled to 100 mm, cork at 108 mm, the bubble's top timed from the 27 mm to the 100 mm line of
/// the inverted tube) the seconds are about the kinematic viscosity in stokes. Any other tube needs a constant of its own: time a
/// liquid of known viscosity in it and ask <see cref="StokesPerSecondOf"/>. The tube must be upright: leaning by its own radius costs
/// about 10 % (D1545, note 5).
/// </remarks>
public sealed record BubbleTube
{
    /// <summary>
    /// Times, s. The standard advises comparison with known tubes below 4 s. The upper supported end is that of the long-used letter
    /// standards to Z6 and the outer one that of Z10 (from memory).
    /// </summary>
    public static ValidityRange TimeRange { get; } = new("bubble tube", "time", "s", 4, 150, 1, 1100);

    /// <summary>Source of the relation.</summary>
    public static Source Source { get; } = new(
        "ASTM D1545, Viscosity of Transparent Liquids by Bubble Time Method: bubble seconds are approximately stokes (pages with scope, dimensions and procedure read)",
        Standing.SecondaryCopy);

    /// <summary>The honey.</summary>
    public required HoneySample Sample { get; init; }

    /// <summary>Times the bubble took. <see cref="TimeRange"/>.</summary>
    public required IReadOnlyList<Duration> Times { get; init; }

    /// <summary>How well somebody hits a start or a stop. 0 to 60 s. Default 0.3 s (engineering choice).</summary>
    public Duration Reaction { get; init; } = Timings.DefaultReaction;

    /// <summary>Stokes for a second of this tube. 0.001 to 1000. Default 1: the tube of the standard.</summary>
    public double StokesPerSecond { get; init; } = 1;

    /// <summary>
    /// How well that is known, as a share of it. 0 to 100 %. Default 10 % (engineering choice: the standard says "approximately",
    /// and honey is heavier and has more surface tension than varnish).
    /// </summary>
    public Ratio StokesPerSecondSpread { get; init; } = Ratio.FromPercent(10);

    /// <summary>The constant of a tube in which a liquid of known kinematic viscosity was timed.</summary>
    /// <param name="known">Kinematic viscosity of the liquid at its temperature; above 0.</param>
    /// <param name="time">Time the bubble took; see <see cref="TimeRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double StokesPerSecondOf(KinematicViscosity known, Duration time)
    {
        TimeRange.Require(time.Seconds, nameof(time));
        return EquipmentCheck.Within(known.Stokes / time.Seconds, 0.001, 1000, "St/s", nameof(known));
    }

    /// <summary>The viscosity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public ViscosityMeasurement Measure()
    {
        EquipmentCheck.Present(Sample).Validate();
        EquipmentCheck.Within(StokesPerSecond, 0.001, 1000, "", nameof(StokesPerSecond));
        EquipmentCheck.Within(StokesPerSecondSpread.Percent, 0, 100, "%", nameof(StokesPerSecondSpread));
        var timings = new Timings(Times, Reaction, nameof(Times), nameof(Reaction));
        TimeRange.Require(timings.MeanS, nameof(Times));

        double density = Sample.DensityKgPerM3;
        ErrorBudget budget = ErrorBudget.Of(
            x => Math.Log(x[0] * KinematicViscosityD1545M2PerS(x[1], x[2])),
            new("density of the honey", density, Sample.DensitySpreadKgPerM3),
            new("timing", timings.MeanS, timings.SpreadS),
            new("constant of the tube", StokesPerSecond, StokesPerSecond * StokesPerSecondSpread.DecimalFractions));
        Notice[] notices = TimeRange.NoticeFor(timings.MeanS) is { } range
            ? [range with
            {
                Code = "bubble.time",
                Helps = timings.MeanS < TimeRange.Low
                    ? string.Create(CultureInfo.InvariantCulture, $"measure cooler honey, or compare with tubes of known viscosity side by side: below {TimeRange.Low:0} s the standard advises that")
                    : "measure warmer honey, or time a falling ball",
            }]
            : [];
        return ViscosityMeasurement.Of(
            density * KinematicViscosityD1545M2PerS(timings.MeanS, StokesPerSecond),
            budget,
            Sample,
            [.. notices, .. timings.Notices],
            [MeasurementCautions.Glass, MeasurementCautions.PaintCup],
            Source);
    }

    /// <summary>Kinematic viscosity from the time of a bubble, m²/s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ν = k t; k = 1 St/s in the tube of the standard.</para>
    /// <para><b>Range</b>: <see cref="TimeRange"/>.</para>
    /// <para><b>Error</b>: the standard says "approximately"; taken as 10 % (engineering choice).</para>
    /// <para><b>Source</b>: <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: AstmD1545Tests.cs.</para>
    /// </remarks>
    /// <param name="timeS">Time t, s.</param>
    /// <param name="stokesPerSecond">Constant of the tube k, St/s.</param>
    internal static double KinematicViscosityD1545M2PerS(double timeS, double stokesPerSecond) => 1e-4 * stokesPerSecond * timeS;
}
