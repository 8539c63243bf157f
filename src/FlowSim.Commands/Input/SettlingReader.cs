using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.HeatDamage;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A settling run as it was read.</summary>
/// <param name="Setup">What stands.</param>
/// <param name="Options">How it is computed.</param>
/// <param name="Response">How the honey takes heat.</param>
internal sealed record SettleInput(SettlingSetup Setup, SettlingOptions Options, HeatResponse Response);

/// <summary>Turns a document into a settling run.</summary>
internal static class SettlingReader
{
    /// <summary>Reads a settling run; other sections may stand beside it and are not read.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The run; null when something is wrong.</returns>
    public static SettleInput? Read(InputDocument document, Problems problems, Journal journal)
    {
        SetupReader.RefuseStrangeSections(document, problems);
        (Honey Honey, Temperature Temperature)? honey = HoneyReader.Read(Of("honey"), problems, journal);
        Debris debris = WorkReader.ReadDebris(Of("debris"), journal, DebrisUse.BeforeSettling).Debris;

        // A cloth's part; nothing here is strained.
        journal.Withdraw(Keys.Debris.Capture);
        SettlingSetup? setup = ReadLayer(Of("settling"), () => Of("tank"), honey, debris, journal);
        HeatResponse response = HeatReader.Read(Of("heat"), journal).Response;
        journal.Withdraw(Keys.Heat.Hmf);
        SettlingOptions options = ReadOptions(Of("run"));
        return problems.Any || setup is null ? null : new SettleInput(setup, options, response);

        Section Of(string name) => new(name, document, problems, journal);
    }

    /// <summary>Reads <c>[settling]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="tank">The section of the tank; read only when the layer's depth stands there.</param>
    /// <param name="honey">The honey; null when it could not be read.</param>
    /// <param name="debris">Debris before settling.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static SettlingSetup? ReadLayer(Section section, Func<Section> tank, (Honey Honey, Temperature Temperature)? honey, Debris debris, Journal journal)
    {
        double? standsS = section.Quantity(Keys.Settling.For);
        double? depthM = section.Quantity(Keys.Settling.Depth);
        bool ownDepth = section.Has(Keys.Settling.Depth);
        TemperatureHistory? course = CourseReader.Read(section, honey?.Temperature, journal);
        Clarity? clearTo = ReadClarity(section);
        string? clearOf = section.Word(Keys.Settling.ClearOf, Words.All<ClearOf>(), "matter");
        double? packing = section.Quantity(Keys.Settling.Packing);
        double? longestS = section.Quantity(Keys.Settling.Longest);
        Bubbles? bubbles = ReadBubbles(section, journal);
        section.RefuseStrangers();
        (double DepthM, Mass? Mass)? layer = ownDepth ? depthM is { } own ? (own, null) : null : ReadTank(tank(), honey, journal);
        if (honey is not { } known || course is null || layer is not { } there)
            return null;

        SettlingSetup setup = new()
        {
            Honey = known.Honey,
            Depth = Length.FromMeters(there.DepthM),
            Temperature = course,
            Bubbles = bubbles,
            Debris = debris.Load > Ratio.Zero ? debris : null,
            HoneyMass = there.Mass,
        };
        if (standsS is { } stands)
            setup = setup with { StandsFor = Duration.FromSeconds(stands) };
        else
            journal.Assume(Keys.Settling.For.ToString(), FormattableString.Invariant($"it stands for {setup.StandsFor.Hours:0.#} h"), Standing.EngineeringChoice);
        if (clearTo is not null)
            setup = setup with { ClearTo = clearTo };
        else if (setup.ClearTo is ShareLeft share)
            journal.Assume(Keys.Settling.ClearTo.ToString(), FormattableString.Invariant($"clear when at most {share.AtMost.Percent:0.##} % is left, mean over the layer"), Standing.EngineeringChoice);
        if (clearOf is not null)
            setup = setup with { ClearOf = Words.Value<ClearOf>(clearOf) };
        if (packing is { } heaped)
            setup = setup with { Packing = Ratio.FromDecimalFractions(heaped) };
        else
            journal.Assume(Keys.Settling.Packing.ToString(), FormattableString.Invariant($"scum is {setup.Packing.Percent:0.#} % bubbles and bits, the rest honey"), Standing.EngineeringChoice);
        return longestS is { } longest ? setup with { Longest = Duration.FromSeconds(longest) } : setup;
    }

