using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The fan of ponds: quantiles over the runs that go on, taken again by hand.</summary>
public class PondFanTests
{
    /// <summary>Of a hundred runs one goes on for long: the times end with the other ninety-nine, in 120 equal steps.</summary>
    [Fact]
    public void Times_reach_to_the_end_of_all_but_one_in_a_hundred()
    {
        double[] times = PondFanBuilder.Times(Sketch([.. Enumerable.Repeat(600.0, 99), 1e5]));
        Assert.Equal(121, times.Length);
        Assert.Equal(0, times[0]);
        Assert.Equal(600, times[^1], 0.7);
        for (int i = 0; i <= 120; i++)
            Assert.Equal(times[^1] / 120 * i, times[i], 1e-9);
    }

    [Fact]
    public void Times_reach_a_second_at_least() => Assert.Equal(1, PondFanBuilder.Times(Sketch(0.2, 0.3))[^1]);

    /// <summary>
    /// The definition of quantile 7: with n values in order the share p lies (n − 1) p places after the first, straight between neighbours. 32 runs, the
    /// thinner the honey the sooner over, read when all, some, one and none go on.
    /// </summary>
    [Fact]
    public void Quantiles_are_of_the_runs_that_still_go_on()
    {
        const int runs = 32;
        StrainingSetup setup = Pail(40);
        SpreadInputs inputs = Alone(Given(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3)));
        double[] points = Draws(1, runs);
        var samples = new StrainingSample[runs];
        new StrainingBatch(setup, inputs, OneThread).Run(points, samples, default);
        double[] ends = [.. samples.Select(sample => sample.EndSeconds).Order()];
        double[] times = [0, 5, 20, 60, (ends[5] + ends[6]) / 2, (ends[^3] + ends[^2]) / 2, (ends[^2] + ends[^1]) / 2, ends[^1] + 10];
        double[] depths = new double[runs * times.Length];
        new StrainingBatch(setup, inputs, OneThread).Run(points, samples, times, depths, default);

        PondFan fan = PondFanBuilder.Build(new StrainingBatch(setup, inputs, OneThread), points, runs, times, default);
        Assert.Equal(times, fan.Times.Select(time => time.Seconds));
        Assert.Equal(60, fan.Rim.Millimeters, 1e-9);
        int[] goingOn = [32, 32, 32, 32, 26, 2, 1, 0];
        for (int t = 0; t < times.Length; t++)
        {
            double[] now = [.. Enumerable.Range(0, runs).Select(run => depths[(run * times.Length) + t]).Where(double.IsFinite).Order()];
            Assert.Equal(goingOn[t], now.Length);
            Assert.Equal(goingOn[t] / 32.0, fan.GoingOn[t], 1e-12);
            Assert.Equal(Quantile(now, 0.05), fan.P05[t], 1e-12);
            Assert.Equal(Quantile(now, 0.25), fan.P25[t], 1e-12);
            Assert.Equal(Quantile(now, 0.50), fan.P50[t], 1e-12);
            Assert.Equal(Quantile(now, 0.75), fan.P75[t], 1e-12);
            Assert.Equal(Quantile(now, 0.95), fan.P95[t], 1e-12);
        }

        Assert.True(fan.P05[2] < fan.P25[2] && fan.P25[2] < fan.P50[2] && fan.P50[2] < fan.P75[2] && fan.P75[2] < fan.P95[2]);

        static double Quantile(double[] sorted, double share)
        {
            if (sorted.Length == 0)
                return double.NaN;
            double place = share * (sorted.Length - 1), sum = 0;
            for (int i = 0; i < sorted.Length; i++)
                sum += sorted[i] * Math.Max(0, 1 - Math.Abs(place - i)); // Hats over the places: straight in between.
            return sum;
        }
    }
}
