using FlowSim.Catalogue;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the bottling tank and its gate.</summary>
internal static class BottlingReader
{
    private const string DefaultGate = "gate-38mm";

    /// <summary>Reads <c>[bottling_gate]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static (Gate? Gate, Ratio Opening) ReadGate(Section section, Journal journal)
    {
        (bool chosen, CatalogueEntry<Gate>? entry) = UseReader.Read(
            section, Keys.BottlingGate.Use, [Keys.BottlingGate.Bore.Name, Keys.BottlingGate.TubeLength.Name], CommonGates.All, e => e.Name, "gate of the catalogue");
        double? boreM = section.Quantity(Keys.BottlingGate.Bore), tubeM = section.Quantity(Keys.BottlingGate.TubeLength);
        double? factor = section.Number(Keys.BottlingGate.Factor), opening = section.Quantity(Keys.BottlingGate.Opening);
        string? blade = section.Word(Keys.BottlingGate.Blade, Words.All<BladeShape>(), "blade");
        section.RefuseStrangers();
        if (!chosen && section.Has(Keys.BottlingGate.Bore) != section.Has(Keys.BottlingGate.TubeLength))
            section.Missing(section.Has(Keys.BottlingGate.Bore) ? Keys.BottlingGate.TubeLength : Keys.BottlingGate.Bore, "\"40 mm\"; both count");
        if (!chosen && !section.Has(Keys.BottlingGate.Bore))
            entry = CommonGates.ByName(DefaultGate);
        if (entry is not null)
            journal.Assume(Keys.BottlingGate.Use.ToString(), $"bottling gate {entry.Name}: {entry.Description}", entry.Source.Standing);
        if (opening is null && !section.Has(Keys.BottlingGate.Opening))
            journal.Assume(Keys.BottlingGate.Opening.ToString(), "the bottling gate is opened to 100 % for each jar", Standing.EngineeringChoice);

        Gate? gate = entry?.Item ?? (boreM is { } bore && tubeM is { } tube ? new Gate { Bore = Length.FromMeters(bore), TubeLength = Length.FromMeters(tube) } : null);
        if (gate is not null && factor is { } own)
            gate = gate with { Factor = own };
        if (gate is not null && blade is not null)
            gate = gate with { Blade = Words.Value<BladeShape>(blade) };
        return (gate, Ratio.FromDecimalFractions(opening ?? 1));
    }

    /// <summary>Reads <c>[bottling_tank]</c>: the receiver of the same file when it says no vessel, what was strained when it says no level.</summary>
    /// <param name="section">The section.</param>
    /// <param name="honey">The honey at the temperature of filling.</param>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <param name="cancellation">Ends the straining.</param>
    public static Tank? ReadTank(Section section, (Honey Honey, Temperature Temperature) honey, InputDocument document, Problems problems, Journal journal, CancellationToken cancellation)
    {
        bool ownVessel = section.Has(Keys.BottlingTank.Use) || section.Has(Keys.BottlingTank.Shape) || section.Has("capacity");
        VesselShape? shape = ownVessel ? VesselReader.ReadShape(section, Keys.BottlingTank.Use, Keys.BottlingTank.Shape, journal) : null;
        section.Clash(Keys.BottlingTank.Fill, Keys.BottlingTank.Level);
        double? levelM = section.Quantity(Keys.BottlingTank.Level);
        (double Si, bool IsMass)? fill = section.VolumeOrMass(Keys.BottlingTank.Fill);
        double? gateHeightM = section.Quantity(Keys.BottlingTank.GateHeight), heatLoss = section.Quantity(Keys.BottlingTank.HeatLoss);
        bool? film = section.Flag(Keys.BottlingTank.WallFilm), held = section.Flag(Keys.BottlingTank.Held);
        bool saysHowFull = section.Has(Keys.BottlingTank.Level) || section.Has(Keys.BottlingTank.Fill);
        section.RefuseStrangers();
        if (problems.Any)
            return null;

        if ((!ownVessel || !saysHowFull) && !document.Sections.ContainsKey("receiver"))
        {
            if (!ownVessel)
                section.Missing(Keys.BottlingTank.Use, "\"tank-50l\"; without it a [receiver] is needed");
            if (!saysHowFull)
                section.Missing(Keys.BottlingTank.Level, "\"300 mm\", or fill = \"40 lb\"; without it the sections that straining reads are needed");
            return null;
        }

        HashSet<string> assumed = [.. journal.Assumptions.Select(assumption => assumption.Key)];
        if (!ownVessel)
        {
            shape = VesselReader.ReadReceiver(new Section("receiver", document, problems, journal), honey, journal)?.Shape;
            journal.Assume(Keys.BottlingTank.Use.ToString(), "the receiver is the bottling tank", Standing.EngineeringChoice);
        }

        if (shape is null)
            return null;
        if (fill is { } amount)
            levelM = VesselReader.LevelOf(section, Keys.BottlingTank.Fill, amount, shape, honey)?.Meters;
        else if (!saysHowFull)
            levelM = LevelOfStrained(shape, honey, document, problems, journal, cancellation);

        // How it was strained is told by the straining.
        foreach (string key in journal.Assumptions.Select(assumption => assumption.Key).Where(key => !assumed.Contains(key) && !key.StartsWith(section.Name, StringComparison.Ordinal)).ToArray())
            journal.Withdraw(key);
        if (levelM is not { } level)
            return null;

        Tank tank = new() { Shape = shape, Level = Length.FromMeters(level), WallFilm = film ?? true, HeldAtTemperature = held ?? false };
        if (gateHeightM is { } height)
            tank = tank with { GateHeight = Length.FromMeters(height) };
        if (heatLoss is { } loss)
            return tank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(loss) };
        if (!tank.HeldAtTemperature)
            journal.Assume(Keys.BottlingTank.HeatLoss.ToString(), FormattableString.Invariant($"bottling tank loses {tank.HeatLoss.WattsPerSquareMeterKelvin:0.##} W/m2K: bare metal, still room"), Standing.EngineeringChoice);
        return tank;
    }

    /// <summary>The level that what the strainer gives has in the bottling tank, at most its brim.</summary>
    private static double? LevelOfStrained(VesselShape shape, (Honey Honey, Temperature Temperature) honey, InputDocument document, Problems problems, Journal journal, CancellationToken cancellation)
    {
        if (SetupReader.Read(document, problems, journal) is not { } run)
            return null;
        StrainingResult strained = StrainingRun.Simulate(run.Setup, run.Options with { SeriesPoints = 0 }, cancellation);
        Density density = HoneyProperties.Of(honey.Honey).DensityAt(honey.Temperature);
        Mass mass = strained.Masses.Strained + strained.Masses.Bypassed + run.Setup.Receiver.AlreadyIn * density;
        Volume volume = mass / density;
        journal.Assume(Keys.BottlingTank.Fill.ToString(), FormattableString.Invariant($"the bottling tank holds what the strainer gives, {mass.Kilograms:0.0} kg{(volume > shape.Capacity ? ", as far as it goes in" : "")}"), Standing.Derived);
        return shape.LevelOf(volume < shape.Capacity ? volume : shape.Capacity).Meters;
    }
}
