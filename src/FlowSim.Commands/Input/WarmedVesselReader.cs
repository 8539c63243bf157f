using FlowSim.Commands.Output;
using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the vessel that is warmed. What <c>[vessel]</c> does not say of its shape and level, <c>[tank]</c> does.</summary>
internal static class WarmedVesselReader
{
    /// <summary>Reads <c>[vessel]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="tank">The section of the tank; read only as far as it is needed.</param>
    /// <param name="honey">The honey at the start of the warming, to turn a mass into a level; null when it could not be read.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The vessel and how many there are; null when something is wrong.</returns>
    public static (WarmedVessel Vessel, int Count)? Read(Section section, Func<Section> tank, (Honey Honey, Temperature Temperature)? honey, Journal journal)
    {
        bool ownShape = section.Has(Keys.Vessel.Use) || section.Has(Keys.Vessel.Shape) || VesselShapes.All.SelectMany(shape => shape.Parameters).Any(parameter => section.Has(parameter.Key));
        section.Clash(Keys.Vessel.Fill, Keys.Vessel.Level);
        bool ownLevel = section.Has(Keys.Vessel.Level) || section.Has(Keys.Vessel.Fill);
        VesselShape? shape = ownShape ? VesselReader.ReadShape(section, Keys.Vessel.Use, Keys.Vessel.Shape, journal) : null;
        double? levelM = section.Quantity(Keys.Vessel.Level);
        (double Si, bool IsMass)? fill = section.VolumeOrMass(Keys.Vessel.Fill);
        int? count = section.WholeNumber(Keys.Vessel.Count);
        WallLayer? wall = section.Entry(Keys.Vessel.Wall.Name) is { } entry ? LayerOf(section, Keys.Vessel.Wall, entry.Value) : null;
        IReadOnlyList<WallLayer?> insulation = ReadInsulation(section);
        double? emissivity = section.Number(Keys.Vessel.Emissivity);
        string? lid = section.Word(Keys.Vessel.Lid, Words.All<VesselLid>(), "lid");
        string? standsOn = section.Word(Keys.Vessel.StandsOn, Words.All<VesselBase>(), "base");
        section.RefuseStrangers();

        if (!ownShape)
            (shape, levelM, fill) = ReadTank(tank(), ownLevel, levelM, fill, section, honey, journal);
        else if (!ownLevel)
            section.Missing(Keys.Vessel.Level, "\"300 mm\", or fill = \"5 gal\"");
        if (shape is null)
            return null;
        if (fill is { } amount)
            levelM = VesselReader.LevelOf(section, Keys.Vessel.Fill, amount, shape, honey)?.Meters;
        if (levelM is not { } level)
            return null;

        WarmedVessel vessel = new() { Shape = shape, Level = Length.FromMeters(level), Wall = [.. new[] { wall }.Concat(insulation).OfType<WallLayer>()] };
        if (emissivity is { } share)
            vessel = vessel with { Emissivity = share };
        if (lid is not null)
            vessel = vessel with { Lid = Words.Value<VesselLid>(lid) };
        if (standsOn is not null)
            vessel = vessel with { Base = Words.Value<VesselBase>(standsOn) };
        Note(section, vessel, journal);
        return (vessel, count ?? 1);
    }

    private static (VesselShape? Shape, double? LevelM, (double Si, bool IsMass)? Fill) ReadTank(
        Section tank, bool ownLevel, double? levelM, (double Si, bool IsMass)? fill, Section section, (Honey, Temperature)? honey, Journal journal)
    {
        VesselShape? shape = VesselReader.ReadShape(tank, Keys.Tank.Use, Keys.Tank.Shape, journal);
        tank.KnowAll();
        if (!ownLevel)
        {
            tank.Clash(Keys.Tank.Fill, Keys.Tank.Level);
            levelM = tank.Quantity(Keys.Tank.Level);
            if (tank.VolumeOrMass(Keys.Tank.Fill) is { } amount && shape is not null)
                levelM = VesselReader.LevelOf(tank, Keys.Tank.Fill, amount, shape, honey)?.Meters;
            if (!tank.Has(Keys.Tank.Level) && !tank.Has(Keys.Tank.Fill))
                tank.Missing(Keys.Tank.Level, "\"300 mm\", or fill = \"5 gal\"");
        }

        tank.RefuseStrangers();
        if (shape is not null && !section.Has(Keys.Vessel.Use))
            journal.Assume(Keys.Vessel.Use.ToString(), ownLevel ? "the honey is warmed in the vessel of [tank]" : "the honey is warmed in the vessel of [tank], as full as that is", Standing.EngineeringChoice);
        return (shape, levelM, fill);
    }

    private static IReadOnlyList<WallLayer?> ReadInsulation(Section section)
    {
        if (section.Entry(Keys.Vessel.Insulation.Name) is not { } entry)
            return [];
        IReadOnlyList<InputValue> items = entry.Value.Kind == ValueKind.List ? entry.Value.Items : [entry.Value];
        return [.. items.Select(item => LayerOf(section, Keys.Vessel.Insulation, item))];
    }

    private static WallLayer? LayerOf(Section section, Key key, InputValue value)
    {
        if (PairGrammar.Layer(section, key, value) is not { } layer)
            return null;

        // The library names the argument, not which of the layers: said here, where that is known.
        if (layer.ThicknessM <= 0.5)
            return WallMaterial.ByName(layer.Material).Layer(Length.FromMeters(layer.ThicknessM));
        section.Wrong(key.Name, value.Spot, $"\"{Printable.Of(value.Text.Trim())}\" is outside what is allowed, a thickness of 0 to 500 mm");
        return null;
    }

    private static void Note(Section section, WarmedVessel vessel, Journal journal)
    {
        if (!section.Has(Keys.Vessel.Wall))
            journal.Assume(Keys.Vessel.Wall.ToString(), "a wall without resistance, which matters little in air", Standing.EngineeringChoice);
        else
            journal.Assume(Keys.Vessel.Wall.ToString(), "conductivity of the wall: a textbook value of its material", WallMaterial.Source.Standing);
        if (!section.Has(Keys.Vessel.Emissivity))
            journal.Assume(Keys.Vessel.Emissivity.ToString(), FormattableString.Invariant($"emissivity {vessel.Emissivity:0.##}: paint or plastic outside"), Standing.FromMemory);
        if (!section.Has(Keys.Vessel.Lid) || !section.Has(Keys.Vessel.StandsOn))
            journal.Assume((section.Has(Keys.Vessel.Lid) ? Keys.Vessel.StandsOn : Keys.Vessel.Lid).ToString(), $"lid {Words.Of(vessel.Lid)}, standing on {(vessel.Base == VesselBase.Rack ? "a rack with air under the floor" : "something insulated")}", Standing.EngineeringChoice);
    }
}
