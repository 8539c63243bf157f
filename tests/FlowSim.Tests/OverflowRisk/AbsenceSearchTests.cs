using FlowSim.OverflowRisk;
using FsCheck;
using FsCheck.Xunit;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The absence from the times of many runs, against closed forms and by its rules.</summary>
public class AbsenceSearchTests
{
    /// <summary>
    /// Overflows without memory: whatever the moment, 1 − exp(−Δ/τ) of those left run over within Δ. So the absence is −τ ln(1 − tolerance) from
    /// every moment; the counts lie on the cautious side of it.
    /// </summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.05)]
    [InlineData(0.5)]
    public void Without_memory_every_moment_is_the_same(double tolerance)
    {
        const int runs = 1 << 15;
        const double meanS = 1000;
        var random = new Random(7);
        double[] overflowS = new double[runs];
        double[] endS = new double[runs];
        for (int i = 0; i < runs; i++)
        {
            overflowS[i] = -meanS * Math.Log((i + random.NextDouble()) / runs);
            endS[i] = -5 * meanS * Math.Log(random.NextDouble());
            if (endS[i] < overflowS[i])
                overflowS[i] = double.PositiveInfinity;
        }

        AbsenceAdvice advice = AbsenceSearch.Of(overflowS, endS, tolerance);
        double exact = -meanS * Math.Log(1 - tolerance);

        // Fewer than one run in six leaves otherwise within these times, and of n runs the high end asks for up to 2 sqrt(p/n) less than p.
        double slack = (0.2 * tolerance) + (2.2 * Math.Sqrt(1 / (tolerance * runs)));
        Assert.InRange(advice.FromTheStart!.Value.Seconds, exact * (1 - slack), exact * (1 + (0.25 * tolerance)));
        Assert.True(advice.Longest!.Value <= advice.FromTheStart.Value);

        // The worst of many moments, late ones with few runs left among them.
        Assert.InRange(advice.Longest.Value.Seconds, 0.2 * exact, exact);
    }

    [Fact]
    public void No_overflow_no_limit()
    {
        double[] never = new double[1000], end = new double[1000];
        Array.Fill(never, double.PositiveInfinity);
        Array.Fill(end, 100);
        Assert.Equal(new AbsenceAdvice(null, null, null), AbsenceSearch.Of(never, end, 0.01));
    }

    /// <summary>All run over at 100 s: from the start that is the absence; just before, there is none.</summary>
    [Fact]
    public void A_sure_overflow_leaves_no_absence_just_before_it()
    {
        double[] at = new double[1000], end = new double[1000];
        Array.Fill(at, 100);
        Array.Fill(end, 200);
        AbsenceAdvice advice = AbsenceSearch.Of(at, end, 0.01);
        Assert.Equal(100, advice.FromTheStart!.Value.Seconds);
        Assert.Equal(0, advice.Longest!.Value.Seconds);
        Assert.Equal(100, advice.WorstStart!.Value.Seconds);
    }

    [Property(MaxTest = 100)]
    public void The_absence_shrinks_with_the_tolerance(DoNotSize<int> any)
    {
        var random = new Random(any.Item);
        int runs = random.Next(64, 3000);
        double share = random.NextDouble(), spread = 3 * random.NextDouble();
        double[] overflowS = new double[runs], endS = new double[runs];
        for (int i = 0; i < runs; i++)
        {
            endS[i] = 1000 * Math.Exp(spread * (random.NextDouble() - 0.5));
            overflowS[i] = random.NextDouble() < share ? endS[i] * Math.Pow(random.NextDouble(), 3 * random.NextDouble()) : double.PositiveInfinity;
        }

        AbsenceAdvice? before = null;
        for (double tolerance = 1e-6; tolerance <= 0.5; tolerance *= 1.7)
        {
            AbsenceAdvice advice = AbsenceSearch.Of(overflowS, endS, tolerance);
            Assert.True(Seconds(advice.Longest) <= Seconds(advice.FromTheStart), $"seed {any.Item}");
            Assert.True(Seconds(advice.Longest) >= Seconds(before?.Longest, 0), $"seed {any.Item}, tolerance {tolerance}: the longest");
            Assert.True(Seconds(advice.FromTheStart) >= Seconds(before?.FromTheStart, 0), $"seed {any.Item}, tolerance {tolerance}: from the start");
            before = advice;
        }

        double Seconds(UnitsNet.Duration? duration, double none = double.PositiveInfinity) => duration?.Seconds ?? (before is null ? none : double.PositiveInfinity);
    }

    /// <summary>Overflows at even times: of n runs at risk the tolerance's share may run over, whatever the moment.</summary>
    [Fact]
    public void From_one_moment_on_the_share_of_those_at_risk_counts()
    {
        double[] overflowS = [.. Enumerable.Range(1, 2000).Select(i => (double)i)], endS = [.. Enumerable.Repeat(1e5, 2000)];
        Assert.Equal(101, AbsenceSearch.From(overflowS, endS, 0, 0.05)); // 100 of 2000 may.
        Assert.Equal(51, AbsenceSearch.From(overflowS, endS, 1000, 0.05)); // 50 of 1000.
        Assert.Equal(11, AbsenceSearch.From(overflowS, endS, 1900, 1e-6)); // Of 100 no finer chance than 10 can be told.
        Assert.Equal(0, AbsenceSearch.From(overflowS, endS, 1990, 0.05)); // Nearly all have run over.
        double[] never = [.. Enumerable.Repeat(double.PositiveInfinity, 2000)];
        Assert.Equal(double.PositiveInfinity, AbsenceSearch.From(never, endS, 0, 0.05));
        Assert.Equal(double.PositiveInfinity, AbsenceSearch.From(never, endS, 2e5, 0.05));
    }
}
