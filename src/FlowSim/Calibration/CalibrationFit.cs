using FlowSim.OverflowRisk;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>Fits honey and kit to timed runs.</summary>
public static class CalibrationFit
{
    /// <summary>Correlation below which two inputs count as independent in what is kept.</summary>
    private const double Negligible = 0.02;

    /// <summary>Finds what the runs and measurements of a question say.</summary>
    /// <param name="question">Question.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the question is out of its range, or the runs are not of one honey and one kit; the message names it.</exception>
    /// <exception cref="SimulationException">A correlation of the user's own has no answer within the spreads from before, under which the next run is foretold.</exception>
    public static CalibrationAnswer Of(CalibrationQuestion question, CancellationToken cancellation = default)
    {
        CalibrationCheck.Require(question);
        var posterior = new CalibrationPosterior(question, cancellation);
        TimedSeries[] series = [.. question.Runs.SelectMany(run => run.Series)];
        BestFit fit = BestFit.Find(posterior, series, question.Seed, cancellation);
        bool found = fit.IsFound;
        FitLayout layout = posterior.Layout;
        WeightedDraws? draws = found ? RandomisedFits.Of(fit, question.Seed, cancellation) : null;
        (double[] Mean, Matrix<double> Covariance) scores = found
            ? Scores(fit, draws)
            : layout.Scores(new double[layout.Count], Matrix<double>.Build.DenseIdentity(layout.Count));
        SamplerCheck? check = found && question.Sample ? PosteriorSampling.Check(fit, series, draws, question.Seed, ref scores, cancellation) : null;

        FittedInput[] inputs = Inputs(layout, question, scores);
        double[][] correlations = Correlations(layout.Shared, scores.Covariance);
        CalibratedInputs calibrated = found ? Keep(question, inputs, correlations) : question.Earlier ?? new CalibratedInputs { Inputs = [], Correlations = [], Runs = [] };
        IReadOnlyList<SeriesFit> written = found ? SeriesFits.Write(question, fit, scores, cancellation) : [];
        (PredictionDraws before, PredictionDraws after) = Predict(question, calibrated, cancellation);
        return new CalibrationAnswer
        {
            Question = question,
            Status = !found ? CalibrationStatus.NotFound : written.Any(CalibrationNotices.IsPoor) ? CalibrationStatus.FittedPoorly : CalibrationStatus.Fitted,
            Inputs = inputs,
            Correlations = correlations,
            Calibrated = calibrated,
            Series = written,
            Indistinct = found ? IndistinctSearch.Find(inputs[..layout.Shared], correlations) : [],
            Check = check,
            Next = MeasurementChoice.Rank(after),
            Prediction = new PredictionChange(before.Strain(), after.Strain(), before.Overflows.Average(), after.Overflows.Average()),
            ModelRuns = posterior.ModelRuns + (2 * PredictionDraws.Count),
            Notices = CalibrationNotices.For(question, fit, inputs, layout, scores.Mean, written, check),
        };
    }

    /// <summary>Mean and covariance of the scores, by randomised fits; by Laplace's approximation where those fail.</summary>
    internal static (double[] Mean, Matrix<double> Covariance) Scores(BestFit fit, WeightedDraws? draws)
    {
        (double[] mean, Matrix<double> covariance) = draws?.Moments() ?? (fit.Numbers, fit.Covariance);
        return fit.Posterior.Layout.Scores(mean, covariance);
    }

    /// <summary>What was fitted, with what is known now.</summary>
    internal static FittedInput[] Inputs(FitLayout layout, CalibrationQuestion question, (double[] Mean, Matrix<double> Covariance) scores)
    {
        var inputs = new List<FittedInput>();
        for (int i = 0; i < layout.Count; i++)
        {
            if (layout.Numbers[i] is not { Kind: FitNumberKind.Input } number)
                continue;
            double left = Math.Min(1, Math.Sqrt(scores.Covariance[i, i]));
            inputs.Add(new FittedInput
            {
                Input = number.Input!,
                Run = number.Run < 0 ? null : question.Runs[number.Run].Name,
                Prior = number.Prior! with { Spread = number.Scale.Prior },
                Posterior = number.Scale.Posterior(scores.Mean[i], left),
                Left = left,
            });
        }

        return [.. inputs];
    }

    private static double[][] Correlations(int shared, Matrix<double> covariance)
    {
        double[][] correlations = new double[shared][];
        for (int i = 0; i < shared; i++)
        {
            correlations[i] = new double[shared];
            for (int j = 0; j < shared; j++)
                correlations[i][j] = i == j ? 1 : Math.Clamp(covariance[i, j] / Math.Sqrt(covariance[i, i] * covariance[j, j]), -0.9999, 0.9999);
        }

        return correlations;
    }

    private static CalibratedInputs Keep(CalibrationQuestion question, FittedInput[] inputs, double[][] correlations)
    {
        int runs = question.Runs.Count + question.Viscosities.Count + (question.Earlier?.Runs.Count ?? 0);
        var source = new Source(FormattableString.Invariant($"Fitted to {runs} {(runs == 1 ? "run or measurement" : "runs and measurements")} of the user's own"), Standing.GivenByUser);
        FittedInput[] shared = [.. inputs.Where(input => input.Run is null)];
        var kept = new List<InputCorrelation>();
        for (int i = 0; i < shared.Length; i++)
        {
            for (int j = i + 1; j < shared.Length; j++)
            {
                if (Math.Abs(correlations[i][j]) >= Negligible)
                    kept.Add(new InputCorrelation(shared[i].Input.Name, shared[j].Input.Name, correlations[i][j]));
            }
        }

        return new CalibratedInputs
        {
            Inputs = [.. shared.Select(input => new UncertainInput(input.Input, input.Posterior, ReferenceEquals(input.Posterior, input.Prior.Spread) ? input.Prior.Source : source))],
            Correlations = kept,
            Runs =
            [
                .. question.Earlier?.Runs ?? [],
                .. question.Runs.Select(run => new RunOnRecord(run.Name, run.Date, run.Fingerprint)),
                .. question.Viscosities.Select(spot => new RunOnRecord(spot.Name, null, RunFingerprint.Of(spot))),
            ],
        };
    }

    /// <summary>The same draws under the spreads from before and under the calibration; level, temperature and opening of the day stay as uncertain as they were.</summary>
    private static (PredictionDraws Before, PredictionDraws After) Predict(CalibrationQuestion question, CalibratedInputs calibrated, CancellationToken cancellation)
    {
        UncertainInput[] priors = [.. FitLayout.Priors(question).Where(prior => prior.Input.AppliesTo(question.Setup))];
        InputCorrelation[] known = [.. question.Earlier?.Correlations ?? [], .. question.Correlations];
        var before = new PredictionDraws(question.Setup, priors, known, question, cancellation);
        UncertainInput[] now = [.. priors.Select(prior => calibrated.Inputs.FirstOrDefault(kept => kept.Input == prior.Input) ?? prior)];
        var after = new PredictionDraws(calibrated.ApplyTo(question.Setup), now, calibrated.Correlations, question, cancellation);
        return (before, after);
    }
}
