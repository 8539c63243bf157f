using FlowSim.Numerics.Sampling;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace FlowSim.Calibration;

/// <summary>Writes how each series was met, with the course and its band.</summary>
internal static class SeriesFits
{
    private const int CoursePoints = 121;

    /// <summary>Longest course, in times of the last reading.</summary>
    private const double Ahead = 3;

    /// <summary>The series of a fit.</summary>
    /// <param name="question">Question.</param>
    /// <param name="fit">Best fit.</param>
    /// <param name="scores">Mean and covariance of the scores.</param>
    /// <param name="cancellation">Ends early.</param>
    public static IReadOnlyList<SeriesFit> Write(CalibrationQuestion question, BestFit fit, (double[] Mean, Matrix<double> Covariance) scores, CancellationToken cancellation)
    {
        var written = new List<SeriesFit>();
        for (int run = 0, all = 0; run < question.Runs.Count; run++)
        {
            TimedRun timed = question.Runs[run];
            double last = timed.Series.Max(series => series.Readings[^1].At.Seconds);
            var (times, course, deviations) = Course(timed, run, Math.Max(last, 1e-3), fit, question, cancellation);
            for (int s = 0; s < timed.Series.Count; s++, all++)
            {
                int clock = fit.Posterior.Layout.Clocks[run][s];
                double scatter = StudentNoise.DeviationPerScale * fit.Posterior.Scales[all];
                FittedReading[] readings = Readings(timed.Series[s], fit.Off.AsSpan(fit.Posterior.Places[all].Start, fit.Posterior.Places[all].Count), scatter);
                PredictedReading[] band = new PredictedReading[times.Length];
                for (int i = 0; i < times.Length; i++)
                {
                    double at = course[(s * times.Length) + i], sd = deviations[(s * times.Length) + i];
                    double reach = NormalDistribution.HalfWidth95 * Math.Sqrt((scatter * scatter) + (sd * sd));
                    band[i] = new PredictedReading(Duration.FromSeconds(times[i]), at, at - reach, at + reach);
                }

                written.Add(new SeriesFit
                {
                    Run = timed.Name,
                    Series = timed.Series[s],
                    Noise = scatter,
                    Clock = (Duration.FromSeconds(Value(clock)), Duration.FromSeconds(Sd(clock))),
                    Zero = (Value(clock + 1), Sd(clock + 1)),
                    Readings = readings,
                    Course = band,
                    Autocorrelation = fit.Together[all].Neighbours,
                    Inflation = fit.Together[all].Inflation,
                    Explained = Explained(readings, scatter),
                });
            }
        }

        return written;

        double Value(int number) => fit.Posterior.Layout.Numbers[number].Scale.ValueAt(scores.Mean[number]);

        double Sd(int number)
        {
            double sd = Math.Sqrt(scores.Covariance[number, number]);
            ScoreScale scale = fit.Posterior.Layout.Numbers[number].Scale;
            return scale.ValueAt(sd) - scale.ValueAt(0);
        }
    }

    private static FittedReading[] Readings(TimedSeries series, ReadOnlySpan<double> off, double scatter)
    {
        var readings = new FittedReading[off.Length];
        for (int i = 0; i < off.Length; i++)
        {
            TimedReading reading = series.Readings[i];
            double residual = off[i] / scatter;
            readings[i] = new FittedReading(reading.At, reading.Value, reading.Value - off[i], residual, Math.Abs(residual) > StudentNoise.Outlying);
        }

        return readings;
    }

    private static double Explained(FittedReading[] readings, double scatter)
    {
        double[] kept = [.. readings.Where(reading => !reading.IsOutlier).Select(reading => reading.Read)];
        if (kept.Length < 2)
            return 0;
        double mean = kept.Average(), variance = kept.Sum(value => (value - mean) * (value - mean)) / (kept.Length - 1);
        return variance > 0 ? Math.Min(1, 1 - (scatter * scatter / variance)) : 0;
    }

    /// <summary>The course of every series on an even grid, and how far the fitted numbers leave it open.</summary>
    private static (double[] TimesS, double[] Values, double[] Deviations) Course(TimedRun run, int index, double lastS, BestFit fit, CalibrationQuestion question, CancellationToken cancellation)
    {
        const double Step = 0.1;
        FitLayout layout = fit.Posterior.Layout;
        int width = layout.Count, rows = (2 * width) + 1;
        double[] values = new double[rows * width];
        double[] u = [.. fit.Numbers];
        layout.Values(u, values.AsSpan(0, width));
        for (int j = 0; j < width; j++)
        {
            for (int side = 0; side < 2; side++)
            {
                u[j] = fit.Numbers[j] + (side == 0 ? -Step : Step);
                layout.Values(u, values.AsSpan(((2 * j) + side + 1) * width, width));
            }

            u[j] = fit.Numbers[j];
        }

        // To the end of the run, which is known once it has been made.
        var first = new RunModel(run, index, layout, question.Threads, [lastS]);
        double[] one = new double[first.Readings];
        first.Predict(values.AsSpan(0, width), 1, width, one, one.Length, cancellation);
        double end = Math.Max(lastS, Math.Min(first.EndS(0), Ahead * lastS));
        double[] times = [.. Enumerable.Range(0, CoursePoints).Select(i => end * i / (CoursePoints - 1))];
        var model = new RunModel(run, index, layout, question.Threads, times);
        double[] predicted = new double[rows * model.Readings];
        model.Predict(values, rows, width, predicted, model.Readings, cancellation);

        Matrix<double> factor = fit.Covariance.Cholesky().Factor;
        double[] deviations = new double[model.Readings];
        Vector<double> slope = Vector<double>.Build.Dense(width);
        for (int i = 0; i < model.Readings; i++)
        {
            for (int j = 0; j < width; j++)
                slope[j] = (predicted[(((2 * j) + 2) * model.Readings) + i] - predicted[(((2 * j) + 1) * model.Readings) + i]) / (2 * Step);
            deviations[i] = factor.TransposeThisAndMultiply(slope).L2Norm();
        }

        return (times, predicted[..model.Readings], deviations);
    }
}
