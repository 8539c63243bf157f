using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using static FlowSim.Tests.OverflowRisk.RiskParts;
using Phi = MathNet.Numerics.Distributions.Normal;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Inputs with their spreads: who goes with whom, what is cut off, what is refused.</summary>
public class SpreadInputsTests
{
    private static readonly UncertainInput[] Five =
    [
        Normal(StrainingInputs.Moisture, 0.18, 0.002), Normal(StrainingInputs.Bore, 0.038, 0.001), Normal(StrainingInputs.TubeLength, 0.04, 0.001),
        Normal(StrainingInputs.GateFactor, 1, 0.1), Normal(StrainingInputs.ScreenFactor, 1, 0.1),
    ];

    private static InputCorrelation Tie(string one, string other, double strength) => new(one, other, strength);

    private static ArgumentException Refused(IReadOnlyList<UncertainInput> inputs, params InputCorrelation[] correlations) =>
        Assert.ThrowsAny<ArgumentException>(() => new SpreadInputs(inputs, correlations));

    [Fact]
    public void Alone_each_is_a_group_of_its_own()
    {
        SpreadInputs inputs = Alone(Five);
        Assert.Same(Five, inputs.Given);
        Assert.Equal(5, inputs.Count);
        Assert.Equal([[0], [1], [2], [3], [4]], inputs.Groups);
    }

    /// <summary>The first goes with the fourth, the fourth with the second: the three are one group, in the order of the inputs.</summary>
    [Fact]
    public void What_goes_together_over_another_is_one_group()
    {
        var inputs = new SpreadInputs(Five, [Tie("gate.factor", "gate.bore", 0.5), Tie("gate.factor", "honey.moisture", 0.3)]);
        Assert.Equal([[0, 1, 3], [2], [4]], inputs.Groups);
        inputs = new SpreadInputs(Five, [Tie("screen.factor", "gate.tube_length", -0.5)]);
        Assert.Equal([[0], [1], [2, 4], [3]], inputs.Groups);
    }

    /// <summary>Of two normal scores with correlation r the second is r z₁ + √(1 − r²) z₂, the first what it was.</summary>
    [Fact]
    public void Draws_are_tied_as_strongly_as_was_asked()
    {
        const double r = -0.6;
        double[] points = [0.2, 0.3, 0.4, 0.7, 0.6, 0.9, 0.5, 0.5, 0.1, 0.8];
        double[] tied = [.. points];
        new SpreadInputs(Five, [Tie("honey.moisture", "gate.factor", r)]).Correlate(tied);
        for (int run = 0; run < 2; run++)
        {
            double one = Phi.InvCDF(0, 1, points[5 * run]), other = Phi.InvCDF(0, 1, points[(5 * run) + 3]);
            Assert.Equal(Phi.CDF(0, 1, (r * one) + (Math.Sqrt(1 - (r * r)) * other)), tied[(5 * run) + 3], 1e-9);
            foreach (int alone in new[] { 0, 1, 2, 4 })
                Assert.Equal(points[(5 * run) + alone], tied[(5 * run) + alone], 1e-12);
        }
    }

    /// <summary>Two ties at once, the first and the second with the fourth and the fifth: each as if it were alone.</summary>
    [Fact]
    public void Every_tie_counts()
    {
        double[] points = [0.2, 0.3, 0.4, 0.7, 0.6], tied = [.. points], one = [.. points], other = [.. points];
        InputCorrelation first = Tie("honey.moisture", "gate.factor", 0.6), second = Tie("gate.bore", "screen.factor", -0.5);
        new SpreadInputs(Five, [first, second]).Correlate(tied);
        new SpreadInputs(Five, [first]).Correlate(one);
        new SpreadInputs(Five, [second]).Correlate(other);
        Assert.NotEqual(points[3], one[3], 0.01);
        Assert.NotEqual(points[4], other[4], 0.01);
        Assert.Equal(one[3], tied[3], 1e-12);
        Assert.Equal(other[4], tied[4], 1e-12);
    }

    [Fact]
    public void A_strength_of_nothing_ties_nothing()
    {
        double[] points = [0.2, 0.3, 0.4, 0.7, 0.6], tied = [.. points];
        var inputs = new SpreadInputs(Five, [Tie("gate.bore", "gate.factor", 0)]);
        inputs.Correlate(tied);
        Assert.Equal(points, tied);
        Assert.Equal(5, inputs.Groups.Count);
    }

    [Fact]
    public void The_same_tie_may_be_said_twice_and_another_may_not()
    {
        Assert.Equal(4, new SpreadInputs(Five, [Tie("gate.bore", "gate.factor", 0.5), Tie("Gate.Factor", "GATE.BORE", 0.5)]).Groups.Count);
        Assert.Equal("Correlations", Refused(Five, Tie("gate.bore", "gate.factor", 0.5), Tie("gate.bore", "gate.factor", -0.5)).ParamName);
    }

