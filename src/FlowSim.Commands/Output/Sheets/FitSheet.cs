using FlowSim.Calibration;
using FlowSim.RunSheets;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a fit: what was learnt of honey and kit.</summary>
internal static class FitSheet
{
    public static RunSheet Of(FitStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        SheetPage page = new();
        FitText text = new(page, new Display(units));
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        return page.Sheet("Fit: " + story.Name, [], [.. Drawn(story, units, figures)], made);
    }

    private static IEnumerable<FigureBlock> Drawn(FitStory story, UnitChoice units, IFigures figures)
    {
        if (story.Answer.Status == CalibrationStatus.NotFound)
            yield break;
        yield return new FigureBlock(
            figures.Svg(new Figure.Fit(story.Answer), units, story.Name),
            "The readings beside their fit",
            "Each series of readings over time with the curve of the best fit, what is left between them, and each input before and after. What was learnt stands in numbers on this page.");
        if (story.Answer.Next.Count > 0)
        {
            yield return new FigureBlock(
                figures.Svg(new Figure.NextMeasurement(story.Answer), units, story.Name),
                "What to measure next",
                "Bars of how much of what is uncertain each possible measurement would leave. The best of them stand in the steps above.");
        }
    }
}
