using FlowSim.Commands.Input;
using FlowSim.WholeJob;

namespace FlowSim.Commands.Output;

/// <summary>A whole job as JSON: SI units, named in each key; null where something never happens or was not there.</summary>
internal static class YieldJson
{
    public static string Of(JobStory story) => JsonText.Object(json =>
    {
        JobResult job = story.Result;
        json.Number("startKg", job.Account.Start.Kilograms);
        json.Number("yieldShare", job.Account.Yield.DecimalFractions);
        json.Number("unstrainedKg", job.Account.Unstrained.Kilograms);
        json.Number("balanceRelative", job.Account.BalanceRelative);
        json.Number("jars", job.Filling?.Jars);
        json.Objects("steps", job.Steps, step =>
        {
            json.WriteString("step", Words.Of(step.Kind));
            json.Number("likelySeconds", step.Times?.Likely.Seconds);
            json.Number("quickSeconds", step.Times?.Quick.Seconds);
            json.Number("slowSeconds", step.Times?.Slow.Seconds);
            json.WriteString("never", step.Never);
        });
        json.Objects("account", job.Account.Lines, line =>
        {
            json.WriteString("place", Words.Of(line.Place));
            json.Number("kg", line.Mass.Kilograms);
        });
        json.Objects("recoveries", job.Recoveries, recovery =>
        {
            json.WriteString("place", Words.Of(recovery.Place));
            json.Number("kg", recovery.Mass.Kilograms);
            json.WriteString("how", recovery.How);
        });
        json.Objects("standing", story.Standing, choice =>
        {
            json.Number("standsForSeconds", choice.StandsFor.Seconds);
            json.Number("debrisLeftShare", choice.DebrisLeft?.Load.DecimalFractions);
            json.Number("scumKg", choice.Scum.Kilograms);
            json.Number("strain95Seconds", choice.StrainTime?.Seconds);
            json.Number("peakPondM", choice.PeakPond.Meters);
            json.Number("firstOverflowSeconds", choice.FirstOverflow?.Seconds);
        });
        json.Notices(job.Notices);
        json.Cautions(job.Cautions);
        ResultJson.Input(json, story.Journal);
    });
}
