using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>Each notice a little below its limit, at it and above.</summary>
public class CalibrationNoticesTests
{
    private static readonly CalibrationQuestion Question = new() { Setup = Straight, Priors = [Lot, Prior(StrainingInputs.RoomTemperature, new NormalDistribution(293.15, 2))], Viscosities = [Spot("ball", 35, 7, 0.1)] };

    private static readonly SeriesFit Calm = new()
    {
        Run = "run",
        Series = Rule(0.11, [.. new double[20]]),
        Noise = 0.001,
        Clock = (Duration.Zero, Duration.FromSeconds(1)),
        Zero = (0, 0),
        Readings = Readings(0),
        Course = [],
        Autocorrelation = 0.456,
        Inflation = 1,
        Explained = 0.95,
    };

    private static FittedReading[] Readings(int outliers) => [.. Enumerable.Range(0, 20).Select(i => new FittedReading(Duration.FromSeconds(i), 0, 0, 0, i < outliers))];

    private static FittedInput Fitted(double left, string? run = null) => new() { Input = StrainingInputs.LotFactor, Run = run, Prior = Lot, Posterior = Lot.Spread, Left = left };

    private static Notice[] For(double[]? scores = null, SeriesFit? series = null, SamplerCheck? check = null, FittedInput[]? inputs = null, bool timed = false, bool lost = false)
    {
        CalibrationQuestion question = lost ? Question with { Setup = OwnHoney.In(Shut, (_, kelvins) => kelvins > 308 ? double.NaN : 6) } : Question;
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        BestFit fit = BestFit.Find(posterior, [], 1, CancellationToken.None);
        Assert.Equal(!lost, fit.IsFound);
        CalibrationQuestion asked = timed ? Question with { Runs = [Run(Straight, Rule(0.11, 1, 2, 1, 2))] } : Question;

        // A setup with a run of its own, so that clocks and own inputs are among the numbers.
        var layout = new FitLayout(Question with { Runs = [Run(Straight, Rule(0.11, 1, 2, 1, 2))] });
        return [.. CalibrationNotices.For(asked, fit, inputs ?? [Fitted(0.5)], layout, scores ?? new double[4], series is null ? [] : [series], check)];
    }

    private static string[] Codes(Notice[] notices) => [.. notices.Select(notice => notice.Code)];

    [Fact]
    public void Where_all_is_well_nothing_is_said() => Assert.Empty(For(new double[4], Calm, new SamplerCheck(100, 100, 1, 0, 1, Used: false), timed: true));

    [Fact]
    public void Where_no_fit_is_found_nothing_else_is_said()
    {
        Notice lost = Assert.Single(For([9, 9, 9, 9], Calm with { Inflation = 5 }, lost: true));
        Assert.Equal("no-fit", lost.Code);
        Assert.Contains("CannotEvaluate", lost.Seen, StringComparison.Ordinal);
    }

    /// <summary>Numbers: lot, the run's room, clock and zero; only inputs are looked at.</summary>
    [Fact]
    public void An_input_three_standard_deviations_off_is_far_from_expected()
    {
        Assert.Empty(For([2.99, -2.99, 8, 8]));
        Assert.Equal(295.15, Straight.RoomTemperature.Kelvins, 1e-9); // Less 3.52 times 2 K.
        Notice[] both = For([3, -3.52, 0, 0]);
        Assert.Equal(["far-from-expected", "far-from-expected"], Codes(both));
        Assert.Contains("honey.lot_factor comes out at 2.46, 3 standard deviations", both[0].Seen, StringComparison.Ordinal);
        Assert.Contains("room.temperature comes out at 288.1 K, 3.5 standard deviations", both[1].Seen, StringComparison.Ordinal);
    }

    [Fact]
    public void Residuals_that_go_together_are_said_with_what_they_are_worth()
    {
        Notice notice = Assert.Single(For(series: Calm with { Inflation = 2.5 }));
        Assert.Equal("residuals-go-together", notice.Code);
        Assert.Contains("TankLevel in run", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("0.46", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("8 readings", notice.MayMean, StringComparison.Ordinal);
    }

    [Fact]
    public void More_than_three_outliers_of_twenty_are_many()
    {
        Assert.Empty(For(series: Calm with { Readings = Readings(3) }));
        Notice notice = Assert.Single(For(series: Calm with { Readings = Readings(4) }));
        Assert.Equal("many-outliers", notice.Code);
        Assert.Contains("4 of 20", notice.Seen, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.8, "")]
    [InlineData(0.79, "79 %")]
    [InlineData(-3, " 0 %")]
    public void A_fit_that_explains_less_than_four_fifths_explains_little(double explained, string said)
    {
        Notice[] notices = For(series: Calm with { Explained = explained });
        Assert.Equal(said.Length > 0 ? ["little-explained"] : [], Codes(notices));
        Assert.All(notices, notice => Assert.Contains(said, notice.Seen, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(15, 5, "")]
    [InlineData(15.1, 5, "15 s behind")]
    [InlineData(-15.1, 5, "15 s ahead")]
    [InlineData(-14.9, 5, "")]
    [InlineData(15, 0, "")]
    public void A_clock_three_standard_deviations_off_is_said(double seconds, double offset, string said)
    {
        Notice[] notices = For(series: Calm with { Clock = (Duration.FromSeconds(seconds), Duration.FromSeconds(1)), Series = Calm.Series with { ClockOffset = Duration.FromSeconds(offset) } });
        Assert.Equal(said.Length > 0 ? ["clock"] : [], Codes(notices));
        Assert.All(notices, notice => Assert.Contains(said, notice.Seen, StringComparison.Ordinal));
    }

    [Fact]
    public void Runs_that_teach_nothing_of_honey_and_kit_are_said_to()
    {
        Assert.Empty(For(inputs: [Fitted(0.9), Fitted(0.7)], timed: true));
        Assert.Equal(["nothing-learnt"], Codes(For(inputs: [Fitted(0.71), Fitted(0.2, "run")], timed: true)));
        Assert.Empty(For(inputs: [Fitted(0.9)], timed: false));
    }

    [Fact]
    public void Intervals_of_the_sampler_are_said_to_be_taken()
    {
        Notice notice = Assert.Single(For(check: new SamplerCheck(100, 100, 1, 0.42, 1.37, Used: true)));
        Assert.Equal("intervals-from-sampler", notice.Code);
        Assert.Contains("0.4 standard deviations", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("1.37", notice.Seen, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3.99, 0.8, false)]
    [InlineData(4, 0.8, true)]
    [InlineData(1, 0.79, true)]
    public void A_series_is_met_poorly_where_it_goes_together_or_is_not_explained(double inflation, double explained, bool poor) =>
        Assert.Equal(poor, CalibrationNotices.IsPoor(Calm with { Inflation = inflation, Explained = explained }));

    [Theory]
    [InlineData(0.7, true)]
    [InlineData(0.701, false)]
    public void An_input_is_identified_where_seven_tenths_are_left(double left, bool identified)
    {
        FittedInput input = Fitted(left);
        Assert.Equal(identified, input.Identified);
        Assert.Equal((Lot.Spread.Quantile(0.025), 1, Lot.Spread.Quantile(0.975)), (input.Low, input.Middle, input.High));
    }
}
