using FlowSim.HeatDamage;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Setpoints;

/// <summary>Holds plans against the limits.</summary>
internal sealed class PlanJudge(SetpointQuestion question)
{
    /// <summary>Rounding allowed on a temperature that is held at its limit, K.</summary>
    private const double RoundingK = 1e-6;

    private readonly SetpointLimits _limits = question.Limits;
    private readonly HoneyBeforeHeat _before = question.Warming.Before ?? new HoneyBeforeHeat { Hmf = MassFraction.Zero };

    /// <summary>Whether the user knows the honey before it is warmed.</summary>
    public bool KnowsBefore => question.Warming.Before is not null;

    /// <summary>Whether a diastase limit can be checked.</summary>
    public bool KnowsDiastase => _before.DiastaseNumber is not null;

    /// <summary>Completes a plan with how it stands against the limits.</summary>
    public SetpointPlan Judge(SetpointPlan plan)
    {
        HeatedHoney after = plan.Damage.After(_before);
        LimitCheck check = LimitCheck.Of(after, _limits.Heat);
        return plan with
        {
            After = KnowsBefore ? after : null,
            HeatCheck = KnowsBefore ? check : null,
            Broken = [.. Misses(plan, check).Where(miss => miss.Size > 0).Select(miss => miss.Limit)],
        };
    }

    /// <summary>By how much a plan misses each limit it breaks; the sizes are comparable: shares of a limit, or tens of kelvins.</summary>
    public IReadOnlyList<(PlanLimit Limit, double Size, string Words)> MissesOf(SetpointPlan plan) =>
        [.. Misses(plan, LimitCheck.Of(plan.Damage.After(_before), _limits.Heat)).Where(miss => miss.Size > 0)];

    private IEnumerable<(PlanLimit Limit, double Size, string Words)> Misses(SetpointPlan plan, LimitCheck check)
    {
        yield return Hotter(PlanLimit.Ceiling, plan.Setpoint > plan.HottestHoney ? plan.Setpoint : plan.HottestHoney, _limits.Ceiling, "setpoint or honey");
        yield return Hotter(PlanLimit.Wall, plan.HottestWall, _limits.WallLimit, "wall");
        yield return Hotter(PlanLimit.WaxAtStrainer, plan.StrainAt, _limits.WarmestAtStrainer, "honey on the strainer");
        if (_limits.WarmestForHands is { } hands)
            yield return Hotter(PlanLimit.Burn, plan.StrainAt, hands, "honey that people strain");
        if (_limits.Heat.HmfAtMost is { } most && check.Hmf < _limits.Confidence)
        {
            double hmf = HmfThatCounts(plan).MilligramsPerKilogram, limit = most.MilligramsPerKilogram;
            yield return (PlanLimit.Hmf, (hmf - limit) / Math.Max(1, limit), Invariant($"HMF {hmf:0.0} mg/kg, {hmf - limit:0.0} over the limit"));
        }

        if (_limits.Heat.DiastaseAtLeast is { } least && KnowsDiastase && check.Diastase < _limits.Confidence)
        {
            double number = DiastaseThatCounts(plan);
            yield return (PlanLimit.Diastase, (least - number) / Math.Max(1, least), Invariant($"diastase number {number:0.0}, {least - number:0.0} under the limit"));
        }

        if (!(plan.Opening > Ratio.Zero))
            yield return (PlanLimit.Overflow, 1, "no opening of the gate keeps the strainer from running over, or it never runs through");
        if (_limits.LongestStraining is { } longest)
        {
            double late = plan.StrainTime.Minutes - longest.Minutes;
            yield return (PlanLimit.StrainingTime, late / longest.Minutes, Invariant($"straining takes {late:0.0} min longer than its longest time"));
        }

        double over = plan.Total.Hours - _limits.Longest.Hours;
        yield return (PlanLimit.Time, over / _limits.Longest.Hours, Invariant($"{over:0.0} h longer than the longest time"));
    }

    private static (PlanLimit Limit, double Size, string Words) Hotter(PlanLimit limit, Temperature value, Temperature most, string what)
    {
        double kelvins = value.Kelvins - most.Kelvins;
        return (limit, kelvins > RoundingK ? kelvins / 10 : 0, Invariant($"{what} {kelvins:0.0} K above the limit of {most.DegreesCelsius:0.#} °C"));
    }

    private MassFraction HmfThatCounts(SetpointPlan plan) => _before.Hmf + _limits.Confidence switch
    {
        LimitConfidence.OverTheWholeBand => plan.Damage.HmfGainHigh,
        LimitConfidence.AtTheBestEstimate => plan.Damage.HmfGain,
        _ => plan.Damage.HmfGainLow,
    };

    private double DiastaseThatCounts(SetpointPlan plan) => _before.DiastaseNumber!.Value * (_limits.Confidence switch
    {
        LimitConfidence.OverTheWholeBand => plan.Damage.DiastaseLeftLow,
        LimitConfidence.AtTheBestEstimate => plan.Damage.DiastaseLeft,
        _ => plan.Damage.DiastaseLeftHigh,
    }).DecimalFractions;
}
