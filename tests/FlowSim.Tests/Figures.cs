using System.Collections;
using UnitsNet;

namespace FlowSim.Tests;

/// <summary>Looks through an answer.</summary>
internal static class Figures
{
    /// <summary>Whether all figures of an answer, at any depth, are finite; what was asked (a setup) is left out.</summary>
    public static bool AreNumbers(object? value, Type setup) => value switch
    {
        null or string or Enum or bool or int => true,
        double number => double.IsFinite(number),
        IQuantity quantity => double.IsFinite((double)quantity.Value),
        IEnumerable items => items.Cast<object?>().All(item => AreNumbers(item, setup)),
        _ => value.GetType() == setup || value.GetType().GetProperties().Where(p => p.GetIndexParameters().Length == 0).All(p => AreNumbers(p.GetValue(value), setup)),
    };
}
