using BenchmarkDotNet.Attributes;
using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>A week of twelve vessels of three honeys, two people, a cabinet of four and two tanks.</summary>
[MemoryDiagnoser]
public class DayPlanBenchmarks
{
    private DayQuestion _four = null!;
    private DayQuestion _twelve = null!;

    /// <summary>Sets up the days.</summary>
    [GlobalSetup]
    public void Setup() => (_four, _twelve) = (Days(4), Days(12));

    /// <summary>Four vessels: planned and proven.</summary>
    [Benchmark(Baseline = true)]
    public DayPlan FourVessels() => DayPlan.Of(_four);

    /// <summary>Twelve vessels, by the default effort.</summary>
    [Benchmark]
    public DayPlan TwelveVessels() => DayPlan.Of(_twelve);

    /// <summary>The days that are measured.</summary>
    /// <param name="vessels">Number of vessels.</param>
    public static DayQuestion Days(int vessels) => new()
    {
        Batches = [.. Enumerable.Range(0, vessels).Select(i => new PlannedBatch
        {
            Name = FormattableString.Invariant($"vessel {i + 1}"),
            Honey = FormattableString.Invariant($"honey {i % 3}"),
            Steps = new PlannedSteps
            {
                Warm = Times(600 + 20 * i),
                Strain = Times(25 + 5 * (i % 5)),
                Stand = Times(120),
                Fill = Times(50 + 10 * (i % 4)),
            },
            Volume = Volume.FromLiters(20),
            Earliest = Duration.FromHours(-9),
        })],
        Places = [new WarmingPlace { Name = "cabinet", Vessels = 4 }],
        Strainers = [new PlannedStrainer("cone")],
        Tanks = [.. Enumerable.Range(1, 2).Select(i => new BottlingTank { Name = FormattableString.Invariant($"tank {i}"), Capacity = Volume.FromLiters(30) })],
        People = [Person("A", 7, 15.5), Person("B", 8.5, 17)],
    };

    private static Worker Person(string name, double from, double to) => new()
    {
        Name = name,
        Hours = [.. Enumerable.Range(-1, 6).SelectMany(day => new[]
        {
            new WorkSpan(Duration.FromHours((24 * day) + from), Duration.FromHours((24 * day) + 12)),
            new WorkSpan(Duration.FromHours((24 * day) + 12.5), Duration.FromHours((24 * day) + to)),
        })],
    };

    private static StepTimes Times(double likelyMin) => new(Duration.FromMinutes(likelyMin / 1.4), Duration.FromMinutes(likelyMin), Duration.FromMinutes(1.5 * likelyMin));
}
