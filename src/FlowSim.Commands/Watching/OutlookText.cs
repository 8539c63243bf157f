using System.Globalization;
using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Commands.Output;
using FlowSim.Straining;

namespace FlowSim.Commands.Watching;

/// <summary>How a line of the screen is shown; the words say the same.</summary>
internal enum Tone
{
    /// <summary>As it is.</summary>
    Plain,

    /// <summary>What comes next.</summary>
    Next,

    /// <summary>What is soon due.</summary>
    Soon,

    /// <summary>What is due.</summary>
    Due,
}

/// <summary>A line of the screen.</summary>
/// <param name="Text">Text, not folded.</param>
/// <param name="Tone">How it is shown.</param>
internal readonly record struct ScreenLine(string Text, Tone Tone = Tone.Plain);

/// <summary>Tells an outlook in plain words, most urgent first.</summary>
/// <param name="display">Units.</param>
/// <param name="opened">When the gate was opened; null when nobody knows.</param>
/// <param name="zone">Time zone.</param>
internal sealed class OutlookText(Display display, DateTimeOffset? opened, TimeZoneInfo zone)
{
    /// <summary>Time before something is due from which it is shown as soon due, s (engineering choice: time to fetch the scraper).</summary>
    private const double SoonS = 60;

    private const int ActionsShown = 4;

    /// <summary>An amount in the units of the screen.</summary>
    /// <param name="display">Units.</param>
    /// <param name="quantity">Quantity.</param>
    /// <param name="si">Value, SI.</param>
    public static string Amount(Display display, StrainingObservable quantity, double si) => quantity switch
    {
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => display.Mass(si),
        StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => display.Volume(si),
        _ => display.Length(si),
    };

    /// <summary>The lines.</summary>
    /// <param name="outlook">Outlook.</param>
    public IEnumerable<ScreenLine> Lines(RunOutlook outlook)
    {
        double now = outlook.Now.Seconds;
        NextAction[] actions = [.. outlook.NextActions.Take(ActionsShown)];
        if (actions.Length == 0)
            yield return new ScreenLine("NEXT  nothing while the gate is shut; \"gate 40 %\" when it is opened again", Tone.Next);
        for (int i = 0; i < actions.Length; i++)
            yield return LineOf(actions[i], now, first: i == 0);
        yield return new ScreenLine("now   " + string.Join(", ", outlook.Expected.Select(Expected)) + " expected");
        foreach (ReadingDeviation deviation in outlook.Deviations)
            yield return new ScreenLine($"read  {EntryGrammar.NameOf(deviation.Quantity)} {Amount(display, deviation.Quantity, deviation.Read)} at {Display.Time(deviation.At.Seconds)}: {Meaning(deviation)}", Tone.Plain);
        yield return new ScreenLine("done  " + Done(outlook, now));
        if (actions.Length > 0)
            yield return new ScreenLine("rim   " + Rim(outlook, now));
        foreach (Notice notice in outlook.Notices)
            yield return new ScreenLine($"NOTE  {display.Words(notice.Seen)}: {display.Words(notice.Helps)}", Tone.Soon);
    }

    /// <summary>What the advice rests on.</summary>
    /// <param name="outlook">Outlook.</param>
    public IEnumerable<ScreenLine> Reasons(RunOutlook outlook)
    {
        foreach (NextAction action in outlook.NextActions)
            yield return new ScreenLine($"{What(action)}: {display.Words(action.Why)}");
        yield return new ScreenLine(outlook.Fitted
            ? "Learnt from the readings so far: " + string.Join("; ", outlook.Estimate.Where(input => input.Identified).Select(input => $"{input.Input.Words} {Value(input.Middle, input)} ({Value(input.Low, input)} to {Value(input.High, input)})").DefaultIfEmpty("nothing of single figures yet, only of what they do together"))
            : "No reading is fitted yet: all rests on the file and the common spreads.");
        foreach (Notice notice in outlook.Notices)
            yield return new ScreenLine(display.Words(notice.ToString()));
        yield return new ScreenLine("A chance is that of this setup with these spreads; it knows nothing of a hose that slips. The times ahead are good to some seconds at best.");
    }

    private ScreenLine LineOf(NextAction action, double now, bool first)
    {
        double left = action.At.Seconds - now;
        string lead = first ? "NEXT  " : "then  ";
        if (left <= 0)
            return new ScreenLine($"NOW   {What(action)}{(left <= -10 ? $", due {Display.Time(Math.Floor(-left))} ago" : string.Empty)}", Tone.Due);
        string latest = action.Kind is NextActionKind.LookAtPond or NextActionKind.NarrowGate or NextActionKind.RidePond ? " at the latest" : string.Empty;
        return new ScreenLine($"{lead}{What(action)} in {Display.Time(Math.Ceiling(left))}{latest}{Band(action, now)}", left <= SoonS ? Tone.Soon : first ? Tone.Next : Tone.Plain);
    }

