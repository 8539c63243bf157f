using System.Globalization;
using FlowSim.Catalogue;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the strainer.</summary>
internal static class ScreenReader
{
    private const string Astm = "astm ";

    private const string Mesh = "mesh ";

    /// <summary>Reads <c>[screen]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static Strainer? Read(Section section, Journal journal)
    {
        ScreenShape? shape = ShapeReader.Read(section, Keys.Screen.Form, ScreenShapes.All, "form of screen", fallback: null);
        section.Clash(Keys.Screen.Cloths, Keys.Screen.Opening);
        section.Clash(Keys.Screen.Cloths, Keys.Screen.Wire);
        IReadOnlyList<Cloth>? cloths = section.Has(Keys.Screen.Cloths) ? ReadCloths(section, journal) : ReadSingle(section, journal);
        double? factor = section.Number(Keys.Screen.Factor);
        string? venting = section.Word(Keys.Screen.Venting, Words.All<Venting>(), "venting");
        string? overflow = section.Word(Keys.Screen.Overflow, Words.All<OverflowPath>(), "way of the overflow");
        double? minimumHeadM = section.Quantity(Keys.Screen.MinimumHead);
        section.RefuseStrangers();
        if (IsWord(venting, Venting.Sealed) && !IsWord(overflow, OverflowPath.Spill))
            section.Wrong(Keys.Screen.Venting.Name, section.Entry(Keys.Screen.Venting.Name)!.Value.Spot, "a strainer sealed onto its receiver leaves honey no way past the cloth but onto the floor: write overflow = \"spill\" beside it, or venting = \"vented\"");
        if (shape is null || cloths is null)
            return null;

        Strainer strainer = new() { Shape = shape, Cloths = cloths };
        if (factor is { } f)
            strainer = strainer with { ScreenFactor = f };
        else
            journal.Assume(Keys.Screen.Factor.ToString(), FormattableString.Invariant($"screen factor {strainer.ScreenFactor:0.##}: published resistance, the cautious side"), Standing.AbstractOnly);
        if (venting is not null)
            strainer = strainer with { Venting = Words.Value<Venting>(venting) };
        if (overflow is not null)
            strainer = strainer with { Overflow = Words.Value<OverflowPath>(overflow) };
        if (minimumHeadM is { } head)
            strainer = strainer with { MinimumHead = Length.FromMeters(head) };
        else
            journal.Assume(Keys.Screen.MinimumHead.ToString(), FormattableString.Invariant($"the wet cloth holds back {strainer.MinimumHead.Millimeters:0.##} mm of head"), Standing.EngineeringChoice);
        return strainer;
    }

    private static bool IsWord<T>(string? word, T value)
        where T : struct, Enum => word is not null && Words.Value<T>(word).Equals(value);

    private static IReadOnlyList<Cloth>? ReadSingle(Section section, Journal journal)
    {
        double? openingM = section.Quantity(Keys.Screen.Opening);
        double? wireM = section.Quantity(Keys.Screen.Wire);
        if (!section.Has(Keys.Screen.Opening))
        {
            section.Missing(Keys.Screen.Opening, "\"600 um\" with wire = \"400 um\", or cloths = [\"astm 30\"]");
            return null;
        }

        if (openingM is not { } opening)
            return null;
        if (wireM is { } wire)
            return [new Cloth { Opening = Length.FromMeters(opening), WireDiameter = Length.FromMeters(wire) }];
        return section.Has(Keys.Screen.Wire) ? null : Standard(section, Keys.Screen.Opening, section.Entry(Keys.Screen.Opening.Name)!.Value, opening, journal) is { } cloth ? [cloth] : null;
    }

    private static IReadOnlyList<Cloth>? ReadCloths(Section section, Journal journal)
    {
        section.Has(Keys.Screen.Opening);
        section.Has(Keys.Screen.Wire);
        if (section.List(Keys.Screen.Cloths, "[\"600 um / 400 um\", \"astm 40\"]") is not { } items)
            return null;
        Cloth?[] cloths = [.. items.Select(item => ReadCloth(section, item, journal))];
        if (cloths.Length == 0)
            section.Wrong(Keys.Screen.Cloths.Name, section.Entry(Keys.Screen.Cloths.Name)!.Value.Spot, "is an empty list; a strainer has at least one cloth");
        return cloths.Length == 0 || cloths.Any(cloth => cloth is null) ? null : [.. cloths.OfType<Cloth>()];
    }

