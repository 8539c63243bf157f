using System.Collections;
using System.Reflection;
using UnitsNet;
using UnitsNet.Units;

namespace FlowSim.Tests;

/// <summary>
/// Every settable property of a setup, at any depth, with hostile values for it. New properties are found by reflection, so none is
/// forgotten.
/// </summary>
internal static class HostileValues
{
    /// <summary>A hang shows as a cancelled run; a good one takes milliseconds.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private static readonly double[] HostileNumbers =
    [
        double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.MaxValue, -double.MaxValue, double.Epsilon,
        0, -0.0, -1, 1e-12, 1e-3, 0.01, 0.05, 0.3, 1, 2, 50, 1e3, 1e12,
    ];

    /// <summary>Null when all is well, else what went wrong.</summary>
    /// <param name="name">What was changed.</param>
    /// <param name="setup">Setup.</param>
    /// <param name="compute">Computes it and says what is not finite.</param>
    public static string? Trouble<TSetup>(string name, object? setup, Func<TSetup, CancellationToken, string?> compute)
    {
        using var patience = new CancellationTokenSource(Patience);
        try
        {
            return compute((TSetup)setup!, patience.Token) is { } notFinite ? $"{name}: {notFinite} is not finite" : null;
        }
        catch (ArgumentException refused)
        {
            return string.IsNullOrEmpty(refused.ParamName) ? $"{name}: the refusal names nothing: {refused.Message}" : null;
        }
#pragma warning disable CA1031 // Whatever else comes out is what the test looks for.
        catch (Exception other)
#pragma warning restore CA1031
        {
            return $"{name}: {other.GetType().Name}: {other.Message}";
        }
    }

    /// <summary>The first figure of a result that is not finite, or null; the setup in it is what was given.</summary>
    public static string? NotFinite(object? value, string path, Type setup, int depth = 0)
    {
        switch (value)
        {
            case null or string or Enum or int or bool:
                return null;
            case not null when value.GetType() == setup:
                return null;
            case double number:
                return double.IsFinite(number) ? null : path;
            case IQuantity quantity:
                return double.IsFinite((double)quantity.Value) ? null : path;
            case IEnumerable items:
                int i = 0;
                foreach (object? item in items)
                {
                    if (NotFinite(item, $"{path}[{i++}]", setup, depth + 1) is { } found)
                        return found;
                }

                return null;
            default:
                Assert.True(depth < 10, path);
                return value.GetType().GetProperties()
                    .Where(p => p.GetIndexParameters().Length == 0)
                    .Select(p => NotFinite(p.GetValue(value), path + "." + p.Name, setup, depth + 1))
                    .FirstOrDefault(found => found is not null);
        }
    }

    /// <summary>A property somewhere in a setup and a value for it.</summary>
    public sealed record Mutation(string Path, string Name, Func<object?, object?> Apply);

    /// <summary>All of a record and the records in it.</summary>
    /// <param name="record">Record.</param>
    /// <param name="parts">Lists, shapes and other parts to put in, by their name.</param>
    public static IEnumerable<Mutation> MutationsOf(object record, IReadOnlyList<(string Text, object Value)> parts)
    {
        foreach (PropertyInfo property in record.GetType().GetProperties().Where(p => p.SetMethod is not null))
        {
            object? present = property.GetValue(record);
            foreach ((string text, object? value) in HostileValuesFor(property, present, parts))
                yield return new Mutation(property.Name, $"{property.Name} = {text}", target => With(target!, property, value));
            if (present is not null && IsPart(present.GetType()))
            {
                foreach (Mutation inner in MutationsOf(present, parts))
                {
                    yield return new Mutation(
                        property.Name + "." + inner.Path,
                        property.Name + "." + inner.Name,
                        target => property.GetValue(target) is { } part && part.GetType() == present.GetType()
                            ? With(target!, property, inner.Apply(part))
                            : target);
                }
            }
        }
    }

    private static bool IsPart(Type type) =>
        type.Namespace?.StartsWith("FlowSim", StringComparison.Ordinal) == true && type.GetMethod("<Clone>$") is not null;

    private static object With(object record, PropertyInfo property, object? value)
    {
        object copy = record.GetType().GetMethod("<Clone>$")!.Invoke(record, null)!;
        property.SetValue(copy, value);
        return copy;
    }

    private static IEnumerable<(string Text, object? Value)> HostileValuesFor(PropertyInfo property, object? present, IReadOnlyList<(string Text, object Value)> parts)
    {
        Type type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
        if (!property.PropertyType.IsValueType || type != property.PropertyType)
            yield return ("null", null);
        if (type == typeof(double))
        {
            foreach (double number in HostileNumbers)
                yield return ($"{number:r}", number);
        }
        else if (typeof(IQuantity).IsAssignableFrom(type))
        {
            // Zero first: a temperature of 0 K, for one. A quantity refuses NaN and infinity itself, also when the largest
            // number in a large unit is converted; that refusal names no argument of ours.
            yield return ("default", Activator.CreateInstance(type));
            Enum unit = present is IQuantity quantity ? quantity.Unit : LengthUnit.Millimeter;
            foreach (double number in HostileNumbers.Where(double.IsFinite))
                yield return ($"{number:r} {unit}", QuantityOf(type, number, unit));
            foreach (object anyUnit in Enum.GetValues(unit.GetType()))
                yield return ($"huge {anyUnit}", QuantityOf(type, double.MaxValue, anyUnit));
        }
        else if (type == typeof(int))
        {
            foreach (int number in new[] { int.MinValue, -1, 0, 1, 2, 1000, int.MaxValue })
                yield return ($"{number}", number);
        }
        else if (type == typeof(bool))
        {
            yield return ("true", true);
            yield return ("false", false);
        }
        else if (type.IsEnum)
        {
            foreach (object member in Enum.GetValues(type))
                yield return ($"{member}", member);
            yield return ("99", Enum.ToObject(type, 99));
        }
        else
        {
            foreach ((string text, object value) in parts.Where(part => type.IsInstanceOfType(part.Value)))
                yield return (text, value);
        }
    }


    // A power is a decimal inside, which ends at 8e28.
    private static object QuantityOf(Type type, double number, object unit) => type == typeof(Power)
        ? new Power((decimal)Math.Clamp(number, -1e20, 1e20), (PowerUnit)unit)
        : Activator.CreateInstance(type, number, unit)!;
}
