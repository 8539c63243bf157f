using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Planning;

/// <summary>What the user should know about a plan, and the reminders that go with it.</summary>
internal static class PlanNotices
{
    private static readonly Caution s_unattendedHeat = new(
        "unattended-heat",
        "Heat that nobody watches needs a cut-out of its own, and wiring by a licensed hand. Look at it last thing before you leave.",
        Cautions.Trade);

    public static IReadOnlyList<Caution> CautionsFor(PlanProblem problem)
    {
        double heaviestKg = problem.Loads.SelectMany(load => load.Members).Max(member => member.Mass?.Kilograms ?? 0);
        return
        [
            Cautions.OpenGate,
            .. problem.Batches.Any(batch => batch.NeedsPlace) ? [s_unattendedHeat] : Array.Empty<Caution>(),
            .. Cautions.Lift(heaviestKg, "A vessel holds") is { } lift ? [lift] : Array.Empty<Caution>(),
            Cautions.Slip,
            Cautions.Infants,
            Cautions.LocalRules,
        ];
    }

    /// <summary>Notices of a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="busy">Batches that are to be put to warm while nobody has a free hand.</param>
    public static IReadOnlyList<Notice> For(DayPlan plan, IReadOnlyList<string> busy)
    {
        List<Notice> notices = [];
        if (plan.FinishSlow is null)
            notices.Add(new("slow-does-not-fit", "if every step goes slowly, this plan does not fit the hours", "the last batches would be left", "know beforehand which batch waits, or let somebody be able to stay"));
        string[] late = [.. plan.Ready.Where(ready => ready.Due is { } due && ready.At <= due && (ready.Slow is null || ready.Slow > due)).Select(ready => ready.Batch)];
        if (late.Length > 0)
            notices.Add(new("late-if-slow", $"{LoadConflicts.Quoted(late)}: in time as planned, late if every step goes slowly", "the time it is due has no reserve", "begin earlier, or agree on a later time"));
        if (busy.Count > 0)
            notices.Add(new("no-free-hand", $"{LoadConflicts.Quoted(busy)} {(busy.Count == 1 ? "is" : "are")} to be put to warm while everybody is at work at a gate or a tank", "an open gate must not be left for it", "put the vessel in place before, shut the gate for that moment, or use a timer"));
        if (!plan.IsProven && plan.NoSoonerThan is { } bound && plan.Finish is { } finish)
            notices.Add(new("not-proven", Invariant($"the search ended before it had seen every plan; none can be done more than {LoadConflicts.Text((int)(finish - bound).Minutes)} sooner"), "there may be a shorter one", "search longer if that matters"));
        string[] taken = [.. plan.Question.Batches.Where(batch => batch.Steps.Fill is null && plan.Ready.Any(ready => ready.Batch == batch.Name)).Select(batch => batch.Name)];
        if (taken.Length > 0)
            notices.Add(new("stays-in-tank", $"{LoadConflicts.Quoted(taken)} {(taken.Length == 1 ? "is" : "are")} not filled on this plan", "the bottling tank is taken from then on", "plan the filling too, or give another tank"));
        return notices;
    }
}
