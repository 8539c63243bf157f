using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Something that a run is to reach.</summary>
public abstract record WarmingTarget
{
    private protected WarmingTarget()
    {
    }

    /// <summary>The mean of the honey is at least this warm.</summary>
    /// <param name="temperature">Temperature, −20 to 100 °C.</param>
    public static WarmingTarget Mean(Temperature temperature) => new MeanAtLeast(temperature);

    /// <summary>The coldest of the honey is at least this warm.</summary>
    /// <param name="temperature">Temperature, −20 to 100 °C.</param>
    public static WarmingTarget Coldest(Temperature temperature) => new ColdestAtLeast(temperature);

    /// <summary>The mean of the honey is at most this warm: cooling.</summary>
    /// <param name="temperature">Temperature, −20 to 100 °C.</param>
    public static WarmingTarget CooledTo(Temperature temperature) => new MeanAtMost(temperature);

    /// <summary>The honey at its mean temperature is at most this viscous, and the crystals are gone.</summary>
    /// <param name="viscosity">Viscosity, 0.05 to 10 000 Pa·s.</param>
    public static WarmingTarget Thin(DynamicViscosity viscosity) => new ViscosityAtMost(viscosity);

    /// <summary>The honey at its mean temperature is at least this viscous: no longer workable.</summary>
    /// <param name="viscosity">Viscosity, 0.05 to 10 000 Pa·s.</param>
    public static WarmingTarget Thick(DynamicViscosity viscosity) => new ViscosityAtLeast(viscosity);

    /// <summary>Of the crystals, at most 1 % are left.</summary>
    public static WarmingTarget NoCrystals { get; } = new CrystalsGone();
}

/// <summary>The mean is at least this warm.</summary>
/// <param name="Temperature">Temperature, −20 to 100 °C.</param>
public sealed record MeanAtLeast(Temperature Temperature) : WarmingTarget;

/// <summary>The coldest is at least this warm.</summary>
/// <param name="Temperature">Temperature, −20 to 100 °C.</param>
public sealed record ColdestAtLeast(Temperature Temperature) : WarmingTarget;

/// <summary>The mean is at most this warm.</summary>
/// <param name="Temperature">Temperature, −20 to 100 °C.</param>
public sealed record MeanAtMost(Temperature Temperature) : WarmingTarget;

/// <summary>At the mean temperature at most this viscous, and the crystals gone.</summary>
/// <param name="Viscosity">Viscosity, 0.05 to 10 000 Pa·s.</param>
public sealed record ViscosityAtMost(DynamicViscosity Viscosity) : WarmingTarget;

/// <summary>At the mean temperature at least this viscous.</summary>
/// <param name="Viscosity">Viscosity, 0.05 to 10 000 Pa·s.</param>
public sealed record ViscosityAtLeast(DynamicViscosity Viscosity) : WarmingTarget;

/// <summary>Of the crystals at most 1 % are left.</summary>
public sealed record CrystalsGone : WarmingTarget;
