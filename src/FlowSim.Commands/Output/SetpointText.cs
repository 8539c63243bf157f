using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.HeatDamage;
using FlowSim.Setpoints;

namespace FlowSim.Commands.Output;

/// <summary>The answer to a search for a setpoint as text: the curve, the damage, assumptions, notices, cautions, and last the choice with what to do next.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class SetpointText(IPage page, Display display)
{
    /// <summary>Most rows of the curve that a screen has room for.</summary>
    private const int MostRows = 12;

    public void Write(SetpointStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the answer.</summary>
    /// <param name="story">Answer.</param>
    public void WriteDetails(SetpointStory story)
    {
        SetpointAnswer answer = story.Answer;
        page.Heading(Printable.Of(story.Name, 70), PagePart.Setup);
        new WarmingSetupText(page, display).Write(answer.Question.Warming, answer.Choice?.Warming?.HoneyPerVessel, setpointIsFound: true);
        WriteLimits(answer.Question.Limits);
        WriteCurve(answer);
        LimitCheck? check = (answer.Choice ?? answer.NearestMiss?.Plan)?.HeatCheck;
        DamageText.WriteLimit(page, answer.Question.Limits.Heat, check, Keys.Heat.Hmf + " and " + Keys.Heat.Diastase);
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, story.Notices);
        ResultText.WriteCautions(page, display, answer.Cautions);
    }

    /// <summary>The answer and what to do next, alone.</summary>
    /// <param name="story">Answer.</param>
    public void WriteOutcome(SetpointStory story)
    {
        SetpointAnswer answer = story.Answer;
        page.Heading("Result", PagePart.Result);
        if (answer.Choice is { } choice)
            WriteChoice(answer, choice);
        else
            WriteNone(answer);
        if (story.Limits.CeilingIsGiven)
            page.Item("", $"The ceiling is {display.Temperature(answer.Question.Limits.Ceiling.Kelvins)}, as you set it; without that it is {display.Temperature(SetpointLimits.DefaultCeiling.Kelvins)}.");
        ResultText.WriteNextSteps(page, NextSteps(story));
    }

    private void WriteChoice(SetpointAnswer answer, SetpointPlan choice)
    {
        page.Outcome($"SET {(HasSteps(answer) ? "THE LAST STEP" : "THE HEAT")} AT {display.Temperature(choice.Setpoint.Kelvins)}: warm {Display.Time(choice.WarmTime.Seconds)}{(answer.Bounds is { } bounds ? BoundsText.Of(bounds) : string.Empty)} until the mean is at {display.Temperature(choice.StrainAt.Kelvins)}, then strain {Display.Time(choice.StrainTime.Seconds)}; {Display.Time(choice.Total.Seconds)} in all.", bad: false);
        page.Item("", Binding(answer));
        if (answer.RunnerUp is { } second)
            page.Item("", $"Next best: {PlanSentence(second)}, {Later(second.Total.Seconds - choice.Total.Seconds)}.");
        page.Item("", $"Heat adds HMF {DamageText.Hmf(choice.Damage)} and leaves {DamageText.Diastase(choice.Damage)} of the diastase. {DamageText.DaysSentence(choice.Damage, display)}");
        if (choice.HeatCheck is { } check)
            page.Item("", check.Text);
        page.Item("", $"The honey gets to {display.Temperature(choice.HottestHoney.Kelvins)} at the hottest, the wall to {display.Temperature(choice.HottestWall.Kelvins)}. The heater gives {Display.Energy(choice.Heater.Joules)}.");
    }

    private void WriteNone(SetpointAnswer answer)
    {
        page.Outcome("NO SETPOINT MEETS THESE LIMITS.", bad: true);
        if (answer.NearestMiss is not { } miss)
        {
            page.Item("", "No plan comes near: the honey never gets warm enough to strain.");
            return;
        }

        page.Item("", $"Nearest: {PlanSentence(miss.Plan)}.");
        foreach ((PlanLimit limit, string byHowMuch) in miss.Misses)
            page.Item("- ", $"{Capital(PlanLimitText.Of(limit, answer.Question.Limits, display))}: {display.Words(byHowMuch)}");
    }

    private string Binding(SetpointAnswer answer)
    {
        string binds = answer.BindingLimit is { } limit
            ? $"What stands in the way of less time: {PlanLimitText.Of(limit, answer.Question.Limits, display)}."
            : "No limit stands in the way of less time.";
        return answer.TimeADegreeBuys is not { } buys ? binds
            : Math.Abs(buys.Seconds) < 30 ? binds + " One degree more would save nothing."
            : $"{binds} One degree more would {(buys.Seconds > 0 ? "save" : "cost")} {Display.RoughTime(Math.Abs(buys.Seconds))}{(display.System == UnitChoice.Us ? " (a degree Celsius)" : string.Empty)}.";
    }

    private string PlanSentence(SetpointPlan plan) =>
        $"{display.Temperature(plan.Setpoint.Kelvins)}, {Display.Time(plan.WarmTime.Seconds)} of warming to a mean of {display.Temperature(plan.StrainAt.Kelvins)}, {(plan.Opening > UnitsNet.Ratio.Zero ? $"{Display.Time(plan.StrainTime.Seconds)} of straining; {Display.Time(plan.Total.Seconds)} in all" : "where it cannot be strained")}";

    private static string Later(double seconds) => Math.Abs(seconds) < 30
        ? "as soon"
        : $"{Display.RoughTime(Math.Abs(seconds))} {(seconds > 0 ? "later" : "sooner")}";

    private void WriteLimits(SetpointLimits limits)
    {
        IEnumerable<PlanLimit> shown = Enum.GetValues<PlanLimit>().Where(limit => limit switch
        {
            PlanLimit.Hmf => limits.Heat.HmfAtMost is not null,
            PlanLimit.Diastase => limits.Heat.DiastaseAtLeast is not null,
            PlanLimit.Burn => limits.WarmestForHands is not null,
            PlanLimit.StrainingTime => limits.LongestStraining is not null,
            _ => true,
        });
        page.Pair("Within", string.Join("; ", shown.Select(limit => PlanLimitText.Of(limit, limits, display))), 22);
        page.Blank();
    }

    private void WriteCurve(SetpointAnswer answer)
    {
        if (answer.Curve.Count == 0)
            return;
        string unit = display.TemperatureUnit;
        TextTable table = new(
            $"Setpoints that were tried, with what each would bring; temperatures in {unit}, HMF in mg/kg",
            new("set, " + unit, 8), Right("strain", 7, "strain at"), Right("gate", 6), Right("warm", 12, "warm for"), Right("strain", 12, "strain for"), Right("in all", 12), Right("HMF +", 7), new("breaks") { Gap = 2, Spoken = "limit it breaks" });
        foreach (CurvePoint point in Shown(answer))
        {
            string set = display.TemperatureInColumn(point.Setpoint.Kelvins);
            table.Row(new TextRow(
                point.Plan is { } plan
                ?
                [
                    set,
                    display.TemperatureInColumn(plan.StrainAt.Kelvins),
                    Display.Share(Math.Round(plan.Opening.DecimalFractions, 2)),
                    Display.Time(plan.WarmTime.Seconds),
                    plan.Opening > UnitsNet.Ratio.Zero ? Display.Time(plan.StrainTime.Seconds) : "-",
                    plan.Opening > UnitsNet.Ratio.Zero ? Display.Time(plan.Total.Seconds) : "-",
                    Display.Hmf(plan.Damage.HmfGain.MilligramsPerKilogram),
                    point.Allowed ? string.Empty : string.Join(", ", point.Broken.Take(1).Select(PlanLimitText.Short)) + (point.Broken.Count > 1 ? ", …" : string.Empty),
                ]
                : [set, "never warm enough to strain"],
                Chosen: IsAt(point, answer.Choice)));
        }

        page.Table(table);
        page.Blank();

        static TextColumn Right(string head, int width, string? spoken = null) => new(head, width, Right: true) { Spoken = spoken };
    }

    /// <summary>Rows for a screen: the choice, the runner-up, the ends, and others evenly between.</summary>
    private static IEnumerable<CurvePoint> Shown(SetpointAnswer answer)
    {
        IReadOnlyList<CurvePoint> curve = answer.Curve;
        if (curve.Count <= MostRows)
            return curve;
        HashSet<int> rows = [0, curve.Count - 1];
        for (int i = 0; i < curve.Count; i++)
        {
            if (IsAt(curve[i], answer.Choice) || IsAt(curve[i], answer.RunnerUp) || IsAt(curve[i], answer.NearestMiss?.Plan))
                rows.Add(i);
        }

        // Whole degrees first, in ever finer steps, until the screen is full.
        int[] whole = [.. Enumerable.Range(0, curve.Count).Where(i => Math.Abs(curve[i].Setpoint.DegreesCelsius - Math.Round(curve[i].Setpoint.DegreesCelsius)) < 1e-6)];
        foreach (int step in new[] { 10, 5, 2, 1 })
        {
            foreach (int i in whole.Where(i => (int)Math.Round(curve[i].Setpoint.DegreesCelsius) % step == 0))
            {
                if (rows.Count < MostRows)
                    rows.Add(i);
            }
        }

        return rows.Order().Select(i => curve[i]);
    }

    private static bool HasSteps(SetpointAnswer answer) => answer.Question.Warming.Heating.Thermostat.Schedule.Count > 1;

    private static bool IsAt(CurvePoint point, SetpointPlan? plan) =>
        plan is not null && Math.Abs(point.Setpoint.Kelvins - plan.Setpoint.Kelvins) < 1e-6;

    private List<string> NextSteps(SetpointStory story)
    {
        SetpointAnswer answer = story.Answer;
        List<string> steps = [];
        if (answer.Choice is { } choice)
        {
            steps.Add($"Set the thermostat{(HasSteps(answer) ? "'s last step" : string.Empty)} at {display.Temperature(choice.Setpoint.Kelvins)}. After about {Display.RoughTime(choice.WarmTime.Seconds)} stir and measure: at {display.Temperature(choice.StrainAt.Kelvins)} begin to strain.");
            string opening = $"Open the gate to at most {OpeningOf(choice)}";
            steps.Add(story.Limits.OverflowTolerance is { } tolerance
                ? $"{opening}: up to there the chance of an overflow is within the {ChanceText.Percent(tolerance.DecimalFractions)} you set, for spreads as they were given or are common."
                : $"{opening}, and rather less: at that opening the pond just reaches the rim if every figure is exact.");
            if (answer.BindingLimit is PlanLimit.Ceiling)
                steps.Add($"To be sooner, look at kit before you look at heat: a fan, a smaller vessel. The ceiling moves only if you set {Keys.Limits.Ceiling}.");
            if (answer.Notices.FirstOrDefault(notice => string.Equals(notice.Code, "setpoint.colder-is-sooner", StringComparison.Ordinal)) is { } colder)
                steps.Add($"Or strain colder: {display.Words(colder.Seen)}. Coldest straining is {Keys.Limits.ColdestStraining}.");
            return steps;
        }

        if (answer.NearestMiss is { } miss)
        {
            string keys = string.Join(", ", miss.Misses.Select(entry => PlanLimitText.Key(entry.Limit, answer.Question.Limits)).Distinct(StringComparer.Ordinal));
            steps.Add($"Decide which limit may give way, or change the kit: {keys}.");
        }

        steps.Add("A fan, a smaller vessel, a lower level or a longer time make more setpoints possible.");
        return steps;
    }

    /// <summary>The opening of a plan, never wider than it is.</summary>
    /// <param name="plan">Plan.</param>
    public static string OpeningOf(SetpointPlan plan) => Display.Share(Math.Floor(plan.Opening.Percent) / 100);

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpper(text[0], CultureInfo.InvariantCulture) + text[1..];
}
