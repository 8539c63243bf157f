using FlowSim.FieldMeasurements;
using FlowSim.Numerics.Sampling;

namespace FlowSim.Tests.FieldMeasurements;

public class ErrorBudgetTests
{
    /// <summary>A sum of independent errors, by hand: √(3² + 4²) = 5, shares 9/25 and 16/25.</summary>
    [Fact]
    public void Variances_add_up()
    {
        ErrorBudget budget = ErrorBudget.Of(x => 3 * x[0] - 2 * x[1] + 7 * x[2], new("a", 10, 1), new("b", 5, 2), new("c", 1, 0));
        Assert.Equal(5, budget.StandardDeviation, 1e-9);
        Assert.Equal(["b", "a"], budget.Shares.Select(share => share.Name));
        Assert.Equal(16 / 25.0, budget.Shares[0].Share, 1e-9);
        Assert.Equal(4, budget.Shares[0].StandardDeviation, 1e-9);
    }

    [Fact]
    public void Without_errors_there_is_nothing_to_share()
    {
        ErrorBudget budget = ErrorBudget.Of(x => x[0], new ErrorBudget.Input("a", 1, 0)).Add("b", 0);
        Assert.Equal(0, budget.StandardDeviation);
        Assert.Empty(budget.Shares);
    }

    /// <summary>The falling ball, every input drawn from its normal distribution: spread and interval of the viscosity are those that were stated.</summary>
    [Fact]
    public void Ball_agrees_with_Monte_Carlo()
    {
        ViscosityMeasurement measured = Samples.Ball(10.9).Measure();
        HoneySample sample = Samples.Honey();
        double wall = 0.05 * Math.Log(SphereFall.WallFactorFaxen1922(0.06)), reynolds = sample.DensityKgPerM3 * (0.1 / 10.9) * 0.003 / measured.Viscosity.PascalSeconds;
        double inertia = 0.3 * Math.Log(1 + 3 * reynolds / 16);
        Distribution[] inputs =
        [
            new NormalDistribution(0.003, 0.02e-3), new NormalDistribution(0.050, 1e-3), new NormalDistribution(7800, 50),
            new NormalDistribution(sample.DensityKgPerM3, sample.DensitySpreadKgPerM3), new NormalDistribution(0.1, 1e-3),
            new NormalDistribution(10.9, 0.3 * Math.Sqrt(2)), new NormalDistribution(0, Math.Abs(wall)), new NormalDistribution(0, inertia),
        ];
        var runs = new ReplicateRuns(new Model(inputs.Length, x =>
        {
            double[] v = [.. inputs.Select((input, i) => input.Quantile(x[i]))];
            return Math.Log(SphereFall.ViscosityPaS(v[0], v[1], v[2], v[3], v[4] / v[5])) + v[6] + v[7];
        }), 7);
        runs.Extend(4096);
        Propagation drawn = Propagation.Of(runs, 0);
        Assert.Equal(drawn.StandardDeviation.Value, measured.LogStandardDeviation, 0.01 * measured.LogStandardDeviation);
        Assert.Equal(drawn.SymmetricLow.Value, Math.Log(measured.Interval95.Low.PascalSeconds), 0.006);
        Assert.Equal(drawn.SymmetricHigh.Value, Math.Log(measured.Interval95.High.PascalSeconds), 0.006);
    }

    internal sealed class Model(int dimensions, Func<double[], double> function) : IBatchModel
    {
        public int Dimensions => dimensions;

        public int Outputs => 1;

        public void Evaluate(ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation)
        {
            for (int i = 0; i < outputs.Length; i++)
                outputs[i] = function(points.Slice(i * dimensions, dimensions).ToArray());
        }
    }
}
