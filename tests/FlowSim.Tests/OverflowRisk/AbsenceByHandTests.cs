using FlowSim.OverflowRisk;
using FsCheck;
using FsCheck.Xunit;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The absence of a few runs, counted by hand, and of many, moment by moment.</summary>
public class AbsenceByHandTests
{
    private static double[] Same(double seconds, int count) => [.. Enumerable.Repeat(seconds, count)];

    private static double[] Never(int count) => Same(double.PositiveInfinity, count);

    private static double[] EverySecond(int first, int count) => [.. Enumerable.Range(first, count).Select(i => (double)i)];

    /// <summary>
    /// At every moment just before a run leaves, of the n runs that are left the tolerance's share, or ten where that is more, may run over: the absence ends
    /// with the next one. The shortest counts, of moments with 20 runs left at least.
    /// </summary>
    [Property(MaxTest = 40)]
    public void The_absence_is_the_shortest_of_all_moments(DoNotSize<int> any)
    {
        var random = new Random(any.Item);
        int runs = random.Next(64, 140);
        double share = random.NextDouble(), tolerance = 0.05 + (0.45 * random.NextDouble());
        double[] end = [.. Enumerable.Range(0, runs).Select(_ => 1000 * random.NextDouble())];
        double[] over = [.. end.Select(seconds => random.NextDouble() < share ? seconds * random.NextDouble() : double.PositiveInfinity)];

        double fromTheStart = Late(over.Where(double.IsFinite), Chance.MostHits(runs, Math.Max(tolerance, 10.0 / runs)));
        double[] leaves = [.. over.Zip(end, Math.Min)];
        (double Absence, double At) shortest = (fromTheStart, 0);
        foreach (double at in leaves.Order())
        {
            int left = leaves.Count(leave => leave >= at);
            if (left < 20)
                break;
            double absence = Late(over.Where(seconds => seconds >= at && double.IsFinite(seconds)), (int)(left * Math.Max(tolerance, Math.Min(0.5, 10.0 / left)))) - at;
            if (absence < shortest.Absence)
                shortest = (absence, at);
        }

        AbsenceAdvice advice = AbsenceSearch.Of(over, end, tolerance);
        string seed = $"seed {any.Item}";
        Assert.True(Told(fromTheStart) == advice.FromTheStart?.Seconds, seed);
        Assert.True(Told(shortest.Absence) == advice.Longest?.Seconds, seed);
        Assert.True((double.IsFinite(shortest.Absence) ? shortest.At : null) == advice.WorstStart?.Seconds, seed);

        static double Late(IEnumerable<double> times, long allowed) => times.Order().Skip((int)allowed).Append(double.PositiveInfinity).First();

        static double? Told(double seconds) => double.IsFinite(seconds) ? seconds : null;
    }

    /// <summary>
    /// Twenty runs that run over each second: of 20 none can tell a finer chance than a half. From the start five may (the high end of five in 20 is 49 %),
    /// so the sixth ends the absence; just before the first, ten may, which is longer. With 19 left nothing is told.
    /// </summary>
    [Fact]
    public void Twenty_runs_tell_just_enough()
    {
        AbsenceAdvice advice = AbsenceSearch.Of(EverySecond(1, 20), Same(100, 20), 0.01);
        Assert.Equal((6.0, 6.0, 0.0), (advice.FromTheStart!.Value.Seconds, advice.Longest!.Value.Seconds, advice.WorstStart!.Value.Seconds));
    }

    /// <summary>Twenty that run over each second from 100 s on: just before the first, the eleventh is 10 s away; 19 are too few again.</summary>
    [Fact]
    public void A_moment_with_twenty_left_counts()
    {
        AbsenceAdvice advice = AbsenceSearch.Of(EverySecond(100, 20), Same(1000, 20), 0.01);
        Assert.Equal((105.0, 10.0, 100.0), (advice.FromTheStart!.Value.Seconds, advice.Longest!.Value.Seconds, advice.WorstStart!.Value.Seconds));
    }

    /// <summary>Thirty runs end at 50 s; of the other thirty, from then on, fifteen may run over, a second after one another from 51 s.</summary>
    [Fact]
    public void A_late_moment_is_worse_where_many_have_ended()
    {
        double[] over = [.. Never(30), .. EverySecond(51, 30)];
        double[] end = [.. Same(50, 30), .. Same(1000, 30)];
        AbsenceAdvice advice = AbsenceSearch.Of(over, end, 0.5);

        // Just before the first overflow, at 51 s: the sixteenth is 15 s later. Just before the tenth, 21 are left, of which ten may: it takes 10 s. Before the next it is no shorter.
        Assert.Equal((10.0, 60.0), (advice.Longest!.Value.Seconds, advice.WorstStart!.Value.Seconds));
    }

    /// <summary>Danger at the very moment has been; a run that ends at it is over.</summary>
    [Fact]
    public void What_happens_at_the_moment_itself_is_past()
    {
        // 19 to come and one in danger now: too few to tell, and less than half of all has been in danger.
        Assert.Equal(1, AbsenceSearch.From([10, .. EverySecond(11, 19)], Same(100, 20), 10, 0.5));

        // 20 to come: ten may, the eleventh is 11 s away.
        Assert.Equal(11, AbsenceSearch.From([10, .. EverySecond(11, 20)], Same(100, 21), 10, 0.5));

        // One of 20 ends now, so that 19 are left: the first of them counts.
        Assert.Equal(1, AbsenceSearch.From([.. Never(1), .. EverySecond(11, 19)], [10, .. Same(100, 19)], 10, 0.5));
    }

    [Fact]
    public void With_few_left_it_counts_whether_most_have_been_in_danger()
    {
        double[] ahead = EverySecond(17, 3), end = Same(100, 3);

        // Of 40 runs 20 have been, 17 are over: that is not most of them.
        Assert.Equal(7, AbsenceSearch.From([.. Same(5, 20), .. Never(17), .. ahead], [.. Same(100, 20), .. Same(8, 17), .. end], 10, 0.1));

        // 21 of 40 are.
        Assert.Equal(0, AbsenceSearch.From([.. Same(5, 21), .. Never(16), .. ahead], [.. Same(100, 21), .. Same(8, 16), .. end], 10, 0.1));

        // Nobody ahead: the rest is within any tolerance.
        Assert.Equal(double.PositiveInfinity, AbsenceSearch.From([.. Same(5, 20), .. Never(20)], Same(100, 40), 10, 0.1));
    }

    /// <summary>Of 100 at risk ten may and ten do; of 100 of which eleven do, the eleventh counts.</summary>
    [Fact]
    public void As_many_as_may_are_no_limit()
    {
        Assert.Equal(double.PositiveInfinity, AbsenceSearch.From([.. EverySecond(1, 10), .. Never(90)], Same(100, 100), 0, 0.1));
        Assert.Equal(11, AbsenceSearch.From([.. EverySecond(1, 11), .. Never(89)], Same(100, 100), 0, 0.1));
    }
}
