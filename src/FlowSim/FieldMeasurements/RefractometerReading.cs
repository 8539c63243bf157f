using FlowSim.Properties;
using MathNet.Numerics.Statistics;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>What the scale of a refractometer shows.</summary>
public enum RefractometerScale
{
    /// <summary>Refractive index.</summary>
    RefractiveIndex,

    /// <summary>Sugar scale, °Bx.</summary>
    Brix,

    /// <summary>Moisture of honey, % by mass, after the table of Chataway and Wedmore.</summary>
    Moisture,
}

/// <summary>Drops of honey read in a refractometer. Spreads are one standard deviation.</summary>
/// <remarks>
/// A sugar or moisture scale without temperature correction is taken to show what its own scale says at 20 °C of the index that the drop
/// has at its temperature, so that the published change of the index with temperature serves all three. Crystals must be melted first.
/// </remarks>
public sealed record RefractometerReading
{
    /// <summary>Error of the published relation between index and moisture, %; and of the sugar scale on honey, taken as a standard deviation, the cautious side.</summary>
    private const double IndexEquationPercent = 0.025;
    private const double BrixEquationPercent = 0.3;

    /// <summary>Standard deviation from drop to drop, % moisture, that is at least taken. Engineering choice.</summary>
    private const double DropPercent = 0.1;

    /// <summary>Temperature that scales are made for, °C.</summary>
    private const double ScaleC = 20;

    /// <summary>What the scale shows.</summary>
    public required RefractometerScale Scale { get; init; }

    /// <summary>The readings, a drop each, at least one and at most 1000: an index, °Bx or % moisture.</summary>
    public required IReadOnlyList<double> Readings { get; init; }

    /// <summary>Temperature of the prism; null when the instrument corrects for it itself. <see cref="MoistureReading.TemperatureRange"/>.</summary>
    public Temperature? Temperature { get; init; }

    /// <summary>How well that is known. 0 to 20 K. Default 1 K (engineering choice: the drop soon has the prism's temperature).</summary>
    public TemperatureDelta TemperatureSpread { get; init; } = TemperatureDelta.FromKelvins(1);

    /// <summary>How well the instrument is set, in % moisture; the same for all drops. 0 to 5 %. Default 0.1 % (engineering choice: set with a reference oil).</summary>
    public Ratio InstrumentSpread { get; init; } = Ratio.FromPercent(0.1);

    /// <summary>The moisture.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="ArgumentException">There are no readings, or too many.</exception>
    public MoistureMeasurement Measure()
    {
        EquipmentCheck.Defined(Scale, nameof(Scale));
        EquipmentCheck.Present(Readings);
        if (Readings.Count is 0 or > 1000)
            throw EquipmentCheck.Refused(nameof(Readings), FormattableString.Invariant($"{Readings.Count} readings are given; it takes 1 to 1000."));
        double temperatureC = Temperature?.DegreesCelsius ?? ScaleC;
        MoistureReading.TemperatureRange.Require(temperatureC, nameof(Temperature));
        double temperatureSpreadK = EquipmentCheck.Within(TemperatureSpread.Kelvins, 0, 20, "K", nameof(TemperatureSpread));
        double instrument = EquipmentCheck.Within(InstrumentSpread.Percent, 0, 5, "%", nameof(InstrumentSpread));

        double[] percents = [.. Readings.Select(reading => MoisturePercent(reading, temperatureC))];
        double scatter = percents.Length > 1 ? Statistics.StandardDeviation(percents) : 0;
        double perK = Temperature is null ? 0 : PercentPerK(percents.Average());
        ErrorBudget budget = new ErrorBudget()
            .Add("setting of the instrument", instrument / 100)
            .Add("drop to drop", Math.Max(DropPercent, scatter) / 100 / Math.Sqrt(percents.Length))
            .Add("temperature of the prism", perK * temperatureSpreadK / 100)
            .Add("scale against moisture", (Scale == RefractometerScale.Brix ? BrixEquationPercent : IndexEquationPercent) / 100);
        return new MoistureMeasurement
        {
            Moisture = Ratio.FromPercent(percents.Average()),
            StandardDeviation = Ratio.FromDecimalFractions(budget.StandardDeviation),
            Contributions = budget.Shares,
            Notices = [.. NoticesOf(scatter, temperatureC)],
            Source = Scale == RefractometerScale.Brix ? MoistureReading.BrixSource : MoistureReading.IndexSource,
        };
    }

    /// <summary>Moisture, %, that a reading at a temperature means.</summary>
    private double MoisturePercent(double reading, double temperatureC)
    {
        switch (Scale)
        {
            case RefractometerScale.RefractiveIndex:
                double indexAt20C = MoistureReading.IndexAt20C(reading, temperatureC);
                MoistureReading.IndexRange.Require(indexAt20C, nameof(Readings));
                return MoistureReading.Wedmore1955(indexAt20C);
            case RefractometerScale.Brix:
                MoistureReading.BrixRange.Require(reading, nameof(Readings));
                return AtItsTemperature(MoistureReading.FromBrix(reading).Moisture.Percent);
            default:
                MoistureReading.MoistureRange.Require(reading, nameof(Readings));
                return AtItsTemperature(reading);
        }

        double AtItsTemperature(double shownPercent) => MoistureReading.Wedmore1955(MoistureReading.IndexAt20C(IndexOf(shownPercent), temperatureC));
    }

    /// <summary>Change of the moisture that a reading means per K of the prism, %.</summary>
    private static double PercentPerK(double moisturePercent)
    {
        double index = IndexOf(moisturePercent);
        return MoistureReading.Wedmore1955(MoistureReading.IndexAt20C(index, ScaleC + 1)) - MoistureReading.Wedmore1955(index);
    }

    /// <summary>Index at 20 °C of a moisture; rounding at the ends of the table is taken off.</summary>
    private static double IndexOf(double moisturePercent) => MoistureReading.RefractiveIndexAt20C(
        Ratio.FromPercent(Math.Clamp(moisturePercent, MoistureReading.MoistureRange.OuterLow, MoistureReading.MoistureRange.OuterHigh)));

    private IEnumerable<Notice> NoticesOf(double scatterPercent, double temperatureC)
    {
        if (MoistureReading.TemperatureRange.NoticeFor(temperatureC) is { } range)
            yield return range;
        if (scatterPercent > 3 * DropPercent)
        {
            yield return new Notice(
                "refractometer.scatter",
                FormattableString.Invariant($"the drops differ by {scatterPercent:0.00} % moisture, one standard deviation"),
                "the honey is not mixed, the drops hold crystals or foam, or the prism was not clean",
                "stir, melt what has crystallized, clean the prism and read again");
        }
    }
}
