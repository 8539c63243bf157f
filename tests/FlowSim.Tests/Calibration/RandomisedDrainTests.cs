using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>Shaken fits to a drain, whose readings differ in what they say, against their equation written with matrices.</summary>
public class RandomisedDrainTests
{
    [Fact]
    public void Each_draw_solves_its_equation_and_weighs_what_it_should()
    {
        CalibrationQuestion question = Drain.Question();
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        BestFit fit = BestFit.Find(posterior, [.. question.Runs[0].Series], 1, CancellationToken.None);
        WeightedDraws draws = RandomisedFits.Of(fit, 3, CancellationToken.None)!;
        int width = posterior.Layout.Count, measured = posterior.Measured;
        double[] weights = Weights(posterior, fit), slopes = fit.SlopesAt(fit.Numbers);
        Assert.Contains(weights, weight => weight < 0.3 * weights[..^1].Max()); // The stray reading.
        Matrix<double> jacobian = Matrix<double>.Build.Dense(measured, width, (i, j) => weights[i] * slopes[(i * width) + j]), identity = Matrix<double>.Build.DenseIdentity(width);
        Matrix<double> covariance = ((jacobian.Transpose() * jacobian) + identity).Inverse(), factor = covariance.Cholesky().Factor;
        Vector<double> best = Vector<double>.Build.DenseOfArray(fit.Numbers), atBest = Vector<double>.Build.Dense(measured, i => fit.Off[i] * weights[i]);
        double[] points = new double[256 * width], logs = new double[256];
        new ScrambledSobol(width, 5, 0).Fill(0, points);
        int near = 0;

        // Each draw, and with each number a twentieth further, all at once.
        double[] rows = [.. Enumerable.Range(0, 256 * (width + 1)).SelectMany(row => Enumerable.Range(0, width).Select(j => draws.Values[(row / (width + 1) * width) + j] + (row % (width + 1) == j + 1 ? 0.05 : 0)))];
        double[] all = new double[256 * (width + 1) * measured];
        posterior.Off(rows, 256 * (width + 1), all);
        for (int d = 0; d < 256; d++)
        {
            double[] x = draws.Values[(d * width)..((d + 1) * width)];
            Vector<double> u = Vector<double>.Build.DenseOfArray(x), off = Off(d, 0);
            Vector<double> delta = factor * Vector<double>.Build.Dense(width, j => Normal.InvCDF(0, 1, points[(d * width) + j]));
            Vector<double> miss = delta - (covariance * ((jacobian.Transpose() * (off - atBest)) + (u - best)));
            double worst = Enumerable.Range(0, width).Max(j => Math.Abs(miss[j]) / Math.Sqrt(covariance[j, j]));
            Assert.True(draws.Weights[d] == 0 || worst <= 0.1001, $"{worst}");
            near += worst <= 0.0201 ? 1 : 0;
            Matrix<double> there = Matrix<double>.Build.Dense(measured, width);
            for (int j = 0; j < width; j++)
                there.SetColumn(j, (Off(d, j + 1) - off) / 0.05);
            Vector<double> along = (jacobian.Transpose() * off) + u;
            double determinant = ((jacobian.Transpose() * there) + identity).Determinant();
            logs[d] = draws.Weights[d] == 0 ? double.NegativeInfinity : (0.5 * ((along * (covariance * along)) - (off * off) - (u * u))) - Math.Log(Math.Abs(determinant));
        }

        Assert.True(near > 230, $"{near}");
        double[] expected = [.. logs.Select(log => Math.Exp(log - logs.Max()))];
        Assert.True(draws.Effective >= 60);
        for (int d = 0; d < 256; d++)
            Assert.Equal(expected[d] / expected.Sum(), draws.Weights[d], 1e-4 * expected.Max() / expected.Sum());

        Vector<double> Off(int draw, int moved) => Vector<double>.Build.Dense(measured, i => all[(((draw * (width + 1)) + moved) * measured) + i] * weights[i]);
    }

    /// <summary>1/(1 + u²/4), their mean 1, over the scale and what the readings count; 1 for a viscosity; of each the root.</summary>
    private static double[] Weights(CalibrationPosterior posterior, BestFit fit)
    {
        double[] weights = [.. Enumerable.Repeat(1.0, posterior.Measured)];
        for (int s = 0; s < posterior.Places.Length; s++)
        {
            (int start, int count) = posterior.Places[s];
            double scale = posterior.Scales[s];
            double[] less = [.. fit.Off[start..(start + count)].Select(off => 1 / (1 + (off * off / scale / scale / 4)))];
            for (int i = 0; i < count; i++)
                weights[start + i] = Math.Sqrt(less[i] / less.Average() / fit.Counted[s]) / scale;
        }

        return weights;
    }
}

/// <summary>The small pail as it drains, its level and what came into the receiver read with scatter, one reading stray; a viscosity beside them.</summary>
internal static class Drain
{
    private static readonly double[] Times = [0, 8, 16, 30, 45, 60, 80, 100, 130, 160];

    public static CalibrationQuestion Question(double lot = 1.2)
    {
        StrainingSetup setup = SmallPail.Running();
        return new CalibrationQuestion
        {
            Setup = setup,
            Priors = [Lot, LevelOfTank],
            Runs = [Run(setup, Series(StrainingObservable.TankLevel, Read(lot, StrainingObservable.TankLevel, 0.001)), Series(StrainingObservable.ReceiverMass, Read(lot, StrainingObservable.ReceiverMass, 0.02)))],
            Viscosities = [Spot("ball", 36, 9, 0.3)],
            Sample = false,
        };
    }

    private static (double T, double V)[] Read(double lot, StrainingObservable quantity, double scatter)
    {
        double[] values = new double[Times.Length];
        new StrainingEnsemble(StrainingInputs.LotFactor.With(SmallPail.Running(), lot), []).Run(
            ReadOnlyMemory<double>.Empty, new StrainingSample[1], new EnsembleTrace { TimesS = Times, Quantities = new[] { quantity }, Values = values, HoldsLast = true });
        return [.. Times.Select((t, i) => (t, Math.Max(0, values[i] + (scatter * (i == 4 ? 12 : (i * 7 % 5) - 2)))))];
    }
}
