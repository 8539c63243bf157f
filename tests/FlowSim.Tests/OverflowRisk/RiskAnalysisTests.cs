using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Whole answers.</summary>
public class RiskAnalysisTests
{
    private static readonly Source Invented = new("invented", Standing.GivenByUser);

    private static RiskQuestion Few(StrainingSetup setup, int runs = 128) => new() { Setup = setup, Runs = runs, Tolerance = Ratio.FromPercent(10) };

    /// <summary>A gate that is ridden, a cloth that is scraped: every part of an answer has work to do.</summary>
    private static StrainingSetup Attended() => RiskSetups.Pail() with
    {
        Control = GateControl.RideAt(RiskSetups.Mm(60), Ratio.FromPercent(35)),
        Scraping = new Scraping { Times = [Duration.FromMinutes(2), Duration.FromMinutes(4)] },
    };

    [Fact]
    public void An_answer_is_the_same_to_the_last_bit_on_one_two_and_eight_threads()
    {
        foreach (StrainingSetup setup in new[] { RiskSetups.Pail(24), Attended() })
        {
            string one = Flatten.Of(RiskAnalysis.Of(Few(setup) with { Threads = 1 }));
            Assert.Equal(one, Flatten.Of(RiskAnalysis.Of(Few(setup) with { Threads = 2 })));
            Assert.Equal(one, Flatten.Of(RiskAnalysis.Of(Few(setup) with { Threads = 8 })));
            Assert.NotEqual(one, Flatten.Of(RiskAnalysis.Of(Few(setup) with { Seed = 2 })));
        }
    }

    [Fact]
    public void Every_chance_has_an_interval_about_it_and_nothing_is_NaN()
    {
        foreach (StrainingSetup setup in new[] { RiskSetups.Pail(24), RiskSetups.Pail(5), RiskSetups.Pail(100), Attended() })
        {
            RiskAnswer answer = RiskAnalysis.Of(Few(setup));
            foreach (ProbabilityEstimate chance in new[] { answer.Overflow, answer.Bypass, answer.Spill, answer.ReceiverFull, answer.ReceiverOverfilled })
            {
                Assert.True(0 <= chance.Low && chance.Low <= chance.Value && chance.Value <= chance.High && chance.High <= 1, $"{chance}");
                Assert.True(chance.High > chance.Low, $"{chance}");
            }

            foreach (Driver driver in answer.Drivers.Drivers.Concat(answer.DriversOfTime.Drivers))
            {
                Assert.True(driver.FirstLow < driver.FirstOrder && driver.FirstOrder < driver.FirstHigh, $"{driver}");
                Assert.True(driver.TotalLow < driver.Total && driver.Total < driver.TotalHigh, $"{driver}");
            }

            // A pond of which no run is left has no depth, and says so.
            PondFan fan = answer.Fan;
            for (int i = 0; i < fan.Times.Count; i++)
                Assert.True(fan.GoingOn[i] == 0 || (fan.P05[i] <= fan.P25[i] && fan.P25[i] <= fan.P50[i] && fan.P50[i] <= fan.P75[i] && fan.P75[i] <= fan.P95[i] && fan.P95[i] <= fan.Rim.Meters * (1 + 1e-9)));
            Assert.DoesNotContain("NaN", Flatten.Of(answer with { Fan = fan with { P05 = [], P25 = [], P50 = [], P75 = [], P95 = [] } }));

            for (int i = 1; i < answer.ChanceOverTime.Count; i++)
            {
                ChancePoint before = answer.ChanceOverTime[i - 1], now = answer.ChanceOverTime[i];
                Assert.True(now.At > before.At && now.Low >= before.Low && now.Value >= before.Value && now.High >= before.High);
                Assert.True(now.Low <= now.Value && now.Value <= now.High);
            }

            Assert.True(answer.WidestOpening.Overflow is null || answer.WidestOpening.Overflow.High <= 0.1);
            Assert.True(answer.Scraping.Overflow is null || answer.Scraping.Overflow.High <= 0.1);
            Assert.True(answer.Riding.Chance is null || answer.Riding.Chance.High <= 0.1);
        }
    }

    /// <summary>A gate that is ridden never runs over, so nothing drives it: told, not computed as 0/0.</summary>
    [Fact]
    public void What_is_the_same_in_every_run_is_refused_with_the_reason()
    {
        RiskAnswer answer = RiskAnalysis.Of(Few(Attended() with { Scraping = Scraping.Never }));
        Assert.Equal(0, answer.Overflow.Value);
        Assert.True(answer.Overflow.High > 0);
        Assert.Empty(answer.Drivers.Drivers);
        Assert.Contains("in none of", answer.Drivers.Refused, StringComparison.Ordinal);
        Assert.Null(answer.DriversOfTime.Refused);
        Assert.Equal(DriverOutput.StrainTime, answer.MeasureNext?.Of);
    }

