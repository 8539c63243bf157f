using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Tests.Calibration;
using FlowSim.Tests.OverflowRisk;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>Invented runs that go on.</summary>
internal static class AttendedRuns
{
    /// <summary>Spreads so narrow that every draw is the setup itself.</summary>
    public static IReadOnlyList<UncertainInput> Exact(StrainingSetup setup) =>
        [new UncertainInput(StrainingInputs.LotFactor, new LogNormalDistribution(setup.Honey.LotFactor, 1e-7), new Source("invented", Standing.GivenByUser))];

    public static AttendedRun Of(StrainingSetup setup) => new() { Setup = setup, Priors = Exact(setup) };

    /// <summary>A pail that carries so much debris over so low a rim that it runs over when it is left alone.</summary>
    public static StrainingSetup Clogging(double rimMm = 60, double load = 2e-3) => RiskSetups.Pail(25) with
    {
        Strainer = new Strainer { Shape = new FlatDisc(RiskSetups.Mm(240), RiskSetups.Mm(rimMm)), Cloths = [Cloth.FromAstmSieve(40)] },
        Debris = new Debris { Load = Ratio.FromDecimalFractions(load) },
    };

    /// <summary>A run with readings that a known truth gives, as far as it has gone.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="setup">Setup.</param>
    /// <param name="quantities">What is read.</param>
    /// <param name="count">Readings over <paramref name="untilShare"/> of the run.</param>
    /// <param name="untilShare">Share of the run.</param>
    /// <param name="real">Takes the setup as it really is.</param>
    public static AttendedRun Simulated(int seed, StrainingSetup setup, StrainingObservable[] quantities, int count, double untilShare, out StrainingSetup real)
    {
        var simulated = new SimulatedRuns(setup, seed);
        TimedRun run = simulated.Run("run", quantities, count, outliers: 0, untilShare: untilShare);
        real = simulated.Truth.Aggregate(setup, (s, input) => input.Key.With(s, input.Value));
        foreach (var own in simulated.Own)
            real = own.Key.Input.With(real, own.Value);
        return new AttendedRun { Setup = setup, Series = run.Series, Seed = (ulong)seed };
    }

    /// <summary>The first readings of each series.</summary>
    public static AttendedRun First(AttendedRun run, int count)
    {
        double until = run.Series[0].Readings[Math.Min(count, run.Series[0].Readings.Count) - 1].At.Seconds;
        return run with { Series = [.. run.Series.Select(series => series with { Readings = [.. series.Readings.Where(reading => reading.At.Seconds <= until)] }).Where(series => series.Readings.Count > 0)] };
    }
}
