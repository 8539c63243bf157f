using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the honey.</summary>
internal static class HoneyReader
{
    /// <summary>Reads <c>[honey]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The honey and its temperature; null when something is wrong.</returns>
    public static (Honey Honey, Temperature Temperature)? Read(Section section, Problems problems, Journal journal)
    {
        double? moisture = section.Quantity(Keys.Honey.Moisture);
        double? temperatureK = section.Quantity(Keys.Honey.Temperature);
        double? lotFactor = section.Number(Keys.Honey.LotFactor);
        string? form = section.Word(Keys.Honey.Form, Words.All<HoneyForm>(), "form of honey");
        string? correlation = section.Word(Keys.Honey.Viscosity, [.. ViscosityCorrelations.All.Select(c => c.Name)], "viscosity correlation");
        string? conductivity = section.Word(Keys.Honey.Conductivity, [.. ConductivityCorrelations.All.Select(c => c.Name)], "conductivity correlation");
        section.Clash(Keys.Honey.Viscosity, Keys.Honey.Measured);
        ViscosityCorrelation? measured = ReadMeasured(section);
        section.RefuseStrangers();

        if (!section.Has(Keys.Honey.Moisture))
            section.Missing(Keys.Honey.Moisture, "\"17.8 %\"");
        if (!section.Has(Keys.Honey.Temperature))
            section.Missing(Keys.Honey.Temperature, "\"35 °C\"");
        if (problems.Any || moisture is null || temperatureK is null)
            return null;

        var honey = new Honey
        {
            Moisture = Ratio.FromDecimalFractions(moisture.Value),
            Viscosity = measured ?? (correlation is null ? null : ViscosityCorrelations.ByName(correlation)),
            Conductivity = conductivity is null ? null : ConductivityCorrelations.ByName(conductivity),
        };
        honey = lotFactor is { } factor ? honey with { LotFactor = factor } : honey;
        honey = form is { } word ? honey with { Form = Words.Value<HoneyForm>(word) } : honey;
        Note(section, honey, measured, journal);
        return (honey, Temperature.FromKelvins(temperatureK.Value));
    }

    private static void Note(Section section, Honey honey, ViscosityCorrelation? measured, Journal journal)
    {
        if (!section.Has(Keys.Honey.Form))
            journal.Assume(Keys.Honey.Form.ToString(), "liquid, free of crystals", Standing.EngineeringChoice);
        if (measured is not null)
            return;
        ViscosityCorrelation used = honey.Viscosity ?? ViscosityCorrelations.Default;
        journal.Assume(Keys.Honey.Viscosity.ToString(), $"viscosity by the {used.Name} correlation", used.Source.Standing);
        if (!section.Has(Keys.Honey.LotFactor))
            journal.Assume(Keys.Honey.LotFactor.ToString(), FormattableString.Invariant($"lot factor {honey.LotFactor:0.##}: not measured on this honey"), LotFactorSpread.Source.Standing);
    }

    private static MeasuredViscosity? ReadMeasured(Section section)
    {
        if (section.List(Keys.Honey.Measured, "[\"30 °C, 5.1 Pa.s\", \"40 °C, 1.9 Pa.s\"]") is not { } items)
            return null;
        (double TemperatureK, double ViscosityPaS)?[] figures = [.. items.Select(item => PairGrammar.Figure(section, Keys.Honey.Measured, item))];
        if (figures.Any(figure => figure is null))
            return null;
        int[] byTemperature = [.. Enumerable.Range(0, figures.Length).OrderBy(i => figures[i]!.Value.TemperatureK)];
        foreach ((int cooler, int warmer) in byTemperature.Zip(byTemperature.Skip(1)))
        {
            if (figures[warmer]!.Value.ViscosityPaS < figures[cooler]!.Value.ViscosityPaS || figures[warmer]!.Value.TemperatureK == figures[cooler]!.Value.TemperatureK)
                continue;
            section.Wrong(Keys.Honey.Measured.Name, items[warmer].Spot, $"\"{Output.Printable.Of(items[warmer].Text)}\" is not thinner than \"{Output.Printable.Of(items[cooler].Text)}\"; honey thins as it warms");
            return null;
        }

        try
        {
            return new MeasuredViscosity(figures.Select(f => (Temperature.FromKelvins(f!.Value.TemperatureK), DynamicViscosity.FromPascalSeconds(f.Value.ViscosityPaS))));
        }
        catch (ArgumentException refused)
        {
            section.Wrong(Keys.Honey.Measured.Name, section.Entry(Keys.Honey.Measured.Name)!.Value.Spot, Blame.MessageOf(refused));
            return null;
        }
    }
}
