using FlowSim.Console.Quantities;
using FlowSim.Screens;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Console.Input;

/// <summary>Reads the debris, the scraping and the run.</summary>
internal static class WorkReader
{
    public static Debris ReadDebris(Section section, Journal journal)
    {
        Debris debris = new();
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
            journal.Assume(Keys.Debris.Load.ToString(), FormattableString.Invariant($"debris {debris.Load.PartsPerThousand:0.##} g/kg: settled and skimmed; no field data"), Standing.EngineeringChoice);
        if (!section.Has(Keys.Debris.MedianSize))
            journal.Assume(Keys.Debris.MedianSize.ToString(), FormattableString.Invariant($"bits of {debris.MedianSize.Millimeters:0.##} mm median"), Standing.EngineeringChoice);
        if (!section.Has(Keys.Debris.SizeSpread))
            journal.Assume(Keys.Debris.SizeSpread.ToString(), FormattableString.Invariant($"the bits' sizes have an ln-spread of {debris.SizeSpread:0.##}"), Standing.EngineeringChoice);
        if (!section.Has(Keys.Debris.Capture))
            journal.Assume(Keys.Debris.Capture.ToString(), FormattableString.Invariant($"the cloth catches {debris.CaptureEfficiency * 100:0.#} % of the oversize bits"), Standing.EngineeringChoice);
        return debris;
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
