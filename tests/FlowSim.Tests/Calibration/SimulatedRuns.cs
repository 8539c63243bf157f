using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using UnitsNet;

namespace FlowSim.Tests.Calibration;

/// <summary>
/// Runs of a known truth, read as in a honey house. The truth is drawn from the priors; the readings come from single runs at a tight tolerance, so the fit's
/// own runs in lanes are checked against them too.
/// </summary>
internal sealed class SimulatedRuns
{
    private readonly Random _random;

    public SimulatedRuns(StrainingSetup setup, int seed)
    {
        _random = new MathNet.Numerics.Random.MersenneTwister(seed);
        Setup = setup;
        Priors = CalibrationPriors.For(setup);
        foreach (UncertainInput prior in Priors.Where(prior => CalibrationPriors.IsShared(prior.Input)))
            Truth[prior.Input] = Draw(prior.Input, prior.Spread);
    }

    /// <summary>The setup as it is described; the truth differs.</summary>
    public StrainingSetup Setup { get; }

    public IReadOnlyList<UncertainInput> Priors { get; }

    /// <summary>Honey and kit as they are.</summary>
    public Dictionary<StrainingInput, double> Truth { get; } = [];

    /// <summary>Each run's own inputs as they were.</summary>
    public Dictionary<(string Run, StrainingInput Input), double> Own { get; } = [];

    /// <summary>Noise: one standard deviation, in the unit of each quantity.</summary>
    public static double Noise(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => 0.03,
        StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => 0.05e-3,
        _ => 0.0015,
    };

    /// <summary>A run with its own day: temperature, level and opening drawn too.</summary>
    /// <param name="name">Name.</param>
    /// <param name="quantities">What is read.</param>
    /// <param name="count">Readings of each.</param>
    /// <param name="rounded">Whether the scales round what they show, to <see cref="Step"/>.</param>
    /// <param name="setup">The setup of this run as it is described; null for that of all.</param>
    /// <param name="outliers">Share of readings that are far off.</param>
    /// <param name="untilShare">Share of the run that is watched.</param>
    public TimedRun Run(string name, StrainingObservable[] quantities, int count = 40, bool rounded = false, StrainingSetup? setup = null, double outliers = 0.05, double untilShare = 1)
    {
        setup ??= Setup;
        StrainingSetup real = Truth.Aggregate(setup, (s, input) => input.Key.With(s, input.Value));
        foreach (UncertainInput prior in Priors.Where(prior => !CalibrationPriors.IsShared(prior.Input)))
        {
            double value = Draw(prior.Input, CalibrationPriors.Straight(prior with { Spread = MovedDistribution.To(prior.Spread, prior.Input.ValueIn(setup)) }).Spread);
            Own[(name, prior.Input)] = value;
            real = prior.Input.With(real, value);
        }

        StrainingResult whole = StrainingRun.Simulate(real, new StrainingOptions { SeriesPoints = 0 });
        double end = untilShare * whole.Elapsed.Seconds;
        var series = new List<TimedSeries>();
        foreach (StrainingObservable quantity in quantities)
        {
            double clock = 5 * Gauss(), zero = TimedSeries.CommonZeroOffset(quantity) * Gauss(), noise = Noise(quantity);
            double step = rounded ? Step(quantity) : 0;
            (double least, double most) = Limits(setup, quantity);
            double[] at = [.. Enumerable.Range(0, count).Select(i => end * (i + (0.3 * _random.NextDouble())) / count).Where(_ => _random.NextDouble() > 0.15)]; // Gaps.
            double[] exact = Read(real, quantity, [.. at.Select(t => Math.Max(0, t + clock))]);
            TimedReading[] readings = new TimedReading[at.Length];
            for (int i = 0; i < at.Length; i++)
            {
                double value = exact[i] + zero + (noise * Gauss());
                if (_random.NextDouble() < outliers)
                    value += (_random.Next(2) == 0 ? -1 : 1) * noise * (8 + (30 * _random.NextDouble()));
                if (step > 0)
                    value = step * Math.Round(value / step);
                readings[i] = new TimedReading(Duration.FromSeconds(at[i]), Math.Clamp(value, least, most));
            }

            series.Add(new TimedSeries { Quantity = quantity, Readings = readings });
        }

        return new TimedRun { Name = name, Setup = setup, Series = series };
    }

    /// <summary>What the scales round to: 50 g, 0.1 L, 1 mm.</summary>
    private static double Step(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => 0.05,
        StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => 0.1e-3,
        _ => 0.001,
    };

    /// <summary>
    /// No rule is held higher than the brim, and none is read so far below its zero that the reading would be refused. A scale whose zero is off shows less than nothing
    /// all the same: cut off at 0, the readings would lie above the truth.
    /// </summary>
    private static (double Least, double Most) Limits(StrainingSetup setup, StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.PondDepth => (-0.04 * setup.Strainer.Shape.RimHeightM, setup.Strainer.Shape.RimHeightM),
        StrainingObservable.TankLevel => (-0.04 * setup.Tank.Shape.HeightM, setup.Tank.Shape.HeightM),
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => (-1, double.PositiveInfinity),
        _ => (-0.7e-3, double.PositiveInfinity),
    };

    /// <summary>What a perfect reading shows.</summary>
    public static double[] Read(StrainingSetup setup, StrainingObservable quantity, double[] timesS)
    {
        double[] values = new double[timesS.Length];
        new StrainingEnsemble(setup, [], new EnsembleOptions { Lanes = LaneWidth.OneByOne, RelativeTolerance = 1e-9 }).Run(
            ReadOnlyMemory<double>.Empty, new StrainingSample[1], new EnsembleTrace { TimesS = timesS, Quantities = new[] { quantity }, Values = values, HoldsLast = true });
        return values;
    }

    private double Draw(StrainingInput input, Distribution spread)
    {
        (double low, double high) = input.RangeIn(Setup);
        return spread.Within(low, high).Quantile(_random.NextDouble());
    }

    private double Gauss() => Normal.InvCDF(0, 1, 1 - _random.NextDouble());
}
