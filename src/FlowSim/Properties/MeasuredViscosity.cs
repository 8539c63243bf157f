using System.Globalization;
using UnitsNet;

namespace FlowSim.Properties;

/// <summary>Viscosity from the user's own figures, measured on the honey at hand, at its own moisture.</summary>
/// <remarks>
/// With two or more temperatures, ln μ against 1/T is a straight line between neighbours, and the outer lines go on beyond
/// the ends; the moisture then has no further influence, for the figures hold it already. With one, the default correlation
/// gives the dependence on temperature at the honey's moisture and the figure gives the level.
/// </remarks>
public sealed class MeasuredViscosity : ViscosityCorrelation
{
    private const double GasConstantJPerMolK = 8.314462618; // CODATA 2018, exact to the digits given

    private readonly double[] _inverseTemperaturePerK;
    private readonly double[] _logViscosity;

    /// <summary>Takes the figures.</summary>
    /// <param name="figures">
    /// One or more pairs of temperature (<see cref="AllowedTemperatures"/>) and viscosity (<see cref="AllowedViscosities"/>),
    /// in any order. Neighbours must be at least <see cref="LeastTemperatureStepK"/> apart, and the slope between them must be
    /// that of a liquid (<see cref="AllowedActivationEnergies"/>).
    /// </param>
    /// <exception cref="ArgumentException">No figure is given, or two temperatures are too close.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range or not a number, or the slope between two is not that of a liquid.</exception>
    public MeasuredViscosity(params IEnumerable<(Temperature Temperature, DynamicViscosity Viscosity)> figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        Figures = [.. figures.OrderBy(f => f.Temperature.Kelvins)];
        if (Figures.Count == 0)
            throw new ArgumentException("At least one measured pair of temperature and viscosity is needed.", nameof(figures));

        foreach ((Temperature temperature, DynamicViscosity viscosity) in Figures)
        {
            AllowedTemperatures.Require(temperature.DegreesCelsius, nameof(figures));
            AllowedViscosities.Require(viscosity.PascalSeconds, nameof(figures));
        }

        _inverseTemperaturePerK = [.. Figures.Select(f => 1 / f.Temperature.Kelvins)];
        _logViscosity = [.. Figures.Select(f => Math.Log(f.Viscosity.PascalSeconds))];
        for (int i = 1; i < Figures.Count; i++)
        {
            if (Figures[i].Temperature.Kelvins - Figures[i - 1].Temperature.Kelvins < LeastTemperatureStepK)
            {
                throw new ArgumentException(
                    string.Create(CultureInfo.InvariantCulture, $"Measured temperatures must be at least {LeastTemperatureStepK} K apart; {Figures[i - 1].Temperature.DegreesCelsius:0.##} °C and {Figures[i].Temperature.DegreesCelsius:0.##} °C are not."),
                    nameof(figures));
            }

            double slopeK = (_logViscosity[i - 1] - _logViscosity[i]) / (_inverseTemperaturePerK[i - 1] - _inverseTemperaturePerK[i]);
            AllowedActivationEnergies.Require(slopeK * GasConstantJPerMolK / 1000, nameof(figures));
        }

        double lowC = Figures[0].Temperature.DegreesCelsius;
        double highC = Figures[^1].Temperature.DegreesCelsius;
        TemperatureRange = new ValidityRange(
            "measured viscosity",
            "temperature",
            "°C",
            lowC - SupportedMarginK,
            highC + SupportedMarginK,
            lowC - OuterMarginK,
            highC + OuterMarginK);
    }

    /// <summary>Temperatures a figure may be given at, °C.</summary>
    public static ValidityRange AllowedTemperatures { get; } = new("measured viscosity", "temperature", "°C", 0, 80);

    /// <summary>Viscosities that may be given, Pa·s.</summary>
    public static ValidityRange AllowedViscosities { get; } = new("measured viscosity", "viscosity", "Pa·s", 0.001, 1e5);

    /// <summary>
    /// Slope of ln μ against 1/T between neighbouring figures, as an activation energy, kJ/mol. Engineering choice: honeys
    /// lie at 60 to 140, so anything outside is a slip in the figures.
    /// </summary>
    public static ValidityRange AllowedActivationEnergies { get; } = new("measured viscosity", "slope between figures", "kJ/mol", 10, 300);

    /// <summary>How close two measured temperatures may be, K. Engineering choice: closer figures give no slope worth having.</summary>
    public static double LeastTemperatureStepK => 0.5;

    /// <summary>How far beyond the outermost figures no notice is given, K. Engineering choice.</summary>
    public static double SupportedMarginK => 5;

    /// <summary>How far beyond the outermost figures a value is given at all, K. Engineering choice.</summary>
    public static double OuterMarginK => 20;

    /// <summary>The figures, by rising temperature.</summary>
    public IReadOnlyList<(Temperature Temperature, DynamicViscosity Viscosity)> Figures { get; }

    /// <inheritdoc/>
    public override string Name => "measured";

    /// <inheritdoc/>
    public override Source Source { get; } = new("Measured on this honey by the user", Standing.GivenByUser);

    /// <inheritdoc/>
    /// <remarks>As wide as honey goes: the figures hold the moisture already.</remarks>
    public override ValidityRange MoistureRange { get; } = new("measured viscosity", "moisture", "%", 12, 23, 10, 30);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; }

    /// <inheritdoc/>
    /// <remarks>0: the curve goes through the figures. Their own error is known only to whoever measured them.</remarks>
    public override double LogResidual => 0;

    /// <inheritdoc/>
    public override bool IsMeasured => true;

    /// <inheritdoc/>
    /// <remarks>Three and more figures make a line with corners, which is no such form.</remarks>
    internal override VogelForm? FormAt(double moisturePercent)
    {
        (double[] x, double[] y) = (_inverseTemperaturePerK, _logViscosity);
        switch (x.Length)
        {
            case 1:
                ViscosityCorrelation shape = ViscosityCorrelations.Default;
                return shape.FormAt(moisturePercent) is { } form
                    ? form with { A = form.A + y[0] - Math.Log(shape.ViscosityPaS(moisturePercent, 1 / x[0])) }
                    : null;
            case 2:
                double slope = (y[1] - y[0]) / (x[1] - x[0]);
                return new VogelForm(y[0] - slope * x[0], slope, 0);
            default:
                return null;
        }
    }

    /// <inheritdoc/>
    protected internal override double ViscosityPaS(double moisturePercent, double temperatureK)
    {
        double[] x = _inverseTemperaturePerK;
        double[] y = _logViscosity;
        if (x.Length == 1)
        {
            ViscosityCorrelation shape = ViscosityCorrelations.Default;
            return Math.Exp(y[0]) * shape.ViscosityPaS(moisturePercent, temperatureK) / shape.ViscosityPaS(moisturePercent, 1 / x[0]);
        }

        double inverse = 1 / temperatureK;
        int i = 1;
        while (i < x.Length - 1 && inverse < x[i])
            i++;

        double share = (inverse - x[i - 1]) / (x[i] - x[i - 1]);
        return Math.Exp(y[i - 1] + share * (y[i] - y[i - 1]));
    }
}
