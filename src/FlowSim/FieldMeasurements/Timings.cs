using System.Globalization;
using MathNet.Numerics.Statistics;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>Several timings of the same thing by a stop watch: their mean, how well it is known, and whether one stands apart.</summary>
internal sealed class Timings
{
    /// <summary>Standard deviation of a start or a stop by hand unless the user gives another. Engineering choice.</summary>
    public static Duration DefaultReaction { get; } = Duration.FromSeconds(0.3);

    /// <summary>Most timings of one measurement. Engineering choice.</summary>
    private const int Most = 1000;

    /// <summary>Timings from which one is called apart.</summary>
    private const int LeastForOutliers = 4;

    /// <summary>Modified z-score beyond which a value is called apart: 3.5 after Iglewicz and Hoaglin 1993 (from memory).</summary>
    private const double FarScore = 3.5;

    /// <summary>Median absolute deviation of a normal distribution, in standard deviations: 0.6745.</summary>
    private const double NormalMedianDeviation = 0.67448975019608171;

    private readonly double[] _seconds;
    private readonly double _oneTimingS;

    /// <summary>Takes timings.</summary>
    /// <param name="times">The timings, 0.1 s to 24 h each.</param>
    /// <param name="reaction">Standard deviation of a start or a stop, 0 to 60 s.</param>
    /// <param name="timesName">Name of the first argument, to blame.</param>
    /// <param name="reactionName">Name of the second.</param>
    public Timings(IReadOnlyList<Duration> times, Duration reaction, string timesName, string reactionName)
    {
        EquipmentCheck.Present(times, timesName);
        if (times.Count is 0 or > Most)
            throw EquipmentCheck.Refused(timesName, string.Create(CultureInfo.InvariantCulture, $"{times.Count} timings are given; it takes 1 to {Most}."));
        foreach (Duration time in times)
            EquipmentCheck.Within(time.Seconds, 0.1, 86400, "s", timesName);
        double reactionS = EquipmentCheck.Within(reaction.Seconds, 0, 60, "s", reactionName);
        _seconds = [.. times.Select(time => time.Seconds)];

        // Start and stop err alike and independently. A few timings show their own scatter badly, so it only counts when larger.
        _oneTimingS = Math.Sqrt(2) * reactionS;
        MeanS = _seconds.Average();
        ScatterS = _seconds.Length > 1 ? Statistics.StandardDeviation(_seconds) : 0;
        SpreadS = Math.Max(_oneTimingS, ScatterS) / Math.Sqrt(_seconds.Length);
    }

    /// <summary>Mean, s.</summary>
    public double MeanS { get; }

    /// <summary>Standard deviation of one timing as the timings show it, s; 0 for one.</summary>
    public double ScatterS { get; }

    /// <summary>Standard deviation of the mean, s.</summary>
    public double SpreadS { get; }

    /// <summary>What the scatter says.</summary>
    public IEnumerable<Notice> Notices
    {
        get
        {
            if (Apart() is { } apart)
            {
                yield return new Notice(
                    "timings.outlier",
                    string.Create(CultureInfo.InvariantCulture, $"one timing of {apart:0.##} s stands apart from the others, whose median is {Statistics.Median(_seconds):0.##} s"),
                    "a late start or stop, a bubble or crystals at the ball, or honey that cooled in between",
                    "time it again and leave out a timing only when you know what went wrong; it is counted here");
            }

            if (ScatterS > 3 * _oneTimingS && _seconds.Length > 2)
            {
                yield return new Notice(
                    "timings.scatter",
                    string.Create(CultureInfo.InvariantCulture, $"the timings scatter by {ScatterS:0.##} s, more than a stop watch explains ({_oneTimingS:0.##} s)"),
                    "the honey changes from one timing to the next: it cools, or is not the same throughout",
                    "stir, hold it at its temperature and repeat");
            }
        }
    }

    /// <summary>The timing furthest from the median if it is apart from the rest.</summary>
    private double? Apart()
    {
        if (_seconds.Length < LeastForOutliers)
            return null;
        double median = Statistics.Median(_seconds);
        double[] deviations = [.. _seconds.Select(time => Math.Abs(time - median))];
        double spread = Math.Max(Statistics.Median(deviations) / NormalMedianDeviation, _oneTimingS);
        int far = Array.IndexOf(deviations, deviations.Max());
        return deviations[far] > FarScore * spread ? _seconds[far] : null;
    }
}
