using System.Globalization;
using FlowSim.Gates;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>A jar of known content timed as it fills through a gate. Spreads are one standard deviation.</summary>
/// <remarks>
/// The gate's equation <c>ρ g H = μ R̂ Q + ρ B̂ Q²</c> is solved for μ. A standing opening and a steady temperature; the jar below the gate,
/// the outlet in air. How well the gate's resistance is known limits it: better for following one gate from day to day than for an
/// absolute figure.
/// </remarks>
public sealed record TimedJarFill
{
    /// <summary>Share of the pressure that inertia may take. Engineering choice: beyond a half the time hardly depends on the viscosity any more.</summary>
    public static ValidityRange InertiaRange { get; } = new("timed jar", "share of the pressure that inertia takes", "", 0, 0.1, 0, 0.5);

    /// <summary>Source of the gate's equation.</summary>
    public static Source Source { get; } = new(
        "Gate equation of this project: entry and blade after Sampson 1891, tube after Poiseuille 1840, inertia as an engineering choice",
        Standing.Derived);

    /// <summary>The honey.</summary>
    public required HoneySample Sample { get; init; }

    /// <summary>The gate. Its outlet must be free.</summary>
    public required Gate Gate { get; init; }

    /// <summary>Travel of the blade as a share of the bore. 1 to 100 %.</summary>
    public required Ratio Opening { get; init; }

    /// <summary>How well that is known. 0 to 50 %. Default 2 % of the bore (engineering choice: a mark on the blade). Fully open is exact.</summary>
    public Ratio OpeningSpread { get; init; } = Ratio.FromPercent(2);

    /// <summary>What stands above the gate.</summary>
    public required JarSupply Supply { get; init; }

    /// <summary>How well the head is known. 0 to 1000 mm. Default 3 mm (engineering choice: a rule in the tank).</summary>
    public Length HeadSpread { get; init; } = Length.FromMillimeters(3);

    /// <summary>Volume of the jar; null when <see cref="NetWeight"/> is given. 1 mL to 1000 L.</summary>
    public Volume? JarVolume { get; init; }

    /// <summary>Net weight of the jar; null when <see cref="JarVolume"/> is given. 1 g to 1400 kg.</summary>
    public Mass? NetWeight { get; init; }

    /// <summary>How well the content is known, as a share of it. 0 to 20 %. Default 1 % (engineering choice).</summary>
    public Ratio ContentSpread { get; init; } = Ratio.FromPercent(1);

    /// <summary>Times the jar took. 0.1 s to 86400 s each.</summary>
    public required IReadOnlyList<Duration> Times { get; init; }

    /// <summary>How well somebody hits a start or a stop. 0 to 60 s. Default 0.3 s (engineering choice).</summary>
    public Duration Reaction { get; init; } = Timings.DefaultReaction;

    /// <summary>How well the gate's viscous resistance is known, as a share of it. 0 to 50 %. Default 10 % (engineering choice).</summary>
    public Ratio ResistanceSpread { get; init; } = Ratio.FromPercent(10);

    /// <summary>How well the gate's inertial resistance is known, as a share of it. 0 to 50 %. Default 15 % (engineering choice).</summary>
    public Ratio InertiaSpread { get; init; } = Ratio.FromPercent(15);

