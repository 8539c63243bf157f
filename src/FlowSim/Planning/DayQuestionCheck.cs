using FlowSim.WholeJob;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Planning;

/// <summary>Checks a question once, at the edge. What cannot be done with the kit there is no fault of the question but a conflict of the plan.</summary>
internal static class DayQuestionCheck
{
    /// <summary>Furthest that a moment may lie from the day's midnight, h.</summary>
    public const double FurthestHours = 14 * 24;

    private const int MostBatches = 40;
    private const int MostOfAKind = 20;

    /// <summary>Throws when something is out of its range.</summary>
    /// <param name="question">Question to check.</param>
    public static void Require(DayQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        EquipmentCheck.Defined(question.Pace, nameof(DayQuestion.Pace));
        PlanEffort effort = EquipmentCheck.Present(question.Effort, nameof(DayQuestion.Effort));
        EquipmentCheck.Within(effort.Breadth, 1, 10_000, "", nameof(PlanEffort.Breadth));
        EquipmentCheck.Within(effort.Proof, 0, 100e6, "", nameof(PlanEffort.Proof));
        Cleaning cleaning = EquipmentCheck.Present(question.Cleaning, nameof(DayQuestion.Cleaning));
        EquipmentCheck.Within(cleaning.Strainer.Hours, 0, 24, "h", "Cleaning.Strainer");
        EquipmentCheck.Within(cleaning.Tank.Hours, 0, 24, "h", "Cleaning.Tank");

        Names(question.Places, 0, place => place.Name, nameof(DayQuestion.Places));
        Names(question.Strainers, 1, strainer => strainer.Name, nameof(DayQuestion.Strainers));
        Names(question.Tanks, 1, tank => tank.Name, nameof(DayQuestion.Tanks));
        Names(question.People, 1, person => person.Name, nameof(DayQuestion.People));
        Names(question.Batches, 1, batch => batch.Name, nameof(DayQuestion.Batches), MostBatches);
        foreach (WarmingPlace place in question.Places)
            EquipmentCheck.Within(place.Vessels, 1, 100, "", "Place.Vessels");
        foreach (BottlingTank tank in question.Tanks)
        {
            EquipmentCheck.Within(tank.Capacity.Liters, 0.1, 100e3, "L", "Tank.Capacity");
            EquipmentCheck.Within(tank.KeptFree.Liters, 0, tank.Capacity.Liters, "L", "Tank.KeptFree");
        }

        foreach (Worker person in question.People)
            Spans(person.Hours, "Worker.Hours", person.Name);
        if (question.Open is { } open)
            Spans(open, nameof(DayQuestion.Open), "the house");
        foreach (PlannedBatch batch in question.Batches)
            Batch(batch, question);
        Joined(question);
    }

    private static void Batch(PlannedBatch batch, DayQuestion question)
    {
        PlannedSteps steps = EquipmentCheck.Present(batch.Steps, "Batch.Steps");
        EquipmentCheck.Present(steps.Strain, "Steps.Strain");
        Times(steps.Warm, "Steps.Warm");
        Times(steps.Settle, "Steps.Settle");
        Times(steps.Strain, "Steps.Strain");
        Times(steps.Stand, "Steps.Stand");
        Times(steps.Fill, "Steps.Fill");
        foreach (Duration scrape in EquipmentCheck.Present(steps.Scrapes, "Steps.Scrapes"))
            EquipmentCheck.Within(scrape.Hours, 0, FurthestHours, "h", "Steps.Scrapes");
        EquipmentCheck.Within(batch.Volume.Liters, 0.01, 100e3, "L", "Batch.Volume");
        Moment(batch.Earliest, "Batch.Earliest");
        if (batch.Due is { } due)
            Moment(due, "Batch.Due");
        EquipmentCheck.Within(batch.LongestHold.Hours, 0, FurthestHours, "h", "Batch.LongestHold");
        foreach (string place in batch.Places ?? [])
            NamedChoice.ByName(question.Places.Count > 0 ? question.Places : throw Refused("Batch.Places", Invariant($"'{batch.Name}' is to be warmed in '{place}', but there is no warming place.")), p => p.Name, place, "warming place");
    }

    private static void Joined(DayQuestion question)
    {
        foreach (IGrouping<string, PlannedBatch> together in question.Batches.Where(b => b.Joined is not null).GroupBy(b => b.Joined!, StringComparer.Ordinal))
        {
            if (together.Count() > 1 && (together.Any(b => b.Honey is null) || together.Select(b => b.Honey).Distinct(StringComparer.Ordinal).Count() > 1))
                throw Refused("Batch.Joined", $"Batches joined as '{together.Key}' must be of the same honey, and say which.");
            if (together.Select(b => b.Steps.Fill is null).Distinct().Count() > 1)
                throw Refused("Batch.Joined", $"Of the batches joined as '{together.Key}' all must be filled, or none.");
        }
    }

    private static void Times(StepTimes? times, string name)
    {
        if (times is null)
            return;
        EquipmentCheck.Within(times.Quick.Minutes, 1, FurthestHours * 60, "min", name);
        EquipmentCheck.Within(times.Likely.Minutes, times.Quick.Minutes, FurthestHours * 60, "min", name);
        EquipmentCheck.Within(times.Slow.Minutes, times.Likely.Minutes, FurthestHours * 60, "min", name);
    }

    private static void Moment(Duration moment, string name) => EquipmentCheck.Within(moment.Hours, -FurthestHours, FurthestHours, "h", name);

    private static void Spans(IReadOnlyList<WorkSpan> spans, string name, string whose)
    {
        EquipmentCheck.Within(EquipmentCheck.Present(spans, name).Count, 1, 100, "", name);
        Duration? before = null;
        foreach (WorkSpan span in spans)
        {
            Moment(EquipmentCheck.Present(span, name).From, name);
            Moment(span.To, name);
            if (span.To <= span.From || span.From < before)
                throw Refused(name, Invariant($"The hours of {whose} must follow each other, each ending after its begin."));
            before = span.To;
        }
    }

    private static void Names<T>(IReadOnlyList<T> all, int least, Func<T, string> nameOf, string name, int most = MostOfAKind)
        where T : class
    {
        EquipmentCheck.Within(EquipmentCheck.Present(all, name).Count, least, most, "", name);
        HashSet<string> seen = new(StringComparer.OrdinalIgnoreCase);
        foreach (T one in all)
        {
            string called = EquipmentCheck.Present(nameOf(EquipmentCheck.Present(one, name)), name);
            if (string.IsNullOrWhiteSpace(called))
                throw Refused(name, "Each needs a name.");
            if (!seen.Add(called))
                throw Refused(name, $"Two are called '{called}'; each needs a name of its own.");
        }
    }

    private static ArgumentException Refused(string name, string message) => EquipmentCheck.Refused(name, message);
}
