using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.HeatDamage;
using FlowSim.Warming;

namespace FlowSim.Commands.Output;

/// <summary>A warming run as text: setup, temperatures, times, energy, damage, assumptions, notices, cautions, and last the result with what to do next.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class WarmingText(IPage page, Display display)
{
    private const int ValueColumn = 22;
    private const int TableRows = 5;

    public void Write(WarmStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the result.</summary>
    /// <param name="story">Run.</param>
    public void WriteDetails(WarmStory story)
    {
        page.Heading(Printable.Of(story.Name, 70), PagePart.Setup);
        new WarmingSetupText(page, display).Write(story.Result.Setup, story.Result.HoneyPerVessel);
        page.Blank();
        WriteTemperatures(story.Result);
        WriteTimes(story.Bounds);
        WriteEnergy(story.Result);
        WriteDamage(story.Result);
        DamageText.WriteLimit(page, story.Limits.Limits.Heat, story.Check, Keys.Heat.Hmf + " and " + Keys.Heat.Diastase);
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, story.Notices);
        ResultText.WriteCautions(page, display, story.Result.Cautions);
    }

    /// <summary>The result and what to do next, alone.</summary>
    /// <param name="story">Run.</param>
    public void WriteOutcome(WarmStory story)
    {
        WarmingResult result = story.Result;
        page.Heading("Result", PagePart.Result);
        page.Outcome(Outcome(story.Bounds), result.Status != WarmingStatus.Reached);
        if (story.Spread is { } spread && SpreadSentence(spread, result) is { } sentence)
            page.Item("", sentence);
        page.Item("", $"{(result.Status == WarmingStatus.Reached ? "Then" : "At the end")} {Spread(result)}");
        page.Item("", $"{WallSentence(result)} {EnergySentence(result)}");
        page.Item("", $"Heat adds HMF {DamageText.Hmf(result.Damage)} and leaves {DamageText.Diastase(result.Damage)} of the diastase. {DamageText.DaysSentence(result.Damage, display)}");
        if (story.Check is { } check)
            page.Item("", check.Text);
        if (story.Limits.CeilingIsGiven)
            page.Item("", CeilingText(story.Limits.Limits.Ceiling));
        ResultText.WriteNextSteps(page, story.NextSteps);
    }

    /// <summary>A ceiling that somebody set is said, with the one it replaces.</summary>
    /// <param name="ceiling">Ceiling.</param>
    private string CeilingText(UnitsNet.Temperature ceiling) =>
        $"The ceiling is {display.Temperature(ceiling.Kelvins)}, as you set it; without that it is {display.Temperature(Setpoints.SetpointLimits.DefaultCeiling.Kelvins)}.";

    private string? SpreadSentence(WarmingSpread spread, WarmingResult result)
    {
        const string If = "If heat passes films and honey as differently as published figures do: ";
        if (result.Setup.Targets.Count == 0 || result.Status is WarmingStatus.CutOut or WarmingStatus.Overheated)
            return null;
        return spread.TimeToTarget switch
        {
            ({ } low, { } high) => $"{If}{Display.RoughTime(low.Seconds)} to {Display.RoughTime(high.Seconds)}.",
            ({ } low, null) => $"{If}{Display.RoughTime(low.Seconds)} at best, in some cases not at all.",
            _ => $"{If}reached in no case, the mean then at {display.TemperatureNumber(spread.EndMean.Low.Kelvins)} to {display.Temperature(spread.EndMean.High.Kelvins)}.",
        };
    }

    private string WallSentence(WarmingResult result)
    {
        string wall = $"The wall gets to {display.Temperature(result.HottestWall.Temperature.Kelvins)} where it touches honey";
        if (result.Setup.Targets.Any(TargetText.IsCooling))
            return wall + ".";
        return result.WallAboveProbe.Kelvins > 0.05
            ? $"{wall}, up to {display.TemperatureDifference(result.WallAboveProbe.Kelvins)} hotter than the probe shows."
            : wall + ", never hotter than the probe shows.";
    }

    private static string EnergySentence(WarmingResult result)
    {
        double joule = result.Energy.Heater.Joules;
        return joule < 0 ? $"The cooling takes out {Display.Energy(-joule)}{PerVessel(result)}." : $"The heater gives {Display.Energy(joule)}{PerVessel(result)}.";
    }

    private static string PerVessel(WarmingResult result) =>
        result.Setup.Vessels == 1 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" for all {result.Setup.Vessels}");

    private string Spread(WarmingResult result)
    {
        string place = Place(result);
        string crystals = result.Setup.Crystals is null ? string.Empty
            : result.CrystalsLeft.DecimalFractions > 0 ? $" Crystals left: {Display.Share(result.CrystalsLeft.DecimalFractions)} of the honey." : " No crystals are left.";
        return $"the coldest honey is at {display.Temperature(result.End.Coldest.Kelvins)} ({place}), the mean at {display.Temperature(result.End.Mean.Kelvins)}, {Display.Viscosity(result.Viscosity.PascalSeconds)}, the hottest at {display.Temperature(result.End.Hottest.Kelvins)}.{crystals}";
    }

    private string Place(WarmingResult result)
    {
        double heightM = result.ColdestPlace.Height.Meters;
        double radiusM = result.ColdestPlace.Radius.Meters;
        string height = heightM < 0.01 ? "at the floor" : $"{display.Length(heightM)} above the floor";
        return radiusM < 0.01 ? "on the axis, " + height : $"{display.Length(radiusM)} from the axis, {height}";
    }

    private string Outcome(WarmingBounds bounds)
    {
        WarmingResult result = bounds.Best;
        IReadOnlyList<WarmingTarget> targets = result.Setup.Targets;
        string reached = string.Join(" and ", targets.Select(target => TargetText.Reached(target, display)));
        string missed = string.Join(" and ", targets.Where((_, i) => result.TargetTimes[i] is null).Select(target => TargetText.Of(target, display)));
        string end = Display.Time(result.Elapsed.Seconds);
        return result.Status switch
        {
            WarmingStatus.Reached when targets is [ViscosityAtLeast thick] => $"WORKABLE for {Display.RoughTime(result.TimeToTarget!.Value.Seconds)}{BoundsText.Of(bounds)}: then the honey is as thick as {Display.Viscosity(thick.Viscosity.PascalSeconds)} at its mean temperature.",
            WarmingStatus.Reached => $"REACHED: {reached} after {Display.RoughTime(result.TimeToTarget!.Value.Seconds)}{BoundsText.Of(bounds)}.",
            WarmingStatus.CutOut => $"CUT OUT: the cut-out takes the heater off after {Display.Time(result.CutOutAt!.Value.Seconds)}; not reached: {missed}.",
            WarmingStatus.Overheated => $"TOO HOT: something is at {display.Temperature(150 + 273.15)} after {end}, and the run ends there.",
            _ when targets.Count == 0 => $"DONE after {end}, the longest time asked for; there was no target.",
            _ => $"NOT REACHED within {end}, the longest time asked for: {missed}.",
        };
    }

    private void WriteTemperatures(WarmingResult result)
    {
        WarmingSeries series = result.Series;
        int count = series.TimeS.Count;
        if (count < 2)
            return;
        string body = HeatingReader.BodyOf(result.Setup.Heating);
        bool probes = result.Setup.Heating.Thermostat is { Sensor: not SensorPlace.Body } or { Lag.Seconds: > 0 };
        TextTable table = new(
            $"Temperatures over time, {display.TemperatureUnit}",
            [new("after, " + display.TemperatureUnit, ValueColumn - 4), .. Existing("coldest", "mean", "wall", body, probes ? "probe" : null, "heater").Select(head => new TextColumn(head, 10, Right: true))]);
        int rows = Math.Min(TableRows, count);
        for (int i = 0; i < rows; i++)
        {
            int row = (int)Math.Round(i * (count - 1) / (double)(rows - 1));
            table.Row(Existing(
                Display.Time(series.TimeS[row]),
                display.TemperatureInColumn(series.ColdestK[row]),
                display.TemperatureInColumn(series.MeanK[row]),
                display.TemperatureInColumn(series.WallK[row]),
                display.TemperatureInColumn(series.BodyK[row]),
                probes ? display.TemperatureInColumn(series.ProbeK[row]) : null,
                Display.Power(series.HeaterW[row])));
        }

        page.Table(table);
        page.Blank();
    }

    private static string[] Existing(params string?[] texts) => [.. texts.OfType<string>()];

    private void WriteTimes(WarmingBounds bounds)
    {
        IReadOnlyList<WarmingTarget> targets = bounds.Best.Setup.Targets;
        if (targets.Count == 0)
            return;
        TextTable table = new("When the targets are reached", new("reached after", ValueColumn), new("if stirred", 18), new("best estimate", 18), new("conduction only"));
        for (int i = 0; i < targets.Count; i++)
            table.Row(TargetText.Of(targets[i], display), Time(bounds.WellMixed.TargetTimes[i]), Time(bounds.Best.TargetTimes[i]), Time(bounds.ConductionOnly.TargetTimes[i]));
        page.Table(table);
        page.Blank();

        static string Time(UnitsNet.Duration? reached) => reached is { } at ? Display.Time(at.Seconds) : "-";
    }

    private void WriteEnergy(WarmingResult result)
    {
        EnergyAccount energy = result.Energy;
        string average = result.Elapsed.Seconds > 0 ? $", {Display.Power(Math.Abs(energy.Heater.Joules) / result.Elapsed.Seconds)} on the average" : string.Empty;
        bool cools = energy.Heater.Joules < 0;
        page.Pair(cools ? "heat taken out" : "heat from the heater", Display.Energy(Math.Abs(energy.Heater.Joules)) + average, ValueColumn);
        page.Pair(energy.IntoHoney.Joules < 0 ? "  out of the honey" : "  into the honey", Display.Energy(Math.Abs(energy.IntoHoney.Joules)) + (energy.Melting.Joules > 0 ? $", {Display.Energy(energy.Melting.Joules)} of it to melt crystals" : string.Empty), ValueColumn);
        if (result.Setup.Heating.HeaterPower is not null)
            page.Pair($"  into the {HeatingReader.BodyOf(result.Setup.Heating)}", Display.Energy(energy.IntoBody.Joules), ValueColumn);
        page.Pair(energy.ToRoom.Joules < 0 ? "  from the room" : "  to the room", Display.Energy(Math.Abs(energy.ToRoom.Joules)), ValueColumn);
        if (result.Setup.Heating.HeaterPower is not null && result.Switchings > 0)
            page.Pair("heater switched", string.Create(CultureInfo.InvariantCulture, $"{result.Switchings} times"), ValueColumn);
        page.Blank();
    }

    private void WriteDamage(WarmingResult result)
    {
        const int Second = 29;
        HoneyHeatDamage mixed = result.Damage;
        HoneyHeatDamage worst = result.WorstDamage;
        TextTable table = new("What the heat costs the honey", new("what the heat costs", ValueColumn), new("mixed honey", Second), new("honey that had it worst"));
        table.Row("HMF gained", DamageText.Hmf(mixed), DamageText.Hmf(worst));
        table.Row("diastase left", DamageText.Diastase(mixed), DamageText.Diastase(worst));
        table.Row("days at " + display.Temperature(293.15), DamageText.Days(mixed), DamageText.Days(worst));
        page.Table(table);
        page.Blank();
    }
}
