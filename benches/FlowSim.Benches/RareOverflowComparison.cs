using System.Diagnostics;
using System.Globalization;
using FlowSim.Gates;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>A rare overflow by subset simulation, and by brute force over independent draws, side by side.</summary>
internal static class RareOverflowComparison
{
    private const int Chunk = 1 << 16;

    /// <summary>Compares.</summary>
    /// <param name="draws">Draws of the brute force.</param>
    /// <param name="openingPercent">Opening of the gate: what makes the overflow more or less rare.</param>
    public static void Run(long draws, double openingPercent)
    {
        StrainingSetup setup = Pail(openingPercent);
        var inputs = new SpreadInputs(DefaultSpreads.For(setup), []);

        var watch = Stopwatch.StartNew();
        ProbabilityEstimate rare = RareOverflow.Estimate(new StrainingBatch(setup, inputs, new EnsembleOptions()), Chance.Pooled(0, 1), 1e-4, 500, 1, default);
        Write("subset simulation", rare, watch);

        watch.Restart();
        var batch = new StrainingBatch(setup, inputs, new EnsembleOptions());
        var random = new RandomPoints(inputs.Count, seed: 2);
        double[] points = new double[Chunk * inputs.Count];
        var samples = new StrainingSample[Chunk];
        long hits = 0, done = 0;
        while (done < draws)
        {
            int take = (int)Math.Min(Chunk, draws - done);
            random.Fill(done, points.AsSpan(0, take * inputs.Count));
            batch.Run(points.AsSpan(0, take * inputs.Count), samples.AsMemory(0, take), default);
            hits += samples.AsSpan(0, take).ToArray().Count(sample => sample.RanOver);
            done += take;
        }

        Write("brute force", Chance.Pooled(hits, draws), watch);
    }

    private static void Write(string how, ProbabilityEstimate chance, Stopwatch watch) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{how,-18} {chance.Value:0.000e0}  95 % {chance.Low:0.000e0} to {chance.High:0.000e0}  {chance.Runs} runs  {watch.Elapsed.TotalSeconds:0.0} s"));

    /// <summary>A pail of 19 L through a flat cloth of 425 µm.</summary>
    private static StrainingSetup Pail(double openingPercent) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)), Level = Length.FromMillimeters(298) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(openingPercent)),
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)), Cloths = [Cloth.FromAstmSieve(40)] },
        Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Length.FromMillimeters(300)) },
    };
}
