using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Writes out every figure of an answer to the last bit, so that two answers can be compared.</summary>
internal static class Flatten
{
    public static string Of(object? value)
    {
        var text = new StringBuilder();
        Write(text, "", value);
        return text.ToString();
    }

    private static void Write(StringBuilder text, string name, object? value)
    {
        switch (value)
        {
            case RiskQuestion or StrainingInput or Distribution or Source:
                break;
            case null or string or bool or long or int or Enum:
                text.Append(CultureInfo.InvariantCulture, $"{name}={value}\n");
                break;
            case double number:
                text.Append(CultureInfo.InvariantCulture, $"{name}={number:R}\n");
                break;
            case IQuantity quantity:
                text.Append(CultureInfo.InvariantCulture, $"{name}={(double)quantity.Value:R}\n");
                break;
            case IEnumerable items:
                int i = 0;
                foreach (object? item in items)
                    Write(text, $"{name}[{i++}]", item);
                break;
            default:
                foreach (PropertyInfo property in value.GetType().GetProperties().Where(p => p.GetIndexParameters().Length == 0))
                    Write(text, name + "." + property.Name, property.GetValue(value));
                break;
        }
    }
}