    private static Cloth? ReadCloth(Section section, InputValue value, Journal journal)
    {
        Key key = Keys.Screen.Cloths;
        if (section.Text(key.Name, value) is not { } written)
            return null;
        string text = written.Trim();
        try
        {
            if (text.StartsWith(Astm, StringComparison.OrdinalIgnoreCase))
                return FromAstm(section, value, text[Astm.Length..].Replace("no.", "", StringComparison.OrdinalIgnoreCase).Trim(), journal);
            if (text.StartsWith(Mesh, StringComparison.OrdinalIgnoreCase))
                return FromMesh(section, value, written);
            if (written.Contains('/', StringComparison.Ordinal))
            {
                return PairGrammar.Lengths(section, key, value, written) is { } pair
                    ? new Cloth { Opening = Length.FromMeters(pair.OpeningM), WireDiameter = Length.FromMeters(pair.WireM) }
                    : null;
            }

            if (CommonCloths.All.FirstOrDefault(entry => string.Equals(entry.Name, text, StringComparison.OrdinalIgnoreCase)) is { } common)
                return common.Item;
            if (text.Length > 0 && !char.IsAsciiDigit(text[0]) && text[0] != '.')
            {
                string[] names = [.. CommonCloths.All.Select(entry => entry.Name)];
                section.Wrong(key.Name, value.Spot, $"\"{Printable.Of(text)}\" is not a cloth; nearest of the catalogue: \"{Spelling.Nearest(text, names)}\"; or write \"600 um / 400 um\", \"astm 40\", \"mesh 40 / 250 um\"");
                return null;
            }

            return section.Quantity(key.Name, value, Dimension.Length) is { } opening ? Standard(section, key, value, opening, journal) : null;
        }
        catch (ArgumentException refused)
        {
            section.Wrong(key.Name, value.Spot, Blame.MessageOf(refused));
            return null;
        }
    }

    private static Cloth? FromAstm(Section section, InputValue value, string number, Journal journal)
    {
        if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int astm))
        {
            section.Wrong(Keys.Screen.Cloths.Name, value.Spot, $"\"{Printable.Of(value.Text)}\" does not give a sieve number, as in \"astm 40\"");
            return null;
        }

        Cloth cloth = Cloth.FromAstmSieve(astm);
        journal.Assume(Keys.Screen.Cloths.ToString(), FormattableString.Invariant($"ASTM No. {astm}: opening {cloth.Opening.Micrometers:0.#} um, wire {cloth.WireDiameter.Micrometers:0.#} um"), StandardSieves.Source.Standing);
        return cloth;
    }

    private static Cloth? FromMesh(Section section, InputValue value, string text)
    {
        int stroke = text.IndexOf('/', StringComparison.Ordinal);
        string count = text.Trim()[Mesh.Length..].Split('/')[0].Trim();
        if (stroke < 0 || QuantityGrammar.ReadNumber(count, out double wiresPerInch) is not null)
        {
            section.Wrong(Keys.Screen.Cloths.Name, value.Spot, $"\"{Printable.Of(text)}\" is not wires per inch and a wire diameter, as in \"mesh 40 / 250 um\"");
            return null;
        }

        return section.Quantity(Keys.Screen.Cloths.Name, value, text[(stroke + 1)..], stroke + 1, Dimension.Length) is { } wireM
            ? Cloth.FromMeshCount(wiresPerInch, Length.FromMeters(wireM))
            : null;
    }

    private static Cloth? Standard(Section section, Key key, InputValue value, double openingM, Journal journal)
    {
        try
        {
            Cloth cloth = Cloth.FromStandardOpening(Length.FromMeters(openingM));
            journal.Assume(Keys.Screen.Wire.ToString(), FormattableString.Invariant($"wire {cloth.WireDiameter.Micrometers:0.#} um, as in the standard sieve of {cloth.Opening.Micrometers:0.#} um"), StandardSieves.Source.Standing);
            return cloth;
        }
        catch (ArgumentOutOfRangeException refused)
        {
            section.Wrong(key.Name, value.Spot, $"needs the wire diameter too: {Blame.MessageOf(refused)}");
            return null;
        }
    }
}
