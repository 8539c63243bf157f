using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;
using Phi = MathNet.Numerics.Distributions.Normal;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>A setup run with draws, against single runs of the values that the draws stand for.</summary>
public class StrainingBatchTests
{
    private static readonly EnsembleOptions Close = OneThread with { RelativeTolerance = 1e-7 };
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 0 };

    private static double[] Evaluated(StrainingBatch batch, double[] points)
    {
        double[] outputs = new double[points.Length / batch.Dimensions * batch.Outputs];
        batch.Evaluate(points, outputs, default);
        return outputs;
    }

    private static StrainingSample[] Samples(StrainingBatch batch, double[] points)
    {
        var samples = new StrainingSample[points.Length / batch.Dimensions];
        batch.Run(points, samples, default);
        return samples;
    }

    /// <summary>Three outputs by their definitions, each from one run at the value of its draw: u of the screen's factor is exp(ln 1.3 Φ⁻¹(u)).</summary>
    [Fact]
    public void Every_output_is_that_of_the_single_run()
    {
        StrainingSetup setup = Pail(50);
        var batch = new StrainingBatch(setup, ScreenOf(setup, 1.3), Close);
        double[] points = [0.02, 0.2, 0.4, 0.6, 0.8, 0.98];
        double[] outputs = Evaluated(batch, points);
        Assert.Equal((1, 3, 6L), (batch.Dimensions, batch.Outputs, batch.Runs));
        Assert.Same(setup, batch.Setup);
        int over = 0;
        for (int i = 0; i < points.Length; i++)
        {
            StrainingResult run = StrainingRun.Simulate(StrainingInputs.ScreenFactor.With(setup, Math.Exp(Math.Log(1.3) * Phi.InvCDF(0, 1, points[i]))), Quick);
            bool ranOver = run.Overflows.Count > 0;
            over += ranOver ? 1 : 0;
            Assert.Equal(ranOver ? 1 : 0, outputs[3 * i]);
            Assert.Equal(Math.Log(run.Strain.To95?.Seconds ?? setup.Longest.Seconds), outputs[(3 * i) + 1], 1e-4);
            double severity = ranOver ? 1 + run.Overflows.Sum(overflow => overflow.Mass.Kilograms) : run.PeakPond / setup.Strainer.Shape.RimHeight;
            Assert.Equal(severity, outputs[(3 * i) + 2], 1e-4);
            Assert.Equal(ranOver, outputs[(3 * i) + 2] >= 1);
        }

        Assert.InRange(over, 2, 4); // Else it would prove little.
    }

    /// <summary>After 30 s nobody has strained 95 %: the time that counts is the longest.</summary>
    [Fact]
    public void A_run_that_never_gets_there_counts_with_the_longest_time()
    {
        StrainingSetup setup = Pail(20) with { Longest = Duration.FromSeconds(30) };
        double[] outputs = Evaluated(new StrainingBatch(setup, ScreenOf(setup, 1.3), Close), [0.3, 0.7]);
        Assert.Equal(Math.Log(30), outputs[1], 1e-12);
        Assert.Equal(Math.Log(30), outputs[4], 1e-12);
    }

    /// <summary>4096 runs are prepared at a time; those after them are the same as by themselves, and so are their ponds.</summary>
    [Fact]
    public void Runs_beyond_a_chunk_are_as_by_themselves()
    {
        StrainingSetup setup = Pail(50) with { Longest = Duration.FromSeconds(2) };
        SpreadInputs inputs = ScreenAndHead(setup, 1.3);
        const int runs = 4096 + 16;
        double[] points = Draws(2, runs), last = points[(2 * 4096)..], times = [0, 0.5, 1.5];
        double[] all = Evaluated(new StrainingBatch(setup, inputs, OneThread), points);
        Assert.Equal(all[(3 * 4096)..], Evaluated(new StrainingBatch(setup, inputs, OneThread), last));

        var batch = new StrainingBatch(setup, inputs, OneThread);
        var samples = new StrainingSample[runs];
        double[] depths = new double[3 * runs], lastDepths = new double[3 * 16];
        batch.Run(points, samples, times, depths, default);
        Assert.Equal(runs, batch.Runs);
        var lastSamples = new StrainingSample[16];
        batch.Run(last, lastSamples, times, lastDepths, default);
        Assert.Equal(runs + 16, batch.Runs);
        Assert.Equal(lastSamples, samples[4096..]);
        Assert.Equal(lastDepths, depths[(3 * 4096)..]);
        Assert.All(Enumerable.Range(0, runs), i => Assert.True(depths[3 * i] == 0 && depths[(3 * i) + 1] > 0 && depths[(3 * i) + 2] > depths[(3 * i) + 1]));
    }

    /// <summary>The depth to ride, 3 m, does nothing where nobody rides: its draws are idle, and the cloth's are taken from their own column.</summary>
    [Fact]
    public void An_input_that_does_nothing_is_passed_over()
    {
        StrainingSetup setup = Pail(50);
        UncertainInput ride = Normal(StrainingInputs.RideDepth, 3, 0.001), screen = ScreenOf(setup, 1.3).Given[0];
        StrainingSample[] idle = Samples(new StrainingBatch(setup, Alone(ride, screen), Close), [0.9, 0.2, 0.1, 0.8]);
        Assert.Equal(Samples(new StrainingBatch(setup, Alone(screen), Close), [0.2, 0.8]), idle);
    }

    /// <summary>A spread of the opening about 30 % is carried along to a gate left at 50 %, when it is asked to be, and stays otherwise.</summary>
    [Fact]
    public void A_spread_is_carried_along_when_it_is_asked_to_be()
    {
        UncertainInput about30 = Normal(StrainingInputs.Opening, 0.3, 0.02), about50 = Normal(StrainingInputs.Opening, 0.5, 0.02), screen = ScreenOf(Pail(50), 1.3).Given[0];
        double[] points = [0.1, 0.4, 0.5, 0.5, 0.9, 0.7];
        StrainingSample[] carried = Samples(new StrainingBatch(Pail(50), Alone(about30, screen), Close, StrainingInputs.Opening), points);
        StrainingSample[] there = Samples(new StrainingBatch(Pail(50), Alone(about50, screen), Close), points);
        StrainingSample[] left = Samples(new StrainingBatch(Pail(50), Alone(about30, screen), Close), points);
        for (int i = 0; i < 3; i++)
        {
            Assert.Equal(there[i].DrainSeconds, carried[i].DrainSeconds, 1e-6 * there[i].DrainSeconds);
            Assert.True(left[i].DrainSeconds > 1.1 * there[i].DrainSeconds);
        }
    }

    [Fact]
    public void Draws_of_inputs_that_go_together_are_tied_before_they_are_run()
    {
        StrainingSetup setup = Pail(50);
        UncertainInput[] two = [ScreenOf(setup, 1.3).Given[0], Given(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.2))];
        var tied = new SpreadInputs(two, [new InputCorrelation("screen.factor", "honey.lot_factor", 0.8)]);
        double[] points = [0.2, 0.9], known = [.. points];
        tied.Correlate(known);
        Assert.Equal(Samples(new StrainingBatch(setup, Alone(two), Close), known), Samples(new StrainingBatch(setup, tied, Close), points));
        Assert.Equal([0.2, 0.9], points);
    }

    /// <summary>What is cut off is spread over the rest: of a screen's factor up to 2 at most, even from 1 to 3, u = ½ is 1.5 within and would be 2 without.</summary>
    [Fact]
    public void Spreads_are_cut_to_what_the_setup_allows()
    {
        StrainingSetup setup = Pail(30);
        (_, double most) = StrainingInputs.ScreenFactor.RangeIn(setup);
        UncertainInput wide = Given(StrainingInputs.ScreenFactor, new UniformDistribution(1, (2 * most) - 1)), within = Given(StrainingInputs.ScreenFactor, new UniformDistribution(1, most));
        double[] points = [0.1, 0.5, 0.9];
        Assert.Equal(Samples(new StrainingBatch(setup, Alone(within), Close), points), Samples(new StrainingBatch(setup, Alone(wide), Close), points));
    }
}
