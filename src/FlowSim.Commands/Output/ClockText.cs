using System.Globalization;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>Moments of a plan as times of day.</summary>
/// <param name="date">The day that moments count from.</param>
/// <param name="us">Whether times are told with am and pm.</param>
internal sealed class ClockText(DateOnly date, bool us)
{
    /// <summary>A time of day: "07:30" or "7:30 am".</summary>
    /// <param name="moment">Moment.</param>
    public string Time(Duration moment) => At(date, moment).ToString(us ? "h:mm tt" : "HH:mm", CultureInfo.InvariantCulture).Replace("AM", "am", StringComparison.Ordinal).Replace("PM", "pm", StringComparison.Ordinal);

    /// <summary>A time of day, with its day where that is another than the plan's.</summary>
    /// <param name="moment">Moment.</param>
    public string Moment(Duration moment) => DateOnly.FromDateTime(At(date, moment)) == date ? Time(moment) : $"{At(date, moment).ToString("ddd", CultureInfo.InvariantCulture)} {Time(moment)}";

    /// <summary>Its day as a heading: "Saturday 2026-03-14".</summary>
    /// <param name="moment">Moment.</param>
    public string Day(Duration moment) => At(date, moment).ToString("dddd yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Whether two moments lie on one day.</summary>
    public bool IsSameDay(Duration one, Duration other) => At(date, one).Date == At(date, other).Date;

    /// <summary>A moment for programs: "2026-03-14T07:30".</summary>
    /// <param name="date">The day that moments count from.</param>
    /// <param name="moment">Moment.</param>
    public static string Iso(DateOnly date, Duration moment) => At(date, moment).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);

    private static DateTime At(DateOnly date, Duration moment) => date.ToDateTime(TimeOnly.MinValue).AddMinutes(Math.Round(moment.Minutes));
}
