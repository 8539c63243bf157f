using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Heating;

namespace FlowSim.Commands.Input;

/// <summary>Entries that hold two values: a step of the gate or of a setpoint, a layer, a measured figure, a cloth.</summary>
internal static class PairGrammar
{
    /// <summary>A step of the gate: "5 min 25%".</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="value">Entry of the list.</param>
    public static (double TimeS, double Opening)? Step(Section section, Key key, InputValue value)
    {
        if (section.Text(key.Name, value) is not { } text)
            return null;

        // The opening is the last number with its unit; what stands before is the time.
        for (int at = text.Length - 1; at > 0; at--)
        {
            bool startsNumber = (char.IsAsciiDigit(text[at]) || text[at] == '.') && text[at - 1] is ' ' or ',' or '\t' or '\u00A0';
            if (!startsNumber || QuantityGrammar.Read(text[at..], Dimension.Share, out Quantity _) is not null)
                continue;
            string time = text[..at].TrimEnd(' ', ',', '\t', '\u00A0');
            double? seconds = section.Quantity(key.Name, value, time, 0, Dimension.Duration);
            double? opening = section.Quantity(key.Name, value, text[at..], at, Dimension.Share);
            return seconds is { } t && opening is { } s ? (t, s) : null;
        }

        section.Wrong(key.Name, value.Spot, $"\"{Printable.Of(text)}\" is not a time and an opening, as in \"5 min 25%\"");
        return null;
    }

    /// <summary>A step of a setpoint: "12 h 40 °C", or "12 h ramp 40 °C".</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="value">Entry of the list.</param>
    public static (double TimeS, double TemperatureK, bool Ramp)? Setpoint(Section section, Key key, InputValue value)
    {
        if (section.Text(key.Name, value) is not { } text)
            return null;

        // The temperature is the last number with its unit; what stands before is the time, and perhaps a word.
        int? last = null;
        int split = -1;
        for (int at = text.Length - 1; at > 0 && split < 0; at--)
        {
            bool startsNumber = (char.IsAsciiDigit(text[at]) || text[at] is '.' or '-' or '+' or '\u2212') && text[at - 1] is ' ' or ',' or '\t' or '\u00A0';
            if (!startsNumber)
                continue;
            last ??= at;
            if (QuantityGrammar.Read(text[at..], Dimension.Temperature, out Quantity _) is null)
                split = at;
        }

        if ((split > 0 ? split : last) is not { } temperatureAt)
        {
            section.Wrong(key.Name, value.Spot, $"\"{Printable.Of(text)}\" is not a time and a temperature, as in \"12 h 40 °C\", or \"12 h {Ramp} 40 °C\" to rise evenly until then");
            return null;
        }

        string time = text[..temperatureAt].TrimEnd(' ', ',', '\t', '\u00A0');
        bool ramp = time.EndsWith(" " + Ramp, StringComparison.OrdinalIgnoreCase);
        if (ramp)
            time = time[..^Ramp.Length].TrimEnd(' ', ',', '\t', '\u00A0');
        double? seconds = section.Quantity(key.Name, value, time, 0, Dimension.Duration);
        double? temperature = section.Quantity(key.Name, value, text[temperatureAt..], temperatureAt, Dimension.Temperature);
        return seconds is { } t && temperature is { } k ? (t, k, ramp) : null;
    }

    /// <summary>A layer: "polyethylene 2 mm". The last number with its unit is the thickness.</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="value">The text, or an entry of a list.</param>
    public static (string Material, double ThicknessM)? Layer(Section section, Key key, InputValue value)
    {
        if (section.Text(key.Name, value) is not { } text)
            return null;
        int at = text.AsSpan().IndexOfAnyInRange('0', '9');
        while (at > 0 && text[at - 1] is '.' or '-')
            at--;
        string material = (at < 0 ? text : text[..at]).Trim(' ', ',', '\t', '\u00A0');
        if (at < 0 || material.Length == 0)
        {
            section.Wrong(key.Name, value.Spot, $"\"{Printable.Of(text)}\" is not a material and a thickness, as in \"polyethylene 2 mm\"");
            return null;
        }

        string? known = section.WordOf(key.Name, value.Spot, material, [.. WallMaterial.All.Select(m => m.Name)], "material");
        double? thickness = section.Quantity(key.Name, value, text[at..], at, Dimension.Length);
        return known is not null && thickness is { } d ? (known, d) : null;
    }

    /// <summary>The word that says a setpoint moves evenly.</summary>
    private const string Ramp = "ramp";

    /// <summary>A measured figure: "35 °C, 3 Pa.s".</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="value">Entry of the list.</param>
    public static (double TemperatureK, double ViscosityPaS)? Figure(Section section, Key key, InputValue value)
    {
        if (section.Text(key.Name, value) is not { } text)
            return null;
        string[] parts = text.Split(',');
        if (parts.Length != 2)
        {
            section.Wrong(key.Name, value.Spot, $"\"{Printable.Of(text)}\" is not a temperature and a viscosity with one comma between, as in \"35 °C, 3 Pa.s\"");
            return null;
        }

        double? temperature = section.Quantity(key.Name, value, parts[0], 0, Dimension.Temperature);
        double? viscosity = section.Quantity(key.Name, value, parts[1], parts[0].Length + 1, Dimension.Viscosity);
        return temperature is { } t && viscosity is { } mu ? (t, mu) : null;
    }

    /// <summary>Two lengths with a stroke between, as "600 um / 400 um" or "600/400 um".</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="value">Entry of the list.</param>
    /// <param name="text">Its text.</param>
    public static (double OpeningM, double WireM)? Lengths(Section section, Key key, InputValue value, string text)
    {
        int stroke = text.IndexOf('/', StringComparison.Ordinal);
        string first = text[..stroke];
        string second = text[(stroke + 1)..];

        // "600/400 um": the unit stands once, for both.
        if (first.Trim().All(c => char.IsAsciiDigit(c) || c == '.'))
            first = first.Trim() + second.TrimStart().TrimStart([.. "0123456789."]);
        double? opening = section.Quantity(key.Name, value, first, 0, Dimension.Length);
        double? wire = section.Quantity(key.Name, value, second, stroke + 1, Dimension.Length);
        return opening is { } w && wire is { } d ? (w, d) : null;
    }
}
