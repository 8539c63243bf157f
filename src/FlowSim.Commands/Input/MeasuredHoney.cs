using FlowSim.Commands.Quantities;
using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>The honey of a measurement, from the options or from a file.</summary>
/// <param name="Honey">The honey, to compare with.</param>
/// <param name="Sample">What was measured.</param>
internal sealed record MeasuredHoney(Honey Honey, HoneySample Sample)
{
    public const string Temperature = "--temperature";
    public const string Moisture = "--moisture";
    public const string Batch = "--batch";

    /// <summary>Reads it.</summary>
    /// <param name="options">Options.</param>
    /// <param name="batch">File; null when none was given.</param>
    /// <returns>The honey; null when something is wrong.</returns>
    public static MeasuredHoney? Read(MeasureOptions options, Loaded? batch)
    {
        Given? temperature = options.Required(Temperature, Dimension.Temperature, "35 °C");
        Given? moisture = options.Quantity(Moisture, Dimension.Share);
        if (batch is null && !options.Has(Moisture))
            options.Missing(Moisture, $"{Moisture} \"17.8 %\", or {Batch} FILE whose [honey] gives it");
        Honey? honey = batch is null ? null : OfFile(batch);
        if (options.Problems.Any || temperature is not { } degrees)
            return null;

        if (moisture is { } given)
        {
            honey = (honey ?? new Honey { Moisture = default }) with { Moisture = Ratio.FromDecimalFractions(given.Si) };
        }
        else
        {
            Ratio inFile = honey!.Moisture;
            moisture = new Given(inFile.DecimalFractions, SpreadOf(batch!));
            options.Journal.Assume(Moisture, FormattableString.Invariant($"moisture {inFile.Percent:0.##} %, as in the file"), Standing.GivenByUser);
        }

        if (batch is null)
            options.Journal.Assume(Batch, $"compared with the {ViscosityCorrelations.Default.Name} correlation, honey liquid and free of crystals", ViscosityCorrelations.Default.Source.Standing);
        HoneySample sample = new() { Moisture = honey.Moisture, Temperature = UnitsNet.Temperature.FromKelvins(degrees.Si) };
        options.Assumed(degrees, Temperature, FormattableString.Invariant($"temperature ± {sample.TemperatureSpread.Kelvins:0.##} K"));
        options.Assumed(moisture.Value, Moisture, FormattableString.Invariant($"moisture ± {sample.MoistureSpread.Percent:0.##} %"));
        if (degrees.Spread is { } kelvins)
            sample = sample with { TemperatureSpread = TemperatureDelta.FromKelvins(kelvins) };
        if (moisture.Value.Spread is { } share)
            sample = sample with { MoistureSpread = Ratio.FromDecimalFractions(share) };
        return new MeasuredHoney(honey, sample);
    }

    private static Honey OfFile(Loaded batch)
    {
        (Honey honey, UnitsNet.Temperature _) = Loader.ReadHoney(batch);
        batch.Journal.Withdraw(Keys.Honey.LotFactor);
        return honey;
    }

    /// <summary>The standard deviation the file gives the moisture; null when it gives none, or says exact because a factor makes up for it.</summary>
    private static double? SpreadOf(Loaded batch) => batch.Journal.Spreads.FirstOrDefault(read => read.Key == Keys.Honey.Moisture.ToString()) is { Spread: { Kind: Quantities.SpreadKind.Normal, IsExact: false } spread }
        ? spread.Values[1]
        : null;
}
