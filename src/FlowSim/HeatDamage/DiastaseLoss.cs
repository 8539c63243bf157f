using System.Numerics;
using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>How fast diastase, an enzyme of honey, is lost at a temperature: first order, so by half-lives.</summary>
public static class DiastaseLoss
{
    /// <summary>Other honeys keep their diastase for this multiple of the stated half-life at the least.</summary>
    internal const double HalfLifeFactorLow = 0.5;

    /// <summary>Other honeys keep their diastase for this multiple of the stated half-life at the most.</summary>
    internal const double HalfLifeFactorHigh = 6;

    private const double SecondsPerHour = 3600;

    private const double LogHourIntercept = -50.0342;

    /// <summary>Activation energy over the gas constant, K: d ln k = −this · d(1/T).</summary>
    internal const double ActivationK = 17739.15;

    /// <summary>Range of the temperature, °C.</summary>
    public static ValidityRange TemperatureRange { get; } = new("diastase half-life", "temperature", "°C", 20, 80, 0, 100);

    /// <summary>Where the coefficients come from.</summary>
    public static Source Source { get; } = new(
        "Least-squares fit of this project to half-lives after White, Kushnir & Subers 1964, Food Technology 18(4):153-156; the table was read in copies, one of them a bee club's page of 2009 that was opened",
        Standing.Derived);

    /// <summary>Source of the spread between honeys.</summary>
    public static Source SpreadSource { get; } = new("Half-lives published for other honeys, 0.5 to 6 times the fitted ones", Standing.FromMemory);

    /// <summary>Half-life with its spread between honeys.</summary>
    /// <param name="temperature">Temperature; within <see cref="TemperatureRange"/>, outer limits included.</param>
    /// <returns>Shortest, best and longest half-life.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside the outer limits.</exception>
    public static (Duration Low, Duration Best, Duration High) HalfLifeAt(Temperature temperature)
    {
        TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        double hours = White1964HalfLifeHours(temperature.Kelvins);
        return (Duration.FromHours(HalfLifeFactorLow * hours), Duration.FromHours(hours), Duration.FromHours(HalfLifeFactorHigh * hours));
    }

    /// <summary>Half-life of diastase, h.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ln(t½/h) = −50.0342 + 17739.15/T; T in K (activation energy 147.5 kJ/mol).</para>
    /// <para><b>Range</b>: <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: 1.5 % of the table, which is itself smoothed, so this proves little; other honeys × 0.5 to 6.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: WhiteKushnirSubers1964Tests.cs.</para>
    /// </remarks>
    /// <param name="temperatureK">Temperature T, K.</param>
    internal static double White1964HalfLifeHours(double temperatureK) => Math.Exp(LogHourIntercept + ActivationK / temperatureK);

    /// <summary>Rate constant of the loss, 1/s: ln 2/t½.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double RatePerS(double temperatureK) =>
        MathNet.Numerics.Constants.Ln2 / SecondsPerHour * Math.Exp(-LogHourIntercept - ActivationK / temperatureK);

    /// <summary>The same rate constant at several temperatures at once.</summary>
    /// <param name="temperatureK">Temperatures, K.</param>
    internal static Vector<double> RatePerS(Vector<double> temperatureK) =>
        MathNet.Numerics.Constants.Ln2 / SecondsPerHour * Vector.Exp(new Vector<double>(-LogHourIntercept) - new Vector<double>(ActivationK) / temperatureK);
}
