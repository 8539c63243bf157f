using BenchmarkDotNet.Attributes;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>One run, what it allocates, and the questions built on runs.</summary>
[MemoryDiagnoser]
public class StrainingBenchmarks
{
    private static readonly StrainingOptions Default = PlainPail.AtTolerance(1e-8);
    private static readonly StrainingOptions Coarse = PlainPail.AtTolerance(1e-6);
    private static readonly StrainingOptions WithSeries = new();

    private StrainingIntegration _integration = null!;

    /// <summary>Prepares what a run shares with the next.</summary>
    [GlobalSetup]
    public void Prepare() => _integration = new StrainingIntegration(new StrainingParameters(PlainPail.Setup), 1e-8);

    /// <summary>A run at the default tolerance, without a series: the baseline.</summary>
    [Benchmark(Baseline = true)]
    public StrainingResult Run() => StrainingRun.Simulate(PlainPail.Setup, Default);

    /// <summary>The same at 1e-6.</summary>
    [Benchmark]
    public StrainingResult RunAt1eMinus6() => StrainingRun.Simulate(PlainPail.Setup, Coarse);

    /// <summary>The same with the series of 241 points, as the console asks for it.</summary>
    [Benchmark]
    public StrainingResult RunWithSeries() => StrainingRun.Simulate(PlainPail.Setup, WithSeries);

    /// <summary>The integration alone: no checks, no report.</summary>
    [Benchmark]
    public double IntegrationAlone() => _integration.Run(null, CancellationToken.None).EndS;

    /// <summary>The widest opening that does not run over.</summary>
    [Benchmark]
    public Ratio FindWidestOpening() => WidestOpening.Find(PlainPail.Setup);

    /// <summary>The eight corners around the description.</summary>
    [Benchmark]
    public StrainingSpread Spread() => StrainingSpread.Of(PlainPail.Setup);
}
