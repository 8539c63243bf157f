using FlowSim.Catalogue;
using FlowSim.Commands.Quantities;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the tank and the receiver.</summary>
internal static class VesselReader
{
    private const string Cylinder = "upright-cylinder";

    /// <summary>Reads <c>[tank]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="honey">The honey, to turn a mass into a level; null when it could not be read.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static Tank? ReadTank(Section section, (Honey Honey, Temperature Temperature)? honey, Journal journal)
    {
        VesselShape? shape = ReadShape(section, Keys.Tank.Use, Keys.Tank.Shape, journal);
        section.Clash(Keys.Tank.Fill, Keys.Tank.Level);
        double? levelM = section.Quantity(Keys.Tank.Level);
        (double Si, bool IsMass)? fill = section.VolumeOrMass(Keys.Tank.Fill);
        double? gateHeightM = section.Quantity(Keys.Tank.GateHeight);
        bool? wallFilm = section.Flag(Keys.Tank.WallFilm);
        bool? held = section.Flag(Keys.Tank.Held);
        double? heatLoss = section.Quantity(Keys.Tank.HeatLoss);
        section.RefuseStrangers();
        if (!section.Has(Keys.Tank.Level) && !section.Has(Keys.Tank.Fill))
            section.Missing(Keys.Tank.Level, "\"300 mm\", or fill = \"5 gal\"");
        if (shape is null)
            return null;

        if (fill is { } amount)
            levelM = LevelOf(section, Keys.Tank.Fill, amount, shape, honey)?.Meters;
        if (levelM is null)
            return null;

        Tank tank = new() { Shape = shape, Level = Length.FromMeters(levelM.Value) };
        if (gateHeightM is { } z)
            tank = tank with { GateHeight = Length.FromMeters(z) };
        if (wallFilm is { } film)
            tank = tank with { WallFilm = film };
        if (held is { } jacket)
            tank = tank with { HeldAtTemperature = jacket };
        if (heatLoss is { } k)
            tank = tank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(k) };
        else if (!tank.HeldAtTemperature)
            journal.Assume(Keys.Tank.HeatLoss.ToString(), FormattableString.Invariant($"tank loses {tank.HeatLoss.WattsPerSquareMeterKelvin:0.##} W/m2K: bare metal, still room"), Standing.EngineeringChoice);
        return tank;
    }

    /// <summary>Reads <c>[receiver]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="honey">The honey, to turn a mass into a volume; null when it could not be read.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static Receiver? ReadReceiver(Section section, (Honey Honey, Temperature Temperature)? honey, Journal journal)
    {
        VesselShape? shape = ReadShape(section, Keys.Receiver.Use, Keys.Receiver.Shape, journal);
        (double Si, bool IsMass)? alreadyIn = section.VolumeOrMass(Keys.Receiver.AlreadyIn);
        double? temperatureK = section.Quantity(Keys.Receiver.Temperature);
        double? spacerM = section.Quantity(Keys.Receiver.Spacer);
        bool? shut = section.Flag(Keys.Receiver.ShutWhenFull);
        double? heatLoss = section.Quantity(Keys.Receiver.HeatLoss);
        section.RefuseStrangers();
        if (shape is null)
            return null;

        Receiver receiver = new() { Shape = shape };
        if (alreadyIn is { } amount)
        {
            if (VolumeOf(section, Keys.Receiver.AlreadyIn, amount, honey) is not { } volume)
                return null;
            receiver = receiver with { AlreadyIn = volume };
            if (amount is { IsMass: true, Si: > 0 })
                journal.Rescale(Keys.Receiver.AlreadyIn, volume.CubicMeters / amount.Si);
        }

        if (temperatureK is { } t)
            receiver = receiver with { StartTemperature = Temperature.FromKelvins(t) };
        if (spacerM is { } s)
            receiver = receiver with { Spacer = Length.FromMeters(s) };
        else
            journal.Assume(Keys.Receiver.Spacer.ToString(), "no spacer: the strainer's lowest point is level with the brim", Standing.EngineeringChoice);
        if (shut is { } flag)
            receiver = receiver with { ShutWhenFull = flag };
        else
            journal.Assume(Keys.Receiver.ShutWhenFull.ToString(), "somebody shuts the gate when the receiver is full", Standing.EngineeringChoice);
        if (heatLoss is { } k)
            receiver = receiver with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(k) };
        return receiver;
    }

    /// <summary>Reads a shape by the catalogue, by its keys, or by a capacity alone.</summary>
    /// <param name="section">The section.</param>
    /// <param name="useKey">Key that names an entry of the catalogue.</param>
    /// <param name="shapeKey">Key that names a shape.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static VesselShape? ReadShape(Section section, Key useKey, Key shapeKey, Journal journal)
    {
        if (UseReader.Read(section, useKey, [shapeKey.Name, .. VesselShapes.All.SelectMany(s => s.Parameters).Select(p => p.Key)], CommonVessels.All, e => e.Name, "vessel of the catalogue") is { Chosen: true } use)
        {
            if (use.Entry is { } vessel)
                journal.Assume(useKey.ToString(), $"{vessel.Name}: {vessel.Description}", vessel.Source.Standing);
            return use.Entry?.Item;
        }

        // A capacity alone says enough for a vessel whose form hardly matters.
        string? fallback = section.Has("capacity") && !section.Has(shapeKey) ? Cylinder : null;
        return ShapeReader.Read(section, shapeKey, VesselShapes.All, "vessel shape", fallback, ", or use = \"pail-19l\", or a capacity alone", (name, values) =>
        {
            if (name != Cylinder || !values.TryGetValue("capacity", out double capacityM3) || values.ContainsKey("diameter") || values.ContainsKey("height"))
                return;
            double diameterM = Math.Cbrt(4 * capacityM3 / Math.PI);
            values["diameter"] = diameterM;
            journal.Assume(section.Name + ".diameter", FormattableString.Invariant($"{section.Name} an upright cylinder as wide as high, {diameterM * 1000:0} mm"), Standing.EngineeringChoice);
        });
    }

    /// <summary>The level that an amount of honey has in a shape.</summary>
    /// <param name="section">The section.</param>
    /// <param name="key">Key that gave the amount.</param>
    /// <param name="amount">The amount.</param>
    /// <param name="shape">The shape.</param>
    /// <param name="honey">The honey, for a mass.</param>
    public static Length? LevelOf(Section section, Key key, (double Si, bool IsMass) amount, VesselShape shape, (Honey, Temperature)? honey)
    {
        if (VolumeOf(section, key, amount, honey) is not { } volume)
            return null;
        if (volume <= shape.Capacity)
            return shape.LevelOf(volume);
        section.Wrong(key.Name, section.Entry(key.Name)!.Value.Spot, FormattableString.Invariant($"{volume.Liters:0.##} L do not fit; the {section.Name} holds {shape.Capacity.Liters:0.##} L to the brim"));
        return null;
    }

    private static Volume? VolumeOf(Section section, Key key, (double Si, bool IsMass) amount, (Honey Honey, Temperature Temperature)? honey)
    {
        if (!amount.IsMass)
            return Volume.FromCubicMeters(amount.Si);
        if (honey is not { } known)
            return null;
        try
        {
            return Mass.FromKilograms(amount.Si) / HoneyProperties.Of(known.Honey).DensityAt(known.Temperature);
        }
        catch (ArgumentException refused) when (refused is not HoneyRefusedException)
        {
            section.Wrong(key.Name, section.Entry(key.Name)!.Value.Spot, "the mass cannot be turned into a volume: " + Blame.MessageOf(refused));
            return null;
        }
    }
}
