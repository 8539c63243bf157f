using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads what is needed to fill jars.</summary>
internal static class FillingReader
{
    /// <summary>Reads a filling. Without a level in <c>[bottling_tank]</c> the tank holds what straining the same file gives.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <param name="cancellation">Ends the straining.</param>
    /// <returns>The filling; null when something is wrong.</returns>
    public static FillingSetup? Read(InputDocument document, Problems problems, Journal journal, CancellationToken cancellation)
    {
        SetupReader.RefuseStrangeSections(document, problems);
        (Honey Honey, Temperature Temperature)? honey = HoneyReader.Read(Of("honey"), problems, journal);
        Temperature room = RoomReader.Read(Of("room"), journal);
        Section filling = Of("filling");
        double? temperatureK = filling.Quantity(Keys.Filling.Temperature);
        Temperature? temperature = temperatureK is { } k ? Temperature.FromKelvins(k) : honey?.Temperature;
        (Gates.Gate? gate, Ratio opening) = BottlingReader.ReadGate(Of("bottling_gate"), journal);
        Jar? jar = ReadJar(filling, journal);
        FillingSetup? work = jar is null ? null : ReadWork(filling, journal, jar);
        if (problems.Any || honey is not { } known || temperature is not { } warm)
            return null;

        Tank? tank = BottlingReader.ReadTank(Of("bottling_tank"), (known.Honey, warm), document, problems, journal, cancellation);
        if (problems.Any || tank is null || gate is null || work is null)
            return null;
        if (temperatureK is null)
            journal.Assume(Keys.Filling.Temperature.ToString(), FormattableString.Invariant($"bottled at {warm.DegreesCelsius:0.#} °C, as warm as it was strained"), Standing.EngineeringChoice);
        return work with { Honey = known.Honey, Temperature = warm, RoomTemperature = room, Tank = tank, Gate = gate, Opening = opening };

        Section Of(string name) => new(name, document, problems, journal);
    }

    private static Jar? ReadJar(Section section, Journal journal)
    {
        (bool chosen, CatalogueEntry<Jar>? entry) = UseReader.Read(section, Keys.Filling.Jar, [Keys.Filling.Brimful.Name], CommonJars.All, e => e.Name, "jar of the catalogue");
        double? brimfulM3 = section.Quantity(Keys.Filling.Brimful);
        double? mouthM = section.Quantity(Keys.Filling.Mouth);
        if (!chosen && !section.Has(Keys.Filling.Brimful))
            section.Missing(Keys.Filling.Jar, "\"jar-500g\" (\"flowsim kit\" lists them), or brimful = \"390 mL\"");
        Jar? jar = entry?.Item ?? (brimfulM3 is { } volume ? new Jar { Brimful = Volume.FromCubicMeters(volume) } : null);
        if (entry is not null)
            journal.Assume(Keys.Filling.Jar.ToString(), $"{entry.Name}: {entry.Description}", entry.Source.Standing);
        return jar is null ? null : jar with { Mouth = mouthM is { } mouth ? Length.FromMeters(mouth) : null };
    }

