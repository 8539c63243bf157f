using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>What tests of single parts are made from: invented spreads, samples and counts.</summary>
internal static class RiskParts
{
    private static readonly Source s_invented = new("invented", Standing.GivenByUser);

    /// <summary>One thread: a handful of runs is done before a second one has started.</summary>
    public static EnsembleOptions OneThread { get; } = new() { Threads = 1 };

    /// <summary>An input with a spread.</summary>
    public static UncertainInput Given(StrainingInput input, Distribution spread) => new(input, spread, s_invented);

    /// <summary>An input that is normal about a value.</summary>
    public static UncertainInput Normal(StrainingInput input, double mean, double sd) => Given(input, new NormalDistribution(mean, sd));

    /// <summary>Inputs that do not go together.</summary>
    public static SpreadInputs Alone(params UncertainInput[] inputs) => new(inputs, []);

    /// <summary>The cloth's resistance spread ×/÷ a factor about what it is in a setup.</summary>
    public static SpreadInputs ScreenOf(StrainingSetup setup, double factor) =>
        Alone(Given(StrainingInputs.ScreenFactor, new LogNormalDistribution(setup.Strainer.ScreenFactor, Math.Log(factor))));

    /// <summary>The small pail with its gate left at an opening: 50.5 % is the widest at which it does not run over.</summary>
    public static StrainingSetup Pail(double openingPercent) => SmallPail.Running() with { Control = GateControl.LeaveAt(Ratio.FromPercent(openingPercent)) };

    /// <summary>Two seconds of the small pail under a rim of 8 mm: at 40 % open it runs over just before the end.</summary>
    public static StrainingSetup Flash(double openingPercent = 40)
    {
        StrainingSetup setup = Pail(openingPercent);
        return setup with { Strainer = setup.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(8)) }, Longest = Seconds(2) };
    }

    /// <summary>What decides there: the opening, about a value; and a little the head that the wet cloth holds back.</summary>
    public static SpreadInputs OpeningAndHead(double opening) => Alone(Normal(StrainingInputs.Opening, opening, 0.02), Normal(StrainingInputs.MinimumHead, 0.002, 0.0005));

    /// <summary>
    /// The small pail full of bits under a rim of 20 mm: left alone it runs over after some minutes, scraped each minute it does not.
    /// </summary>
    public static StrainingSetup Dirty()
    {
        StrainingSetup setup = Pail(15);
        return setup with
        {
            Strainer = setup.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(20)) },
            Debris = setup.Debris with { Load = Ratio.FromPartsPerThousand(12), CaptureEfficiency = 1 },
            Longest = Duration.FromMinutes(4),
        };
    }

    /// <summary>The same, and after it the head that the wet cloth holds back, 2 mm ± 0.2 mm: two numbers a draw.</summary>
    public static SpreadInputs ScreenAndHead(StrainingSetup setup, double factor) => Alone(ScreenOf(setup, factor).Given[0], Normal(StrainingInputs.MinimumHead, 0.002, 0.0002));

    /// <summary>The draws of a seed, as the parts take them: a multiple of sixteen runs.</summary>
    public static double[] Draws(int inputs, int runs, ulong seed = 1)
    {
        double[] points = new double[inputs * runs];
        new RunDraws(inputs, seed).Fill(0, points);
        return points;
    }

    /// <summary>A run in which nothing happens: all is strained in 100 s, and it ends at 120 s.</summary>
    public static StrainingSample Quiet { get; } = new()
    {
        DrainSeconds = 90,
        StrainSeconds = 100,
        FirstOverflowSeconds = double.PositiveInfinity,
        OverRimKg = 0,
        BypassedKg = 0,
        SpilledKg = 0,
        ReceiverFullSeconds = double.PositiveInfinity,
        ReceiverSpilledKg = 0,
        StrainedKg = 3,
        PeakPondShare = 0.5,
        EndSeconds = 120,
        Ending = StrainingStatus.Drained,
        Scrapes = 0,
    };

    /// <summary>The same, but that the strainer runs over at a time.</summary>
    public static StrainingSample Over(double seconds) => Quiet with { FirstOverflowSeconds = seconds, OverRimKg = 1, PeakPondShare = 1 };

    /// <summary>A count of invented runs of which the first so many run over, each a second after the one before.</summary>
    public static RunTally Tally(int over, int runs)
    {
        var tally = new RunTally(0.1);
        tally.Add([.. Enumerable.Range(1, runs).Select(i => i <= over ? Over(i) : Quiet)]);
        return tally;
    }

    /// <summary>A sketch of some times.</summary>
    public static TimeSketch Sketch(params double[] seconds)
    {
        var sketch = new TimeSketch();
        foreach (double time in seconds)
            sketch.Add(time);
        return sketch;
    }

    /// <summary>A counted chance with its ends.</summary>
    public static ProbabilityEstimate Counted(double value, double low, double high) => new(value, low, high, 1000, EstimateMethod.Counting);

    public static Duration Seconds(double seconds) => Duration.FromSeconds(seconds);
}

/// <summary>Keeps what it is told, in order, on the thread that tells it.</summary>
internal sealed class Shares : IProgress<double>
{
    /// <summary>All that was told.</summary>
    public List<double> All { get; } = [];

    public void Report(double value) => All.Add(value);
}
