using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What is commonly true of the readings of a quantity, in its unit.</summary>
/// <param name="Unit">SI unit.</param>
/// <param name="ZeroOffset">How far the zero of the scale may be off: one standard deviation (engineering choice).</param>
/// <param name="Scatter">Median of the scale of the noise before any reading (engineering choice).</param>
internal readonly record struct QuantityFacts(string Unit, double ZeroOffset, double Scatter)
{
    private static readonly QuantityFacts s_mass = new("kg", 0.1, 0.03);
    private static readonly QuantityFacts s_volume = new("m³", 0.1e-3, 0.05e-3);
    private static readonly QuantityFacts s_length = new("m", 0.002, 0.0015);

    /// <summary>The facts of a quantity.</summary>
    /// <param name="quantity">Quantity.</param>
    public static QuantityFacts Of(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => s_mass,
        StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => s_volume,
        _ => s_length,
    };
}
