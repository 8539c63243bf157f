using FlowSim.Commands.Quantities;
using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>What the debris of <c>[debris]</c> is wanted for.</summary>
internal enum DebrisUse
{
    /// <summary>It reaches the strainer as it is.</summary>
    AtStrainer,

    /// <summary>It reaches the strainer, perhaps after settling.</summary>
    PerhapsSettled,

    /// <summary>It stands before it is skimmed.</summary>
    BeforeSettling,
}

/// <summary>Reads the debris, the scraping and the run.</summary>
internal static class WorkReader
{
    private const string Nothing = "nothing";

    private const string BySettling = "settling";

    /// <summary>Reads <c>[debris]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <param name="use">What it is wanted for.</param>
    /// <returns>The debris, and whether it is to settle first.</returns>
    public static (Debris Debris, bool Settles) ReadDebris(Section section, Journal journal, DebrisUse use = DebrisUse.AtStrainer)
    {
        bool settles = section.Word(Keys.Debris.After, [Nothing, BySettling], "thing that comes before straining") == BySettling;
        if (settles && use == DebrisUse.AtStrainer)
            section.Wrong(Keys.Debris.After.Name, section.Entry(Keys.Debris.After.Name)!.Value.Spot, $"\"{BySettling}\" is for \"flowsim strain\" and \"flowsim settle\" alone; for other commands write what is left in the honey, which \"flowsim settle\" tells, as {Keys.Debris.Load}, and {Keys.Debris.After.Name} = \"{Nothing}\"");
        bool before = settles || use == DebrisUse.BeforeSettling;
        Debris debris = before ? SettlingSetup.DebrisFromExtractor : new();
        if (section.Quantity(Keys.Debris.Load) is { } load)
            debris = debris with { Load = Ratio.FromDecimalFractions(load) };
        if (section.Quantity(Keys.Debris.MedianSize) is { } size)
            debris = debris with { MedianSize = Length.FromMeters(size) };
        if (section.Number(Keys.Debris.SizeSpread) is { } spread)
            debris = debris with { SizeSpread = spread };
        if (section.Quantity(Keys.Debris.Capture) is { } capture)
            debris = debris with { CaptureEfficiency = capture };
        if (section.Quantity(Keys.Debris.Density) is { } density)
            debris = debris with { Density = Density.FromKilogramsPerCubicMeter(density) };
        if (section.Word(Keys.Debris.Law, Words.All<BlockingLaw>(), "blocking law") is { } law)
            debris = debris with { Law = Words.Value<BlockingLaw>(law) };
        section.RefuseStrangers();

        if (!section.Has(Keys.Debris.Load))
            journal.Assume(Keys.Debris.Load.ToString(), FormattableString.Invariant($"debris {debris.Load.PartsPerThousand:0.##} g/kg: {(before ? "straight from the extractor" : "settled and skimmed")}; no field data"), Standing.EngineeringChoice);
        if (!section.Has(Keys.Debris.MedianSize))
            journal.Assume(Keys.Debris.MedianSize.ToString(), FormattableString.Invariant($"bits of {debris.MedianSize.Millimeters:0.##} mm median"), Standing.EngineeringChoice);
        if (!section.Has(Keys.Debris.SizeSpread))
            journal.Assume(Keys.Debris.SizeSpread.ToString(), FormattableString.Invariant($"the bits' sizes have an ln-spread of {debris.SizeSpread:0.##}"), Standing.EngineeringChoice);
        if (!section.Has(Keys.Debris.Capture))
            journal.Assume(Keys.Debris.Capture.ToString(), FormattableString.Invariant($"the cloth catches {debris.CaptureEfficiency * 100:0.#} % of the oversize bits"), Standing.EngineeringChoice);
        return (debris, settles);
    }

    public static Scraping ReadScraping(Section section, Journal journal)
    {
        Scraping scraping = Scraping.Never;
        if (section.List(Keys.Scraping.Times, "[\"10 min\", \"20 min\"]") is { } items)
        {
            double?[] times = [.. items.Select(item => section.Quantity(Keys.Scraping.Times.Name, item, Dimension.Duration))];
            scraping = scraping with { Times = [.. times.OfType<double>().Select(seconds => Duration.FromSeconds(seconds))] };
        }

        if (section.Quantity(Keys.Scraping.AtPondDepth) is { } depth)
            scraping = scraping with { AtPondDepth = Length.FromMeters(depth) };
        if (section.Quantity(Keys.Scraping.Recovery) is { } recovery)
            scraping = scraping with { Recovery = recovery };
        if (section.Quantity(Keys.Scraping.Pause) is { } pause)
            scraping = scraping with { Pause = Duration.FromSeconds(pause) };
        section.RefuseStrangers();

        bool scrapes = scraping.Times.Count > 0 || scraping.AtPondDepth is not null;
        if (scrapes && !section.Has(Keys.Scraping.Recovery))
            journal.Assume(Keys.Scraping.Recovery.ToString(), FormattableString.Invariant($"a scrape clears {scraping.Recovery * 100:0.#} % of what is blinded"), Standing.EngineeringChoice);
        return scraping;
    }

    public static (Duration? Longest, StrainingOptions Options) ReadRun(Section section)
    {
        double? longestS = section.Quantity(Keys.Run.Longest);
        StrainingOptions options = new();
        if (section.Number(Keys.Run.Tolerance) is { } tolerance)
            options = options with { RelativeTolerance = tolerance };
        if (section.WholeNumber(Keys.Run.Points) is { } points)
            options = options with { SeriesPoints = points };
        section.KnowAll();
        section.RefuseStrangers();
        return (longestS is { } s ? Duration.FromSeconds(s) : null, options);
    }
}
