using FlowSim.Planning;
using FsCheck;
using FsCheck.Xunit;

namespace FlowSim.Tests.Planning;

/// <summary>Plans keep every rule, and small ones are the best there are.</summary>
public class DayPlanTests
{
    [Property(MaxTest = 500)]
    public void No_rule_is_broken(DoNotSize<int> any)
    {
        int seed = any.Item;
        new DayPlanRules(DayPlan.Of(RandomDays.Large(seed)), $"seed {seed}").Check();
    }

    [Property(MaxTest = 100)]
    public void A_day_of_two_batches_is_as_good_as_trying_everything_finds(DoNotSize<int> any) => IsTheBest(any.Item, 2);

    [Property(MaxTest = 25)]
    public void A_day_of_three_batches_is_as_good_as_trying_everything_finds(DoNotSize<int> any) => IsTheBest(any.Item, 3);

    [Property(MaxTest = 4)]
    public void A_day_of_four_batches_is_as_good_as_trying_everything_finds(DoNotSize<int> any) => IsTheBest(any.Item, 4);

    private static void IsTheBest(int seed, int batches)
    {
        DayQuestion day = RandomDays.Small(seed, batches);
        DayPlan plan = DayPlan.Of(day);
        new DayPlanRules(plan, $"seed {seed}").Check();
        bool all = plan.Ready.Count == day.Batches.Count;
        (int Late, int Finish)? best = TriedDays.Best(day);
        Assert.True(all == best is not null, $"seed {seed}: planned {all}, tried {best}, {string.Join("; ", plan.Conflicts)}");
        if (best is not { } tried)
            return;

        int late = plan.Ready.DistinctBy(r => day.Batches.Single(b => b.Name == r.Batch).Joined ?? r.Batch)
            .Sum(r => (int)Math.Max(0, Math.Round(r.At.Minutes - Due(day, r.Batch))));
        Assert.True(plan.IsProven, $"seed {seed}: not proven");
        Assert.True((late, (int)Math.Round(plan.Finish!.Value.Minutes)) == tried, $"seed {seed}: {late} late, done at {plan.Finish.Value.Minutes}, but {tried} is possible");
    }

    private static double Due(DayQuestion day, string name)
    {
        PlannedBatch batch = day.Batches.Single(b => b.Name == name);
        return day.Batches.Where(b => b == batch || (b.Joined is not null && b.Joined == batch.Joined)).Min(b => b.Due?.Minutes ?? double.PositiveInfinity);
    }
}
