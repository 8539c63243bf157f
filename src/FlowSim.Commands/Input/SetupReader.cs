using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Settling;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A run as it was read.</summary>
/// <param name="Setup">What is strained.</param>
/// <param name="Options">How it is computed.</param>
/// <param name="Settling">What settles before it is strained; null for nothing.</param>
internal sealed record StrainInput(StrainingSetup Setup, StrainingOptions Options, SettlingSetup? Settling = null);

/// <summary>Turns a document into a setup. What goes together is decided by the library.</summary>
internal static class SetupReader
{
    /// <summary>Reads a whole run.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <param name="maySettle">Whether the debris may be that before settling.</param>
    /// <returns>The run; null when something is wrong.</returns>
    public static StrainInput? Read(InputDocument document, Problems problems, Journal journal, bool maySettle = false)
    {
        RefuseStrangeSections(document, problems);
        (Honey Honey, Temperature Temperature)? honey = HoneyReader.Read(Of("honey"), problems, journal);
        Temperature room = RoomReader.Read(Of("room"), journal);
        Vessels.Tank? tank = VesselReader.ReadTank(Of("tank"), honey, journal);
        (Gates.Gate? gate, GateControl? control) = GateReader.Read(Of("gate"), journal);
        Screens.Strainer? strainer = ScreenReader.Read(Of("screen"), journal);
        (Screens.Debris debris, bool settles) = WorkReader.ReadDebris(Of("debris"), journal, maySettle ? DebrisUse.PerhapsSettled : DebrisUse.AtStrainer);
        SettlingSetup? settling = settles && maySettle ? SettlingReader.ReadLayer(Of("settling"), () => Of("tank"), honey, debris, journal) : null;

        // What is said of clear honey and scum is for "flowsim settle".
        journal.Withdraw(Keys.Settling.ClearTo);
        journal.Withdraw(Keys.Settling.Packing);
        Scraping scraping = WorkReader.ReadScraping(Of("scraping"), journal);
        Vessels.Receiver? receiver = VesselReader.ReadReceiver(Of("receiver"), honey, journal);
        (Duration? longest, StrainingOptions options) = WorkReader.ReadRun(Of("run"));
        if (problems.Any || honey is null || tank is null || gate is null || control is null || strainer is null || receiver is null)
            return null;

        StrainingSetup setup = new()
        {
            Honey = honey.Value.Honey,
            HoneyTemperature = honey.Value.Temperature,
            Tank = tank,
            Gate = gate,
            Control = control,
            Strainer = strainer,
            Debris = debris,
            Scraping = scraping,
            Receiver = receiver,
            RoomTemperature = room,
        };
        return new StrainInput(longest is { } most ? setup with { Longest = most } : setup, options, settling);

        Section Of(string name) => new(name, document, problems, journal);
    }

    /// <summary>Reads the honey alone; other sections may stand beside it and are not read.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static (Honey Honey, Temperature Temperature)? ReadHoney(InputDocument document, Problems problems, Journal journal)
    {
        RefuseStrangeSections(document, problems);
        return HoneyReader.Read(new Section("honey", document, problems, journal), problems, journal);
    }

    /// <summary>Refuses sections that no command reads.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static void RefuseStrangeSections(InputDocument document, Problems problems)
    {
        foreach ((string name, Spot spot) in document.SectionSpots)
        {
            if (!Keys.Sections.Contains(name, StringComparer.Ordinal))
                problems.Add(spot, $"[{Printable.Of(name)}] is not a section; nearest: [{Spelling.Nearest(name, Keys.Sections)}]; known: {string.Join(", ", Keys.Sections)}");
        }
    }
}
