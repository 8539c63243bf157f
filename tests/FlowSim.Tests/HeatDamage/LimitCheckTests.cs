using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Tests.HeatDamage;

public class LimitCheckTests
{
    private static HeatedHoney Honey(double low, double best, double high, double? diastaseLow = 9, double? diastase = 12, double? diastaseHigh = 14) => new()
    {
        HmfLow = MassFraction.FromMilligramsPerKilogram(low),
        Hmf = MassFraction.FromMilligramsPerKilogram(best),
        HmfHigh = MassFraction.FromMilligramsPerKilogram(high),
        DiastaseNumberLow = diastaseLow,
        DiastaseNumber = diastase,
        DiastaseNumberHigh = diastaseHigh,
    };

    [Theory]
    [InlineData(10, 20, 30, LimitConfidence.OverTheWholeBand)]
    [InlineData(10, 20, 40, LimitConfidence.OverTheWholeBand)]
    [InlineData(10, 20, 41, LimitConfidence.AtTheBestEstimate)]
    [InlineData(30, 45, 60, LimitConfidence.OnlyAtTheKindEnd)]
    [InlineData(41, 45, 60, LimitConfidence.Broken)]
    public void HMF_is_graded(double low, double best, double high, LimitConfidence grade)
    {
        LimitCheck check = LimitCheck.Of(Honey(low, best, high), HeatLimits.ByName("eu"));
        Assert.Equal(grade, check.Hmf);
        Assert.Equal(LimitConfidence.OverTheWholeBand, check.Diastase);
        Assert.Equal(grade, check.Overall);
    }

    [Theory]
    [InlineData(8, 9, 10, LimitConfidence.OverTheWholeBand)]
    [InlineData(7, 8, 10, LimitConfidence.AtTheBestEstimate)]
    [InlineData(6, 7, 8, LimitConfidence.OnlyAtTheKindEnd)]
    [InlineData(5, 6, 7, LimitConfidence.Broken)]
    public void Diastase_is_graded_the_other_way_up(double low, double best, double high, LimitConfidence grade)
    {
        LimitCheck check = LimitCheck.Of(Honey(1, 2, 3, low, best, high), HeatLimits.ByName("codex"));
        Assert.Equal((grade, grade), (check.Diastase, check.Overall));
    }

    [Fact]
    public void Words_say_whose_limit_it_is()
    {
        string law = LimitCheck.Of(Honey(10, 20, 30), HeatLimits.ByName("eu")).Text;
        Assert.Contains("within the limit of EU Directive 2001/110/EC, Annex II (at most 40 mg/kg) over the whole band", law, StringComparison.Ordinal);
        Assert.Contains("within the limit of EU Directive 2001/110/EC, Annex II (at least 8)", law, StringComparison.Ordinal);

        LimitCheck house = LimitCheck.Of(Honey(10, 20, 30), HeatLimit.House(MassFraction.FromMilligramsPerKilogram(25)));
        Assert.Equal("HMF 20 mg/kg (10 to 30): within the limit you set (at most 25 mg/kg) by the best estimate, beyond it at the harsh end of the band.", house.Text);
        Assert.Null(house.Diastase);
        Assert.Equal(Standing.GivenByUser, house.Limit.Source.Standing);
    }

    [Fact]
    public void Nothing_is_ever_called_harmless()
    {
        foreach (HeatLimit limit in HeatLimits.All.Append(HeatLimit.House(diastaseAtLeast: 10)))
        {
            foreach (double hmf in new[] { 1.0, 39, 100 })
                Assert.DoesNotContain("safe", LimitCheck.Of(Honey(hmf, hmf + 1, hmf + 5), limit).Text, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void An_unknown_diastase_number_does_not_pass()
    {
        LimitCheck check = LimitCheck.Of(Honey(1, 2, 3, null, null, null), HeatLimits.ByName("eu"));
        Assert.True(check.DiastaseUnknown);
        Assert.Null(check.Diastase);
        Assert.Equal(LimitConfidence.Broken, check.Overall);
        Assert.Contains("cannot be checked", check.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_house_limit_must_say_something_that_exists()
    {
        Assert.Throws<ArgumentException>(() => HeatLimit.House());
        Assert.Throws<ArgumentOutOfRangeException>(() => HeatLimit.House(MassFraction.FromMilligramsPerKilogram(1001)));
        Assert.Throws<ArgumentOutOfRangeException>(() => HeatLimit.House(diastaseAtLeast: -1));
    }
}
