using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The depth to ride, against the depths that each run has a look's time before it runs over, read run by run.</summary>
public class RideByHandTests
{
    /// <summary>The first half minute of the pail, within which it runs over if it does.</summary>
    private static StrainingSetup Brief(double openingPercent) => Pail(openingPercent) with { Longest = Seconds(30) };

    private static RideAdvice Found(StrainingSetup setup, SpreadInputs inputs, int runs, double lookS, double tolerance) =>
        RideSearch.Find(new StrainingBatch(setup, inputs, OneThread), Draws(inputs.Count, runs), runs, lookS, tolerance, default);

    /// <summary>Of every run that runs over, the pond a look's time before, m: it only rises until then. 0 where the run has not begun.</summary>
    private static double[] Before(StrainingSetup setup, SpreadInputs inputs, int runs, double lookS)
    {
        double[] points = Draws(inputs.Count, runs);
        var samples = new StrainingSample[runs];
        var batch = new StrainingBatch(setup, inputs, OneThread);
        batch.Run(points, samples, default);
        var before = new List<double>();
        for (int i = 0; i < runs; i++)
        {
            double looked = samples[i].FirstOverflowSeconds - lookS;
            double[] depths = new double[2];
            if (samples[i].RanOver && looked > 0)
                batch.Run(points.AsSpan(i * inputs.Count, inputs.Count), new StrainingSample[1], new double[] { 0, looked }, depths, default);
            if (samples[i].RanOver)
                before.Add(depths[1]);
        }

        before.Sort();
        return [.. before];
    }

    /// <summary>Few runs that run over, and more than are read together (128); each tolerance lets another of them pass.</summary>
    [Theory]
    [InlineData(50, 32, 4, 0.4)]
    [InlineData(50, 48, 4, 0.35)]
    [InlineData(58, 160, 3, 0.2)]
    public void It_is_the_depth_from_which_only_as_many_as_may_are_too_quick(double openingPercent, int runs, double lookS, double tolerance)
    {
        StrainingSetup setup = Brief(openingPercent);
        SpreadInputs inputs = ScreenAndHead(setup, 1.2);
        double[] before = Before(setup, inputs, runs, lookS);
        if (runs > 128)
            Assert.True(before.Length > 128); // Else it would prove little.

        RideAdvice advice = Found(setup, inputs, runs, lookS, tolerance);
        double deepest = advice.Deepest!.Value.Millimeters, exact = 1000 * before[Chance.MostHits(runs, Math.Max(tolerance, 10.0 / runs))];

        // Rounded down to the millimetre; a reading between two times of the fine grid is straight, good to 0.01 mm.
        Assert.Equal(Math.Round(deepest), deepest, 1e-9);
        Assert.InRange(deepest, exact - 1.01, exact + 0.01);
        int surely = before.Count(metres => 1000 * metres < deepest - 0.02), perhaps = before.Count(metres => 1000 * metres < deepest + 0.02);
        Assert.InRange(advice.Chance!.Value * runs, surely, perhaps);
        Assert.Equal(Chance.Pooled((long)Math.Round(advice.Chance.Value * runs), runs), advice.Chance);
        Assert.True(advice.Chance.High <= Math.Max(tolerance, 10.0 / runs));
    }

    /// <summary>Nothing runs over: as deep as may be ridden at all, a millimetre below the rim of 60 mm.</summary>
    [Fact]
    public void Where_nothing_runs_over_it_is_a_millimetre_below_the_rim()
    {
        StrainingSetup setup = Brief(20);
        RideAdvice advice = Found(setup, ScreenOf(setup, 1.1), 32, 5, 0.4);
        Assert.Equal(59, advice.Deepest!.Value.Millimeters, 1e-9);
        Assert.Equal(Chance.Pooled(0, 32), advice.Chance);
    }

    /// <summary>The depth of half a millimetre between two looks of 0.01 s is above what may be ridden, and one of minutes below: a millimetre above the head held back.</summary>
    [Fact]
    public void It_stays_within_what_may_be_ridden()
    {
        StrainingSetup setup = Brief(100);
        SpreadInputs inputs = ScreenOf(setup, 1.1);
        Assert.Equal(59, Found(setup, inputs, 32, 0.01, 0.4).Deepest!.Value.Millimeters, 1e-9);
        Assert.Equal(new RideAdvice(null, null), Found(setup, inputs, 32, 120, 0.4));
    }

    /// <summary>The shallowest pond that may be ridden is 1 mm above the head that the wet cloth holds back, here none: halved down to a time at which it is just that.</summary>
    [Fact]
    public void The_shallowest_may_still_be_ridden()
    {
        StrainingSetup setup = Brief(58);
        setup = setup with { Strainer = setup.Strainer with { MinimumHead = Length.Zero } };
        SpreadInputs inputs = ScreenOf(setup, 1.05);
        (double depthMm, double shorterS, double longerS) = (59, 0, 30);
        for (int i = 0; i < 30 && Math.Abs(depthMm - 1) > 1e-9; i++)
        {
            double lookS = (shorterS + longerS) / 2;
            RideAdvice advice = Found(setup, inputs, 16, lookS, 0.5);
            if (advice.Deepest is not { } deepest)
            {
                Assert.Null(advice.Chance);
                longerS = lookS;
                continue;
            }

            Assert.True(deepest.Millimeters >= 1 - 1e-9 && deepest.Millimeters <= depthMm);
            (shorterS, depthMm) = (lookS, deepest.Millimeters);
        }

        Assert.Equal(1, depthMm, 1e-9);
    }
}