    private string What(NextAction action) => action.Kind switch
    {
        NextActionKind.TakeReading => "read the level",
        NextActionKind.LookAtPond => "read the pond",
        NextActionKind.RidePond => $"hold the pond at {display.Length(action.Depth!.Value.Meters)} and read it",
        NextActionKind.Scrape => "scrape",
        NextActionKind.SetGate => $"set the gate to {Display.Share(action.Opening!.Value.DecimalFractions)}",
        NextActionKind.NarrowGate => action.Opening!.Value.DecimalFractions > 0 ? $"narrow the gate to {Display.Share(action.Opening.Value.DecimalFractions)}" : "shut the gate, or scrape",
        NextActionKind.ChangeReceiver => "receiver full: shut the gate or change it",
        _ => "shut the gate, 95 % is through",
    };

    private static string Band(NextAction action, double now)
    {
        double early = action.Earliest.Seconds - now, late = action.Latest.Seconds - now;
        if (late - early < 5 || action.Kind is NextActionKind.LookAtPond or NextActionKind.NarrowGate or NextActionKind.RidePond)
            return string.Empty;
        return $" ({Between(early, late)})";
    }

    private static string Between(double earlyS, double lateS) => earlyS <= 5 ? $"now to {Display.RoughTime(Math.Max(0, lateS))}" : $"{Display.RoughTime(earlyS)} to {Display.RoughTime(lateS)}";

    private string Expected(ExpectedReading expected)
    {
        string value = Amount(display, expected.Quantity, expected.Value);
        return $"{EntryGrammar.NameOf(expected.Quantity)} {value} ({Number(expected.Low)}–{Number(expected.High)})";

        string Number(double si) => Amount(display, expected.Quantity, si).Split(' ')[0];
    }

    private string Meaning(ReadingDeviation deviation)
    {
        string words = DeviationJudge.Of([deviation]) switch
        {
            RunVerdict.AsExpected => "as expected",
            RunVerdict.Faster => "faster than expected",
            RunVerdict.Slower => "slower than expected",
            RunVerdict.PondDeeper => "deeper than expected",
            RunVerdict.PondShallower => "shallower than expected",
            _ => "CHECK THE READING",
        };
        return words == "as expected" ? words : $"{words}, {Amount(display, deviation.Quantity, deviation.Expected)}";
    }

    private string Done(RunOutlook outlook, double now)
    {
        string never = outlook.Ready.Never >= 0.005 ? string.Create(CultureInfo.InvariantCulture, $"; never in {100 * outlook.Ready.Never:0} of 100") : string.Empty;
        if (outlook.Ready.P50 is not { } half)
            return outlook.NextActions.Count == 0 ? "not while the gate is shut" : $"95 % is not through this way, in {(100 * outlook.Ready.Never).ToString("0", CultureInfo.InvariantCulture)} of 100 runs";
        double left = half.Seconds - now;
        string at = opened is { } moment && half.Seconds < 86_400 ? ", at " + TimeZoneInfo.ConvertTime(moment.AddSeconds(half.Seconds), zone).ToString("HH:mm", CultureInfo.InvariantCulture) : string.Empty;
        if (left <= 0)
            return $"95 % is through by now, most likely since {Display.RoughTime(-left)}{never}";
        double early = (outlook.Ready.P10?.Seconds ?? half.Seconds) - now;
        string band = outlook.Ready.P90 is { } late ? Between(early, late.Seconds - now) : $"{Display.RoughTime(Math.Max(0, early))} or more";
        return $"95 % through in {Display.RoughTime(left)} ({band}){at}{never}";
    }

    private static string Rim(RunOutlook outlook, double now)
    {
        if (outlook.PondReachesRim is not { Earliest: { } earliest } rim)
            return "the pond stays below it in all runs, left alone";
        string chance = rim.Chance >= 0.995 ? "nearly all" : rim.Chance < 0.01 ? "fewer than 1 in 100" : string.Create(CultureInfo.InvariantCulture, $"{100 * rim.Chance:0} in 100");
        double left = earliest.Seconds - now;
        return $"left alone, {chance} reach it, the first {(left > 0 ? "in " + Display.RoughTime(left) : "by now")}";
    }

    private string Value(double si, FittedInput input) => input.Input.Unit switch
    {
        "K" => display.Temperature(si),
        "m" => display.Length(si),
        "" when input.Input == StrainingInputs.LotFactor || input.Input == StrainingInputs.GateFactor || input.Input == StrainingInputs.ScreenFactor => Display.Figures(si, 3),
        "" => Display.Share(si),
        _ => $"{Display.Figures(si, 3)} {input.Input.Unit}",
    };
}
