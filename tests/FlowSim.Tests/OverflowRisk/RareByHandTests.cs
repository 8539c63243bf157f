using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Overflows that counting hardly sees: one whose chance is known, and one that there is not.</summary>
public class RareByHandTests
{
    private static StrainingSetup Short(double openingPercent) => Pail(openingPercent) with { Longest = Seconds(30) };

    /// <summary>Two seconds, in which nothing can run over.</summary>
    private static StrainingSetup Instant() => Pail(15) with { Longest = Seconds(2) };

    private static ProbabilityEstimate Estimated(StrainingSetup setup, SpreadInputs inputs, ProbabilityEstimate counted, double tolerance, out long runs)
    {
        var batch = new StrainingBatch(setup, inputs, OneThread);
        ProbabilityEstimate rare = RareOverflow.Estimate(batch, counted, tolerance, 50, 3, default);
        runs = batch.Runs;
        return rare;
    }

    /// <summary>
    /// The pail runs over from some factor of the cloth on, found by halving; spread evenly, one value in 2000 lies beyond it. The interval of sixteen
    /// replicates of 50 points a level is some 30 % of the chance either way.
    /// </summary>
    [Fact]
    public void A_chance_of_one_in_two_thousand_is_found()
    {
        StrainingSetup setup = Short(50);
        (double low, double critical) = (0.5, 2);
        while (critical - low > 2e-5)
        {
            double middle = (low + critical) / 2;
            bool over = StrainingRun.Simulate(StrainingInputs.ScreenFactor.With(setup, middle), new StrainingOptions { SeriesPoints = 0, RelativeTolerance = 1e-7 }).Overflows.Count > 0;
            (low, critical) = over ? (low, middle) : (middle, critical);
        }

        const double exact = 1 / 2000.0, width = 0.6;
        var inputs = Alone(Given(StrainingInputs.ScreenFactor, new UniformDistribution(critical - ((1 - exact) * width), critical + (exact * width))));
        ProbabilityEstimate rare = Estimated(setup, inputs, Chance.Pooled(0, 1000), 0.01, out long runs);
        Assert.Equal(EstimateMethod.SubsetSimulation, rare.Method);
        Assert.InRange(rare.Value, 0.5 * exact, 1.8 * exact);
        Assert.True(rare.Low < rare.Value && rare.Value < rare.High);
        Assert.Equal(runs, rare.Runs);
    }

    /// <summary>
    /// Where there is no overflow only a bound is found: the lower of the two is told, and what was counted stands once anything was.
    /// </summary>
    [Fact]
    public void Where_there_is_none_the_lower_bound_is_told()
    {
        StrainingSetup setup = Instant();
        SpreadInputs inputs = ScreenOf(setup, 1.05);
        ProbabilityEstimate none = Counted(0, 0, 1), one = Chance.Pooled(1, 1024), tiny = Counted(0, 0, 1e-12);
        Assert.Same(one, Estimated(setup, inputs, one, 0.01, out _));
        Assert.Same(tiny, Estimated(setup, inputs, tiny, 0.01, out _));

        // As low as what was counted is not lower.
        ProbabilityEstimate same = none with { High = Estimated(setup, inputs, none, 0.01, out _).High };
        Assert.Same(same, Estimated(setup, inputs, same, 0.01, out _));
    }

    /// <summary>Each level is ten times rarer than the one before: two of them beyond the tolerance, and five at least.</summary>
    [Theory]
    [InlineData(0.5, 5)]
    [InlineData(0.01, 5)]
    [InlineData(1e-4, 6)]
    [InlineData(0.9e-4, 7)]
    public void Levels_go_two_beyond_the_tolerance(double tolerance, int levels)
    {
        StrainingSetup setup = Instant();
        SpreadInputs inputs = ScreenOf(setup, 1.05);
        ProbabilityEstimate none = Counted(0, 0, 1), told = Estimated(setup, inputs, none, tolerance, out long runs);
        RareEventEstimate bound = SubsetSimulation.Estimate(
            new StrainingBatch(setup, inputs, OneThread), 2, 1, new SubsetOptions { Seed = 3, PointsPerLevel = 50, LevelProbability = 0.1, HighestLevels = levels });
        Assert.True(bound.IsBelow && bound.High < none.High);
        Assert.Equal(new ProbabilityEstimate(0, 0, bound.High, runs, EstimateMethod.SubsetSimulation), told);
    }
}
