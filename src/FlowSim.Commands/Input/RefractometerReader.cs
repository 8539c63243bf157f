using FlowSim.Commands.Quantities;
using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Commands.Input;

/// <summary>Reads what a refractometer showed.</summary>
internal static class RefractometerReader
{
    public const string Compensated = "--compensated";
    public const string At = "--at";

    private static readonly (string Option, RefractometerScale Scale)[] s_scales =
        [("--index", RefractometerScale.RefractiveIndex), ("--brix", RefractometerScale.Brix), ("--percent", RefractometerScale.Moisture)];

    public static IReadOnlyList<MeasureOption> Options { get; } =
    [
        new("--percent", "NUMBER", "What a moisture scale shows, 17.6; again for every drop.", Repeats: true),
        new("--brix", "NUMBER", "What a sugar scale shows, 80.8; again for every drop.", Repeats: true),
        new("--index", "NUMBER", "What an index scale shows, 1.4925; again for every drop.", Repeats: true),
        new(MeasuredHoney.Temperature, "TEMPERATURE", "Temperature of the prism, \"24 ± 1 °C\"."),
        new("--setting", "SHARE", "How well the instrument is set, in moisture, \"0.1 %\"."),
        new(At, "TEMPERATURE", "Temperature at which the viscosity is looked at."),
    ];

    /// <summary>Reads it.</summary>
    /// <param name="options">Options.</param>
    /// <param name="compensated">Whether the instrument corrects for its temperature.</param>
    public static RefractometerReading? Read(MeasureOptions options, bool compensated)
    {
        string[] given = [.. s_scales.Select(scale => scale.Option).Where(options.Has)];
        if (given.Length == 0)
            options.Missing("--percent", "--percent 17.6, --brix 80.8 or --index 1.4925, once for each drop");
        foreach (string other in given.Skip(1))
            options.Clash(given[0], other);
        IReadOnlyList<double> readings = given.Length == 0 ? [] : options.All(given[0], null);
        Given? temperature = options.Quantity(MeasuredHoney.Temperature, Dimension.Temperature);
        Given? setting = options.Quantity("--setting", Dimension.Share);
        if (compensated && options.Has(MeasuredHoney.Temperature))
            options.Problems.Add(options.SpotOf(MeasuredHoney.Temperature), $"stands beside {Compensated}; give one of the two");
        if (!compensated && !options.Has(MeasuredHoney.Temperature))
            options.Missing(MeasuredHoney.Temperature, $"{MeasuredHoney.Temperature} \"24 °C\", or {Compensated} if the instrument corrects for it itself");
        if (options.Problems.Any)
            return null;

        RefractometerReading result = new()
        {
            Scale = s_scales.First(scale => scale.Option == given[0]).Scale,
            Readings = readings,
            Temperature = temperature is { } prism ? Temperature.FromKelvins(prism.Si) : null,
        };
        if (temperature is { } known)
            options.Assumed(known, MeasuredHoney.Temperature, Invariant($"temperature of the prism ± {result.TemperatureSpread.Kelvins:0.##} K"));
        if (temperature?.Spread is { } kelvins)
            result = result with { TemperatureSpread = TemperatureDelta.FromKelvins(kelvins) };
        if (setting is { } share)
            result = result with { InstrumentSpread = Ratio.FromDecimalFractions(share.Si) };
        else
            options.Journal.Assume("--setting", Invariant($"instrument set to ± {result.InstrumentSpread.Percent:0.##} % moisture"), Standing.EngineeringChoice);
        return result;
    }

    /// <summary>Temperature at which the viscosity is looked at, and the correlation.</summary>
    /// <param name="options">Options.</param>
    /// <param name="batch">File; null when none was given.</param>
    public static (Temperature At, ViscosityCorrelation Correlation) Viscosity(MeasureOptions options, Loaded? batch)
    {
        Temperature? at = options.Quantity(At, Dimension.Temperature) is { } given ? Temperature.FromKelvins(given.Si) : null;
        ViscosityCorrelation? correlation = null;
        if (batch is not null)
        {
            (Honey honey, Temperature inFile) = Loader.ReadHoney(batch);
            batch.Journal.Withdraw(Keys.Honey.LotFactor);
            correlation = honey.Viscosity;
            at ??= inFile;
        }

        if (at is null)
            options.Journal.Assume(At, "viscosity looked at for 35 °C", Standing.EngineeringChoice);
        return (at ?? Temperature.FromDegreesCelsius(35), correlation ?? ViscosityCorrelations.Default);
    }
}
