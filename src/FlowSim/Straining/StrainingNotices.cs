using FlowSim.Gates;
using FlowSim.Screens;
using UnitsNet;
using static FlowSim.Straining.StrainingState;
using static System.FormattableString;

namespace FlowSim.Straining;

/// <summary>What the user should know about a run: what was seen, what it may mean, what helps.</summary>
internal static class StrainingNotices
{
    /// <summary>Temperature from which wax softens enough to smear through a cloth, °C (engineering choice; beeswax melts at 62 to 64 °C).</summary>
    public const double WaxSoftFromC = 50;

    private const string ClothMayMean = "the cloth's resistance is extrapolated; other models give a third of it to all of it";
    private const string ClothHelps = "time a run of your own and set the screen factor from it";

    public static IReadOnlyList<Notice> For(StrainingParameters p, StrainingOutcome outcome, StrainingResult result)
    {
        var notices = new List<Notice>();
        AddProperties(notices, p, outcome);
        AddOverflow(notices, result);
        AddReceiver(notices, p, result);
        AddEnding(notices, p, outcome, result);
        AddFilm(notices, p, result);
        AddWax(notices, p);
        AddGate(notices, p);
        AddCloth(notices, p, outcome);
        return notices;
    }

    private static void AddProperties(List<Notice> notices, StrainingParameters p, StrainingOutcome outcome)
    {
        double[] y = outcome.State;
        double coldest = Math.Min(Math.Min(p.StartTankK, y[TankK]), y[PondK]);
        foreach (double kelvins in new[] { p.StartTankK, coldest })
        {
            foreach (Notice notice in p.Honey.NoticesAt(Temperature.FromKelvins(kelvins)))
            {
                if (!notices.Exists(n => string.Equals(n.Code, notice.Code, StringComparison.Ordinal)))
                    notices.Add(notice);
            }
        }
    }

    private static void AddOverflow(List<Notice> notices, StrainingResult result)
    {
        if (result.Overflows.Count == 0)
            return;

        Overflow first = result.Overflows[0];
        double kilograms = result.Overflows.Sum(o => o.Mass.Kilograms);
        bool bypass = result.Setup.Strainer.Overflow == OverflowPath.Bypass;
        notices.Add(new Notice(
            "strainer.overflow",
            Invariant($"the strainer runs over after {Clock(first.From)}, {kilograms:0.0} kg in all"),
            bypass ? "unstrained honey is in the receiver" : "honey is on the floor",
            "open the gate less, ride it, scrape earlier, or take a larger or coarser cloth"));
    }

    private static void AddReceiver(List<Notice> notices, StrainingParameters p, StrainingResult result)
    {
        if (result.Status == StrainingStatus.ReceiverOverfilled || result.Masses.SpilledAtReceiver > Mass.Zero)
        {
            notices.Add(new Notice(
                "receiver.overfilled",
                Invariant($"the receiver is full after {Clock(result.ReceiverFullAt!.Value)} and {result.Masses.SpilledAtReceiver.Kilograms:0.0} kg run over its brim"),
                "honey is on the floor",
                "take a larger receiver, or have somebody shut the gate before that"));
        }
        else if (result.Ending == StrainingStatus.ReceiverFull)
        {
            notices.Add(new Notice(
                "receiver.full",
                Invariant($"the receiver is full after {Clock(result.ReceiverFullAt!.Value)} with {result.Masses.HeldInTank.Kilograms:0.0} kg still in the tank and {result.Masses.HeldOnCloth.Kilograms:0.0} kg on the strainer"),
                "what stands on the strainer still wants to come through",
                "shut the gate earlier by that much, or have a second receiver ready"));
        }

        if (p.SealedOn)
        {
            notices.Add(new Notice(
                "strainer.sealed",
                "the strainer sits airtight on the receiver",
                "trapped air pushes back and the flow stops",
                "leave a gap for the air"));
        }
    }

    private static void AddEnding(List<Notice> notices, StrainingParameters p, StrainingOutcome outcome, StrainingResult result)
    {
        switch (result.Ending)
        {
            case StrainingStatus.Stalled:
                double blinded = result.Blinded.Max(b => b.Percent);
                notices.Add(new Notice(
                    "run.stalled",
                    Invariant($"the flow all but stops after {Clock(result.Elapsed)} with {result.Masses.HeldInTank.Kilograms:0.0} kg in the tank and {result.Masses.HeldOnCloth.Kilograms:0.0} kg on the strainer; the cloth is {blinded:0} % blinded"),
                    WhatStalls(p, outcome),
                    "scrape, settle and skim first, vent the strainer, or raise it with a spacer"));
                break;
            case StrainingStatus.TimeLimit:
                notices.Add(new Notice(
                    "run.time-limit",
                    $"not through after {Clock(Duration.FromSeconds(p.LongestS))}, the longest time asked for",
                    "the figures stop there",
                    "warm the honey, open the gate, take a coarser cloth, or ask for a longer time"));
                break;
        }
    }

