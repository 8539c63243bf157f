using FlowSim.Catalogue;
using FlowSim.Commands.Quantities;
using FlowSim.Gates;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the gate and what is done with it.</summary>
internal static class GateReader
{
    /// <summary>Reads <c>[gate]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static (Gate? Gate, GateControl? Control) Read(Section section, Journal journal)
    {
        (bool chosen, CatalogueEntry<Gate>? entry) = UseReader.Read(
            section, Keys.Gate.Use, [Keys.Gate.Bore.Name, Keys.Gate.TubeLength.Name], CommonGates.All, e => e.Name, "gate of the catalogue");
        double? boreM = section.Quantity(Keys.Gate.Bore);
        double? tubeM = section.Quantity(Keys.Gate.TubeLength);
        double? factor = section.Number(Keys.Gate.Factor);
        string? blade = section.Word(Keys.Gate.Blade, Words.All<BladeShape>(), "blade");
        string? outlet = section.Word(Keys.Gate.Outlet, Words.All<GateOutlet>(), "outlet");
        double? aboveM = section.Quantity(Keys.Gate.OutletAboveScreen);
        GateControl? control = ReadControl(section, journal);
        section.RefuseStrangers();

        if (!chosen && !section.Has(Keys.Gate.Bore))
            section.Missing(Keys.Gate.Bore, "\"38 mm\", or use = \"gate-38mm\"");
        if (!chosen && !section.Has(Keys.Gate.TubeLength))
            section.Missing(Keys.Gate.TubeLength, "\"40 mm\"; it counts as much as the bore");

        Gate? gate = entry?.Item;
        if (entry is not null)
            journal.Assume(Keys.Gate.Use.ToString(), $"{entry.Name}: {entry.Description}", entry.Source.Standing);
        else if (boreM is { } bore && tubeM is { } tube)
            gate = new Gate { Bore = Length.FromMeters(bore), TubeLength = Length.FromMeters(tube) };
        if (gate is null)
            return (null, control);

        if (blade is not null)
            gate = gate with { Blade = Words.Value<BladeShape>(blade) };
        if (outlet is not null)
            gate = gate with { Outlet = Words.Value<GateOutlet>(outlet) };
        if (factor is { } own)
            gate = gate with { Factor = own };
        if (aboveM is { } above)
            gate = gate with { OutletAboveScreen = Length.FromMeters(above) };
        return (gate, control);
    }

    private static GateControl? ReadControl(Section section, Journal journal)
    {
        double? ridePondM = section.Quantity(Keys.Gate.RidePond);
        bool rides = section.Has(Keys.Gate.RidePond);
        if (section.Entry(Keys.Gate.Opening.Name) is not { } entry)
        {
            journal.Assume(Keys.Gate.Opening.ToString(), rides ? "the gate is opened to 100 % until the pond is deep enough" : "the gate is opened to 100 % and left", Standing.EngineeringChoice);
            return Control(rides, ridePondM, 1);
        }

        if (entry.Value.Kind == ValueKind.List)
        {
            if (!rides)
                return ReadSchedule(section, entry.Value);
            section.Wrong(Keys.Gate.Opening.Name, entry.Value.Spot, $"is a list of steps, which cannot stand beside {Keys.Gate.RidePond.Name}: there the opening is one value, the widest used");
            return null;
        }

        return section.Quantity(Keys.Gate.Opening) is { } opening ? Control(rides, ridePondM, opening) : null;
    }

    private static GateControl? Control(bool rides, double? ridePondM, double opening)
    {
        if (!rides)
            return GateControl.LeaveAt(Ratio.FromDecimalFractions(opening));
        return ridePondM is { } depth ? GateControl.RideAt(Length.FromMeters(depth), Ratio.FromDecimalFractions(opening)) : null;
    }

    private static GateControl? ReadSchedule(Section section, InputValue list)
    {
        (double TimeS, double Opening)?[] steps = [.. list.Items.Select(item => PairGrammar.Step(section, Keys.Gate.Opening, item))];
        if (steps.Any(step => step is null))
            return null;
        double[] timesS = [.. steps.Select(step => step!.Value.TimeS)];
        if (!ScheduleReader.IsInOrder(section, Keys.Gate.Opening, list, timesS, "0 min 40%", "5 min 25%"))
            return null;

        return GateControl.Follow([.. steps.Select(step => new OpeningStep(Duration.FromSeconds(step!.Value.TimeS), Ratio.FromDecimalFractions(step.Value.Opening)))]);
    }
}
