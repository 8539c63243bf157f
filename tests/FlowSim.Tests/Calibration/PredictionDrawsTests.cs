using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using MathNet.Numerics.Distributions;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

public class PredictionDrawsTests
{
    private const int Count = 4096;

    private static PredictionDraws Draws(StrainingSetup setup, UncertainInput[] inputs, InputCorrelation[]? correlations = null, ulong seed = 1) =>
        new(setup, inputs, correlations ?? [], new CalibrationQuestion { Setup = setup, Seed = seed }, CancellationToken.None);

    private static double[] Values(PredictionDraws draws, StrainingInput input) => [.. Enumerable.Range(0, Count).Select(run => draws.Value(run, input))];

    [Fact]
    public void Each_run_has_what_its_draw_says()
    {
        PredictionDraws draws = Draws(Shut, [Lot, LevelOfTank], seed: 7);
        double[] points = new double[2 * Count];
        new RunDraws(2, 7).Fill(0, points);
        for (int run = 0; run < Count; run += 13)
        {
            Assert.Equal(Lot.Spread.Quantile(points[2 * run]), draws.Value(run, StrainingInputs.LotFactor), 1e-12);
            Assert.Equal(LevelOfTank.Spread.Quantile(points[(2 * run) + 1]), draws.Value(run, StrainingInputs.TankLevel), 1e-9);
            Assert.Equal(0.18, draws.Value(run, StrainingInputs.Moisture), 1e-12);
        }

        Assert.True(draws.Varies(StrainingInputs.LotFactor));
        Assert.True(draws.Varies(StrainingInputs.TankLevel));
        Assert.False(draws.Varies(StrainingInputs.Moisture));
        Assert.Same(Shut, draws.Setup);
    }

    [Fact]
    public void What_goes_together_is_drawn_so_and_what_does_not_vary_is_left_out()
    {
        PredictionDraws draws = Draws(Shut, [Lot, Moisture], [new("honey.lot_factor", "honey.moisture", -0.6), new("honey.lot_factor", "gate.factor", 0.9), new("gate.factor", "honey.moisture", 0.9)]);
        double[] lots = [.. Values(draws, StrainingInputs.LotFactor).Select(v => Math.Log(v) / 0.3)], moistures = [.. Values(draws, StrainingInputs.Moisture).Select(v => (v - 0.18) / 0.005)];
        Assert.Equal(-0.6, lots.Zip(moistures, (a, b) => a * b).Average(), 0.02);
        Assert.Equal(1, lots.Average(v => v * v), 0.02);
        Assert.Equal(1, moistures.Average(v => v * v), 0.02);
    }

    [Fact]
    public void A_spread_is_cut_to_what_may_be()
    {
        // The tank is 150 mm high.
        double[] levels = Values(Draws(Shut, [Prior(StrainingInputs.TankLevel, new NormalDistribution(0.145, 0.005))]), StrainingInputs.TankLevel);
        Assert.InRange(levels.Max(), 0.149, 0.15);
        double beyond = Normal.CDF(0, 1, 1);
        Assert.Equal(0.145 + (0.005 * Normal.InvCDF(0, 1, 0.5 * beyond)), levels.Order().ElementAt(2048), 1e-5);
    }

    [Fact]
    public void Nothing_is_strained_through_a_shut_gate()
    {
        PredictionDraws draws = Draws(Shut, [Lot]);
        Assert.Equal(new TimeSpread(null, null, null, 1), draws.Strain());
        Assert.All(draws.LogTimes, log => Assert.Equal(Math.Log(60), log, 1e-12));
        Assert.Equal(0, draws.Overflows.Sum());
    }

    /// <summary>Runs that take longer than may be simulated never get there: by counting.</summary>
    [Fact]
    public void Times_are_those_of_the_runs_in_order()
    {
        StrainingSetup setup = SmallPail.Running() with { Longest = Duration.FromSeconds(205) };
        PredictionDraws draws = Draws(setup, [Lot, LevelOfTank]);
        double[] logs = draws.LogTimes, sorted = [.. logs.Order()];
        int over = logs.Count(log => log > Math.Log(204.9999));
        Assert.InRange(over, 500, 2000);
        TimeSpread spread = draws.Strain();
        Assert.Equal(Math.Exp(sorted[409]), spread.P10!.Value.Seconds, 1e-9);
        Assert.Equal(Math.Exp(sorted[2047]), spread.P50!.Value.Seconds, 1e-9);
        Assert.Null(spread.P90);
        Assert.Equal(over / 4096.0, spread.Never, 1e-12);

        var alone = new StrainingEnsemble(setup, [StrainingInputs.LotFactor, StrainingInputs.TankLevel]);
        var sample = new StrainingSample[1];
        foreach (int run in Enumerable.Range(0, Count).Where(run => logs[run] < Math.Log(204)).Take(5))
        {
            alone.Run(new[] { draws.Value(run, StrainingInputs.LotFactor), draws.Value(run, StrainingInputs.TankLevel) }, sample);
            Assert.Equal(sample[0].StrainSeconds, Math.Exp(logs[run]), 1e-9);
        }
    }
}
