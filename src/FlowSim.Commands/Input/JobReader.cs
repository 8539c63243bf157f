using FlowSim.Bottling;
using FlowSim.Settling;
using FlowSim.Warming;
using FlowSim.WholeJob;

namespace FlowSim.Commands.Input;

/// <summary>Reads all steps of a batch: straining always, warming, settling and filling where the file has their section.</summary>
internal static class JobReader
{
    /// <summary>Reads a job.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="cancellation">Ends early.</param>
    public static JobSetup Read(Loaded loaded, CancellationToken cancellation)
    {
        InputDocument document = loaded.Document;
        WarmingSetup? warming = Has("warming") ? Loader.ReadWarming(loaded).Setup : null;
        StrainInput straining = Loader.Guard(loaded, () => SetupReader.Read(document, loaded.Problems, loaded.Journal, maySettle: true));
        FillingSetup? filling = Has("filling") ? Loader.ReadFilling(loaded, cancellation) : null;
        if (Has("settling"))
            loaded.Journal.Withdraw(Keys.Debris.Load); // The strainer gets what the settling leaves.
        SettlingSetup? settling = Has("settling") ? Loader.ReadSettling(loaded).Setup : null;

        // How full the bottling tank is follows from the steps before.
        loaded.Journal.Withdraw(Keys.BottlingTank.Fill);
        return new JobSetup { Warming = warming, Settling = settling, Straining = straining.Setup, Filling = filling };

        bool Has(string section) => document.SectionSpots.ContainsKey(section);
    }
}
