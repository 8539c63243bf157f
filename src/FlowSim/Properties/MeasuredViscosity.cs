using UnitsNet;

namespace FlowSim.Properties;

/// <summary>Viscosity from the user's own figures, measured on the honey at hand, at its own moisture.</summary>
/// <remarks>
/// With two or more temperatures, ln μ against 1/T is a straight line between neighbours, and the outer lines go on beyond
/// the ends. With one, the default correlation gives the temperature dependence and the figure gives the level. The moisture
/// has no further influence when there are two or more figures: they hold it already.
/// </remarks>
public sealed class MeasuredViscosity : ViscosityCorrelation
{
    private readonly double[] _inverseTemperaturePerK;
    private readonly double[] _logViscosity;

    /// <summary>Takes the figures.</summary>
    /// <param name="figures">
    /// One or more pairs of temperature (0 to 80 °C) and viscosity (0.001 to 100 000 Pa·s), in any order; temperatures at
    /// least 0.5 K apart; viscosity falls as temperature rises.
    /// </param>
    /// <exception cref="ArgumentException">No figure, two at the same temperature, or viscosity does not fall with temperature.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range or not a number.</exception>
    public MeasuredViscosity(params IEnumerable<(Temperature Temperature, DynamicViscosity Viscosity)> figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        (double TemperatureK, double ViscosityPaS)[] sorted = [.. figures
            .Select(f => (f.Temperature.Kelvins, f.Viscosity.PascalSeconds))
            .OrderByDescending(f => f.Kelvins)];
        if (sorted.Length == 0)
            throw new ArgumentException("At least one measured pair of temperature and viscosity is needed.", nameof(figures));

        foreach ((double temperatureK, double viscosityPaS) in sorted)
        {
            AllowedTemperatures.Require(temperatureK - Physical.ZeroCelsiusK, nameof(figures));
            AllowedViscosities.Require(viscosityPaS, nameof(figures));
        }

        for (int i = 1; i < sorted.Length; i++)
        {
            if (sorted[i - 1].TemperatureK - sorted[i].TemperatureK < 0.5)
                throw new ArgumentException("Measured temperatures must be at least 0.5 K apart.", nameof(figures));
            if (sorted[i - 1].ViscosityPaS >= sorted[i].ViscosityPaS)
                throw new ArgumentException("Measured viscosity must fall as the temperature rises.", nameof(figures));
        }

        _inverseTemperaturePerK = [.. sorted.Select(f => 1 / f.TemperatureK)];
        _logViscosity = [.. sorted.Select(f => Math.Log(f.ViscosityPaS))];
        double lowC = sorted[^1].TemperatureK - Physical.ZeroCelsiusK;
        double highC = sorted[0].TemperatureK - Physical.ZeroCelsiusK;
        TemperatureRange = new ValidityRange("measured viscosity", "temperature", "°C", lowC, highC, lowC - ExtrapolationK, highC + ExtrapolationK);
    }

    /// <summary>Temperatures a figure may be given at, °C.</summary>
    public static ValidityRange AllowedTemperatures { get; } = new("measured viscosity", "temperature", "°C", 0, 80);

    /// <summary>Viscosities that may be given, Pa·s.</summary>
    public static ValidityRange AllowedViscosities { get; } = new("measured viscosity", "viscosity", "Pa·s", 0.001, 1e5);

    /// <summary>How far beyond the outermost figures a value is still given, with a notice, K. Engineering choice.</summary>
    public static double ExtrapolationK => 20;

    /// <inheritdoc/>
    public override string Name => "measured";

    /// <inheritdoc/>
    public override Source Source { get; } = new("Measured on this honey by the user", Standing.GivenByUser);

    /// <inheritdoc/>
    public override ValidityRange MoistureRange { get; } = new("measured viscosity", "moisture", "%", 10, 30);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; }

    /// <inheritdoc/>
    public override double LogResidual => 0;

    /// <inheritdoc/>
    public override bool IsMeasured => true;

    /// <inheritdoc/>
    protected internal override double ViscosityPaS(double moisturePercent, double temperatureK)
    {
        double inverse = 1 / temperatureK;
        double[] x = _inverseTemperaturePerK;
        double[] y = _logViscosity;
        if (x.Length == 1)
        {
            double level = y[0] - Math.Log(ViscosityCorrelations.Default.ViscosityPaS(moisturePercent, 1 / x[0]));
            return Math.Exp(level) * ViscosityCorrelations.Default.ViscosityPaS(moisturePercent, temperatureK);
        }

        int i = 1;
        while (i < x.Length - 1 && inverse > x[i])
            i++;

        double share = (inverse - x[i - 1]) / (x[i] - x[i - 1]);
        return Math.Exp(y[i - 1] + share * (y[i] - y[i - 1]));
    }
}
