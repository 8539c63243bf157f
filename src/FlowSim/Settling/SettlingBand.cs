using FlowSim.Properties;
using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Settling;

/// <summary>How long it takes to be clear if honey and sizes are not quite what the setup says: quick, likely and slow.</summary>
/// <remarks>
/// Quick is thin honey with large bubbles and bits, slow is thick honey with small ones, each off by its own spread at once. A band of what-ifs,
/// not a probability.
/// </remarks>
public sealed record SettlingBand
{
    /// <summary>Factor on the median sizes, either way.</summary>
    internal const double SizeFactor = 1.5;

    /// <summary>Time until it is clear in the quick case; null if not within <see cref="SettlingSetup.Longest"/>.</summary>
    public required Duration? Quick { get; init; }

    /// <summary>Time until it is clear with the setup as it is.</summary>
    public required Duration? Likely { get; init; }

    /// <summary>Time until it is clear in the slow case.</summary>
    public required Duration? Slow { get; init; }

    /// <summary>What was varied, each with its factor either way and where that comes from.</summary>
    public required IReadOnlyList<BandInput> Inputs { get; init; }

    /// <summary>Runs a setup and the two cases around it.</summary>
    /// <param name="setup">The setup.</param>
    /// <param name="options">How it is computed; without series and profiles. Null for the defaults.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range.</exception>
    public static SettlingBand Of(SettlingSetup setup, SettlingOptions? options = null, CancellationToken cancellation = default)
    {
        SettlingOptions brief = (options ?? new SettlingOptions()) with { SeriesPoints = 0, ProfileTimes = [] };

        // First, for it checks the setup that the cases are made from.
        Duration? likely = SettlingRun.Simulate(setup, brief, cancellation).ClearAfter;
        bool measured = setup.Honey.Viscosity?.IsMeasured ?? false;
        double lot = measured ? 1 : Math.Exp(LotFactorSpread.LogStandardDeviation);
        List<BandInput> inputs = [];
        if (!measured)
            inputs.Add(new BandInput("viscosity of the lot", lot, LotFactorSpread.Source));
        if (setup.ClearTo is ShareLeft)
            inputs.Add(new BandInput("median size of bubbles and debris", SizeFactor, new Source("Sizes were not measured; a factor 1.5 either way", Standing.EngineeringChoice)));
        return new SettlingBand
        {
            Quick = SettlingRun.Simulate(Case(setup, 1 / lot, SizeFactor), brief, cancellation).ClearAfter,
            Likely = likely,
            Slow = SettlingRun.Simulate(Case(setup, lot, 1 / SizeFactor), brief, cancellation).ClearAfter,
            Inputs = inputs,
        };
    }

    private static SettlingSetup Case(SettlingSetup setup, double lot, double size) => setup with
    {
        Honey = setup.Honey with { LotFactor = Math.Clamp(setup.Honey.LotFactor * lot, LotFactorSpread.Range.OuterLow, LotFactorSpread.Range.OuterHigh) },
        Bubbles = setup.Bubbles is { } bubbles ? bubbles with { MedianSize = Times(bubbles.MedianSize, size) } : null,
        Debris = setup.Debris is { } debris ? debris with { MedianSize = Times(debris.MedianSize, size) } : null,
    };

    private static Length Times(Length size, double factor) =>
        Length.FromMeters(Math.Clamp(size.Meters * factor, ScreenCheck.FinestDebrisM, ScreenCheck.CoarsestDebrisM));
}

/// <summary>Something that a band varies.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Factor">Multiplied and divided by this.</param>
/// <param name="Source">Where the factor comes from.</param>
public sealed record BandInput(string Name, double Factor, Source Source);
