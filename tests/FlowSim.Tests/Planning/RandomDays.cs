using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.Planning;

/// <summary>Invented days, from small ones in single minutes to whole weeks.</summary>
internal static class RandomDays
{
    /// <summary>A day of a few batches whose steps take a few minutes, small enough to try everything.</summary>
    public static DayQuestion Small(int seed, int batches)
    {
        Random random = new(seed);
        int people = random.Next(1, 3);
        int places = random.Next(1, 3);
        bool joins = random.Next(4) == 0;
        return new DayQuestion
        {
            Batches = [.. Enumerable.Range(0, batches).Select(b => SmallBatch(random, b, joins))],
            Places = [.. Enumerable.Range(0, places).Select(p => new WarmingPlace { Name = "P" + p, Vessels = random.Next(1, 3), HasTimer = random.Next(3) == 0, DrainedInPlace = random.Next(4) == 0 })],
            Strainers = [.. Enumerable.Range(0, random.Next(1, 3)).Select(s => new PlannedStrainer("S" + s))],
            Tanks = [.. Enumerable.Range(0, random.Next(1, 3)).Select(t => new BottlingTank { Name = "T" + t, Capacity = Volume.FromLiters(random.Next(20, 60)) })],
            People = [.. Enumerable.Range(0, people).Select(p => new Worker { Name = "A" + p, Hours = SmallHours(random) })],
            Open = random.Next(3) == 0 ? [Span(0, random.Next(12, 40))] : null,
            Cleaning = new Cleaning { Strainer = Min(random.Next(0, 3)), Tank = Min(random.Next(0, 3)), AtTheEnd = random.Next(2) == 0 },
            Effort = new PlanEffort { Breadth = 5, Proof = 5_000_000 },
        };
    }

    /// <summary>A working week of up to a dozen vessels.</summary>
    public static DayQuestion Large(int seed)
    {
        Random random = new(seed);
        return new DayQuestion
        {
            Batches = [.. Enumerable.Range(0, random.Next(1, 13)).Select(b => LargeBatch(random, b))],
            Places = [.. Enumerable.Range(0, random.Next(1, 4)).Select(p => new WarmingPlace { Name = "P" + p, Vessels = random.Next(1, 5), HasTimer = random.Next(2) == 0, DrainedInPlace = random.Next(4) == 0 })],
            Strainers = [.. Enumerable.Range(0, random.Next(1, 3)).Select(s => new PlannedStrainer("S" + s))],
            Tanks = [.. Enumerable.Range(0, random.Next(1, 4)).Select(t => new BottlingTank { Name = "T" + t, Capacity = Volume.FromLiters(random.Next(15, 100)), KeptFree = Volume.FromLiters(random.Next(0, 5)) })],
            People = [.. Enumerable.Range(0, random.Next(1, 4)).Select(p => new Worker { Name = "A" + p, Hours = LargeHours(random) })],
            Open = random.Next(3) == 0 ? [.. Enumerable.Range(-1, 7).Select(day => Span((day * 1440) + 420, (day * 1440) + 1080))] : null,
            Cleaning = new Cleaning { Strainer = Min(random.Next(0, 40)), Tank = Min(random.Next(0, 40)), AtTheEnd = random.Next(2) == 0 },
            Pace = (Pace)random.Next(3),
            Effort = new PlanEffort { Breadth = 10, Proof = 300 },
        };
    }

    private static PlannedBatch SmallBatch(Random random, int b, bool joins)
    {
        string honey = random.Next(2) == 0 ? "lime" : "heather";
        return new PlannedBatch
        {
            Name = "B" + b,
            Honey = honey,
            Steps = new PlannedSteps
            {
                Warm = random.Next(4) == 0 ? null : StepTimes.Exactly(Min(random.Next(1, 5))),
                Settle = random.Next(4) == 0 ? StepTimes.Exactly(Min(random.Next(1, 3))) : null,
                Strain = StepTimes.Exactly(Min(random.Next(1, 4))),
                Stand = random.Next(2) == 0 ? StepTimes.Exactly(Min(random.Next(1, 5))) : null,
                Fill = StepTimes.Exactly(Min(random.Next(1, 4))),
            },
            Volume = Volume.FromLiters(random.Next(10, 24)),
            Places = random.Next(3) == 0 ? ["P0"] : null,
            Setting = random.Next(3) switch { 0 => "35 °C", 1 => "45 °C", _ => null },
            Earliest = Min(random.Next(0, 4)),
            Due = random.Next(3) == 0 ? Min(random.Next(5, 20)) : null,
            LongestHold = Min(random.Next(0, 5)),
            Joined = joins ? honey : null,
        };
    }

    private static PlannedBatch LargeBatch(Random random, int b)
    {
        string honey = "honey " + random.Next(3);
        double longer = 1 + random.NextDouble();
        StepTimes Times(int low, int high)
        {
            double likely = random.Next(low, high) + random.NextDouble();
            return new(Duration.FromMinutes(likely / longer), Duration.FromMinutes(likely), Duration.FromMinutes(likely * longer));
        }

        return new PlannedBatch
        {
            Name = "B" + b,
            Honey = random.Next(5) == 0 ? null : honey,
            Steps = new PlannedSteps
            {
                Warm = random.Next(5) == 0 ? null : Times(60, 1500),
                Settle = random.Next(4) == 0 ? Times(60, 600) : null,
                Strain = Times(10, 150),
                Scrapes = random.Next(2) == 0 ? [Min(7), Min(30)] : [],
                Stand = random.Next(3) == 0 ? null : Times(30, 900),
                Fill = random.Next(8) == 0 ? null : Times(20, 300),
            },
            Volume = Volume.FromLiters(random.Next(10, 60)),
            Mass = Mass.FromKilograms(random.Next(10, 60)),
            Places = random.Next(4) == 0 ? ["P0"] : null,
            Setting = random.Next(3) switch { 0 => "35 °C", 1 => "45 °C", _ => null },
            Earliest = Min(random.Next(-1000, 1000)),
            Due = random.Next(3) == 0 ? Min(random.Next(600, 5000)) : null,
            LongestHold = Min(random.Next(0, 1000)),
        };
    }

    private static IReadOnlyList<WorkSpan> SmallHours(Random random)
    {
        int from = random.Next(0, 4);
        int to = from + random.Next(4, 9);
        int again = to + random.Next(1, 4);
        return [Span(from, to), Span(again, again + random.Next(5, 10))];
    }

    private static IReadOnlyList<WorkSpan> LargeHours(Random random)
    {
        int begin = random.Next(6 * 60, 10 * 60);
        int lunch = random.Next(11 * 60, 13 * 60);
        int end = random.Next(15 * 60, 20 * 60);
        return [.. Enumerable.Range(-1, random.Next(2, 6)).SelectMany(day => new[] { Span((day * 1440) + begin, (day * 1440) + lunch), Span((day * 1440) + lunch + 30, (day * 1440) + end) })];
    }

    private static WorkSpan Span(int from, int to) => new(Min(from), Min(to));

    private static Duration Min(int minutes) => Duration.FromMinutes(minutes);
}
