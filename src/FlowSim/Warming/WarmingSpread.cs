using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>How far the answers of a warming run move when films, conductivity and heat capacity differ as published figures do.</summary>
/// <remarks>
/// The run itself and eight at the corners of three uncertain inputs: films 1.2 times better or worse (usual scatter of such
/// correlations, from memory); the honey's conductivity by the lower and the higher of the published correlations; heat capacity at both
/// ends of its spread. A band of what-ifs, not a probability. How heat moves inside has bounds of its own: <see cref="WarmingBounds"/>.
/// </remarks>
public sealed record WarmingSpread
{
    /// <summary>Factor on every film, either way.</summary>
    internal const double FilmFactor = 1.2;

    /// <summary>Time to the targets: shortest and longest of the runs; null where one never gets there.</summary>
    public required (Duration? Low, Duration? High) TimeToTarget { get; init; }

    /// <summary>Mean temperature at the end: least and most of the runs.</summary>
    public required (Temperature Low, Temperature High) EndMean { get; init; }

    /// <summary>Gain of HMF on the average, best estimate of its rate: least and most of the runs.</summary>
    public required (MassFraction Low, MassFraction High) HmfGain { get; init; }

    /// <summary>Hottest surface that touched honey: least and most of the runs.</summary>
    public required (Temperature Low, Temperature High) HottestWall { get; init; }

    /// <summary>Runs altogether, the setup itself among them.</summary>
    public required int Runs { get; init; }

    /// <summary>Runs a setup and the corners around it.</summary>
    /// <param name="setup">The setup.</param>
    /// <param name="options">How it is computed; without series and maps. Null for the defaults.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range.</exception>
    public static WarmingSpread Of(WarmingSetup setup, WarmingOptions? options = null, CancellationToken cancellation = default)
    {
        WarmingOptions brief = (options ?? new WarmingOptions()) with { SeriesPoints = 0, MapTimes = [] };

        // First, for it checks the setup that the corners are made from.
        var runs = new List<WarmingResult>(9) { WarmingRun.Simulate(setup, brief, cancellation) };
        double capacity = HoneyHeatCapacity.Spread.Amount / 100;
        foreach (ConductivityCorrelation conductivity in ConductivityCorrelations.All)
        {
            WarmingSetup corner = setup with { Honey = setup.Honey with { Conductivity = conductivity } };
            foreach (double film in new[] { 1 / FilmFactor, FilmFactor })
            {
                foreach (double heat in new[] { 1 - capacity, 1 + capacity })
                    runs.Add(WarmingRun.Simulate(corner, brief, new HeatFactors(film, heat), cancellation));
            }
        }

        List<Duration?> times = runs.ConvertAll(run => run.TimeToTarget);
        return new WarmingSpread
        {
            TimeToTarget = (times.Min(), times.Contains(null) ? null : times.Max()),
            EndMean = (runs.Min(run => run.End.Mean), runs.Max(run => run.End.Mean)),
            HmfGain = (runs.Min(run => run.Damage.HmfGain), runs.Max(run => run.Damage.HmfGain)),
            HottestWall = (runs.Min(run => run.HottestWall.Temperature), runs.Max(run => run.HottestWall.Temperature)),
            Runs = runs.Count,
        };
    }
}
