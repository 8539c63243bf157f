using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Watching;

/// <summary>Writes an outlook as JSON, SI units; times are since the opening of the gate.</summary>
internal static class OutlookJson
{
    /// <summary>The text.</summary>
    /// <param name="outlook">Outlook.</param>
    public static string Of(RunOutlook outlook) => JsonText.Object(json =>
    {
        json.Number("nowSeconds", outlook.Now.Seconds);
        json.Objects("nextActions", outlook.NextActions, action =>
        {
            json.WriteString("what", Words.Of(action.Kind));
            json.Number("atSeconds", action.At.Seconds);
            json.Number("earliestSeconds", action.Earliest.Seconds);
            json.Number("latestSeconds", action.Latest.Seconds);
            json.Number("opening", action.Opening?.DecimalFractions);
            json.Number("depthM", action.Depth?.Meters);
            json.WriteString("why", action.Why);
        });
        json.Objects("expected", outlook.Expected, expected =>
        {
            json.WriteString("quantity", Words.Of(expected.Quantity));
            json.Number("value", expected.Value);
            json.Number("low", expected.Low);
            json.Number("high", expected.High);
        });
        json.WriteString("verdict", Words.Of(outlook.Verdict));
        json.Objects("deviations", outlook.Deviations, deviation =>
        {
            json.WriteString("quantity", Words.Of(deviation.Quantity));
            json.Number("atSeconds", deviation.At.Seconds);
            json.Number("read", deviation.Read);
            json.Number("expected", deviation.Expected);
            json.Number("standardDeviations", deviation.StandardDeviations);
        });
        json.Number("lookAgainInSeconds", outlook.LookAgainIn?.Seconds);
        json.Number("rimChance", outlook.PondReachesRim.Chance);
        json.Number("rimEarliestSeconds", outlook.PondReachesRim.Earliest?.Seconds);
        json.Number("rimLikelySeconds", outlook.PondReachesRim.Likely?.Seconds);
        json.Number("rimLatestSeconds", outlook.PondReachesRim.Latest?.Seconds);
        json.Number("readySecondsP10", outlook.Ready.P10?.Seconds);
        json.Number("readySecondsP50", outlook.Ready.P50?.Seconds);
        json.Number("readySecondsP90", outlook.Ready.P90?.Seconds);
        json.Number("readyNeverShare", outlook.Ready.Never);
        json.WriteBoolean("fitted", outlook.Fitted);
        json.Objects("estimate", outlook.Estimate, input =>
        {
            json.WriteString("name", input.Input.Name);
            json.WriteString("unit", input.Input.Unit);
            json.Number("value", input.Middle);
            json.Number("low", input.Low);
            json.Number("high", input.High);
            json.Number("left", input.Left);
        });
        json.Notices(outlook.Notices);
        json.Cautions(outlook.Cautions);
    });
}