    /// <summary>All of <c>[filling]</c> but jar and temperature; honey, tank and gate are put in by the caller.</summary>
    private static FillingSetup ReadWork(Section section, Journal journal, Jar jar)
    {
        FillingSetup setup = new() { Honey = null!, Temperature = default, Tank = null!, Gate = null!, Jar = jar };
        if (section.Quantity(Keys.Filling.NetWeight) is { } label)
            setup = setup with { LabelledMass = Mass.FromKilograms(label) };
        else if (!section.Has(Keys.Filling.NetWeight) && jar.SoldAs is null)
            section.Missing(Keys.Filling.NetWeight, "\"22 oz\"; a jar named by its volume is sold as no weight of its own");
        if (section.Quantity(Keys.Filling.Fall) is { } fall)
            setup = setup with { FallHeight = Length.FromMeters(fall) };
        if (section.Quantity(Keys.Filling.Closing) is { } closing)
            setup = setup with { ClosingTime = Duration.FromSeconds(closing) };
        if (section.Quantity(Keys.Filling.ChangeOver) is { } change)
            setup = setup with { ChangeOver = Duration.FromSeconds(change) };
        else
            journal.Assume(Keys.Filling.ChangeOver.ToString(), FormattableString.Invariant($"{setup.ChangeOver.Seconds:0.#} s between two jars"), Standing.EngineeringChoice);
        if (section.Quantity(Keys.Filling.Lip) is { } lip)
            setup = setup with { Lip = Length.FromMeters(lip) };
        if (section.Quantity(Keys.Filling.DripLimit) is { } drip)
            setup = setup with { DripLimit = Mass.FromKilograms(drip) };
        if (section.Quantity(Keys.Filling.LongestWait) is { } wait)
            setup = setup with { LongestWait = Duration.FromSeconds(wait) };
        if (section.Quantity(Keys.Filling.Hottest) is { } hottest)
            setup = setup with { HottestStore = Temperature.FromKelvins(hottest) };
        else
            journal.Assume(Keys.Filling.Hottest.ToString(), FormattableString.Invariant($"jars will stand at {setup.HottestStore.DegreesCelsius:0.#} °C at most"), Standing.EngineeringChoice);
        if (section.Quantity(Keys.Filling.Headspace) is { } headspace)
            setup = setup with { LeastHeadspace = Ratio.FromDecimalFractions(headspace) };
        if (section.WholeNumber(Keys.Filling.PerCase) is { } perCase)
            setup = setup with { JarsPerCase = perCase };
        if (section.WholeNumber(Keys.Filling.Jars) is { } jars)
            setup = setup with { MostJars = jars };
        if (section.Quantity(Keys.Filling.LongestFill) is { } longest)
            setup = setup with { LongestFill = Duration.FromSeconds(longest) };
        if (section.Quantity(Keys.Filling.WorkDay) is { } day)
            setup = setup with { WorkDay = Duration.FromSeconds(day) };
        setup = ReadLeak(section, setup);
        setup = ReadRule(section, journal, setup);
        section.RefuseStrangers();
        return setup;
    }

    private static FillingSetup ReadLeak(Section section, FillingSetup setup)
    {
        if (section.Quantity(Keys.Filling.Clearance) is { } gap)
            setup = setup with { Clearance = Length.FromMeters(gap) };
        if (section.Quantity(Keys.Filling.Seat) is { } seat)
            setup = setup with { BladeSeat = Length.FromMeters(seat) };
        return section.Quantity(Keys.Filling.Night) is { } night ? setup with { Night = Duration.FromSeconds(night) } : setup;
    }

    private static FillingSetup ReadRule(Section section, Journal journal, FillingSetup setup)
    {
        if (section.Quantity(Keys.Filling.Scatter) is { } scatter)
            setup = setup with { FillScatter = Mass.FromKilograms(scatter) };
        else
            journal.Assume(Keys.Filling.Scatter.ToString(), FormattableString.Invariant($"fills scatter by {setup.FillScatter.Grams:0.#} g (one standard deviation)"), Standing.EngineeringChoice);
        if (section.WholeNumber(Keys.Filling.ScatterFrom) is { } from)
            setup = setup with { ScatterFrom = from };
        if (section.Word(Keys.Filling.Rule, [.. NetWeightRules.All.Select(rule => rule.Name)], "net-weight rule") is { } word)
            setup = setup with { Rule = NetWeightRules.ByName(word) };
        else if (!section.Has(Keys.Filling.Rule))
            journal.Assume(Keys.Filling.Rule.ToString(), $"rule {setup.Rule.Name}: {setup.Rule.Description}", setup.Rule.Source.Standing);
        if (section.Quantity(Keys.Filling.TolerableShortfall) is { } shortfall)
            setup = setup with { TolerableShortfall = Mass.FromKilograms(shortfall) };
        if (section.Quantity(Keys.Filling.Confidence) is { } confidence)
            setup = setup with { Confidence = Ratio.FromDecimalFractions(confidence) };
        if (section.WholeNumber(Keys.Filling.Lot) is { } lot)
            setup = setup with { Lot = lot };
        return setup;
    }
}
