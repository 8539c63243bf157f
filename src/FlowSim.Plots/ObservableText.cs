using FlowSim.Plots.Drawing;
using FlowSim.Straining;

namespace FlowSim.Plots;

/// <summary>What can be read off a run, as people call it, and the units it is drawn in.</summary>
internal static class ObservableText
{
    /// <summary>Its name, with a capital.</summary>
    public static string Words(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.PondDepth => "Depth of the pond",
        StrainingObservable.TankLevel => "Level in the tank",
        StrainingObservable.TankMass => "Honey in the tank by weight",
        StrainingObservable.TankVolume => "Honey in the tank by its marks",
        StrainingObservable.ReceiverLevel => "Level in the receiver",
        StrainingObservable.ReceiverMass => "Honey in the receiver by weight",
        StrainingObservable.ReceiverVolume => "Honey in the receiver by its marks",
        _ => quantity.ToString(),
    };

    /// <summary>One word for an axis.</summary>
    public static string Label(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.PondDepth => "Depth",
        StrainingObservable.TankLevel or StrainingObservable.ReceiverLevel => "Level",
        _ => "Honey",
    };

    /// <summary>Its unit.</summary>
    public static Scale Scale(StrainingObservable quantity, DisplayUnits units) => quantity switch
    {
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => UnitScales.Mass(units),
        StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => UnitScales.Volume(units),
        _ => UnitScales.Length(units),
    };
}
