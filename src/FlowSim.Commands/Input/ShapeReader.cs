using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>Reads a shape by the keys its list entry names, so that a new shape needs nothing here.</summary>
internal static class ShapeReader
{
    /// <summary>Reads a shape.</summary>
    /// <param name="section">Section that describes it.</param>
    /// <param name="shapeKey">Key that names the shape.</param>
    /// <param name="all">Shapes on offer.</param>
    /// <param name="what">What is named, as in "vessel shape".</param>
    /// <param name="fallback">Name taken when none is given; null when one must be.</param>
    /// <param name="instead">What may be given instead of a shape, for the message; may be empty.</param>
    /// <param name="derive">Fills in values that follow from those given; may be null.</param>
    public static TShape? Read<TShape>(
        Section section,
        Key shapeKey,
        IReadOnlyList<ShapeEntry<TShape>> all,
        string what,
        string? fallback,
        string instead = "",
        Action<string, Dictionary<string, double>>? derive = null)
        where TShape : class
    {
        string[] names = [.. all.Select(entry => entry.Name)];
        string? name = section.Word(shapeKey, names, what);
        if (name is null)
        {
            // A word that is wrong has been reported; a missing one falls back or is reported here.
            if (section.Has(shapeKey) || fallback is null)
            {
                if (!section.Has(shapeKey))
                    section.Missing(shapeKey, $"\"{names[0]}\" (known: {string.Join(", ", names)}){instead}");
                foreach (ShapeParameter parameter in all.SelectMany(entry => entry.Parameters))
                    section.Has(parameter.Key);
                return null;
            }

            name = fallback;
        }

        ShapeEntry<TShape> chosen = all.First(entry => entry.Name == name);
        DropOthers(section, shapeKey, all, chosen);
        Dictionary<string, double> values = new(StringComparer.Ordinal);
        bool complete = true;
        foreach (ShapeParameter parameter in chosen.Parameters)
            complete &= ReadParameter(section, parameter, values);
        if (!complete)
            return null;

        derive?.Invoke(name, values);
        Spot? chosenAt = section.IsFromOption(shapeKey) ? section.Entry(shapeKey.Name)!.Value.Spot : null;
        foreach (ShapeParameter parameter in chosen.Parameters)
        {
            if (parameter.IsRequired && !values.ContainsKey(parameter.Key) && !values.ContainsKey(parameter.Key + "[0]"))
            {
                string example = DimensionOf(parameter) == Dimension.Length ? "\"300 mm\"" : "\"" + DimensionFacts.Of(DimensionOf(parameter)).Example + "\"";
                section.Missing(parameter.Key, parameter.Description, (IsList(parameter) ? $"[{example}, …]" : example) + ", within " + Limits(parameter), chosenAt);
                complete = false;
            }
        }

        return complete ? Create(section, chosen, values) : null;
    }

    public static Dimension DimensionOf(ShapeParameter parameter) => parameter.Kind switch
    {
        ShapeParameterKind.Volume or ShapeParameterKind.VolumeList => Dimension.Volume,
        _ => Dimension.Length,
    };

    public static bool IsList(ShapeParameter parameter) => parameter.Kind is ShapeParameterKind.LengthList or ShapeParameterKind.VolumeList;

    /// <summary>Limits as people write them, as in "10 mm to 20 m".</summary>
    /// <param name="parameter">Value of a shape.</param>
    public static string Limits(ShapeParameter parameter) =>
        Amount(parameter.Min, DimensionOf(parameter)) + " to " + Amount(parameter.Max, DimensionOf(parameter));

    private static string Amount(double si, Dimension dimension) => dimension == Dimension.Volume
        ? Units.Print(si * 1000) + " L"
        : si < 1 ? Units.Print(si * 1000) + " mm" : Units.Print(si) + " m";

    private static TShape? Create<TShape>(Section section, ShapeEntry<TShape> chosen, Dictionary<string, double> values)
        where TShape : class
    {
        try
        {
            return chosen.Create(key => values.TryGetValue(key, out double value) ? value : null);
        }
        catch (ArgumentException refused)
        {
            string key = SnakeCase((refused.ParamName ?? string.Empty).Split('[')[0]);
            InputValue? written = section.Entry(key)?.Value;
            section.Wrong(written is null ? chosen.Name : key, written?.Spot ?? section.Spot, Blame.InTheUsersWords(refused, Blame.MessageOf(refused), Dimension.Length, written));
            return null;
        }
    }

    /// <summary>The key that fills an argument of a shape: rim_height fills rimHeight.</summary>
    private static string SnakeCase(string argument) =>
        string.Concat(argument.Select(c => char.IsAsciiLetterUpper(c) ? "_" + char.ToLowerInvariant(c) : c.ToString()));

    private static void DropOthers<TShape>(Section section, Key shapeKey, IReadOnlyList<ShapeEntry<TShape>> all, ShapeEntry<TShape> chosen)
        where TShape : class
    {
        if (!section.IsFromOption(shapeKey))
            return;
        foreach (ShapeParameter parameter in all.SelectMany(entry => entry.Parameters))
        {
            if (chosen.Parameters.All(own => own.Key != parameter.Key))
                section.DropFromFile(parameter.Key);
        }
    }

    private static bool ReadParameter(Section section, ShapeParameter parameter, Dictionary<string, double> values)
    {
        if (section.Entry(parameter.Key) is not { } entry)
            return true;
        if (!IsList(parameter))
            return ReadOne(section, parameter, entry.Value, parameter.Key, values);
        if (entry.Value.Kind != ValueKind.List)
        {
            section.Wrong(parameter.Key, entry.Value.Spot, $"is {entry.Value.KindName}, but a list is wanted: {parameter.Description}");
            return false;
        }

        bool good = true;
        for (int i = 0; i < entry.Value.Items.Count; i++)
            good &= ReadOne(section, parameter, entry.Value.Items[i], FormattableString.Invariant($"{parameter.Key}[{i}]"), values);
        return good;
    }

    private static bool ReadOne(Section section, ShapeParameter parameter, InputValue value, string key, Dictionary<string, double> values)
    {
        if (section.Quantity(parameter.Key, value, DimensionOf(parameter)) is not { } si)
            return false;
        if (!(si >= parameter.Min && si <= parameter.Max))
        {
            section.Wrong(parameter.Key, value.Spot, $"\"{Printable.Of(value.Text)}\" is outside what is allowed, {Limits(parameter)} ({parameter.Description})");
            return false;
        }

        values[key] = si;
        return true;
    }
}
