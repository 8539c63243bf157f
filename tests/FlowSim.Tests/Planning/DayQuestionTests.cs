using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;
using static FlowSim.Tests.Planning.InventedDay;

namespace FlowSim.Tests.Planning;

/// <summary>What a question may hold: each limit is taken, and what lies beyond it refused by name.</summary>
public class DayQuestionTests
{
    private const double Fortnight = 14 * 24;
    private static readonly PlannedBatch s_batch = Batch("one");
    private static readonly DayQuestion s_day = Of(s_batch);

    private static readonly Dictionary<string, DayQuestion> s_taken = new(StringComparer.Ordinal)
    {
        ["least effort"] = s_day with { Effort = new PlanEffort { Breadth = 1, Proof = 0 } },
        ["most effort"] = s_day with { Effort = new PlanEffort { Breadth = 10_000, Proof = 100_000_000 } },
        ["nothing to clean"] = s_day with { Cleaning = new Cleaning { Strainer = Duration.Zero, Tank = Duration.Zero } },
        ["a day of cleaning"] = s_day with { Cleaning = new Cleaning { Strainer = Duration.FromHours(24), Tank = Duration.FromHours(24) } },
        ["no place"] = s_day with { Places = [] },
        ["twenty places"] = s_day with { Places = Many(20, n => new WarmingPlace { Name = n }) },
        ["forty vessels"] = s_day with { Batches = Many(40, Batch) },
        ["a hundred in a place"] = s_day with { Places = [new WarmingPlace { Name = "room", Vessels = 100 }] },
        ["smallest tank"] = s_day with { Tanks = [Tank(0.1, 0.1)] },
        ["largest tank"] = s_day with { Tanks = [Tank(100_000, 0)] },
        ["a fortnight before"] = s_day with { Batches = [s_batch with { Earliest = Duration.FromHours(-Fortnight), Due = Duration.FromHours(-Fortnight) }] },
        ["a fortnight after"] = s_day with { Batches = [s_batch with { Earliest = Duration.FromHours(Fortnight), Due = Duration.FromHours(Fortnight), LongestHold = Duration.FromHours(Fortnight) }] },
        ["no hold"] = s_day with { Batches = [s_batch with { LongestHold = Duration.Zero }] },
        ["least volume"] = s_day with { Batches = [s_batch with { Volume = Volume.FromLiters(0.01) }] },
        ["most volume"] = s_day with { Batches = [s_batch with { Volume = Volume.FromLiters(100_000) }] },
        ["a minute"] = s_day with { Batches = [s_batch.With(s => s with { Strain = Min(1), Scrapes = [Duration.Zero] })] },
        ["a step of a fortnight"] = s_day with { Batches = [s_batch.With(s => s with { Warm = Min(Fortnight * 60), Scrapes = [Duration.FromHours(Fortnight)] })] },
        ["hours that touch"] = s_day with { People = [At(Hours(8, 9), Hours(9, 10))] },
        ["a hundred spans"] = s_day with { Open = [.. Enumerable.Range(0, 100).Select(i => Hours(i, i + 1))] },
        ["a place by any case"] = s_day with { Batches = [s_batch with { Places = ["CABINET"] }] },
        ["joined alone"] = s_day with { Batches = [s_batch with { Joined = "x" }] },
        ["joined of one honey"] = s_day with { Batches = [s_batch with { Joined = "x", Honey = "lime" }, Batch("two") with { Joined = "x", Honey = "lime" }, Batch("three")] },
        ["joined apart"] = s_day with { Batches = [s_batch with { Joined = "x", Honey = "lime" }, Unfilled("two") with { Joined = "y", Honey = "heather" }] },
        ["joined and not filled"] = s_day with { Batches = [Unfilled("one") with { Joined = "x", Honey = "lime" }, Unfilled("two") with { Joined = "x", Honey = "lime" }] },
    };

