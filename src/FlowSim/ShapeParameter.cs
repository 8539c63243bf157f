using System.Globalization;

namespace FlowSim;

/// <summary>What a value of a shape stands for.</summary>
public enum ShapeParameterKind
{
    /// <summary>A length, m.</summary>
    Length,

    /// <summary>A volume, m³.</summary>
    Volume,

    /// <summary>A list of lengths, m, at most 10 000; asked for element by element as <c>key[0]</c>, <c>key[1]</c> … until there is none.</summary>
    LengthList,

    /// <summary>A list of volumes, m³, at most 10 000; asked for element by element as <c>key[0]</c>, <c>key[1]</c> … until there is none.</summary>
    VolumeList,
}

/// <summary>One value that describes a shape, with its limits: their one home.</summary>
/// <param name="Key">Key as written in a file: lower case, underscores.</param>
/// <param name="Kind">What it stands for.</param>
/// <param name="Min">Lowest allowed value, SI.</param>
/// <param name="Max">Highest allowed value, SI.</param>
/// <param name="IsRequired">Whether it must be given.</param>
/// <param name="Default">Value taken when an optional one is not given, SI; null when there is none.</param>
/// <param name="Description">What it is, in a few words.</param>
public sealed record ShapeParameter(
    string Key,
    ShapeParameterKind Kind,
    double Min,
    double Max,
    bool IsRequired,
    double? Default,
    string Description)
{
    /// <summary>A length that must be given.</summary>
    internal static ShapeParameter RequiredLength(string key, double minM, double maxM, string description) =>
        new(key, ShapeParameterKind.Length, minM, maxM, true, null, description);

    /// <summary>Returns the value or throws.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is outside the limits or NaN.</exception>
    internal double Check(double valueSI, string argumentName)
    {
        (string unit, double factor) = Kind switch
        {
            ShapeParameterKind.Volume or ShapeParameterKind.VolumeList => ("L", 1000.0),
            _ => Max < 1 ? ("mm", 1000.0) : ("m", 1.0),
        };
        EquipmentCheck.Within(valueSI * factor, Min * factor, Max * factor, unit, argumentName);
        return valueSI;
    }

    /// <summary>The checked value, the default, or null when it is optional without a default.</summary>
    /// <exception cref="ArgumentException">It is required and not given.</exception>
    internal double? ReadOptional(Func<string, double?> valueInSI)
    {
        ArgumentNullException.ThrowIfNull(valueInSI);
        double? value = valueInSI(Key) ?? Default;
        if (value is not null)
            return Check(value.Value, Key);

        return IsRequired ? throw new ArgumentException($"'{Key}' is missing: {Description}.", Key) : null;
    }

    /// <summary>The checked value of a parameter that is required or has a default.</summary>
    internal double Read(Func<string, double?> valueInSI) => ReadOptional(valueInSI)!.Value;

    /// <summary>All elements of a list parameter, checked.</summary>
    internal List<double> ReadList(Func<string, double?> valueInSI)
    {
        ArgumentNullException.ThrowIfNull(valueInSI);
        List<double> values = [];
        while (values.Count <= MostElements)
        {
            string key = string.Create(CultureInfo.InvariantCulture, $"{Key}[{values.Count}]");
            if (valueInSI(key) is not { } value)
                return values;

            values.Add(Check(value, key));
        }

        throw new ArgumentException(FormattableString.Invariant($"'{Key}' has more than {MostElements} values."), Key);
    }

    /// <summary>Most elements of a list: a function that answers every key would otherwise never end it (engineering choice).</summary>
    internal const int MostElements = 10_000;
}
