using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;

namespace FlowSim.Tests.Calibration;

/// <summary>
/// Questions whose posterior can be written down. A gate that stays shut: what is read is the level (of which the rule may be off) and nothing happens, so readings are a sum
/// of two numbers. A viscosity alone: its logarithm is a sum of scores.
/// </summary>
internal static class PlainCases
{
    public static readonly Source MadeUp = new("made up", Standing.EngineeringChoice);

    /// <summary>The small pail with its gate shut, watched for two minutes.</summary>
    public static StrainingSetup Shut { get; } = SmallPail.Running() with { Control = GateControl.LeaveAt(Ratio.Zero), Longest = Duration.FromSeconds(60) };

    /// <summary>The small pail of a honey whose ln μ goes straight with moisture.</summary>
    public static StrainingSetup Straight { get; } = Shut with { Honey = new Honey { Moisture = Ratio.FromPercent(18), Viscosity = new StraightHoney() } };

    public static UncertainInput Prior(StrainingInput input, Distribution spread) => new(input, spread, MadeUp);

    /// <summary>Level ± 5 mm about that of the setup.</summary>
    public static UncertainInput LevelOfTank { get; } = Prior(StrainingInputs.TankLevel, new NormalDistribution(0.11, 0.005));

    /// <summary>Lot factor ×/÷ e^0.3.</summary>
    public static UncertainInput Lot { get; } = Prior(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3));

    /// <summary>Moisture ± 0.5 %.</summary>
    public static UncertainInput Moisture { get; } = Prior(StrainingInputs.Moisture, new NormalDistribution(0.18, 0.005));

    public static TimedSeries Series(StrainingObservable quantity, params (double T, double V)[] readings) =>
        new() { Quantity = quantity, Readings = [.. readings.Select(r => new TimedReading(Duration.FromSeconds(r.T), r.V))] };

    public static TimedRun Run(StrainingSetup setup, params TimedSeries[] series) => new() { Name = "run", Setup = setup, Series = series };

    /// <summary>Readings every ten seconds that lie off a level by so many millimetres.</summary>
    public static TimedSeries Rule(double levelM, params double[] offMm) =>
        Series(StrainingObservable.TankLevel, [.. offMm.Select((off, i) => (10.0 * i, levelM + (0.001 * off)))]);

    public static ViscositySpot Spot(string name, double celsius, double viscosity, double logSd) =>
        new(name, Temperature.FromDegreesCelsius(celsius), DynamicViscosity.FromPascalSeconds(viscosity), logSd);
}

/// <summary>ln μ = ln 6 + 9000 x + (m − 18)(2000 x − 0.2), x = 1/T − 1/308.15 K.</summary>
internal sealed class StraightHoney : ViscosityCorrelation
{
    private const double At = 1 / 308.15;

    public override string Name => "straight";

    public override Source Source => PlainCases.MadeUp;

    public override ValidityRange MoistureRange { get; } = new("straight", "moisture", "%", 14, 22, 12, 25);

    public override ValidityRange TemperatureRange { get; } = new("straight", "temperature", "°C", 20, 60, 0, 80);

    public override double LogResidual => 0.1;

    /// <summary>Slope of ln μ by moisture, per %.</summary>
    public static double Slope(double temperatureK) => (2000 * ((1 / temperatureK) - At)) - 0.2;

    public static double LogAt(double moisturePercent, double temperatureK) =>
        Math.Log(6) + (9000 * ((1 / temperatureK) - At)) + ((moisturePercent - 18) * Slope(temperatureK));

    internal override VogelForm? FormAt(double moisturePercent)
    {
        double over = moisturePercent - 18, b = 9000 + (2000 * over);
        return new VogelForm(Math.Log(6) - (0.2 * over) - (b * At), b, 0);
    }

    protected internal override double ViscosityPaS(double moisturePercent, double temperatureK) => Math.Exp(LogAt(moisturePercent, temperatureK));
}

/// <summary>A honey of somebody's own.</summary>
/// <param name="viscosity">Viscosity, Pa·s, by moisture in % and temperature in K.</param>
internal sealed class OwnHoney(Func<double, double, double> viscosity) : ViscosityCorrelation
{
    public override string Name => "own";

    public override Source Source => PlainCases.MadeUp;

    public override ValidityRange MoistureRange { get; } = new("own", "moisture", "%", 14, 22);

    public override ValidityRange TemperatureRange { get; } = new("own", "temperature", "°C", 0, 80);

    public override double LogResidual => 0.1;

    /// <summary>A setup with it.</summary>
    public static StrainingSetup In(StrainingSetup setup, Func<double, double, double> viscosity) =>
        setup with { Honey = new Honey { Moisture = Ratio.FromPercent(18), Viscosity = new OwnHoney(viscosity) } };

    protected internal override double ViscosityPaS(double moisturePercent, double temperatureK) => viscosity(moisturePercent, temperatureK);
}
