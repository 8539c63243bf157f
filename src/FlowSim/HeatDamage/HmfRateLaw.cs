using System.Numerics;
using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>
/// How fast hydroxymethylfurfural (HMF) forms in honey held at a temperature: zero order after the start, Arrhenius in
/// temperature. A rate is never one number: see <see cref="BandAt"/>.
/// </summary>
public sealed class HmfRateLaw
{
    /// <summary>
    /// The measured rate lies between these two shares of the law's, up to <see cref="WideBandFromC"/>: they hold the
    /// slowest and the fastest of every row of the table. The fastest at 70 °C alone takes it above 1.6.
    /// </summary>
    internal const double BandLow = 0.59;

    /// <inheritdoc cref="BandLow"/>
    internal const double BandHigh = 1.95;

    /// <summary>Above this temperature, °C, the rate is uncertain by <see cref="WideBandFactor"/> either way.</summary>
    internal const double WideBandFromC = 75;

    /// <summary>Above <see cref="WideBandFromC"/> copies of the source disagree by a factor 3 to 4; the larger is taken.</summary>
    internal const double WideBandFactor = 4;

    private const double SecondsPerHour = 3600;

    private readonly double _preFactorMgPerKgPerHour;
    private readonly double _lowHeldMgPerKgPerS;

    internal HmfRateLaw(string name, double preFactorMgPerKgPerHour, double activationJPerMol, double lowC, double highC, double logStandardDeviation)
    {
        Name = name;
        _preFactorMgPerKgPerHour = preFactorMgPerKgPerHour;
        ActivationK = activationJPerMol / Physical.MolarGasConstant;
        TemperatureRange = new ValidityRange(name, "temperature", "°C", lowC, highC, 0, 100);
        LogStandardDeviation = logStandardDeviation;
        LowHeldToK = 1 / (1 / WideBandFromK - Math.Log(BandLow * WideBandFactor) / ActivationK);
        _lowHeldMgPerKgPerS = BandLow * White1964MgPerKgPerS(WideBandFromK);
    }

    /// <summary>Name as the user writes it: lower case, hyphens.</summary>
    public string Name { get; }

    /// <summary>Range of the temperature, °C.</summary>
    public ValidityRange TemperatureRange { get; }

    /// <summary>Standard deviation of the natural logarithm of the table's rates about the law.</summary>
    public double LogStandardDeviation { get; }

    /// <summary>Where the coefficients come from.</summary>
    public Source Source { get; } = new(
        "Least-squares fit of this project to the geometric middles of the times in which honey gains 30 mg/kg: White, Kushnir & Subers 1964, Food Technology 18(4):153-156, read in secondary copies only",
        Standing.Derived);

    /// <summary>Source of the band.</summary>
    public static Source BandSource { get; } = new(
        "Ends of the ranges that copies of White, Kushnir & Subers 1964 print, against the default law; above 75 °C the copies contradict each other by 3 to 4 times",
        Standing.Derived);

    /// <summary>Activation energy over the gas constant, K: d ln k = −this · d(1/T).</summary>
    internal double ActivationK { get; }

    /// <summary>Where the wide band begins, K.</summary>
    internal static double WideBandFromK => WideBandFromC + Physical.ZeroCelsiusK;

    /// <summary>Up to this temperature, K, the low end of the wide band is held at its value below, so that it never falls with temperature.</summary>
    internal double LowHeldToK { get; }

    /// <summary>Rate at one temperature with its band: the gain per day of holding, for a honey of floral multiplier 1.</summary>
    /// <param name="temperature">Temperature; within <see cref="TemperatureRange"/>, outer limits included.</param>
    /// <returns>Gains per day: low end, best estimate, high end.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside the outer limits.</exception>
    public (MassFraction Low, MassFraction Best, MassFraction High) BandAt(Temperature temperature)
    {
        TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        double k = temperature.Kelvins;
        const double SecondsPerDay = 24 * SecondsPerHour;
        return (
            MassFraction.FromMilligramsPerKilogram(LowMgPerKgPerS(k) * SecondsPerDay),
            MassFraction.FromMilligramsPerKilogram(White1964MgPerKgPerS(k) * SecondsPerDay),
            MassFraction.FromMilligramsPerKilogram(HighMgPerKgPerS(k) * SecondsPerDay));
    }

    /// <summary>Rate at which HMF forms, mg/(kg·s).</summary>
    /// <remarks>
    /// <para><b>Equation</b>: k = A exp(−E/(R T)), zero order: the gain is ∫k dt. A and E of each law stand in
    /// <see cref="HmfRateLaws"/>.</para>
    /// <para><b>Range</b>: <see cref="TemperatureRange"/>. Dry, very acid or already heated honeys form HMF faster than honey
    /// just extracted; the formation is not zero order once much HMF is there.</para>
    /// <para><b>Error</b>: <see cref="LogStandardDeviation"/> about the middles of the table; within the source × 0.59 to 1.95;
    /// above 75 °C a factor 3 to 4 either way. A second copy prints 3 to 5 h where the fitted one prints 5 to 15 h at 70 °C: if
    /// it is right, the law is 2.5 times low there. Between floral types at least × 12 (<see cref="HeatResponse"/>).</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: WhiteKushnirSubers1964Tests.cs.</para>
    /// </remarks>
    /// <param name="temperatureK">Temperature T, K.</param>
    internal double White1964MgPerKgPerS(double temperatureK) =>
        _preFactorMgPerKgPerHour / SecondsPerHour * Math.Exp(-ActivationK / temperatureK);

    /// <summary>The same rate at several temperatures at once.</summary>
    /// <param name="temperatureK">Temperatures, K.</param>
    internal Vector<double> RateMgPerKgPerS(Vector<double> temperatureK) =>
        _preFactorMgPerKgPerHour / SecondsPerHour * Vector.Exp(new Vector<double>(-ActivationK) / temperatureK);

    /// <summary>Low end of the band of the rate, mg/(kg·s); never falls with temperature.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double LowMgPerKgPerS(double temperatureK) => temperatureK <= WideBandFromK
        ? BandLow * White1964MgPerKgPerS(temperatureK)
        : Math.Max(_lowHeldMgPerKgPerS, White1964MgPerKgPerS(temperatureK) / WideBandFactor);

    /// <summary>High end of the band of the rate, mg/(kg·s).</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double HighMgPerKgPerS(double temperatureK) =>
        (temperatureK <= WideBandFromK ? BandHigh : WideBandFactor) * White1964MgPerKgPerS(temperatureK);
}
