using FlowSim.Setpoints;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A warming run as it was read.</summary>
/// <param name="Setup">What is warmed.</param>
/// <param name="Options">How it is computed.</param>
/// <param name="Limits">What it is held against.</param>
internal sealed record WarmInput(WarmingSetup Setup, WarmingOptions Options, LimitInput Limits);

/// <summary>A search for a setpoint as it was read.</summary>
/// <param name="Question">The question.</param>
/// <param name="Limits">Its limits.</param>
internal sealed record SetpointInput(SetpointQuestion Question, LimitInput Limits);

/// <summary>Turns a document into a warming run or a search for a setpoint. What goes together is decided by the library.</summary>
internal static class WarmingReader
{
    /// <summary>Reads a warming run; the sections of straining may stand beside it and are not read.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The run; null when something is wrong.</returns>
    public static WarmInput? Read(InputDocument document, Problems problems, Journal journal)
    {
        SetupReader.RefuseStrangeSections(document, problems);
        (Honey Honey, Temperature Temperature)? honey = HoneyReader.Read(Of("honey"), problems, journal);
        RefuseGranulated(Of("honey"), honey?.Honey);

        // Said of the crystals below.
        journal.Withdraw(Keys.Honey.Form);
        Section warming = Of("warming");
        warming.KnowAll();
        Temperature room = warming.Quantity(Keys.Warming.Room) is { } ownRoomK ? Temperature.FromKelvins(ownRoomK) : RoomReader.Read(Of("room"), journal);
        Temperature? from = ReadStart(warming, room, journal);
        Crystals? crystals = ReadCrystals(warming, journal);
        Thermostat? thermostat = ThermostatReader.Read(Of("thermostat"), warming.Has(Keys.Warming.Power), journal);
        HeatingKit? kit = HeatingReader.Read(warming, thermostat, journal);
        warming.RefuseStrangers();
        (Honey, Temperature)? atStart = honey is { } known && from is { } start ? (known.Honey, start) : null;
        (WarmedVessel Vessel, int Count)? vessel = WarmedVesselReader.Read(Of("vessel"), () => Of("tank"), atStart, journal);
        (IReadOnlyList<WarmingTarget> targets, Duration? hold, Duration? longest) = TargetReader.Read(Of("until"), from, honey?.Temperature, journal);
        (HeatDamage.HeatResponse response, HeatDamage.HoneyBeforeHeat? before) = HeatReader.Read(Of("heat"), journal);
        LimitInput limits = HeatReader.ReadLimits(Of("limits"), journal);
        WarmingOptions options = ReadOptions(Of("run"));
        if (problems.Any || honey is null || from is null || thermostat is null || kit is null || vessel is null)
            return null;

        WarmingSetup setup = new()
        {
            Honey = honey.Value.Honey,
            Crystals = crystals,
            StartTemperature = from.Value,
            Vessel = vessel.Value.Vessel,
            Vessels = vessel.Value.Count,
            Heating = kit,
            RoomTemperature = room,
            Targets = targets,
            Response = response,
            Before = before,
        };
        if (hold is { } after)
            setup = setup with { HoldAfter = after };
        if (longest is { } most)
            setup = setup with { Longest = most };
        return new WarmInput(setup, options, limits);

        Section Of(string name) => new(name, document, problems, journal);
    }

    /// <summary>Reads a search for a setpoint: the warming and the straining of one file.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The question; null when something is wrong.</returns>
    public static SetpointInput? ReadQuestion(InputDocument document, Problems problems, Journal journal)
    {
        WarmInput? warm = Read(document, problems, journal);
        StrainInput? strain = SetupReader.Read(document, problems, journal);
        if (warm is null || strain is null)
            return null;

        // The search finds these.
        foreach (Key found in new[] { Keys.Gate.Opening, Keys.Thermostat.Setpoint, Keys.Until.Mean, Keys.Until.CooledTo })
            journal.Withdraw(found);
        SetpointLimits limits = warm.Limits.Limits;
        if (warm.Limits.OverflowTolerance is { } tolerance)
            limits = limits with { Overflow = RiskReader.Limit(tolerance, strain.Setup, document, problems, journal) };
        SetpointQuestion question = new() { Warming = warm.Setup, Straining = strain.Setup, Limits = limits, Options = warm.Options with { MapTimes = [] } };
        if (warm.Limits.Lowest is { } lowest)
            question = question with { Lowest = lowest };
        if (warm.Limits.ColdestStraining is { } coldest)
            question = question with { ColdestStraining = coldest };
        return new SetpointInput(question, warm.Limits);
    }

