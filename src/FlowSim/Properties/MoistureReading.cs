using UnitsNet;

namespace FlowSim.Properties;

/// <summary>Moisture of honey from what a refractometer shows.</summary>
/// <remarks>Crystals must be melted first: they are not in the light path, and the liquid between them is wetter than the honey.</remarks>
public static class MoistureReading
{
    private const double IndexPerK = 0.00023;
    private const double LogOffset = -0.26810;
    private const double LogSlopePerPercent = 0.002243;

    /// <summary>Refractive index at 20 °C. The limits are the ends of the published table, 25 % and 13 % moisture.</summary>
    public static ValidityRange IndexRange { get; } = new("moisture from refractive index", "refractive index at 20 °C", "", 1.4740, 1.5044);

    /// <summary>Temperature of the reading, °C. Engineering choice: the temperature term is printed without limits.</summary>
    public static ValidityRange TemperatureRange { get; } = new("moisture from refractive index", "temperature", "°C", 15, 40, 10, 40);

    /// <summary>Sugar scale reading at 20 °C, °Bx. The limits are those of <see cref="IndexRange"/> in moisture.</summary>
    public static ValidityRange BrixRange { get; } = new("moisture from Brix", "reading", "°Bx", 73.4, 85.4);

    /// <summary>Moisture, % by mass, that the inverse takes.</summary>
    public static ValidityRange MoistureRange { get; } = new("moisture from refractive index", "moisture", "%", 13, 25);

    /// <summary>Source of the refractive-index equation.</summary>
    public static Source IndexSource { get; } = new(
        "Wedmore 1955, Bee World 36:197, on the data of Chataway, as given in Bogdanov, The Book of Honey, chapter 4",
        Standing.SecondaryCopy);

    /// <summary>Source of the Brix relation.</summary>
    public static Source BrixSource { get; } = new(
        "Sucrose scale against the table of Chataway, worked out for this project",
        Standing.Derived);

    /// <summary>Moisture from a refractive index.</summary>
    /// <param name="index">Index as read; taken to 20 °C it must lie in <see cref="IndexRange"/>.</param>
    /// <param name="temperature">Temperature of the prism; see <see cref="TemperatureRange"/>. Instruments that correct by themselves: give 20 °C.</param>
    /// <returns>The moisture, ± 0.1 % (equation 0.025 %, and two units in the fourth decimal of the instrument).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range or not a number.</exception>
    public static MoistureEstimate FromRefractiveIndex(double index, Temperature temperature)
    {
        double t = temperature.DegreesCelsius;
        TemperatureRange.Require(t, nameof(temperature));
        double indexAt20C = IndexAt20C(index, t);
        IndexRange.Require(indexAt20C, nameof(index));
        return new MoistureEstimate(Ratio.FromPercent(Wedmore1955(indexAt20C)), Ratio.FromPercent(0.1), IndexSource);
    }

    /// <summary>Moisture from a sugar-scale (Brix) reading at 20 °C.</summary>
    /// <param name="degreesBrix">Reading, °Bx; see <see cref="BrixRange"/>.</param>
    /// <returns>The moisture, ± 0.3 %. Honey is not sucrose, so its moisture is not simply 100 less the reading.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The reading is outside its range or not a number.</exception>
    public static MoistureEstimate FromBrix(double degreesBrix)
    {
        BrixRange.Require(degreesBrix, nameof(degreesBrix));
        return new MoistureEstimate(Ratio.FromPercent(100 - degreesBrix - 1.6), Ratio.FromPercent(0.3), BrixSource);
    }

    /// <summary>The refractive index at 20 °C that belongs to a moisture: the inverse of <see cref="FromRefractiveIndex"/>.</summary>
    /// <param name="moisture">Moisture; see <see cref="MoistureRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The moisture is outside its range or not a number.</exception>
    public static double RefractiveIndexAt20C(Ratio moisture)
    {
        MoistureRange.Require(moisture.Percent, nameof(moisture));
        return 1 + Math.Pow(10, LogOffset - LogSlopePerPercent * moisture.Percent);
    }

    /// <summary>Moisture from the refractive index at 20 °C, % by mass.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: w = (−0.26810 − log10(n − 1))/0.002243. Trap: the source prints the constant as 1.73190, which is
    /// the old bar notation of logarithms for −1 + 0.73190 = −0.26810.</para>
    /// <para><b>Range</b>: <see cref="IndexRange"/>.</para>
    /// <para><b>Error</b>: 0.025 % from the table of the source.</para>
    /// <para><b>Source</b>: see <see cref="IndexSource"/>.</para>
    /// <para><b>Checked by</b>: Chataway1932Tests.cs.</para>
    /// </remarks>
    /// <param name="indexAt20C">Refractive index n at 20 °C.</param>
    internal static double Wedmore1955(double indexAt20C) => (LogOffset - Math.Log10(indexAt20C - 1)) / LogSlopePerPercent;

    /// <summary>Refractive index of honey taken to 20 °C.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: n20 = n + 0.00023 (t − 20); t in °C.</para>
    /// <para><b>Range</b>: <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: not given by the source.</para>
    /// <para><b>Source</b>: see <see cref="IndexSource"/>.</para>
    /// <para><b>Checked by</b>: Chataway1932Tests.cs.</para>
    /// </remarks>
    /// <param name="index">Index as read.</param>
    /// <param name="temperatureC">Temperature of the prism, °C.</param>
    internal static double IndexAt20C(double index, double temperatureC) => index + IndexPerK * (temperatureC - 20);
}
