using FlowSim.Properties;
using MathNet.Numerics.Distributions;

namespace FlowSim.Bottling;

/// <summary>How long the filling takes when the honey is thinner or thicker than the description says, as honeys of one moisture differ.</summary>
/// <remarks>Three runs: the setup itself, and with the lot factor at its 10 % and 90 % quantile about the one given. A measured viscosity has no such spread.</remarks>
public sealed record FillingBand
{
    /// <summary>With honey thinner than nine in ten.</summary>
    public required FillingResult Quick { get; init; }

    /// <summary>The setup itself.</summary>
    public required FillingResult Likely { get; init; }

    /// <summary>With honey thicker than nine in ten.</summary>
    public required FillingResult Slow { get; init; }

    /// <summary>Runs a setup and its neighbours.</summary>
    /// <param name="setup">The setup.</param>
    /// <param name="lotLogDeviation">Standard deviation of ln lot factor; null takes the common one, or 0 for measured figures. 0 to 3.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range.</exception>
    public static FillingBand Of(FillingSetup setup, double? lotLogDeviation = null, CancellationToken cancellation = default)
    {
        FillingResult likely = FillingRun.Simulate(setup, cancellation);
        bool measured = HoneyProperties.Of(setup.Honey).Viscosity.IsMeasured;
        double deviation = EquipmentCheck.Within(lotLogDeviation ?? (measured ? 0 : LotFactorSpread.LogStandardDeviation), 0, 3, "", nameof(lotLogDeviation));
        double factor = Math.Exp(deviation * Normal.InvCDF(0, 1, 0.9));
        return new FillingBand { Quick = At(1 / factor), Likely = likely, Slow = At(factor) };

        FillingResult At(double times) => times == 1 ? likely : FillingRun.Simulate(
            setup with { Honey = setup.Honey with { LotFactor = Math.Clamp(setup.Honey.LotFactor * times, LotFactorSpread.Range.OuterLow, LotFactorSpread.Range.OuterHigh) } },
            cancellation);
    }
}
