using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using MathNet.Numerics.Distributions;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

public class FitStartsTests
{
    private static readonly double[] One = [1, -1, 2, 0.5, 30], Other = [4, -3, 8];

    private static readonly CalibrationQuestion Question = new()
    {
        Setup = Shut,
        Priors = [Lot, LevelOfTank],
        Runs = [Run(Shut, Rule(0.113, One), Rule(0.108, Other))],
        Viscosities = [Spot("ball", 35, 9, 0.2)],
    };

    private static double[][] Starts(CalibrationQuestion question, ulong seed, int count = 100)
    {
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        return [.. FitStarts.For(posterior, [.. question.Runs.SelectMany(run => run.Series)], seed).Take(count)];
    }

    /// <summary>The 1024 draws, pulled in to 0.8 of themselves.</summary>
    private static double[][] Draws(int width, ulong seed)
    {
        double[] points = new double[1024 * width];
        new ScrambledSobol(width, seed, 0).Fill(0, points);
        return [.. points.Select(p => 0.8 * Normal.InvCDF(0, 1, p)).Chunk(width)];
    }

    /// <summary>
    /// Logarithm of the density with each rule's scale the median of its distances, at least the common 1.5 mm: level and zero by hand.
    /// </summary>
    private static double Likely(double[] u, double logOver)
    {
        double log = -0.5 * u.Sum(x => x * x) - (0.5 * Math.Pow((logOver - (0.3 * u[0])) / 0.2, 2));
        foreach ((double[] mm, double level, double zero) in (ReadOnlySpan<(double[], double, double)>)[(One, 0.113, u[3]), (Other, 0.108, u[5])])
        {
            double[] off = [.. mm.Select(d => level + (0.001 * d) - 0.11 - (0.005 * u[1]) - (0.002 * zero))];
            double scale = Math.Max(0.0015, off.Select(Math.Abs).Order().ElementAt(off.Length / 2));
            double far = Math.Log(scale / 0.0015) / Math.Log(3);
            log += off.Sum(r => (-2.5 * Math.Log(1 + (r * r / (4 * scale * scale)))) - Math.Log(scale)) - (0.5 * far * far);
        }

        return log;
    }

    [Fact]
    public void They_are_the_likeliest_draws_with_the_middle_in_second_place()
    {
        double[][] starts = Starts(Question, 3), draws = Draws(6, 3);
        double expected = FlowSim.Properties.HoneyProperties.OfNumbers(Shut.Honey, 18, 1).ViscosityPaS(308.15);
        double[][] best = [.. draws.OrderByDescending(u => Likely(u, Math.Log(9 / expected)))];
        Assert.Equal(10, starts.Length);
        Assert.Equal(best[0], starts[0]);
        Assert.Equal(new double[6], starts[1]);
        for (int i = 2; i < 10; i++)
            Assert.Equal(best[i - 1], starts[i]);
    }

    [Fact]
    public void Another_seed_draws_elsewhere() => Assert.NotEqual(Starts(Question, 3, 1)[0], Starts(Question, 4, 1)[0]);

    /// <summary>64 draws are made together: where one of them cannot be computed the others still can.</summary>
    [Fact]
    public void Draws_that_cannot_be_computed_come_last()
    {
        // No number above 18.1 %, which is 0.2 standard deviations of the moisture: no batch is without such draws.
        double[][] draws = Draws(3, 1), starts = Starts(Broken(18.1), 1);
        Assert.All(draws.Chunk(64), batch => Assert.Contains(batch, u => u[0] > 0.2));
        Assert.NotEqual(draws[0], starts[0]);
        foreach (double[] start in starts.Where((_, i) => i != 1))
        {
            Assert.InRange(Array.FindIndex(draws, draw => draw.AsSpan().SequenceEqual(start)), 0, 1023);
            Assert.True(start[0] <= 0.2, $"{start[0]}");
        }
    }

    [Fact]
    public void Where_none_can_be_computed_they_come_as_they_were_drawn()
    {
        double[][] starts = Starts(Broken(15), 1), draws = Draws(3, 1);
        Assert.Equal(draws[0], starts[0]);
        for (int i = 2; i < 10; i++)
            Assert.Equal(draws[i - 1], starts[i]);
    }

    private static CalibrationQuestion Broken(double abovePercent)
    {
        StrainingSetup setup = OwnHoney.In(SmallPail.Running(), (moisture, _) => moisture > abovePercent ? double.NaN : 6) with { Longest = Duration.FromSeconds(2) };
        return new CalibrationQuestion
        {
            Setup = setup,
            Priors = [Moisture],
            Runs = [Run(setup, Series(StrainingObservable.TankLevel, (0, 0.11), (1, 0.109), (2, 0.108)) with { ClockOffset = Duration.Zero })],
            Viscosities = [Spot("ball", 35, 1000, 0.05)],
        };
    }
}
