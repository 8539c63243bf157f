using static System.FormattableString;

namespace FlowSim.Planning;

/// <summary>Why batches cannot be planned, in words.</summary>
internal static class LoadConflicts
{
    private static readonly PlanEffort s_brief = new() { Breadth = 20, Proof = 2000 };

    /// <summary>Why a load could not be done on this day even if it were the only one; null when it could.</summary>
    /// <param name="problem">All loads.</param>
    /// <param name="load">The load.</param>
    /// <param name="cancellation">Ends early.</param>
    public static PlanConflict? Of(PlanProblem problem, LoadNumbers load, CancellationToken cancellation)
    {
        string[] names = [.. load.Members.Select(member => member.Name)];
        string who = Quoted(names);
        BatchNumbers[] batches = [.. problem.Batches.Where(batch => batch.Load == load.Index)];
        DayQuestion question = problem.Question;
        int longest = problem.Hours.Max(hours => hours.Longest);
        if (longest == 0)
            return new("nobody-there", names, $"{who} cannot be planned", "nobody is there while the house is open", "Give people hours within those of the house.");
        if (!Enumerable.Range(0, problem.Tanks).Any(tank => problem.TankTakes(tank, load.Index)))
        {
            double most = question.Tanks.Max(tank => tank.Capacity.Liters - tank.KeptFree.Liters);
            return new("tank-too-small", names, $"{who} cannot be strained", Invariant($"it gives {load.VolumeL:0.#} L, and no bottling tank takes more than {most:0.#} L"), names.Length > 1 ? "Join fewer vessels, or take a larger tank." : "Take a larger tank, or split the batch.");
        }

        if (batches.Any(batch => batch.NeedsPlace) && problem.SpotPlaces.Length == 0)
            return new("no-warming-place", names, $"{who} cannot be warmed", "there is no warming place", "Give a warming place, or leave the warming out if the honey is warm.");
        int strain = batches.Max(batch => batch.Strain);
        if (strain > longest)
            return new("straining-too-long", names, $"{who} cannot be strained", $"straining takes {Text(strain)} with somebody at the gate, and nobody is there longer than {Text(longest)} in one go", "Open the gate further, strain warmer honey or through a larger cloth, split the vessel, or stay longer.");
        int cleaning = Math.Max(problem.CleanStrainer, problem.CleanTank);
        if (question.Cleaning.AtTheEnd && cleaning > longest)
            return new("cleaning-too-long", names, $"{who} cannot be planned", $"cleaning takes {Text(cleaning)}, and nobody is there longer than {Text(longest)} in one go", "Stay longer, or plan the cleaning as shorter pieces.");

        PlanSearch alone = PlanSearch.Of(new PlanProblem(question, problem.Question.Pace, [load.Index]), s_brief, cancellation);
        if (alone.Best is not null || !alone.IsProven)
            return null;
        return WithAnyHold(question, load, cancellation)
            ? new("hold-too-short", names, $"{who} cannot be planned", "it would be kept warm for longer than is allowed before anybody can strain it", "Allow a longer hold, take a warming place with a timer, or let somebody be there earlier.")
            : new("hours-too-short", names, $"{who} cannot be planned", "even alone it is not warmed, strained, filled and cleaned up within the hours given", "Begin earlier (the evening before), plan another day too, or let somebody stay longer.");
    }

    /// <summary>What is said of a load left out for want of time.</summary>
    /// <param name="problem">All loads.</param>
    /// <param name="load">The load left out.</param>
    /// <param name="others">Loads that remain.</param>
    /// <param name="known">Whether it is certain that they do not go together.</param>
    public static PlanConflict TooMuch(PlanProblem problem, LoadNumbers load, int others, bool known)
    {
        string[] names = [.. load.Members.Select(member => member.Name)];
        int work = problem.Batches.Sum(batch => batch.Strain) + problem.Loads.Sum(one => one.Fill);
        int hours = problem.Hours.Sum(grid => grid.Before(HourGrid.Never));
        string why = known ? "all together do not fit the hours and the kit" : "no way was found to fit all together into the hours and the kit";
        return new(
            "too-much",
            names,
            $"{Quoted(names)} {(load.Members.Length > 1 ? "are" : "is")} left out",
            Invariant($"{why} ({Text(work)} of straining and filling, {Text(hours)} of people's time; {others} other {(others == 1 ? "load remains" : "loads remain")})"),
            "Plan it for another day, let somebody stay longer or come too, or give another strainer, tank or warming place.");
    }

    /// <summary>What is said of a load that is ready too late.</summary>
    /// <param name="load">The load.</param>
    /// <param name="ready">When it is ready, min.</param>
    public static PlanConflict Late(LoadNumbers load, int ready)
    {
        string[] names = [.. load.Members.Select(member => member.Name)];
        return new("late", names, $"{Quoted(names)} {(names.Length > 1 ? "are" : "is")} ready {Text(ready - load.Due)} too late", "no plan was found that has it ready when it is due", "Begin its warming earlier, let somebody come earlier, plan fewer batches before it, or agree on a later time.");
    }

    /// <summary>Minutes for people.</summary>
    public static string Text(int minutes) => minutes < 60 ? Invariant($"{minutes} min") : minutes % 60 == 0 ? Invariant($"{minutes / 60} h") : Invariant($"{minutes / 60} h {minutes % 60:00} min");

    public static string Quoted(IEnumerable<string> names) => string.Join(" and ", names.Select(name => $"\"{name}\""));

    private static bool WithAnyHold(DayQuestion question, LoadNumbers load, CancellationToken cancellation)
    {
        DayQuestion free = question with { Batches = [.. load.Members.Select(member => member with { LongestHold = UnitsNet.Duration.FromHours(DayQuestionCheck.FurthestHours) })] };
        return PlanSearch.Of(new PlanProblem(free, question.Pace), s_brief, cancellation).Best is not null;
    }
}