    /// <summary>The first of the things that hold honey up which is there at the end.</summary>
    private static string WhatStalls(StrainingParameters p, StrainingOutcome outcome)
    {
        StrainingHydraulics.Evaluate(p, outcome.System.Mode, outcome.EndS, outcome.State, out StrainingFlows f);
        if (outcome.System.Mode.Gate.IsShut && !outcome.System.Mode.AtHeel)
            return "the gate is shut";
        if (f.AirHeadM > StrainingParameters.RunThroughHeadM)
            return "trapped air holds the honey up";
        return f.BackUpM > p.MinimumHeadM
            ? "the strainer stands in the receiver's honey"
            : "the cloth is blinded, or the honey too thick for this gate and cloth";
    }

    private static void AddFilm(List<Notice> notices, StrainingParameters p, StrainingResult result)
    {
        if (result.Ending != StrainingStatus.Drained || result.Drain.To99 is not null)
            return;

        double share = result.Masses.HeldInFilm.Kilograms / p.CanDrainKg;
        notices.Add(new Notice(
            "tank.film",
            Invariant($"{result.Masses.HeldInFilm.Kilograms:0.00} kg ({100 * share:0.0} % of what can drain) still clings to the tank's wall at the end"),
            "99 % is not reached in this run",
            "leave the gate open for the wall to drain, or scrape it down"));
    }

    private static void AddWax(List<Notice> notices, StrainingParameters p)
    {
        double celsius = p.StartTankK - Physical.ZeroCelsiusK;
        if (celsius < WaxSoftFromC)
            return;

        notices.Add(new Notice(
            "wax.soft",
            Invariant($"the honey reaches the strainer at {celsius:0.0} °C; wax softens from about {WaxSoftFromC:0} °C"),
            "soft wax smears through the cloth and blinds it",
            "strain below that temperature"));
    }

    /// <summary>The ranges of the cloth's resistance: opening, porosity, and Reynolds number at the deepest pond on clean cloth.</summary>
    private static void AddCloth(List<Notice> notices, StrainingParameters p, StrainingOutcome outcome)
    {
        double density = p.StartDensityKgPerM3;
        double viscosity = p.Honey.ViscosityPaS(p.StartTankK);
        double clean = p.ClothResistancesPerM.Sum() * p.ScreenFactor;
        double velocity = density * Physical.StandardGravity * outcome.Record.PeakPondM / (viscosity * clean);
        foreach (Cloth cloth in p.Setup.Strainer.Cloths)
        {
            double opening = cloth.Opening.Meters;
            double surface = SquareCloth.SpecificSurfacePerM(opening, cloth.WireDiameter.Meters);
            AddOnce(notices, SquareCloth.OpeningRange.NoticeFor(cloth.Opening.Micrometers), ClothMayMean, ClothHelps);
            AddOnce(notices, SquareCloth.PorosityRange.NoticeFor(SquareCloth.Porosity(opening, cloth.WireDiameter.Meters)), ClothMayMean, ClothHelps);
            AddOnce(
                notices,
                SquareCloth.ReynoldsRange.NoticeFor(density * velocity / (viscosity * surface * surface * opening)),
                "the honey's inertia in the cloth is left out, so the pond would stand a little deeper",
                "nothing, unless the rim is close");
        }
    }

    /// <summary>The gate's tube is taken as laminar; it is at its fastest at the start and at its widest.</summary>
    private static void AddGate(List<Notice> notices, StrainingParameters p)
    {
        double density = p.StartDensityKgPerM3;
        double viscosity = p.Honey.ViscosityPaS(p.StartTankK);
        double pressure = density * Physical.StandardGravity * (p.StartLevelM - p.GateHeightM);
        double fastest = p.OpeningGeometries.Max(gate => gate.IsShut
            ? 0
            : GateFlow.VolumeFlowM3PerS(pressure, viscosity * gate.ViscousPerM3, density * gate.InertialPerM4));
        double bore = p.Setup.Gate.Bore.Meters;
        double reynolds = density * fastest * 4 / (Math.PI * bore * viscosity);
        AddOnce(
            notices,
            OpeningResistance.LaminarTubeRange.NoticeFor(reynolds),
            "the flow in the gate's tube may be turbulent and slower than computed",
            "take the drain time as a lower limit");
    }

    private static void AddOnce(List<Notice> notices, Notice? notice, string mayMean, string helps)
    {
        if (notice is not null && !notices.Exists(n => string.Equals(n.Code, notice.Code, StringComparison.Ordinal)))
            notices.Add(notice with { MayMean = mayMean, Helps = helps });
    }

    /// <summary>A time as read off a clock in the honey house.</summary>
    private static string Clock(Duration time)
    {
        double seconds = Math.Round(time.Seconds, MidpointRounding.AwayFromZero);
        double minutes = Math.Round(time.Minutes, MidpointRounding.AwayFromZero);
        return seconds switch
        {
            < 60 => Invariant($"{seconds:0} s"),
            < 3600 => Invariant($"{Math.Floor(seconds / 60):0} min {seconds % 60:00} s"),
            _ => Invariant($"{Math.Floor(minutes / 60):0} h {minutes % 60:00} min"),
        };
    }
}
