using FlowSim.Gates;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Bottling;

/// <summary>What the user should know about a filling run: what was seen, what it may mean, what helps.</summary>
internal static class FillingNotices
{
    /// <summary>Fill time under which a hand hardly hits the cut-off, s (engineering choice).</summary>
    public const double QuickFillS = 3;

    /// <summary>How late or early a hand shuts a gate, s, one standard deviation (engineering choice: half of what is taken for stopping a clock).</summary>
    public const double HandS = 0.15;

    /// <summary>A last jar that takes so many times the first is worth a word (engineering choice).</summary>
    public const double SlowTail = 3;

    /// <summary>Room above the honey that makes a jar look short, share of the brim (engineering choice).</summary>
    public const double LooksShort = 0.2;

    /// <summary>Fall of the tank's temperature that is worth a word, K (engineering choice: an eighth of the viscosity for each).</summary>
    public const double CoolsByK = 2;

    public static IReadOnlyList<Notice> For(FillingParameters p, FillingCourse course, FillingResult result)
    {
        var notices = new List<Notice>(p.Honey.NoticesAt(result.Setup.Temperature));
        foreach (Notice notice in p.Honey.NoticesAt(result.EndTemperature))
        {
            if (!notices.Exists(n => string.Equals(n.Code, notice.Code, StringComparison.Ordinal)))
                notices.Add(notice);
        }

        AddHeadspace(notices, result);
        AddRule(notices, result);
        AddEnding(notices, p, course, result);
        AddPace(notices, p, course, result);
        AddDrips(notices, result);
        AddRanges(notices, p, course);
        return notices;
    }

    private static void AddHeadspace(List<Notice> notices, FillingResult result)
    {
        Headspace room = result.Headspace;
        switch (room.Verdict)
        {
            case HeadspaceVerdict.CannotBeHeld:
                notices.Add(new Notice(
                    "jar.cannot-hold",
                    Invariant($"{Grams(room.Fill)} of honey take {room.HoneyAtFilling.Milliliters:0} mL when filled and {room.HoneyAtHottest.Milliliters:0} mL at {room.Hottest.DegreesCelsius:0.#} °C; the jar holds {room.Jar.Brimful.Milliliters:0} mL to the brim"),
                    result.Status == FillingStatus.JarTooSmall ? "it does not go in, so nothing was filled" : "it is pressed out under the lid when the jar stands warm",
                    Invariant($"take a larger jar, or label at most {Grams(room.Most)} and aim lower")));
                break;
            case HeadspaceVerdict.TooTight:
                notices.Add(new Notice(
                    "jar.tight",
                    Invariant($"at {room.Hottest.DegreesCelsius:0.#} °C {room.ShareAtHottest.Percent:0.0} % of the jar is left; {room.Least.Percent:0.#} % is asked for"),
                    "honey creeps up to the lid when the jar stands warm",
                    Invariant($"fill at most {Grams(room.Most)}, or take a larger jar")));
                break;
            case HeadspaceVerdict.Fits when room.ShareAtFilling.DecimalFractions > LooksShort:
                notices.Add(new Notice(
                    "jar.looks-short",
                    Invariant($"{room.ShareAtFilling.Percent:0} % of the jar stays empty"),
                    "it looks short on the shelf, and some laws forbid much empty room",
                    "take a smaller jar"));
                break;
        }
    }

    private static void AddRule(List<Notice> notices, FillingResult result)
    {
        TargetFill target = result.Target;
        if (target.TolerableShortfall is null)
        {
            notices.Add(new Notice(
                "rule.no-tolerance",
                Invariant($"the rule '{target.Question.Rule.Name}' has no tolerable shortfall for {Grams(target.Question.Label)} here"),
                "only the lot's average was kept, not the single jar",
                "look up what your law allows one jar to be short, and give it"));
        }
    }

    private static void AddEnding(List<Notice> notices, FillingParameters p, FillingCourse course, FillingResult result)
    {
        if (result.Status == FillingStatus.TooSlow)
        {
            notices.Add(new Notice(
                "run.too-slow",
                Invariant($"after {result.Jars} jars the next would take {Clock(course.RefusedFillS)}, more than the {Clock(p.LongestFillS)} that are put up with; {result.Masses.Rest.Kilograms:0.0} kg above the heel are left"),
                "the head is too low, or the honey too thick, for this gate",
                "open the gate more, warm the honey, raise or tip the tank"));
        }

        double fallenK = p.StartK - course.TemperatureK;
        if (fallenK > CoolsByK)
        {
            notices.Add(new Notice(
                "tank.cools",
                Invariant($"the tank cools by {fallenK:0.0} K before the end"),
                "the honey thickens as it does, and the last jars take longer",
                "hold the tank warm, cover it, or fill faster"));
        }

        if (result.Jars == 0 && result.Status == FillingStatus.Emptied)
        {
            notices.Add(new Notice(
                "run.no-jar",
                "what stands above the heel does not fill one jar",
                "nothing was filled",
                "start with more honey, or take a smaller jar"));
        }
    }