    private static readonly (DayQuestion Bad, string Name)[] s_refused =
    [
        (s_day with { Pace = (Pace)3 }, "Pace"),
        (s_day with { Effort = null! }, "Effort"),
        (s_day with { Effort = new PlanEffort { Breadth = 10_001 } }, "Breadth"),
        (s_day with { Effort = new PlanEffort { Proof = -1 } }, "Proof"),
        (s_day with { Effort = new PlanEffort { Proof = 100_000_001 } }, "Proof"),
        (s_day with { Cleaning = null! }, "Cleaning"),
        (s_day with { Cleaning = new Cleaning { Strainer = Duration.FromHours(-0.1) } }, "Cleaning.Strainer"),
        (s_day with { Cleaning = new Cleaning { Strainer = Duration.FromHours(24.1) } }, "Cleaning.Strainer"),
        (s_day with { Cleaning = new Cleaning { Tank = Duration.FromHours(-0.1) } }, "Cleaning.Tank"),
        (s_day with { Places = null! }, "Places"),
        (s_day with { Places = Many(21, n => new WarmingPlace { Name = n }) }, "Places"),
        (s_day with { Places = [new WarmingPlace { Name = "p" }, new WarmingPlace { Name = "P" }] }, "Places"),
        (s_day with { Places = [null!] }, "Places"),
        (s_day with { Places = [new WarmingPlace { Name = "p", Vessels = 101 }] }, "Place.Vessels"),
        (s_day with { Strainers = null! }, "Strainers"),
        (s_day with { Strainers = Many(21, n => new PlannedStrainer(n)) }, "Strainers"),
        (s_day with { Strainers = [new PlannedStrainer(null!)] }, "Strainers"),
        (s_day with { Strainers = [new PlannedStrainer("")] }, "Strainers"),
        (s_day with { Tanks = [] }, "Tanks"),
        (s_day with { Tanks = [Tank(5, 0), Tank(6, 0)] }, "Tanks"),
        (s_day with { Tanks = [Tank(0.09, 0)] }, "Tank.Capacity"),
        (s_day with { Tanks = [Tank(100_001, 0)] }, "Tank.Capacity"),
        (s_day with { Tanks = [Tank(5, -1)] }, "Tank.KeptFree"),
        (s_day with { People = [] }, "People"),
        (s_day with { People = Many(21, n => At(Hours(8, 9)) with { Name = n }) }, "People"),
        (s_day with { People = [At(null!)] }, "Worker.Hours"),
        (s_day with { People = [At(Hours(8, 8))] }, "Worker.Hours"),
        (s_day with { People = [At(Hours(8, 10), Hours(9, 11))] }, "Worker.Hours"),
        (s_day with { People = [At(Hours(9, 10), Hours(7, 8))] }, "Worker.Hours"),
        (s_day with { People = [At(Hours(-Fortnight - 1, 8))] }, "Worker.Hours"),
        (s_day with { People = [At(Hours(8, Fortnight + 1))] }, "Worker.Hours"),
        (s_day with { Open = [] }, "Open"),
        (s_day with { Open = [Hours(9, 8)] }, "Open"),
        (s_day with { Open = [.. Enumerable.Range(0, 101).Select(i => Hours(i, i + 1))] }, "Open"),
        (s_day with { Batches = Many(41, Batch) }, "Batches"),
        (s_day with { Batches = [s_batch with { Steps = null! }] }, "Batch.Steps"),
        (s_day with { Batches = [s_batch.With(s => s with { Strain = null! })] }, "Steps.Strain"),
        (s_day with { Batches = [s_batch.With(s => s with { Scrapes = null! })] }, "Steps.Scrapes"),
        (s_day with { Batches = [s_batch.With(s => s with { Scrapes = [Duration.FromMinutes(5), Duration.FromMinutes(-1)] })] }, "Steps.Scrapes"),
        (s_day with { Batches = [s_batch.With(s => s with { Warm = Min(0.9) })] }, "Steps.Warm"),
        (s_day with { Batches = [s_batch.With(s => s with { Settle = Min(0.9) })] }, "Steps.Settle"),
        (s_day with { Batches = [s_batch.With(s => s with { Stand = Min(0.9) })] }, "Steps.Stand"),
        (s_day with { Batches = [s_batch.With(s => s with { Fill = Min(0.9) })] }, "Steps.Fill"),
        (s_day with { Batches = [s_batch.With(s => s with { Fill = new StepTimes(Duration.FromMinutes(0.5), Duration.FromHours(1), Duration.FromHours(1)) })] }, "Steps.Fill"),
        (s_day with { Batches = [s_batch.With(s => s with { Fill = new StepTimes(Duration.FromHours(1), Duration.FromHours(2), Duration.FromHours(1)) })] }, "Steps.Fill"),
        (s_day with { Batches = [s_batch.With(s => s with { Fill = new StepTimes(Duration.FromHours(1), Duration.FromHours(2), Duration.FromHours(Fortnight + 1)) })] }, "Steps.Fill"),
        (s_day with { Batches = [s_batch with { Volume = Volume.FromLiters(0.009) }] }, "Batch.Volume"),
        (s_day with { Batches = [s_batch with { Volume = Volume.FromLiters(100_001) }] }, "Batch.Volume"),
        (s_day with { Batches = [s_batch with { Earliest = Duration.FromHours(Fortnight + 1) }] }, "Batch.Earliest"),
        (s_day with { Batches = [s_batch with { Due = Duration.FromHours(-Fortnight - 1) }] }, "Batch.Due"),
        (s_day with { Batches = [s_batch with { LongestHold = Duration.FromHours(Fortnight + 1) }] }, "Batch.LongestHold"),
        (s_day with { Batches = [s_batch with { Places = ["cabinet", "cellar"] }] }, "name"),
        (s_day with { Batches = [s_batch with { Places = ["cellar"] }], Places = [] }, "Batch.Places"),
        (s_day with { Batches = [s_batch with { Joined = "x", Honey = "lime" }, Batch("two") with { Joined = "x" }] }, "Batch.Joined"),
        (s_day with { Batches = [s_batch with { Joined = "x", Honey = "lime" }, Batch("two") with { Joined = "x", Honey = "heather" }] }, "Batch.Joined"),
        (s_day with { Batches = [s_batch with { Joined = "x", Honey = "lime" }, Unfilled("two") with { Joined = "x", Honey = "lime" }] }, "Batch.Joined"),
    ];

