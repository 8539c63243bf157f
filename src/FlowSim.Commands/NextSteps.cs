using FlowSim.Commands.Output;
using FlowSim.RunSheets;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What to do after a run, and the numbers in it that are worth keeping in sight.</summary>
/// <param name="Steps">Steps, most pressing first.</param>
/// <param name="Watch">Numbers.</param>
internal sealed record StrainAdvice(IReadOnlyList<string> Steps, IReadOnlyList<WatchNumber> Watch);

/// <summary>What to do after a run: found by asking the library again, with the gate or the scraping changed.</summary>
/// <param name="simulate">Runs a changed setup; null when the library refuses it.</param>
/// <param name="widest">The widest opening at which the setup does not run over; null when the library refuses.</param>
/// <param name="display">Units.</param>
internal sealed class NextSteps(Func<StrainingSetup, StrainingResult?> simulate, Func<Ratio?> widest, Display display)
{
    /// <summary>Share of the rim from which somebody should stand by. Engineering choice.</summary>
    private const double StandByFromRim = 0.8;

    /// <summary>Blinded share from which scraping is worth a word. Engineering choice.</summary>
    private const double ScrapeFromBlinded = 0.3;

    /// <summary>Share of the honey that is more than a heel. Engineering choice.</summary>
    private const double MuchLeft = 0.02;

    private readonly List<WatchNumber> _watch = [];

    /// <summary>The advice after a run.</summary>
    /// <param name="result">Run.</param>
    public StrainAdvice For(StrainingResult result)
    {
        _watch.Clear();
        List<string> steps = [];
        AddStall(steps, result);
        if (result.Overflows.Count > 0)
            AddOverflow(steps, result);
        else if (result.Setup.Control is FixedOpening { Opening: var set })
            _watch.Add(new WatchNumber("Open the gate", Display.Share(set.DecimalFractions), "and leave it"));
        AddStandBy(steps, result);
        AddScraping(steps, result);
        AddPond(result);
        AddReceiver(steps, result);
        AddEnd(steps, result);
        return new StrainAdvice(steps, [.. _watch]);
    }

    private void AddPond(StrainingResult result)
    {
        string rim = $"of {display.Length(result.Setup.Strainer.Shape.RimHeight.Meters)} to the rim";
        _watch.Add(result.FirstOverflow is { } first
            ? new WatchNumber("Runs over after", Display.Time(first.Seconds), AsSet(result))
            : new WatchNumber("Deepest pond", display.Length(result.PeakPond.Meters), $"{rim}, after {Display.Time(result.PeakPondAt.Seconds)}"));
    }

    /// <summary>What a number belongs to that was not found with the gate changed.</summary>
    private static string AsSet(StrainingResult result) =>
        result.Setup.Control is FixedOpening { Opening: var set } ? $"with the gate at {Display.Share(set.DecimalFractions)}" : "with the gate as set";

    private static void AddStall(List<string> steps, StrainingResult result)
    {
        if (result.Ending != StrainingStatus.Stalled)
            return;
        StrainingSetup setup = result.Setup;
        if (setup.Strainer.Venting == Screens.Venting.Sealed)
            steps.Add("Let the air out of the receiver: the strainer sits on it airtight, and the trapped air holds the honey up.");
        else if (Widest(setup.Control) <= Ratio.Zero)
            steps.Add("Open the gate: it is shut all the time.");
        else if (result.Masses.HeldInTank.Kilograms > MuchLeft * result.Masses.Start.Kilograms)
            steps.Add("Open the gate further, or warm the honey: what is left in the tank hardly runs.");
        else if (result.Blinded.Max(share => share.DecimalFractions) < ScrapeFromBlinded)
            steps.Add("Raise the strainer on a spacer, or empty the receiver: the honey in it stands up to the cloth.");
    }

    private void AddOverflow(List<string> steps, StrainingResult result)
    {
        StrainingSetup setup = result.Setup;
        if (setup.Control is FixedOpening && setup.Strainer.Venting == Screens.Venting.Vented && widest() is { } limit)
        {
            StrainingResult? run = limit > Ratio.Zero ? simulate(setup with { Control = GateControl.LeaveAt(limit) }) : null;
            steps.Add(run is null or { Ending: StrainingStatus.Stalled or StrainingStatus.TimeLimit, Strain.To95: null }
                ? "Narrowing the gate alone does not help. Scrape, take a larger or coarser cloth, or settle and skim first."
                : $"Open the gate to at most {Display.Share(limit.DecimalFractions)} if it is left alone, and rather less: at that opening the pond just reaches the rim if every figure is exact{Through(run)}.");
            if (run is not (null or { Ending: StrainingStatus.Stalled or StrainingStatus.TimeLimit, Strain.To95: null }))
                _watch.Add(new WatchNumber("Open the gate", $"{Display.Share(limit.DecimalFractions)} at most", "and rather less, if it is left alone"));
        }

        double rideM = StandByFromRim * setup.Strainer.Shape.RimHeight.Meters;
        if (setup.Control is not RiddenGate && rideM > setup.Strainer.MinimumHead.Meters)
        {
            StrainingResult? ridden = simulate(setup with { Control = GateControl.RideAt(Length.FromMeters(rideM), Widest(setup.Control)) });

            // Riding a gate over a strainer that stops is work for nothing.
            if (ridden is { Overflows.Count: 0 } and not { Ending: StrainingStatus.Stalled or StrainingStatus.TimeLimit, Strain.To95: null })
            {
                _watch.Add(new WatchNumber(steps.Count == 0 ? "Ride the pond at" : "Or ride the pond at", display.Length(rideM), $"of {display.Length(setup.Strainer.Shape.RimHeight.Meters)} to the rim"));
                steps.Add($"{(steps.Count == 0 ? "Ride" : "Or ride")} the gate: hold the pond at {display.Length(rideM)}, out of {display.Length(setup.Strainer.Shape.RimHeight.Meters)} to the rim{Through(ridden)}.");
            }
        }
        else if (setup.Control is RiddenGate)
        {
            steps.Add("Hold the pond lower, and scrape before it rises by itself.");
        }
    }

