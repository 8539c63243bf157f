using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>Runs that nobody should ask about: refused by name, or answered in numbers; nothing hangs.</summary>
public class HostileAttendedRunTests
{
    private static readonly AttendedRun Plain = AttendedRuns.Of(RiskSetups.Pail(25));

    private static string? Refused(AttendedRun run) => Assert.ThrowsAny<ArgumentException>(() => RunForecast.Of(run)).ParamName;

    private static TimedSeries Series(params (double S, double Value)[] readings) => new()
    {
        Quantity = StrainingObservable.TankLevel,
        Readings = [.. readings.Select(reading => new TimedReading(Duration.FromSeconds(reading.S), reading.Value))],
    };

    [Fact]
    public void Readings_out_of_order_or_of_the_world_are_refused()
    {
        Assert.Equal("At", Refused(Plain with { Series = [Series((20, 0.25), (10, 0.26))] }));
        Assert.Equal("At", Refused(Plain with { Series = [Series((-1, 0.25))] }));
        Assert.Equal("At", Refused(Plain with { Series = [Series((1e9, 0.25))] }));
        Assert.Equal("Value", Refused(Plain with { Series = [Series((10, double.NaN))] }));
        Assert.Equal("Value", Refused(Plain with { Series = [Series((10, 2.47))] }));
        Assert.Equal("Value", Refused(Plain with { Series = [Series((10, -1))] }));
        Assert.Equal("Readings", Refused(Plain with { Series = [Series()] }));
        Assert.Equal("Series", Refused(Plain with { Series = [Series((1, 0.29)), Series((2, 0.29))] }));
        Assert.Equal("Quantity", Refused(Plain with { Series = [Series((1, 0.29)) with { Quantity = (StrainingObservable)99 }] }));
        Assert.Throws<ArgumentNullException>(() => RunForecast.Of(null!));
    }

    [Fact]
    public void Steps_out_of_order_or_range_are_refused()
    {
        NotedStep Gate(double s, double percent) => new(Duration.FromSeconds(s), Ratio.FromPercent(percent));
        Assert.Equal("Steps", Refused(Plain with { Steps = [Gate(20, 30), Gate(10, 20)] }));
        Assert.Equal("Steps", Refused(Plain with { Steps = [Gate(20, 30), Gate(20, 20)] }));
        Assert.Equal("Steps", Refused(Plain with { Steps = [NotedStep.Scrape(Duration.Zero)] }));
        Assert.Equal("Steps", Refused(Plain with { Steps = [NotedStep.Scrape(Duration.FromSeconds(5)), NotedStep.Scrape(Duration.FromSeconds(5))] }));
        Assert.Equal("Opening", Refused(Plain with { Steps = [Gate(20, 101)] }));
        Assert.Equal("At", Refused(Plain with { Steps = [Gate(-1, 10)] }));
        Assert.Equal("Tolerance", Refused(Plain with { Tolerance = Ratio.Zero }));
        Assert.Equal("Threads", Refused(Plain with { Threads = 0 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => RunForecast.Of(Plain with { Steps = [Gate(20, 30)] }).At(Duration.FromSeconds(19)));
    }

    [Fact]
    public void An_outlook_long_after_the_end_is_still_one()
    {
        RunOutlook outlook = RunForecast.Of(Plain).At(Duration.FromDays(365));
        RequireNumbers(outlook);
        Assert.Equal(Duration.Zero, outlook.LookAgainIn ?? Duration.Zero);
        Assert.All(outlook.NextActions, action => Assert.True(action.At < outlook.Now));
    }

    /// <summary>Whatever is read and done in whatever order, the run is refused by name or answered in numbers.</summary>
    [Fact]
    public void Random_runs_are_answered_in_numbers()
    {
        int answered = 0;
        for (int seed = 0; seed < 10; seed++)
        {
            var random = new MathNet.Numerics.Random.MersenneTwister(seed);
            AttendedRun run = Random(random);
            try
            {
                RunOutlook outlook = RunForecast.Of(run).At(run.LastEntry + Duration.FromSeconds(400 * random.NextDouble()));
                RequireNumbers(outlook);
                answered++;
            }
            catch (ArgumentException refused)
            {
                Assert.NotNull(refused.ParamName);
            }
        }

        Assert.True(answered >= 5, $"{answered} of 10 were answered");
    }

    private static AttendedRun Random(Random random)
    {
        StrainingSetup setup = random.Next(3) switch
        {
            0 => RiskSetups.Pail(10 + (40 * random.NextDouble())),
            1 => AttendedRuns.Clogging(rimMm: 30 + (80 * random.NextDouble()), load: 3e-3 * random.NextDouble()),
            _ => AttendedRuns.Clogging(rimMm: 100) with { Control = GateControl.RideAt(RiskSetups.Mm(50), Ratio.FromPercent(60)), Scraping = new Scraping { AtPondDepth = RiskSetups.Mm(70) } },
        };
        double t = 0;
        var level = new List<TimedReading>();
        var mass = new List<TimedReading>();
        var steps = new List<NotedStep>();
        for (int i = random.Next(7); i > 0; i--)
        {
            t += 90 * random.NextDouble();
            Duration at = Duration.FromSeconds(t);
            switch (random.Next(4))
            {
                case 0:
                    level.Add(new TimedReading(at, 0.36 * random.NextDouble()));
                    break;
                case 1:
                    mass.Add(new TimedReading(at, 30 * random.NextDouble()));
                    break;
                case 2:
                    steps.Add(NotedStep.Scrape(at));
                    break;
                default:
                    steps.Add(new NotedStep(at, Ratio.FromPercent(random.Next(4) * 30)));
                    break;
            }
        }

        return new AttendedRun
        {
            Setup = setup,
            Steps = steps,
            Series =
            [
                .. level.Count == 0 ? [] : (TimedSeries[])[new TimedSeries { Quantity = StrainingObservable.TankLevel, Readings = level }],
                .. mass.Count == 0 ? [] : (TimedSeries[])[new TimedSeries { Quantity = StrainingObservable.ReceiverMass, Readings = mass }],
            ],
        };
    }

    private static void RequireNumbers(RunOutlook outlook)
    {
        Assert.All(outlook.NextActions, action =>
        {
            Assert.True(double.IsFinite(action.At.Seconds + action.Earliest.Seconds + action.Latest.Seconds), action.ToString());
            Assert.True(action.Earliest <= action.At && action.At <= action.Latest, action.ToString());
            Assert.NotEmpty(action.Why);
        });
        Assert.Equal(outlook.NextActions.OrderBy(action => action.At.Seconds), outlook.NextActions);
        Assert.All(outlook.Expected, expected => Assert.True(expected.Low <= expected.Value && expected.Value <= expected.High && double.IsFinite(expected.High), expected.ToString()));
        Assert.All(outlook.Deviations, deviation => Assert.True(double.IsFinite(deviation.StandardDeviations + deviation.Expected), deviation.ToString()));
        Assert.InRange(outlook.PondReachesRim.Chance, 0, 1);
        Assert.InRange(outlook.Ready.Never, 0, 1);
        Assert.True(outlook.LookAgainIn is null || outlook.LookAgainIn >= Duration.Zero);
        Assert.NotEmpty(outlook.Cautions);
    }
}
