using static System.FormattableString;

namespace FlowSim;

/// <summary>Asks a shape, which may be the user's own, for a few of its numbers before a run relies on all of them.</summary>
internal static class ShapeProbe
{
    /// <summary>Parts into which a height is cut for it (engineering choice: a microsecond's work; a run watches for the rest).</summary>
    public const int Parts = 8;

    /// <summary>Throws unless a size is a finite number above 0.</summary>
    public static void Positive(object shape, string what, double value, string name)
    {
        if (!(value > 0 && double.IsFinite(value)))
            throw EquipmentCheck.Refused(name, Invariant($"The shape {shape.GetType().Name} gives {value} for its {what}; it must be a finite number above 0, in SI units."));
    }

    /// <summary>Throws unless an answer is a finite number of at least 0.</summary>
    public static void Number(object shape, string what, double value, double heightM, string name)
    {
        if (!(value >= 0 && double.IsFinite(value)))
            throw EquipmentCheck.Refused(name, Invariant($"The shape {shape.GetType().Name} gives {value} for its {what} at {heightM:0.######} m; it must be a finite number of at least 0, in SI units, at every height from 0 to its brim."));
    }
}
