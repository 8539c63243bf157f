using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Commands.Input;

/// <summary>Keys that the shapes of a section name, beside those of <see cref="Keys.All"/>.</summary>
internal static class ShapeKeys
{
    /// <summary>The values that describe the shapes a section may name; none for a section without shapes.</summary>
    /// <param name="section">Section.</param>
    public static IEnumerable<ShapeParameter> Of(string section)
    {
        if (section == Keys.Screen.Form.Section)
            return ScreenShapes.All.SelectMany(shape => shape.Parameters);
        bool holdsVessel = Keys.All.Any(key => key.Section == section && key.Name == Keys.Tank.Shape.Name);
        return holdsVessel ? VesselShapes.All.SelectMany(shape => shape.Parameters) : [];
    }

    /// <summary>The names of the shapes that a key goes with.</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    public static IEnumerable<string> ShapesWith(string section, string key) => section == Keys.Screen.Form.Section
        ? ScreenShapes.All.Where(shape => shape.Parameters.Any(own => own.Key == key)).Select(shape => shape.Name)
        : VesselShapes.All.Where(shape => shape.Parameters.Any(own => own.Key == key)).Select(shape => shape.Name);
}