    /// <summary>
    /// One input alone makes all of the variance: its indices are 1 (definition of the Sobol' indices), and the other's, which does nothing to the
    /// time, 0.
    /// </summary>
    [Fact]
    public void One_input_that_does_everything_has_the_index_1()
    {
        StrainingSetup setup = RiskSetups.Pail(15);
        setup = setup with { Receiver = setup.Receiver with { Spacer = RiskSetups.Mm(100) } };
        RiskAnswer answer = RiskAnalysis.Of(Few(setup, 512) with
        {
            Inputs =
            [
                new UncertainInput(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3), Invented),
                new UncertainInput(StrainingInputs.ReceiverHeatLoss, new LogNormalDistribution(6, 0.3), Invented),
            ],
        });
        Driver lot = answer.DriversOfTime.Drivers.Single(driver => driver.Name == "honey.lot_factor");
        Driver loss = answer.DriversOfTime.Drivers.Single(driver => driver.Name == "receiver.heat_loss");
        Assert.InRange(1, lot.FirstLow, lot.FirstHigh);
        Assert.InRange(1, lot.TotalLow, lot.TotalHigh);
        Assert.Equal(0, loss.Total, 1e-6);
        Assert.Equal("honey.lot_factor", answer.MeasureNext!.Name);
        Assert.InRange(answer.MeasureNext.SpreadLeft, 0, 0.3);
    }

    [Fact]
    public void Inputs_that_go_together_count_as_one()
    {
        RiskAnswer answer = RiskAnalysis.Of(Few(RiskSetups.Pail(24)) with { Correlations = [new InputCorrelation("honey.moisture", "Honey.Lot_Factor", -0.6)] });
        Assert.Single(answer.DriversOfTime.Drivers, driver => driver.Name == "honey.moisture + honey.lot_factor");
        Assert.DoesNotContain(answer.DriversOfTime.Drivers, driver => driver.Name is "honey.moisture" or "honey.lot_factor");
    }

    [Fact]
    public void The_map_has_the_chances_of_its_openings_and_temperatures()
    {
        RiskQuestion question = Few(RiskSetups.Pail());
        Ratio[] openings = [Ratio.FromPercent(15), Ratio.FromPercent(25), Ratio.FromPercent(40)];
        Temperature[] temperatures = [Temperature.FromDegreesCelsius(30), Temperature.FromDegreesCelsius(35)];
        RiskMap map = RiskAnalysis.Map(question, openings, temperatures);
        Assert.Equal((2, 3), (map.Cells.Count, map.Cells[0].Count));
        Assert.All(map.Cells, row => Assert.True(row[0].Overflow.Value <= row[1].Overflow.Value && row[1].Overflow.Value <= row[2].Overflow.Value));
        Assert.All(Enumerable.Range(0, 3), i => Assert.True(map.Cells[0][i].Drain.P50 > map.Cells[1][i].Drain.P50, "colder honey drains slower"));

        // The common spreads lie about the setup's own values, so the cell at them is the question's own chance.
        RiskAnswer own = RiskAnalysis.Of(question with { Setup = RiskSetups.Pail(25) });
        Assert.Equal(own.Bypass.Runs, map.Cells[1][1].Overflow.Runs);
        Assert.Equal(own.ChanceOverTime[^1].Value, map.Cells[1][1].Overflow.Value, 1e-12);
    }

    [Fact]
    public void A_tail_that_is_cut_off_is_told()
    {
        RiskAnswer answer = RiskAnalysis.Of(Few(RiskSetups.Pail(99)));
        Notice notice = Assert.Single(answer.Notices, notice => notice.Code == "risk.spread-cut");
        Assert.Contains("gate.opening", notice.Seen, StringComparison.Ordinal);
        Assert.Contains(answer.Notices, notice => notice.Code == "risk.common-spreads");
        Assert.All(answer.Inputs, input => Assert.True(input.Spread.Highest <= input.Input.RangeIn(answer.Question.Setup).High));
    }

    [Fact]
    public void A_tolerance_finer_than_the_runs_can_tell_is_told()
    {
        RiskAnswer answer = RiskAnalysis.Of(Few(RiskSetups.Pail(20)) with { Tolerance = Ratio.FromDecimalFractions(1e-6) });
        Notice notice = Assert.Single(answer.Notices, notice => notice.Code == "risk.tolerance-too-fine");
        Assert.Contains("128 runs", notice.Seen, StringComparison.Ordinal);
    }

    [Fact]
    public void Progress_rises_to_1_and_a_cancelled_question_ends()
    {
        var told = new List<double>();
        RiskAnalysis.Of(Few(RiskSetups.Pail(24)), new Told(told));
        Assert.Equal(1, told[^1]);
        Assert.Equal(told.Order(), told);

        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => RiskAnalysis.Of(Few(RiskSetups.Pail(24)), null, cancelled.Token));
    }

    private sealed class Told(List<double> shares) : IProgress<double>
    {
        public void Report(double value) => shares.Add(value);
    }
}
