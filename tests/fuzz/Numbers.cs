using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using System.Reflection;
using System.Text;
using FlowSim.Numerics.Sampling;
using UnitsNet;

namespace FlowSim.Fuzz;

/// <summary>All numbers of an answer, found by walking its public properties.</summary>
internal static class Numbers
{
    private const int Deepest = 12;

    private static readonly ConcurrentDictionary<Type, PropertyInfo[]> s_properties = new();

    /// <summary>The numbers as text, in the order of the properties.</summary>
    /// <param name="answer">Answer.</param>
    /// <exception cref="FuzzFindingException">One is not a number, or infinite.</exception>
    public static string Of(object? answer)
    {
        StringBuilder text = new();
        Walk(answer, "answer", text, 0);
        return text.ToString();
    }

    private static void Walk(object? value, string path, StringBuilder text, int depth)
    {
        switch (value)
        {
            case null or Delegate or Type:
                return;
            case Distribution spread:
                // Its ends may lie at infinity.
                Add(spread.Median, path, text);
                return;
            case double number:
                Add(number, path, text);
                return;
            case IQuantity quantity:
                Add((double)quantity.Value, path, text);
                return;
            case string or bool or Enum or int or DateOnly:
                text.Append(path).Append('=').Append(Convert.ToString(value, CultureInfo.InvariantCulture)).Append('\n');
                return;
            case IEnumerable items:
                int index = 0;
                foreach (object? item in items)
                    Walk(item, string.Create(CultureInfo.InvariantCulture, $"{path}[{index++}]"), text, depth + 1);
                return;
        }

        if (depth > Deepest || value.GetType().Namespace?.StartsWith("FlowSim", StringComparison.Ordinal) is not true)
            return;
        foreach (PropertyInfo property in s_properties.GetOrAdd(value.GetType(), Readable))
            Walk(property.GetValue(value), path + "." + property.Name, text, depth + 1);
    }

    private static PropertyInfo[] Readable(Type type) =>
        [.. type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.CanRead && property.GetIndexParameters().Length == 0)];

    private static void Add(double number, string path, StringBuilder text)
    {
        if (!double.IsFinite(number))
            throw new FuzzFindingException(string.Create(CultureInfo.InvariantCulture, $"{path} is {number}"));
        text.Append(path).Append('=').Append(number.ToString("R", CultureInfo.InvariantCulture)).Append('\n');
    }
}
