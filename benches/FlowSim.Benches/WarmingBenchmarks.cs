using BenchmarkDotNet.Attributes;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>The 48 h pail: what a run takes and allocates.</summary>
[MemoryDiagnoser]
public class WarmingBenchmarks
{
    private static readonly WarmingOptions s_bare = new() { SeriesPoints = 0 };
    private static readonly WarmingOptions s_withSeries = new();

    /// <summary>A run at the defaults without a series: the baseline.</summary>
    [Benchmark(Baseline = true)]
    public WarmingResult Run() => WarmingRun.Simulate(WarmedPail.Setup, s_bare);

    /// <summary>The same with the series of 241 points, as the console asks for it.</summary>
    [Benchmark]
    public WarmingResult RunWithSeries() => WarmingRun.Simulate(WarmedPail.Setup, s_withSeries);

    /// <summary>By conduction alone.</summary>
    [Benchmark]
    public WarmingResult ConductionOnly() => WarmingRun.Simulate(WarmedPail.Setup, s_bare with { Inside = InsideHeat.ConductionOnly });

    /// <summary>Best estimate, as the console asks for it, and both bounds.</summary>
    [Benchmark]
    public WarmingBounds Bounds() => WarmingBounds.Of(WarmedPail.Setup);
}

/// <summary>The same against the number of cells.</summary>
[MemoryDiagnoser]
public class WarmingCellBenchmarks
{
    private WarmingOptions _options = null!;

    /// <summary>Cells from axis to wall; half as many again from floor to surface.</summary>
    [Params(10, 20, 40, 80)]
    public int RadialCells { get; set; }

    /// <summary>Sets the cells.</summary>
    [GlobalSetup]
    public void Prepare() => _options = new WarmingOptions { SeriesPoints = 0, RadialCells = RadialCells, AxialCells = RadialCells * 3 / 2 };

    /// <summary>A run at the default tolerance.</summary>
    [Benchmark]
    public WarmingResult Run() => WarmingRun.Simulate(WarmedPail.Setup, _options);
}
