using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using UnitsNet;

namespace FlowSim.Docs;

/// <summary>All that an object says of itself, as a text to compare: of two setups that are alike it is the same.</summary>
internal static class StateText
{
    private const int Deepest = 8;

    /// <summary>The text.</summary>
    /// <param name="value">Object.</param>
    public static string Of(object? value)
    {
        StringBuilder text = new();
        Write(text, value, 0);
        return text.ToString();
    }

    private static void Write(StringBuilder text, object? value, int depth)
    {
        switch (value)
        {
            case null:
                text.Append("null");
                break;
            case IQuantity quantity:
                text.Append(((double)quantity.As(quantity.QuantityInfo.BaseUnitInfo.Value)).ToString("G9", CultureInfo.InvariantCulture));
                break;
            case double number:
                text.Append(number.ToString("G9", CultureInfo.InvariantCulture));
                break;
            case string or ValueType:
                text.Append(Convert.ToString(value, CultureInfo.InvariantCulture));
                break;
            case Delegate:
                break;
            case IEnumerable items:
                text.Append('[');
                foreach (object? item in items)
                    Write(text, item, depth + 1);
                text.Append(']');
                break;
            default:
                WriteProperties(text, value, depth);
                break;
        }

        text.Append(';');
    }

    private static void WriteProperties(StringBuilder text, object value, int depth)
    {
        text.Append(value.GetType().Name).Append('{');
        if (depth < Deepest && (value.GetType().Namespace ?? string.Empty).StartsWith("FlowSim", StringComparison.Ordinal))
        {
            foreach (PropertyInfo property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.GetIndexParameters().Length == 0))
            {
                text.Append(property.Name).Append('=');
                Write(text, property.GetValue(value), depth + 1);
            }
        }

        text.Append('}');
    }
}