    private static void AddPace(List<Notice> notices, FillingParameters p, FillingCourse course, FillingResult result)
    {
        if (result.FillTimes is not { } times)
            return;

        double handG = HandS * result.CutOffs!.First.Flow.KilogramsPerSecond * 1000;
        if (times.First.Seconds < QuickFillS)
        {
            notices.Add(new Notice(
                "fill.quick",
                Invariant($"the first jar fills in {times.First.Seconds:0.0} s"),
                "a hand hardly hits the moment to shut",
                "open the gate less while the tank is full"));
        }

        if (handG > result.Target.ScatterUsed.Grams)
        {
            notices.Add(new Notice(
                "fill.hand",
                Invariant($"at the first jar {HandS:0.##} s of a hand are {handG:0.0} g, more than the scatter of {result.Target.ScatterUsed.Grams:0.0} g"),
                "by hand the fills scatter more than was said, so the target is too low",
                "open the gate less towards the end of each jar, or find the scatter from jars you weigh"));
        }

        if (times.Last.Seconds > SlowTail * times.First.Seconds)
            notices.Add(SlowNotice(p, course, times));
    }

    /// <summary>From which jar on it goes slowly, and what opening the gate fully would do for the last one.</summary>
    private static Notice SlowNotice(FillingParameters p, FillingCourse course, FillTimes times)
    {
        int slow = 1 + course.Jars.FindIndex(jar => jar.FillS > SlowTail * times.First.Seconds);
        JarMoment last = course.Jars[^1];
        string helps = "warm the honey, tip the tank, or pour the rest into the next one";
        if (p.Setup.Opening.DecimalFractions < 1)
        {
            double density = p.Honey.DensityKgPerM3(last.TemperatureK), viscosity = p.Honey.ViscosityPaS(last.TemperatureK);
            double open = GateHoney.Of(GateFlow.GeometryOf(p.Setup.Gate, 1), viscosity, density).FlowM3PerS(last.LevelM - p.GateHeightM);
            helps = Invariant($"open the gate fully for the last ones: {open / last.FlowM3PerS:0.#} times the flow; ") + helps;
        }

        return new Notice(
            "fill.slow-tail",
            Invariant($"the first jar takes {Clock(times.First.Seconds)}, from jar {slow} on more than {SlowTail:0} times that, the last {Clock(times.Last.Seconds)}"),
            "the head over the gate is nearly gone",
            helps);
    }

    private static void AddDrips(List<Notice> notices, FillingResult result)
    {
        if (result.CutOffs is not { } cutOffs || cutOffs.First.StillHangs.Grams <= 1.001 * result.Setup.DripLimit.Grams)
            return;

        notices.Add(new Notice(
            "gate.drips",
            Invariant($"after waiting {cutOffs.First.Wait.Seconds:0} s about {cutOffs.First.StillHangs.Grams:0.0} g still hang on the gate's rim"),
            Invariant($"{result.Masses.Drips.Kilograms:0.00} kg drip beside the jars in this run, if nothing catches them"),
            "wipe the gate with a clean knife after each jar, wait longer, or keep a tray under it"));
    }

    private static void AddRanges(List<Notice> notices, FillingParameters p, FillingCourse course)
    {
        if (FallingThread.FallRange.NoticeFor(p.Setup.FallHeight.Meters) is { } fall)
            notices.Add(fall with { MayMean = "what is in the air is a rough figure", Helps = "find the lead on the first jars" });
        if (course.Jars.Count == 0)
            return;

        JarMoment first = course.Jars[0];
        double density = p.Honey.DensityKgPerM3(first.TemperatureK), viscosity = p.Honey.ViscosityPaS(first.TemperatureK);
        double reynolds = density * first.FlowM3PerS * 2 / (Math.PI * p.RadiusM * viscosity);
        if (OpeningResistance.LaminarTubeRange.NoticeFor(reynolds) is { } tube)
            notices.Add(tube with { MayMean = "the flow in the gate's tube may be turbulent and slower than computed", Helps = "take the times as lower limits" });
        if (p.Setup.Clearance is { } gap && SlitFlow.SlendernessRange.NoticeFor(gap / p.Setup.BladeSeat) is { } slit)
            notices.Add(slit with { MayMean = "the gap is too wide to be a slit, and what leaks is a rough figure", Helps = "catch what leaks in an hour and weigh it" });
    }

    private static string Grams(Mass mass) => Invariant($"{mass.Grams:0.0} g");

    private static string Clock(double seconds) => seconds < 90
        ? Invariant($"{seconds:0.#} s")
        : Invariant($"{Math.Floor(Math.Round(seconds) / 60):0} min {Math.Round(seconds) % 60:00} s");
}
