using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Setpoints;
using FlowSim.Warming;

namespace FlowSim.Commands.Output;

/// <summary>The answer to a search for a setpoint as JSON: SI units, named in each key, HMF in mg/kg; null where there is none.</summary>
internal static class SetpointJson
{
    public static string Of(SetpointStory story) => JsonText.Object(json =>
    {
        SetpointAnswer answer = story.Answer;
        SetpointPlan? choice = answer.Choice;
        json.WriteString("status", Words.Of(answer.Status));
        json.Number("setpointK", choice?.Setpoint.Kelvins);
        if (answer.BindingLimit is { } limit)
            json.WriteString("bindingLimit", Words.Of(limit));
        else
            json.WriteNull("bindingLimit");
        json.Number("totalSeconds", choice?.Total.Seconds);
        json.Number("timeADegreeBuysSeconds", answer.TimeADegreeBuys?.Seconds);

        json.Number("warmLowSeconds", answer.Bounds?.TimeToTargetLow?.Seconds);
        json.Number("warmHighSeconds", answer.Bounds?.TimeToTargetHigh?.Seconds);

        Plan(json, "choice", choice);
        Plan(json, "runnerUp", answer.RunnerUp);
        NearestMiss(json, answer.NearestMiss);
        json.Objects("curve", answer.Curve, point =>
        {
            json.Number("setpointK", point.Setpoint.Kelvins);
            json.WriteBoolean("allowed", point.Allowed);
            Limits(json, "breaks", point.Broken);
            Plan(json, "plan", point.Plan);
        });

        SetpointLimits limits = answer.Question.Limits;
        DamageJson.Limit(json, limits.Heat, choice?.HeatCheck ?? answer.NearestMiss?.Plan.HeatCheck);
        json.WriteString("confidence", Words.Of(limits.Confidence));
        json.Number("ceilingK", limits.Ceiling.Kelvins);
        json.WriteBoolean("ceilingIsSetByUser", story.Limits.CeilingIsGiven);
        json.Number("wallAtMostK", limits.WallLimit.Kelvins);
        json.Number("atStrainerAtMostK", limits.WarmestAtStrainer.Kelvins);
        json.Number("forHandsAtMostK", limits.WarmestForHands?.Kelvins);
        json.Number("overflowTolerance", story.Limits.OverflowTolerance?.DecimalFractions);
        json.Number("longestStrainingSeconds", limits.LongestStraining?.Seconds);
        json.Number("longestSeconds", limits.Longest.Seconds);
        json.WriteNumber("warmingRuns", answer.WarmingRuns);

        json.Notices(story.Notices);
        json.Cautions(answer.Cautions);
        ResultJson.Input(json, story.Journal);
    });

    private static void NearestMiss(Utf8JsonWriter json, NearestMiss? miss)
    {
        if (miss is null)
        {
            json.WriteNull("nearestMiss");
            return;
        }

        json.WriteStartObject("nearestMiss");
        Plan(json, "plan", miss.Plan);
        json.Objects("misses", miss.Misses, entry =>
        {
            json.WriteString("limit", Words.Of(entry.Limit));
            json.WriteString("byHowMuch", entry.ByHowMuch);
        });
        json.WriteEndObject();
    }

    private static void Plan(Utf8JsonWriter json, string name, SetpointPlan? plan)
    {
        if (plan is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.Number("setpointK", plan.Setpoint.Kelvins);
        json.Number("strainAtK", plan.StrainAt.Kelvins);
        json.Number("openingShare", plan.Opening.DecimalFractions);
        json.Number("warmSeconds", plan.WarmTime.Seconds);
        json.Number("strainSeconds", plan.StrainTime.Seconds);
        json.Number("totalSeconds", plan.Total.Seconds);
        DamageJson.Figures(json, plan.Damage);
        DamageJson.After(json, plan.After);
        json.Number("hottestHoneyK", plan.HottestHoney.Kelvins);
        json.Number("wallMaxK", plan.HottestWall.Kelvins);
        json.Number("energyJ", plan.Heater.Joules);
        Limits(json, "breaks", plan.Broken);
        Warming(json, plan.Warming);
        json.WriteEndObject();
    }

    /// <summary>Of the plan that was run as a whole, what the warming adds to the plan's own figures.</summary>
    private static void Warming(Utf8JsonWriter json, WarmingResult? warming)
    {
        if (warming is null)
            return;
        json.Number("coldestK", warming.End.Coldest.Kelvins);
        json.Number("wallAboveProbeK", warming.WallAboveProbe.Kelvins);
        json.Number("crystalsLeftShare", warming.CrystalsLeft.DecimalFractions);
    }

    private static void Limits(Utf8JsonWriter json, string name, IEnumerable<PlanLimit> limits)
    {
        json.WriteStartArray(name);
        foreach (PlanLimit limit in limits)
            json.WriteStringValue(Words.Of(limit));
        json.WriteEndArray();
    }
}