    /// <summary>Granulated honey is warmed as what it becomes, with its crystals in it; to strain it as it is takes figures.</summary>
    private static void RefuseGranulated(Section section, Honey? honey)
    {
        if (honey is { Form: HoneyForm.Granulated, Viscosity: null })
            section.Wrong(Keys.Honey.Form.Name, section.Entry(Keys.Honey.Form.Name)!.Value.Spot, $"\"{Words.Of(HoneyForm.Granulated)}\" says nothing of the honey once it is liquid; to warm it, leave {Keys.Honey.Form} at \"{Words.Of(HoneyForm.Liquid)}\" and write {Keys.Warming.Granulation.Name} = \"fine\" or \"coarse\" in [{Keys.Warming.Granulation.Section}]");
    }

    private static Temperature? ReadStart(Section section, Temperature room, Journal journal)
    {
        double? fromK = section.Quantity(Keys.Warming.From);
        if (section.Has(Keys.Warming.From))
            return fromK is { } given ? Temperature.FromKelvins(given) : null;
        journal.Assume(Keys.Warming.From.ToString(), FormattableString.Invariant($"honey at {room.DegreesCelsius:0.#} °C at the start, as the room"), Standing.EngineeringChoice);
        return room;
    }

    private static Crystals? ReadCrystals(Section section, Journal journal)
    {
        const string Fine = "fine";
        const string Coarse = "coarse";
        section.Clash(Keys.Warming.MeltFrom, Keys.Warming.Granulation);
        section.Clash(Keys.Warming.MeltTo, Keys.Warming.Granulation);
        string? granulation = section.Word(Keys.Warming.Granulation, [Fine, Coarse], "granulation");
        double? share = section.Quantity(Keys.Warming.Crystals);
        double? meltFromK = section.Quantity(Keys.Warming.MeltFrom);
        double? meltToK = section.Quantity(Keys.Warming.MeltTo);
        bool ownRange = section.Has(Keys.Warming.MeltFrom) || section.Has(Keys.Warming.MeltTo);
        if (section.Has(Keys.Warming.Crystals) && !section.Has(Keys.Warming.Granulation) && !ownRange)
            section.Missing(Keys.Warming.Granulation, $"\"{Fine}\" or \"{Coarse}\", or {Keys.Warming.MeltFrom.Name} and {Keys.Warming.MeltTo.Name}");
        if (ownRange && !section.Has(Keys.Warming.MeltFrom))
            section.Missing(Keys.Warming.MeltFrom, "\"45 °C\"");
        if (ownRange && !section.Has(Keys.Warming.MeltTo))
            section.Missing(Keys.Warming.MeltTo, "\"65 °C\"");

        Ratio? amount = share is { } given ? Ratio.FromDecimalFractions(given) : null;
        Crystals? crystals = granulation switch
        {
            Fine => Crystals.Fine(amount),
            Coarse => Crystals.Coarse(amount),
            _ when meltFromK is { } from && meltToK is { } to => new Crystals { MeltFrom = Temperature.FromKelvins(from), MeltTo = Temperature.FromKelvins(to) },
            _ => null,
        };
        if (crystals is null)
        {
            if (!section.Has(Keys.Warming.Granulation) && !ownRange)
                journal.Assume(Keys.Warming.Granulation.ToString(), "liquid, free of crystals", Standing.EngineeringChoice);
            return null;
        }

        crystals = amount is { } own ? crystals with { Share = own } : crystals;
        if (granulation is not null)
            journal.Assume(Keys.Warming.MeltFrom.ToString(), FormattableString.Invariant($"{granulation} crystals melt from {crystals.MeltFrom.DegreesCelsius:0.#} to {crystals.MeltTo.DegreesCelsius:0.#} °C"), Crystals.MeltingSource.Standing);
        if (amount is null && !section.Has(Keys.Warming.Crystals))
            journal.Assume(Keys.Warming.Crystals.ToString(), FormattableString.Invariant($"{crystals.Share.Percent:0.#} % of the honey is crystals"), Crystals.AmountSource.Standing);
        return crystals;
    }

    private static WarmingOptions ReadOptions(Section section)
    {
        WarmingOptions options = new();
        if (section.WholeNumber(Keys.Run.Points) is { } points)
            options = options with { SeriesPoints = points };
        if (section.WholeNumber(Keys.Run.RadialCells) is { } radial)
            options = options with { RadialCells = radial };
        if (section.WholeNumber(Keys.Run.AxialCells) is { } axial)
            options = options with { AxialCells = axial };
        if (section.Quantity(Keys.Run.StepError) is { } error)
            options = options with { Tolerance = TemperatureDelta.FromKelvins(error) };
        if (section.List(Keys.Run.Maps, "[\"1 h\", \"4 h\"]") is { } items)
        {
            double?[] times = [.. items.Select(item => section.Quantity(Keys.Run.Maps.Name, item, Quantities.Dimension.Duration))];
            options = options with { MapTimes = [.. times.OfType<double>().Select(seconds => Duration.FromSeconds(seconds))] };
        }

        section.KnowAll();
        section.RefuseStrangers();
        return options;
    }
}