    /// <summary>The viscosity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="ArgumentException">Volume and net weight are both given, or neither.</exception>
    /// <exception cref="MeasurementRefusedException">The jar fills so fast that the time says nothing about the viscosity, or the tank does not hold so much above the gate.</exception>
    public ViscosityMeasurement Measure()
    {
        Timings timings = TimedJarFillCheck.Require(this);
        double opening = Opening.DecimalFractions, density = Sample.DensityKgPerM3;
        JarFlow flow = FlowOf(1, opening, 0, density, 1, 1);
        TimedJarFillCheck.RequireHead(this, flow);
        double viscosityPaS = flow.ViscosityPaS(timings.MeanS);
        double share = viscosityPaS > 0 ? flow.InertialShare(viscosityPaS) : 1;
        if (!InertiaRange.Admits(share))
            throw TooFast(flow, viscosityPaS, share);

        double openingSpread = opening < 1 ? OpeningSpread.DecimalFractions : 0;
        ErrorBudget budget = ErrorBudget.Of(
            x => Math.Log(FlowOf(x[0], x[1], x[2], x[3], x[4], x[5]).ViscosityPaS(x[6])),
            new("content of the jar", 1, ContentSpread.DecimalFractions),
            new("opening of the gate", opening, openingSpread),
            new("head above the gate", 0, HeadSpread.Meters),
            new("density of the honey", density, Sample.DensitySpreadKgPerM3),
            new("equation of the gate", 1, ResistanceSpread.DecimalFractions),
            new("inertia in the gate", 1, InertiaSpread.DecimalFractions),
            new("timing", timings.MeanS, timings.SpreadS));

        Notice[] notices = InertiaRange.Supports(share) ? [] :
        [
            new Notice(
                "jar.inertia",
                string.Create(CultureInfo.InvariantCulture, $"inertia takes {100 * share:0} % of the pressure"),
                "the time depends less on the viscosity, so errors of time, content and gate weigh more",
                "open the gate less, take less head, or cooler honey"),
        ];
        return ViscosityMeasurement.Of(viscosityPaS, budget, Sample, [.. notices, .. timings.Notices], [FlowSim.Cautions.Slip], Source);
    }

    /// <summary>Time that a honey of some viscosity would take: the forward model.</summary>
    /// <param name="viscosity">Viscosity, above 0.</param>
    /// <exception cref="ArgumentException">A value is outside its range, or the tank does not hold so much above the gate.</exception>
    public Duration TimeFor(DynamicViscosity viscosity)
    {
        TimedJarFillCheck.Require(this);
        EquipmentCheck.Within(viscosity.PascalSeconds, 1e-6, 1e5, "Pa.s", nameof(viscosity));
        JarFlow flow = FlowOf(1, Opening.DecimalFractions, 0, Sample.DensityKgPerM3, 1, 1);
        TimedJarFillCheck.RequireHead(this, flow);
        return Duration.FromSeconds(flow.TimeS(viscosity.PascalSeconds));
    }

    /// <summary>The flow with each input a little off: factors on content and resistances, an error of the head.</summary>
    private JarFlow FlowOf(double content, double opening, double headErrorM, double densityKgPerM3, double resistance, double inertia)
    {
        double volumeM3 = content * (JarVolume?.CubicMeters ?? NetWeight!.Value.Kilograms / densityKgPerM3);
        GateGeometry gate = GateFlow.GeometryOf(Gate, opening);
        (double viscous, double inertial) = (resistance * gate.ViscousPerM3, inertia * gate.InertialPerM4);
        return Supply is FallingHead falling
            ? new FallingJarFlow(volumeM3, densityKgPerM3, viscous, inertial, falling.Shape, falling.Level.Meters, falling.GateHeight.Meters - headErrorM)
            : new ConstantJarFlow(volumeM3, densityKgPerM3, viscous, inertial, ((ConstantHead)Supply).Head.Meters + headErrorM);
    }

    private static MeasurementRefusedException TooFast(JarFlow flow, double viscosityPaS, double share)
    {
        double shortestS = flow.TimeS(0);
        return MeasurementRefusedException.Of(
            nameof(Times),
            viscosityPaS > 0
                ? string.Create(CultureInfo.InvariantCulture, $"Inertia takes {100 * share:0} % of the pressure, at most {100 * InertiaRange.OuterHigh:0} % is allowed: the jar fills nearly as fast as a liquid without any friction would, in {shortestS:0.##} s, so the time does not tell the viscosity.")
                : string.Create(CultureInfo.InvariantCulture, $"The jar fills faster than a liquid without any friction would, in {shortestS:0.##} s: check opening, head, content and time."),
            "Open the gate less, take less head, or cooler honey; or time a falling ball.");
    }
}