    [Fact]
    public void Ties_that_do_not_fit_are_refused_by_name()
    {
        Assert.Equal("Correlations", Refused(Five, Tie("gate.bore", "gate.bore", 0.5)).ParamName);
        Assert.Equal("Correlations", Refused(Five, Tie("tank.level", "gate.bore", 0.5)).ParamName);
        Assert.Contains("gate.tube_length", Refused(Five, Tie("tank.level", "gate.bore", 0.5)).Message, StringComparison.Ordinal);
        Assert.Equal("name", Refused(Five, Tie(null!, "gate.bore", 0.5)).ParamName);
        Assert.Equal("correlation", Refused(Five, [null!]).ParamName);
        Assert.Equal("correlations", Assert.Throws<ArgumentNullException>(() => new SpreadInputs(Five, null!)).ParamName);
        foreach (double strength in new[] { 1, -1, 1.5, double.NaN })
            Assert.Equal("Strength", Refused(Five, Tie("gate.bore", "gate.factor", strength)).ParamName);
        Assert.NotNull(new SpreadInputs(Five, [Tie("gate.bore", "gate.factor", 0.999), Tie("gate.tube_length", "screen.factor", -0.999)]));
    }

    [Fact]
    public void Inputs_that_are_not_there_are_refused_by_name()
    {
        Assert.Equal("inputs", Assert.Throws<ArgumentNullException>(() => new SpreadInputs(null!, [])).ParamName);
        Assert.Equal("Inputs", Refused([]).ParamName);
        Assert.Equal("input", Refused([null!]).ParamName);
        Assert.Equal("input.Input", Refused([Five[0] with { Input = null! }]).ParamName);
        Assert.Equal("input.Spread", Refused([Five[0] with { Spread = null! }]).ParamName);
        Assert.Equal("input.Source", Refused([Five[0] with { Source = null! }]).ParamName);
        ArgumentException twice = Refused([Five[0], Five[1], Five[0]]);
        Assert.Equal("Inputs", twice.ParamName);
        Assert.Contains("honey.moisture", twice.Message, StringComparison.Ordinal);
    }

    /// <summary>A level may be up to the brim, 0.36 m. Of a spread even from 0.30 to 0.40 m, 40 % lie above; the rest is even up to the brim.</summary>
    [Fact]
    public void What_a_setup_does_not_allow_is_cut_off()
    {
        StrainingSetup setup = RiskSetups.Pail();
        UncertainInput level = Given(StrainingInputs.TankLevel, new UniformDistribution(0.30, 0.40));
        Distribution cut = SpreadInputs.Cut(level, level.Spread, setup, out double cutOff);
        Assert.Equal(0.4, cutOff, 1e-12);
        Assert.Equal((0.30, 0.36), (cut.Lowest, cut.Highest));
        Assert.Equal(0.33, cut.Median, 1e-12);

        (double lowest, _) = StrainingInputs.TankLevel.RangeIn(setup);
        cut = SpreadInputs.Cut(level, new UniformDistribution(lowest - 0.1, lowest + 0.3), setup, out cutOff);
        Assert.Equal(0.25, cutOff, 1e-12);
        Assert.Equal(lowest, cut.Lowest, 1e-12);

        var inside = new UniformDistribution(0.2, 0.3);
        Assert.Same(inside, SpreadInputs.Cut(level, inside, setup, out cutOff));
        Assert.Equal(0, cutOff, 1e-12);
    }

    /// <summary>Both ends at once: openings even from −0.25 to 1.75, half of them possible.</summary>
    [Fact]
    public void What_is_cut_off_at_both_ends_is_added()
    {
        UncertainInput opening = Given(StrainingInputs.Opening, new UniformDistribution(-0.25, 1.75));
        Distribution cut = SpreadInputs.Cut(opening, opening.Spread, RiskSetups.Pail(), out double cutOff);
        Assert.Equal(0.5, cutOff, 1e-12);
        Assert.Equal((0.0, 1.0), (cut.Lowest, cut.Highest));
    }

    /// <summary>A billionth must be left: of openings even over a million, 1e-8 is enough and 1e-10 is not.</summary>
    [Fact]
    public void A_spread_of_which_nothing_is_left_is_refused()
    {
        UncertainInput opening = Given(StrainingInputs.Opening, new UniformDistribution(0.5, 1));
        StrainingSetup setup = RiskSetups.Pail();
        Assert.Equal(1, SpreadInputs.Cut(opening, new UniformDistribution(0.5, 0.5e8), setup, out _).Highest);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => SpreadInputs.Cut(opening, new UniformDistribution(0.5, 0.5e10), setup, out _));
        Assert.Equal("Inputs", refused.ParamName);
        Assert.Contains("gate.opening", refused.Message, StringComparison.Ordinal);
        Assert.Contains("0 to 1", refused.Message, StringComparison.Ordinal);
    }
}
