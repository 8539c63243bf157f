using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>Targets of a warming run in words.</summary>
internal static class TargetText
{
    /// <summary>A target as people say it.</summary>
    /// <param name="target">Target.</param>
    /// <param name="display">Units.</param>
    public static string Of(WarmingTarget target, Display display) => target switch
    {
        MeanAtLeast mean => $"mean {display.Temperature(mean.Temperature.Kelvins)}",
        ColdestAtLeast coldest => $"coldest {display.Temperature(coldest.Temperature.Kelvins)}",
        MeanAtMost mean => $"mean down to {display.Temperature(mean.Temperature.Kelvins)}",
        ViscosityAtMost thin => $"at most {Display.Viscosity(thin.Viscosity.PascalSeconds)}",
        ViscosityAtLeast thick => $"at least {Display.Viscosity(thick.Viscosity.PascalSeconds)}",
        _ => "crystals gone",
    };

    /// <summary>A target that has been reached, as a sentence says it.</summary>
    /// <param name="target">Target.</param>
    /// <param name="display">Units.</param>
    public static string Reached(WarmingTarget target, Display display) => target switch
    {
        MeanAtLeast mean => $"the mean is at {display.Temperature(mean.Temperature.Kelvins)}",
        ColdestAtLeast coldest => $"the coldest honey is at {display.Temperature(coldest.Temperature.Kelvins)}",
        MeanAtMost mean => $"the mean is down to {display.Temperature(mean.Temperature.Kelvins)}",
        ViscosityAtMost thin => $"the honey is as thin as {Display.Viscosity(thin.Viscosity.PascalSeconds)}",
        ViscosityAtLeast thick => $"the honey is as thick as {Display.Viscosity(thick.Viscosity.PascalSeconds)}",
        _ => "the crystals are gone",
    };

    /// <summary>A target as JSON names it: the key of the file.</summary>
    /// <param name="target">Target.</param>
    public static string Word(WarmingTarget target) => (target switch
    {
        MeanAtLeast => Input.Keys.Until.Mean,
        ColdestAtLeast => Input.Keys.Until.Coldest,
        MeanAtMost => Input.Keys.Until.CooledTo,
        ViscosityAtMost => Input.Keys.Until.Thin,
        ViscosityAtLeast => Input.Keys.Until.Thick,
        _ => Input.Keys.Until.NoCrystals,
    }).Name.Replace('_', '-');

    /// <summary>Temperature of a target; null when it has none.</summary>
    /// <param name="target">Target.</param>
    public static Temperature? TemperatureOf(WarmingTarget target) => target switch
    {
        MeanAtLeast mean => mean.Temperature,
        ColdestAtLeast coldest => coldest.Temperature,
        MeanAtMost mean => mean.Temperature,
        _ => null,
    };

    /// <summary>Viscosity of a target; null when it has none.</summary>
    /// <param name="target">Target.</param>
    public static DynamicViscosity? ViscosityOf(WarmingTarget target) => target switch
    {
        ViscosityAtMost thin => thin.Viscosity,
        ViscosityAtLeast thick => thick.Viscosity,
        _ => null,
    };

    /// <summary>Whether a target is one of cooling.</summary>
    /// <param name="target">Target.</param>
    public static bool IsCooling(WarmingTarget target) => target is MeanAtMost or ViscosityAtLeast;
}
