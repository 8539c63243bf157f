using FlowSim.Warming;
using static System.FormattableString;

namespace FlowSim.Setpoints;

/// <summary>What the user should know about an answer.</summary>
internal static class SetpointNotices
{
    /// <summary>A rise of total time or fall of damage along the setpoints by more than this share is told.</summary>
    private const double NotMonotoneShare = 0.01;

    /// <summary>Masses that differ by more than this share are told.</summary>
    private const double OtherMassShare = 0.05;

    public static IReadOnlyList<Notice> For(SetpointQuestion question, PlanJudge judge, SetpointPlan? choice, IReadOnlyList<CurvePoint> curve, SetpointPlan? colder)
    {
        var notices = new List<Notice>();
        AddUnknownStart(notices, question, judge);
        AddNotMonotone(notices, curve);
        AddCeiling(notices, question);
        AddColder(notices, question, choice, colder);
        AddMasses(notices, choice);
        if (choice is not null)
        {
            notices.AddRange(choice.Warming?.Notices ?? []);
            foreach (Notice notice in choice.Straining?.Notices ?? [])
            {
                if (!notices.Exists(known => string.Equals(known.Code, notice.Code, StringComparison.Ordinal)))
                    notices.Add(notice);
            }
        }

        return notices;
    }

    private static void AddUnknownStart(List<Notice> notices, SetpointQuestion question, PlanJudge judge)
    {
        if (!judge.KnowsBefore)
        {
            notices.Add(new Notice(
                "setpoint.hmf-unknown",
                "the HMF of this honey before warming is not given",
                "only what warming adds was held against the limit, as if the honey had none",
                "have it measured, and give it"));
        }

        if (question.Limits.Heat.DiastaseAtLeast is not null && !judge.KnowsDiastase)
        {
            notices.Add(new Notice(
                "setpoint.diastase-unknown",
                "the diastase number of this honey before warming is not given",
                "the diastase limit was not checked",
                "have it measured, and give it"));
        }
    }

    private static void AddNotMonotone(List<Notice> notices, IReadOnlyList<CurvePoint> curve)
    {
        SetpointPlan[] plans = [.. curve.Select(point => point.Plan).OfType<SetpointPlan>()];
        for (int i = 1; i < plans.Length; i++)
        {
            if (plans[i].Total.Seconds > plans[i - 1].Total.Seconds * (1 + NotMonotoneShare))
            {
                notices.Add(new Notice(
                    "setpoint.time-not-monotone",
                    Invariant($"the job takes longer at {plans[i].Setpoint.DegreesCelsius:0.#} °C than at {plans[i - 1].Setpoint.DegreesCelsius:0.#} °C"),
                    "a limit, a switching heater or a cut-out makes the hotter plan the slower one",
                    "all setpoints were tried, so the choice stands; look at the curve"));
                return;
            }
        }

        for (int i = 1; i < plans.Length; i++)
        {
            if (plans[i].Damage.HmfGain < plans[i - 1].Damage.HmfGain * (1 - NotMonotoneShare))
            {
                notices.Add(new Notice(
                    "setpoint.damage-not-monotone",
                    Invariant($"the job costs less HMF at {plans[i].Setpoint.DegreesCelsius:0.#} °C than at {plans[i - 1].Setpoint.DegreesCelsius:0.#} °C"),
                    "a hotter setpoint is left sooner, and that can weigh more than its heat",
                    "all setpoints were tried, so the choice stands; look at the curve"));
                return;
            }
        }
    }

    private static void AddCeiling(List<Notice> notices, SetpointQuestion question)
    {
        if (question.Limits.Ceiling > SetpointLimits.DefaultCeiling)
        {
            notices.Add(new Notice(
                "setpoint.ceiling-raised",
                Invariant($"the ceiling was set to {question.Limits.Ceiling.DegreesCelsius:0.#} °C; without your word it is {SetpointLimits.DefaultCeiling.DegreesCelsius:0.#} °C"),
                "hotter honey browns, loses aroma and enzymes faster than the figures here can tell",
                "go back to the usual ceiling unless you know your honey"));
        }
    }

    private static void AddColder(List<Notice> notices, SetpointQuestion question, SetpointPlan? choice, SetpointPlan? colder)
    {
        if (choice is null || colder is null || colder.Total.Seconds > choice.Total.Seconds * (1 - NotMonotoneShare))
            return;

        notices.Add(new Notice(
            "setpoint.colder-is-sooner",
            Invariant($"strained at {colder.StrainAt.DegreesCelsius:0.#} °C already, the whole job would take {colder.Total.Hours:0.0} h instead of {choice.Total.Hours:0.0} h, with {colder.StrainTime.Minutes:0} min at the strainer instead of {choice.StrainTime.Minutes:0}"),
            Invariant($"the coldest straining you asked for, {question.ColdestStraining.DegreesCelsius:0.#} °C, is warmer than the clock needs"),
            "ask for colder straining if somebody can stand by that long"));
    }

    private static void AddMasses(List<Notice> notices, SetpointPlan? choice)
    {
        if (choice is not { Warming: { } warming, Straining: { } straining })
            return;

        double warmed = warming.HoneyPerVessel.Kilograms * warming.Setup.Vessels;
        double strained = straining.Masses.Start.Kilograms;
        if (Math.Abs(warmed / strained - 1) > OtherMassShare)
        {
            notices.Add(new Notice(
                "setpoint.other-mass",
                Invariant($"{warmed:0.0} kg are warmed and {strained:0.0} kg strained"),
                "the times of the two belong to different amounts of honey",
                "describe the tank as full of what was warmed, or add up the tanks yourself"));
        }
    }
}