    private static Ratio Widest(GateControl control) => control switch
    {
        FixedOpening fixedOpening => fixedOpening.Opening,
        OpeningSchedule schedule => schedule.Steps.Max(step => step.Opening),
        _ => Ratio.FromPercent(100),
    };

    private static string Through(StrainingResult run) => run switch
    {
        { Strain.To95: { } through } => $", and 95 % is through after {Display.Time(through.Seconds)}",
        { Ending: StrainingStatus.ReceiverFull } => $"; the receiver is full after {Display.Time(run.Elapsed.Seconds)}",
        _ => $"; not through when the run ends after {Display.Time(run.Elapsed.Seconds)}",
    };

    private void AddStandBy(List<string> steps, StrainingResult result)
    {
        double rimM = result.Setup.Strainer.Shape.RimHeight.Meters;
        if (result.Setup.Control is RiddenGate ridden)
        {
            _watch.Add(new WatchNumber("Hold the pond at", display.Length(ridden.PondDepth.Meters), $"of {display.Length(rimM)} to the rim, somebody at the gate"));
            steps.Add($"Somebody rides the gate all the time; the pond stays {display.Length(rimM - ridden.PondDepth.Meters)} below the rim while they do.");
            return;
        }

        (double From, double To)? spell = Spell(result.Series, StandByFromRim * rimM);
        if (spell is { } when)
        {
            _watch.Add(new WatchNumber("Stand by from", $"{Display.Time(when.From)} to {Display.Time(when.To)}", AsSet(result)));
            steps.Add($"Stand by from {Display.Time(when.From)} to {Display.Time(when.To)}: the pond is then within {display.Length((1 - StandByFromRim) * rimM)} of the rim{(result.Overflows.Count > 0 ? " or over it" : string.Empty)}.");
        }
    }

    private static (double From, double To)? Spell(StrainingSeries series, double depthM)
    {
        int[] rows = [.. Enumerable.Range(0, series.TimeS.Count).Where(row => series.PondDepthM[row] >= depthM)];
        return rows.Length == 0 ? null : (series.TimeS[rows[0]], series.TimeS[rows[^1]]);
    }

    private void AddScraping(List<string> steps, StrainingResult result)
    {
        double blinded = result.Blinded.Max(share => share.DecimalFractions);
        if (blinded < ScrapeFromBlinded)
            return;
        if (result.Scrapes.Count > 0)
        {
            steps.Add($"Settle and skim first, or take a coarser cloth: even when scraped it is {Display.Share(blinded)} blinded at the end.");
            return;
        }

        bool waits = result.Overflows.Count > 0 || result.Ending is StrainingStatus.Stalled or StrainingStatus.TimeLimit;
        double rimM = result.Setup.Strainer.Shape.RimHeight.Meters;
        (double From, double To)? halfWay = Spell(result.Series, 0.5 * rimM);
        string when = waits && halfWay is { } half ? $"at about {Display.Time(half.From)}, when the pond is half way to the rim" : "when the flow slackens";
        _watch.Add(new WatchNumber("Scrape", waits && halfWay is { } soon ? $"at about {Display.Time(soon.From)}" : "when the flow slackens", waits && halfWay is not null ? "pond half way to the rim" : string.Empty));
        steps.Add($"Scrape the cloth {when}: it is {Display.Share(blinded)} blinded at the end. Settling and skimming first saves scraping.");
    }

    private void AddReceiver(List<string> steps, StrainingResult result)
    {
        if (result.ReceiverFullAt is not { } full)
            return;
        _watch.Add(new WatchNumber("Next receiver by", Display.Time(full.Seconds), "this one is then full"));
        steps.Add($"Have another receiver ready by {Display.Time(full.Seconds)}, or shut the gate before: this one is then full.");
    }

    private void AddEnd(List<string> steps, StrainingResult result)
    {
        if (result.Ending == StrainingStatus.Drained && result.Strain.To95 is { } most && result.ReceiverFullAt is null)
        {
            if (result.Overflows.Count == 0)
                _watch.Add(new WatchNumber("Shut the gate at about", Display.Time(most.Seconds), "95 % is then through"));
            steps.Add($"Shut the gate at about {Display.Time(most.Seconds)}, when 95 % is through; the last of it runs until {Display.Time(result.Elapsed.Seconds)}.");
        }
        else if (result.Ending == StrainingStatus.TimeLimit)
        {
            steps.Add("Warm the honey, open the gate further, or take a coarser cloth if that is too long.");
        }
    }
}
