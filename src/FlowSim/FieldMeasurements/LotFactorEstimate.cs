using System.Globalization;
using FlowSim.Numerics.Sampling;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>The lot factor that a measured viscosity gives, and how well it is known.</summary>
/// <remarks>
/// The factor is the measured viscosity over the correlation's at the <i>stated</i> moisture and temperature, so errors of both enter it. Used
/// with the same stated moisture, what the wrong moisture does to the correlation cancels: factor times correlation gives back the
/// measured viscosity, whatever the moisture really is. So a setup that takes this factor should take the moisture as exact and the
/// spread <see cref="LogStandardDeviationAtStatedMoisture"/>; with the moisture's spread as well its error would be counted twice.
/// <see cref="LogStandardDeviation"/> is how well the factor itself is known, as to compare lots, or to use it with another moisture.
/// The thermometer's error stays in both: the one that reads the temperature of the run later may be another.
/// </remarks>
public sealed record LotFactorEstimate
{
    /// <summary>How far ln of a factor may lie from 0 before it is remarked on, in standard deviations of honeys of equal moisture. Engineering choice.</summary>
    private const double FarFromOthers = 2.5;

    /// <summary>The lot factor.</summary>
    public required double Value { get; init; }

    /// <summary>Standard deviation of its natural logarithm, the errors of moisture and temperature included.</summary>
    public required double LogStandardDeviation { get; init; }

    /// <summary>The same without the error of the moisture: for use with the same stated moisture.</summary>
    public required double LogStandardDeviationAtStatedMoisture { get; init; }

    /// <summary>Where <see cref="LogStandardDeviation"/> comes from, largest part first.</summary>
    public required IReadOnlyList<ErrorShare> Contributions { get; init; }

    /// <summary>Moisture that the correlation was asked at.</summary>
    public required Ratio Moisture { get; init; }

    /// <summary>Name of the correlation.</summary>
    public required string Correlation { get; init; }

    /// <summary>Change of ln of the correlation's viscosity per percent of moisture; negative.</summary>
    public required double LogSlopePerPercentMoisture { get; init; }

    /// <summary>Change of ln of the correlation's viscosity per K; negative.</summary>
    public required double LogSlopePerK { get; init; }

    /// <summary>What the user should know.</summary>
    public IReadOnlyList<Notice> Notices { get; init; } = [];

    /// <summary>Interval that holds the factor with 95 %, its logarithm being normal.</summary>
    public (double Low, double High) Interval95
    {
        get
        {
            double factor = Math.Exp(NormalDistribution.HalfWidth95 * LogStandardDeviation);
            return (Value / factor, Value * factor);
        }
    }

    /// <summary>The lot factor of a honey.</summary>
    /// <param name="measurement">The viscosity.</param>
    /// <param name="honey">The honey.</param>
    internal static LotFactorEstimate Of(ViscosityMeasurement measurement, Honey honey)
    {
        ArgumentNullException.ThrowIfNull(honey);
        HoneyProperties properties = HoneyProperties.Of(honey with { LotFactor = 1 });
        ViscosityCorrelation correlation = properties.Viscosity;
        HoneySample sample = measurement.Sample;
        correlation.TemperatureRange.Require(sample.Temperature.DegreesCelsius, nameof(HoneySample.Temperature));

        double LogOfCorrelation(double moisturePercent, double temperatureK) => Math.Log(correlation.ViscosityPaS(moisturePercent, temperatureK));
        const double HalfStep = 0.01;
        double moisturePercent = honey.Moisture.Percent, temperatureK = sample.Temperature.Kelvins;
        double perPercent = (LogOfCorrelation(moisturePercent + HalfStep, temperatureK) - LogOfCorrelation(moisturePercent - HalfStep, temperatureK)) / (2 * HalfStep);
        double perK = (LogOfCorrelation(moisturePercent, temperatureK + HalfStep) - LogOfCorrelation(moisturePercent, temperatureK - HalfStep)) / (2 * HalfStep);

        double value = measurement.Viscosity.PascalSeconds / correlation.ViscosityPaS(moisturePercent, temperatureK);
        LotFactorSpread.Range.Require(value, nameof(honey.LotFactor));
        ErrorBudget budget = new();
        foreach (ErrorShare share in measurement.Contributions)
            budget.Add(share.Name, share.StandardDeviation);
        budget.Add("temperature of the honey", perK * sample.TemperatureSpread.Kelvins);
        double atStatedMoisture = budget.StandardDeviation;
        budget.Add("moisture of the honey", perPercent * sample.MoistureSpread.Percent);
        return new LotFactorEstimate
        {
            Value = value,
            LogStandardDeviation = budget.StandardDeviation,
            LogStandardDeviationAtStatedMoisture = atStatedMoisture,
            Contributions = budget.Shares,
            Moisture = honey.Moisture,
            Correlation = correlation.Name,
            LogSlopePerPercentMoisture = perPercent,
            LogSlopePerK = perK,
            Notices = [.. NoticesOf(value, correlation, honey, sample)],
        };
    }

    private static IEnumerable<Notice> NoticesOf(double value, ViscosityCorrelation correlation, Honey honey, HoneySample sample)
    {
        if (correlation.MoistureRange.NoticeFor(honey.Moisture.Percent) is { } moisture)
            yield return moisture;
        if (correlation.TemperatureRange.NoticeFor(sample.Temperature.DegreesCelsius) is { } temperature)
            yield return temperature;
        double limit = FarFromOthers * LotFactorSpread.LogStandardDeviation;
        if (!correlation.IsMeasured && Math.Abs(Math.Log(value)) > limit)
        {
            yield return new Notice(
                "lot-factor.far",
                string.Create(CultureInfo.InvariantCulture, $"a lot factor of {value:0.00} is further from 1 than honeys of equal moisture commonly are ({Math.Exp(-limit):0.0} to {Math.Exp(limit):0.0})"),
                value > 1
                    ? "the honey is drier or cooler than stated, holds crystals or foam, or sets to a gel at rest"
                    : "the honey is wetter or warmer than stated, or a length or time is wrong",
                "check moisture and temperature, look for crystals against the light, and measure again in another way");
        }
    }
}
