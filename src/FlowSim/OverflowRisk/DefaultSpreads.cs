using FlowSim.Numerics.Sampling;
using FlowSim.Properties;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;

namespace FlowSim.OverflowRisk;

/// <summary>How far the inputs of a setup commonly lie from what is said of them, each with its standing.</summary>
public static class DefaultSpreads
{
    /// <summary>The low end of the screen factor (derived: a Stokes simulation of plain weave gives 0.62 to 0.65 of the published resistance).</summary>
    internal const double LowScreenFactor = 0.62;

    /// <summary>Factor on the debris load, either way, between its 10 % and 90 % quantile (engineering choice: no field data exists).</summary>
    internal const double DebrisFactor = 3;

    /// <summary>Standard deviation of ln μ for a honey whose viscosity was measured (engineering choice: a timed ball or drain in the honey house).</summary>
    private const double MeasuredLogStandardDeviation = 0.10;

    private const double MoistureSd = 0.002;
    private const double HoneyTemperatureSdK = 1;
    private const double RoomTemperatureSdK = 2;
    private const double LevelSdM = 0.005;
    private const double HeatLossFactor = 1.5;
    private const double GateFactor = 1.1;
    private const double OpeningSd = 0.02;
    private const double DebrisSizeFactor = 1.3;
    private const double CaptureEitherWay = 0.2;
    private const double RecoveryEitherWay = 0.2;

    /// <summary>The spreads of a setup that says nothing about its own.</summary>
    /// <param name="setup">Setup that passes its checks; the spreads lie about its values. An input that does nothing in it has none.</param>
    /// <returns>
    /// Moisture ± 0.2 % of mass; honey ± 1 K; viscosity ×/÷ e^0.30, measured ×/÷ e^0.10; gate's resistance ×/÷ 1.1; cloth 0.62 to 1 of its factor; debris load between a
    /// third and three times in four of five batches, its size ×/÷ 1.3, its capture ± 0.2 either way; opening ± 2 % of the bore; level ± 5 mm; what a
    /// scrape clears ± 0.2 either way; room ± 2 K; heat losses ×/÷ 1.5. ± alone is one standard deviation of a normal distribution.
    /// </returns>
    public static IReadOnlyList<UncertainInput> For(StrainingSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        var inputs = new List<UncertainInput>();
        bool loses = setup.Tank.HeatLoss.WattsPerSquareMeterKelvin > 0 || setup.Receiver.HeatLoss.WattsPerSquareMeterKelvin > 0;
        bool bits = setup.Debris.Load.DecimalFractions > 0 && setup.Debris.CaptureEfficiency > 0;
        bool measured = setup.Honey.Viscosity is { IsMeasured: true };

        Normally(StrainingInputs.Moisture, MoistureSd, Choice("A refractometer with temperature correction, ± 0.2 % of mass"));
        Normally(StrainingInputs.HoneyTemperature, HoneyTemperatureSdK, Choice("A thermometer in a stirred tank, ± 1 K"));
        Factor(StrainingInputs.LotFactor, LogViscosity(setup), measured ? Choice("A ball or a drain timed in the honey house, ×/÷ e^0.10") : LotFactorSpread.Source);
        Factor(StrainingInputs.GateFactor, Math.Log(GateFactor), Choice("A gate whose resistance is computed from bore, tube and blade, ×/÷ 1.1"));
        Add(
            StrainingInputs.ScreenFactor,
            new UniformDistribution(LowScreenFactor * setup.Strainer.ScreenFactor, setup.Strainer.ScreenFactor),
            new Source("Between a Stokes simulation of plain weave (0.62 of the published resistance) and the published resistance", Standing.Derived));
        if (bits)
        {
            Factor(StrainingInputs.DebrisLoad, Math.Log(DebrisFactor) / Normal.InvCDF(0, 1, 0.9), Choice("Debris between a third and three times the load in four of five batches; no field data was found"));
            Factor(StrainingInputs.DebrisSize, Math.Log(DebrisSizeFactor), Choice("Size of the debris ×/÷ 1.3"));
            EitherWay(StrainingInputs.DebrisCapture, CaptureEitherWay, Choice("Share of the bits that is caught, 0.2 either way"));
        }

        Normally(StrainingInputs.Opening, OpeningSd, Choice("A gate set by eye, ± 2 % of the bore"));
        Normally(StrainingInputs.TankLevel, LevelSdM, Choice("A level read by a rule, ± 5 mm"));
        if (StrainingInputs.ScrapeRecovery.AppliesTo(setup))
            EitherWay(StrainingInputs.ScrapeRecovery, RecoveryEitherWay, Choice("What a scrape clears, 0.2 either way"));
        if (loses)
            Normally(StrainingInputs.RoomTemperature, RoomTemperatureSdK, Choice("A room over a working day, ± 2 K"));
        if (setup.Tank.HeatLoss.WattsPerSquareMeterKelvin > 0)
            Factor(StrainingInputs.TankHeatLoss, Math.Log(HeatLossFactor), Choice("Heat loss of the tank ×/÷ 1.5"));
        if (setup.Receiver.HeatLoss.WattsPerSquareMeterKelvin > 0)
            Factor(StrainingInputs.ReceiverHeatLoss, Math.Log(HeatLossFactor), Choice("Heat loss of the receiver ×/÷ 1.5"));
        return inputs;

        void Add(StrainingInput input, Distribution spread, Source source) => inputs.Add(new UncertainInput(input, spread, source));

        void Normally(StrainingInput input, double sd, Source source) => Add(input, new NormalDistribution(input.ValueIn(setup), sd), source);

        void Factor(StrainingInput input, double logSd, Source source) => Add(input, new LogNormalDistribution(input.ValueIn(setup), logSd), source);

        void EitherWay(StrainingInput input, double distance, Source source)
        {
            double value = input.ValueIn(setup);
            (double low, double high) = input.RangeIn(setup);
            Add(input, new UniformDistribution(Math.Max(low, value - distance), Math.Min(high, value + distance)), source);
        }
    }

    /// <summary>Standard deviation of ln μ of the honey of a setup.</summary>
    /// <param name="setup">Setup.</param>
    internal static double LogViscosity(StrainingSetup setup) =>
        setup.Honey.Viscosity is { IsMeasured: true } ? MeasuredLogStandardDeviation : LotFactorSpread.LogStandardDeviation;

    private static Source Choice(string words) => new(words, Standing.EngineeringChoice);
}