    public static TheoryData<string> Taken => [.. s_taken.Keys];

    [Theory]
    [MemberData(nameof(Taken))]
    public void A_limit_itself_is_taken(string what) => Assert.Null(Record.Exception(() => DayQuestionCheck.Require(s_taken[what])));

    [Fact]
    public void What_lies_beyond_is_refused_by_name()
    {
        foreach ((DayQuestion bad, string name) in s_refused)
            Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(() => DayQuestionCheck.Require(bad)).ParamName);
        Assert.Equal("question", Assert.Throws<ArgumentNullException>(() => DayQuestionCheck.Require(null!)).ParamName);
    }

    [Fact]
    public void Of_two_hours_that_do_not_follow_whose_they_are_is_told()
    {
        ArgumentException refused = Assert.ThrowsAny<ArgumentException>(() => DayQuestionCheck.Require(s_day with { People = [At(Hours(8, 9)), At(Hours(9, 8)) with { Name = "Bea" }] }));
        Assert.Contains("Bea", refused.Message, StringComparison.Ordinal);
    }

    private static T[] Many<T>(int count, Func<string, T> make) => [.. Enumerable.Range(0, count).Select(i => make("n" + i))];

    private static BottlingTank Tank(double litres, double keptFree) => new() { Name = "t", Capacity = Volume.FromLiters(litres), KeptFree = Volume.FromLiters(keptFree) };

    private static Worker At(params WorkSpan[] hours) => new() { Name = "A", Hours = hours };

    private static PlannedBatch Unfilled(string name) => Batch(name).With(s => s with { Fill = null });
}
