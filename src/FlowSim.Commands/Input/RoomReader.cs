using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the room, the same for straining and warming.</summary>
internal static class RoomReader
{
    private static readonly Temperature s_fallback = Temperature.FromDegreesCelsius(22);

    /// <summary>Reads <c>[room]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static Temperature Read(Section section, Journal journal)
    {
        double? roomK = section.Quantity(Keys.Room.Temperature);
        section.RefuseStrangers();
        if (roomK is { } given)
            return Temperature.FromKelvins(given);
        if (!section.Has(Keys.Room.Temperature))
            journal.Assume(Keys.Room.Temperature.ToString(), FormattableString.Invariant($"room at {s_fallback.DegreesCelsius:0.#} °C"), Standing.EngineeringChoice);
        return s_fallback;
    }
}
