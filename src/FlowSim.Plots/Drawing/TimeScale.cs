using System.Globalization;

namespace FlowSim.Plots.Drawing;

/// <summary>The unit of a time axis, chosen by the length of the run, and how moments are written beside it.</summary>
internal sealed record TimeScale(string Unit, double SecondsPerUnit)
{
    // Engineering choice: an axis of 3 to 180 units reads without decimals.
    private const double LongestInSecondsS = 180;
    private const double LongestInMinutesS = 3 * 3600;

    public static TimeScale For(double durationS) => durationS switch
    {
        <= LongestInSecondsS => new("s", 1),
        <= LongestInMinutesS => new("min", 60),
        _ => new("h", 3600),
    };

    /// <summary>A moment with its unit: <c>48 s</c>, <c>3:20 min</c>, <c>1:05 h</c>.</summary>
    public string Moment(double seconds) => Bare(seconds) + " " + Unit;

    /// <summary>A stretch of time: <c>3:20–5:10 min</c>.</summary>
    public string Span(double fromS, double toS) => Bare(fromS) + "–" + Bare(toS) + " " + Unit;

    private string Bare(double seconds)
    {
        if (SecondsPerUnit == 1)
            return seconds.ToString(seconds < 9.95 ? "0.#" : "0", CultureInfo.InvariantCulture);

        long parts = (long)Math.Round(seconds / (SecondsPerUnit / 60), MidpointRounding.AwayFromZero);
        return string.Create(CultureInfo.InvariantCulture, $"{parts / 60}:{parts % 60:00}");
    }
}
