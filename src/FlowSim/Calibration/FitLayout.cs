using FlowSim.OverflowRisk;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>
/// The numbers that are fitted, in order: honey and kit, then run by run its own inputs and the clock and zero of each of its series. The fit works on
/// independent standard normal numbers u; the scores are z = L u, L the Cholesky factor of what went together before.
/// </summary>
internal sealed class FitLayout
{
    private readonly double[][]? _factor;

    /// <summary>Lays out the numbers of a question.</summary>
    /// <param name="question">Question, already checked.</param>
    public FitLayout(CalibrationQuestion question)
    {
        UncertainInput[] priors = Priors(question);
        InputCorrelation[] correlations = [.. question.Earlier?.Correlations ?? [], .. question.Correlations];
        var numbers = new List<FitNumber>();
        foreach (UncertainInput prior in priors.Where(prior => CalibrationPriors.IsShared(prior.Input)))
        {
            StrainingSetup[] setups = [question.Setup, .. question.Runs.Select(run => run.Setup)];
            (double low, double high) = (setups.Max(setup => prior.Input.RangeIn(setup).Low), setups.Min(setup => prior.Input.RangeIn(setup).High));
            numbers.Add(new FitNumber(FitNumberKind.Input, prior.Input, prior, -1, ScoreScale.Of(prior.Spread, low, high)));
        }

        Shared = numbers.Count;
        Clocks = new int[question.Runs.Count][];
        for (int run = 0; run < question.Runs.Count; run++)
        {
            StrainingSetup setup = question.Runs[run].Setup;
            foreach (UncertainInput prior in priors.Where(prior => !CalibrationPriors.IsShared(prior.Input) && prior.Input.AppliesTo(setup)))
            {
                (double low, double high) = prior.Input.RangeIn(setup);
                UncertainInput own = CalibrationPriors.Straight(prior with { Spread = MovedDistribution.To(prior.Spread, prior.Input.ValueIn(setup)) });
                numbers.Add(new FitNumber(FitNumberKind.Input, own.Input, own, run, ScoreScale.Of(own.Spread, low, high)));
            }

            Clocks[run] = new int[question.Runs[run].Series.Count];
            for (int s = 0; s < Clocks[run].Length; s++)
            {
                TimedSeries series = question.Runs[run].Series[s];
                Clocks[run][s] = numbers.Count;
                numbers.Add(new FitNumber(FitNumberKind.Clock, null, null, run, ScoreScale.AboutZero(series.ClockOffset.Seconds)));
                numbers.Add(new FitNumber(FitNumberKind.Zero, null, null, run, ScoreScale.AboutZero(series.ZeroOffset ?? TimedSeries.CommonZeroOffset(series.Quantity))));
            }
        }

        Numbers = numbers;
        _factor = Factor(numbers, correlations);
    }

    /// <summary>The numbers.</summary>
    public IReadOnlyList<FitNumber> Numbers { get; }

    /// <summary>Number of them that all runs share; they come first.</summary>
    public int Shared { get; }

    /// <summary>Place of the clock of each run's each series; its zero comes next.</summary>
    public int[][] Clocks { get; }

    /// <summary>Number of numbers.</summary>
    public int Count => Numbers.Count;

    /// <summary>What was known before: an earlier calibration in place of the rest.</summary>
    /// <param name="question">Question.</param>
    public static UncertainInput[] Priors(CalibrationQuestion question)
    {
        HashSet<StrainingInput> earlier = [.. question.Earlier?.Inputs.Select(input => input.Input) ?? []];
        return
        [
            .. (question.Earlier?.Inputs ?? []).Where(Applies).Select(CalibrationPriors.Straight),
            .. (question.Priors ?? CalibrationPriors.For(question.Setup)).Where(prior => !earlier.Contains(prior.Input) && Applies(prior)).Select(CalibrationPriors.Straight),
        ];

        bool Applies(UncertainInput prior) =>
            prior.Input.AppliesTo(question.Setup) || question.Runs.Any(run => prior.Input.AppliesTo(run.Setup));
    }

    /// <summary>Scores of independent numbers: z = L u.</summary>
    /// <param name="u">Independent numbers.</param>
    /// <param name="z">Takes the scores.</param>
    public void Scores(ReadOnlySpan<double> u, Span<double> z)
    {
        if (_factor is null)
        {
            u.CopyTo(z);
            return;
        }

        for (int i = 0; i < Count; i++)
        {
            double sum = 0;
            double[] row = _factor[i];
            for (int j = 0; j < row.Length; j++)
                sum += row[j] * u[j];
            z[i] = sum;
        }
    }

    /// <summary>Values of independent numbers, SI.</summary>
    /// <param name="u">Independent numbers.</param>
    /// <param name="values">Takes the values.</param>
    public void Values(ReadOnlySpan<double> u, Span<double> values)
    {
        Scores(u, values);
        for (int i = 0; i < Count; i++)
            values[i] = Numbers[i].Scale.ValueAt(values[i]);
    }

    /// <summary>Mean and covariance of the scores from those of the independent numbers.</summary>
    /// <param name="mean">Mean of u.</param>
    /// <param name="covariance">Covariance of u.</param>
    public (double[] Mean, Matrix<double> Covariance) Scores(double[] mean, Matrix<double> covariance)
    {
        if (_factor is null)
            return (mean, covariance);
        double[] z = new double[Count];
        Scores(mean, z);
        Matrix<double> l = Matrix<double>.Build.Dense(Count, Count, (i, j) => j < _factor[i].Length ? _factor[i][j] : 0);
        return (z, l * covariance * l.Transpose());
    }

    private static double[][]? Factor(List<FitNumber> numbers, InputCorrelation[] correlations)
    {
        if (correlations.All(correlation => correlation.Strength == 0))
            return null;
        Matrix<double> matrix = Matrix<double>.Build.DenseIdentity(numbers.Count);
        foreach (InputCorrelation correlation in correlations)
        {
            int one = Find(correlation.One), other = Find(correlation.Other);
            if (one >= 0 && other >= 0 && one != other)
                matrix[one, other] = matrix[other, one] = correlation.Strength;
        }

        double[][] rows = matrix.Cholesky().Factor.ToRowArrays();
        return [.. rows.Select((row, i) => row[..(i + 1)])];

        // An input that plays no part in any run has no place here; the calibration it came with goes on without it.
        int Find(string name) => numbers.FindIndex(number => number.Run < 0 && string.Equals(number.Input?.Name, name, StringComparison.OrdinalIgnoreCase));
    }
}
