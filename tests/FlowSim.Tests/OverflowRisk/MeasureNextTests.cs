using FlowSim.OverflowRisk;
using FlowSim.Straining;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>What to measure next, from invented tables of drivers.</summary>
public class MeasureNextTests
{
    private static SpreadInputs Inputs => Alone(
        Normal(StrainingInputs.Moisture, 0.18, 0.002), Normal(StrainingInputs.ScrapeRecovery, 0.7, 0.1), Normal(StrainingInputs.Bore, 0.038, 0.001), Normal(StrainingInputs.LotFactor, 1, 0.1));

    private static Driver Driven(string name, double first, double low = 0.01) => new(name, first, low, first + 0.1, first, low, first + 0.1);

    private static DriverTable Table(DriverOutput of, params Driver[] drivers) => new(of, drivers, drivers.Length == 0 ? "nothing drives it" : null);

    private static MeasureAdvice? Next(double chance, Driver[] ofOverflow, Driver[] ofTime) => DriverSearch.MeasureNext(
        Counted(chance, 0, 1), Table(DriverOutput.Overflow, ofOverflow), Table(DriverOutput.StrainTime, ofTime), Inputs);

    /// <summary>Of the variance 1 − S is left, of the standard deviation √(1 − S): 0.6 for S = 0.64.</summary>
    [Fact]
    public void It_is_what_narrows_most()
    {
        MeasureAdvice? advice = Next(0.3, [Driven("gate.bore", 0.2), Driven("honey.moisture", 0.64), Driven("honey.lot_factor", 0.1)], []);
        Assert.Equal(("honey.moisture", DriverOutput.Overflow), (advice!.Name, advice.Of));
        Assert.Equal(0.6, advice.SpreadLeft, 1e-12);
        Assert.Equal(Measurements.Of(StrainingInputs.Moisture), advice.How);
    }

    [Theory]
    [InlineData(1e-3, true)]
    [InlineData(0.999e-3, false)]
    [InlineData(0.999, true)]
    [InlineData(0.9991, false)]
    public void The_overflow_comes_first_while_it_is_in_doubt(double chance, bool doubtful)
    {
        MeasureAdvice? advice = Next(chance, [Driven("gate.bore", 0.2)], [Driven("honey.moisture", 0.9)]);
        Assert.Equal(doubtful ? ("gate.bore", DriverOutput.Overflow) : ("honey.moisture", DriverOutput.StrainTime), (advice!.Name, advice.Of));
    }

    [Fact]
    public void What_might_as_well_be_nothing_is_not_worth_measuring()
    {
        Assert.Equal("honey.lot_factor", Next(0.3, [Driven("gate.bore", 0.9, 0), Driven("honey.lot_factor", 0.1)], [])!.Name);
        Assert.Equal(DriverOutput.StrainTime, Next(0.3, [Driven("gate.bore", 0.9, -0.01)], [Driven("honey.moisture", 0.2)])!.Of);
        Assert.Null(Next(0.3, [Driven("gate.bore", 0.9, 0)], []));
        Assert.Null(Next(0.3, [], []));
    }

    /// <summary>What a scrape clears can be practised but not measured: the next one is told, or of a group the one that can.</summary>
    [Fact]
    public void Only_what_can_be_measured_is_told()
    {
        Assert.Equal("gate.bore", Next(0.3, [Driven("scraping.recovery", 0.6), Driven("gate.bore", 0.3)], [])!.Name);
        MeasureAdvice? group = Next(0.3, [Driven("scraping.recovery + honey.lot_factor", 0.75)], []);
        Assert.Equal("honey.lot_factor", group!.Name);
        Assert.Equal(0.5, group.SpreadLeft, 1e-12);
        Assert.Null(Next(0.3, [Driven("scraping.recovery", 0.6)], []));
    }

    [Fact]
    public void The_first_of_a_group_in_the_order_of_the_inputs_is_told() =>
        Assert.Equal("honey.moisture", Next(0.3, [Driven("gate.bore + honey.moisture", 0.5)], [])!.Name);

    /// <summary>Indices are estimates: one above 1 leaves nothing, not the root of a negative number.</summary>
    [Fact]
    public void What_is_left_is_never_below_nothing() => Assert.Equal(0, Next(0.3, [Driven("gate.bore", 1.02)], [])!.SpreadLeft);

    /// <summary>What people do has no measurement, and the density of the bits none in a honey house; every other input has one.</summary>
    [Fact]
    public void Every_input_but_what_people_do_can_be_measured()
    {
        StrainingInput[] done = [StrainingInputs.RideDepth, StrainingInputs.ScrapeRecovery, StrainingInputs.ScrapeDepth, StrainingInputs.ScrapePause];
        Assert.All(done, input => Assert.Null(Measurements.Of(input)));
        Assert.All(StrainingInputs.All.Except(done).Where(input => input != StrainingInputs.DebrisDensity), input => Assert.True(Measurements.Of(input)?.Length > 10, input.Name));
    }
}