    private static Bubbles? ReadBubbles(Section section, Journal journal)
    {
        Bubbles bubbles = new();
        double? load = section.Quantity(Keys.Settling.Bubbles);
        double? sizeM = section.Quantity(Keys.Settling.BubbleSize);
        double? spread = section.Number(Keys.Settling.BubbleSpread);
        if (load == 0)
        {
            foreach (Key key in new[] { Keys.Settling.BubbleSize, Keys.Settling.BubbleSpread }.Where(section.Has))
                journal.Echo($"{key} plays no part: there are no bubbles");
            return null;
        }

        if (load is { } share)
            bubbles = bubbles with { Load = Ratio.FromDecimalFractions(share) };
        else
            journal.Assume(Keys.Settling.Bubbles.ToString(), FormattableString.Invariant($"{bubbles.Load.Percent:0.##} % of the volume is bubbles; no field data"), Standing.EngineeringChoice);
        if (sizeM is { } size)
            bubbles = bubbles with { MedianSize = Length.FromMeters(size) };
        else
            journal.Assume(Keys.Settling.BubbleSize.ToString(), FormattableString.Invariant($"bubbles of {bubbles.MedianSize.Millimeters:0.##} mm median; no field data"), Standing.EngineeringChoice);
        if (spread is { } own)
            bubbles = bubbles with { SizeSpread = own };
        else
            journal.Assume(Keys.Settling.BubbleSpread.ToString(), FormattableString.Invariant($"the bubbles' sizes have an ln-spread of {bubbles.SizeSpread:0.##}"), Standing.EngineeringChoice);
        return bubbles;
    }

    /// <summary>A share that may be left, or a size of which nothing may be left.</summary>
    private static Clarity? ReadClarity(Section section)
    {
        Key key = Keys.Settling.ClearTo;
        if (section.Entry(key.Name) is not { } entry)
            return null;
        if (entry.Value.Kind is ValueKind.Text or ValueKind.Bare && QuantityGrammar.Read(entry.Value.Text, Dimension.Length, out _) is null)
            return section.Quantity(key.Name, entry.Value, Dimension.Length) is { } sizeM ? Clarity.OfSize(Length.FromMeters(sizeM)) : null;
        if (entry.Value.Kind is ValueKind.Text or ValueKind.Bare && QuantityGrammar.Read(entry.Value.Text, Dimension.Share, out _) is not null)
        {
            section.Wrong(key.Name, entry.Value.Spot, $"\"{Printable.Of(entry.Value.Text.Trim())}\" is neither a share that may be left, as in \"5 %\", nor a size of which nothing may be left, as in \"0.3 mm\"");
            return null;
        }

        return section.Quantity(key.Name, entry.Value, Dimension.Share) is { } share ? Clarity.OfShare(Ratio.FromDecimalFractions(share)) : null;
    }

    /// <summary>Depth and mass of the honey in the tank; the rest of the section is for straining.</summary>
    private static (double DepthM, Mass? Mass)? ReadTank(Section tank, (Honey Honey, Temperature Temperature)? honey, Journal journal)
    {
        VesselShape? shape = VesselReader.ReadShape(tank, Keys.Tank.Use, Keys.Tank.Shape, journal);
        tank.KnowAll();
        tank.Clash(Keys.Tank.Fill, Keys.Tank.Level);
        double? levelM = tank.Quantity(Keys.Tank.Level);
        if (tank.VolumeOrMass(Keys.Tank.Fill) is { } amount && shape is not null)
            levelM = VesselReader.LevelOf(tank, Keys.Tank.Fill, amount, shape, honey)?.Meters;
        if (!tank.Has(Keys.Tank.Level) && !tank.Has(Keys.Tank.Fill))
            tank.Missing(Keys.Tank.Level, $"\"300 mm\", or {Keys.Settling.Depth.Name} = \"300 mm\" in [{Keys.Settling.Depth.Section}]");
        tank.RefuseStrangers();
        if (shape is null || levelM is not { } level || honey is not { } known)
            return null;
        if (level > shape.Height.Meters)
        {
            tank.Wrong(Keys.Tank.Level.Name, tank.Entry(Keys.Tank.Level.Name)!.Value.Spot, FormattableString.Invariant($"{level * 1000:0.#} mm are above the brim at {shape.Height.Millimeters:0.#} mm"));
            return null;
        }

        // Honey too hot or too cold is refused by the run, with the limits that count there.
        HoneyProperties properties = HoneyProperties.Of(known.Honey);
        return properties.Viscosity.TemperatureRange.Admits(known.Temperature.DegreesCelsius)
            ? (level, shape.VolumeAt(Length.FromMeters(level)) * properties.DensityAt(known.Temperature))
            : (level, null);
    }

    private static SettlingOptions ReadOptions(Section section)
    {
        SettlingOptions options = new();
        if (section.WholeNumber(Keys.Run.Points) is { } points)
            options = options with { SeriesPoints = points };
        section.KnowAll();
        section.RefuseStrangers();
        return options;
    }
}
