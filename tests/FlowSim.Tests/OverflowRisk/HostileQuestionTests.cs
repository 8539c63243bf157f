using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Setpoints;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Questions that nobody should ask: each is refused by name and at once.</summary>
public class HostileQuestionTests
{
    private static readonly Source Invented = new("invented", Standing.GivenByUser);
    private static readonly RiskQuestion Plain = new() { Setup = RiskSetups.Pail(), Runs = 64 };

    private static ArgumentException Refused(RiskQuestion question) => Assert.ThrowsAny<ArgumentException>(() => RiskAnalysis.Of(question));

    private static UncertainInput Normal(StrainingInput input, double mean, double sd) => new(input, new NormalDistribution(mean, sd), Invented);

    [Theory]
    [InlineData(double.MaxValue)] // A quantity refuses NaN and infinity itself.
    [InlineData(-1)]
    [InlineData(0)]
    [InlineData(51)]
    public void A_tolerance_out_of_range(double percent)
    {
        Assert.Equal("Tolerance", Refused(Plain with { Tolerance = Ratio.FromPercent(percent) }).ParamName);
        Assert.Equal("tolerance", Assert.Throws<ArgumentOutOfRangeException>(() => OverflowLimit.WithinTolerance(Ratio.FromPercent(percent))).ParamName);
    }

    [Fact]
    public void Figures_out_of_range()
    {
        Assert.Equal("Runs", Refused(Plain with { Runs = 63 }).ParamName);
        Assert.Equal("Runs", Refused(Plain with { Runs = int.MaxValue }).ParamName);
        Assert.Equal("Threads", Refused(Plain with { Threads = 0 }).ParamName);
        Assert.Equal("LookEvery", Refused(Plain with { LookEvery = Duration.Zero }).ParamName);
        Assert.Equal("LookEvery", Refused(Plain with { LookEvery = Duration.FromSeconds(double.MaxValue) }).ParamName);
        Assert.Equal("MassThatMatters", Refused(Plain with { MassThatMatters = Mass.FromKilograms(-1) }).ParamName);
        Assert.Equal("runs", Assert.Throws<ArgumentOutOfRangeException>(() => OverflowLimit.WithinTolerance(Ratio.FromPercent(1), runs: 1)).ParamName);
        Assert.Throws<ArgumentNullException>(() => RiskAnalysis.Of(null!));
        Assert.Throws<ArgumentNullException>(() => RiskAnalysis.Of(Plain with { Setup = null! }));
        Assert.Throws<ArgumentNullException>(() => RiskAnalysis.Of(Plain with { Correlations = null! }));
        Assert.Throws<ArgumentNullException>(() => DefaultSpreads.For(null!));
    }

    [Fact]
    public void A_setup_that_is_out_of_range_is_refused_as_a_run_refuses_it() =>
        Assert.Equal("Opening", Refused(Plain with { Setup = RiskSetups.Pail(101) }).ParamName);

    [Fact]
    public void No_spread_at_all() => Assert.Contains("nothing to be unsure of", Refused(Plain with { Inputs = [] }).Message, StringComparison.Ordinal);

    [Fact]
    public void Inputs_that_do_not_fit()
    {
        Assert.Throws<ArgumentNullException>(() => RiskAnalysis.Of(Plain with { Inputs = [null!] }));
        Assert.Throws<ArgumentNullException>(() => RiskAnalysis.Of(Plain with { Inputs = [new UncertainInput(StrainingInputs.Bore, null!, Invented)] }));
        Assert.Contains("gate.bore is given two", Refused(Plain with { Inputs = [Normal(StrainingInputs.Bore, 0.038, 0.001), Normal(StrainingInputs.Bore, 0.04, 0.001)] }).Message, StringComparison.Ordinal);
        Assert.Contains("gate.ride_pond", Refused(Plain with { Inputs = [Normal(StrainingInputs.RideDepth, 0.05, 0.001)] }).Message, StringComparison.Ordinal);

        // A level of 3 m in a pail: nothing of it can be.
        ArgumentException outside = Refused(Plain with { Inputs = [Normal(StrainingInputs.TankLevel, 3, 0.01)] });
        Assert.Contains("tank.level", outside.Message, StringComparison.Ordinal);
        Assert.Contains("0.36 m", outside.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Correlations_that_do_not_fit()
    {
        string Why(params InputCorrelation[] correlations) => Refused(Plain with { Correlations = correlations }).Message;

        Assert.Contains("'honey.moistness'", Why(new InputCorrelation("honey.moistness", "honey.temperature", 0.5)), StringComparison.Ordinal);
        Assert.Contains("with itself", Why(new InputCorrelation("honey.moisture", "honey.moisture", 0.5)), StringComparison.Ordinal);
        Assert.Contains("between -1 and 1", Why(new InputCorrelation("honey.moisture", "honey.temperature", 1)), StringComparison.Ordinal);
        Assert.Contains("between -1 and 1", Why(new InputCorrelation("honey.moisture", "honey.temperature", double.NaN)), StringComparison.Ordinal);
        Assert.Contains("twice", Why(new InputCorrelation("honey.moisture", "honey.temperature", 0.5), new InputCorrelation("honey.temperature", "honey.moisture", 0.4)), StringComparison.Ordinal);
    }

    /// <summary>
    /// Three inputs of which each opposes both others by −0.9. The matrix 1, −r, −r … has the eigenvalues 1 − 2r and 1 + r, so r can be at most
    /// ½: 0.556 of what was asked.
    /// </summary>
    [Fact]
    public void Correlations_that_cannot_all_hold_are_named_with_the_strength_that_could()
    {
        string message = Refused(Plain with
        {
            Correlations =
            [
                new InputCorrelation("honey.moisture", "honey.temperature", -0.9),
                new InputCorrelation("honey.moisture", "tank.level", -0.9),
                new InputCorrelation("tank.level", "honey.temperature", -0.9),
            ],
        }).Message;
        Assert.Contains("honey.moisture", message, StringComparison.Ordinal);
        Assert.Contains("tank.level", message, StringComparison.Ordinal);
        Assert.Contains("0.556", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Maps_that_have_no_cells_or_no_order()
    {
        Temperature[] warm = [Temperature.FromDegreesCelsius(35)];
        Ratio[] half = [Ratio.FromPercent(50)];
        Assert.Equal("openings", Assert.Throws<ArgumentOutOfRangeException>(() => RiskAnalysis.Map(Plain, [], warm)).ParamName);
        Assert.Equal("openings", Assert.Throws<ArgumentOutOfRangeException>(() => RiskAnalysis.Map(Plain, [half[0], half[0]], warm)).ParamName);
        Assert.Equal("openings", Assert.Throws<ArgumentOutOfRangeException>(() => RiskAnalysis.Map(Plain, [Ratio.FromPercent(double.MaxValue)], warm)).ParamName);
        Assert.Equal("temperatures", Assert.Throws<ArgumentOutOfRangeException>(() => RiskAnalysis.Map(Plain, half, [])).ParamName);
        Assert.Throws<ArgumentNullException>(() => RiskAnalysis.Map(Plain, null!, warm));
        Assert.ThrowsAny<ArgumentException>(() => RiskAnalysis.Map(Plain, half, [Temperature.FromDegreesCelsius(5000)]));
    }
}
