using FlowSim.RunSheets;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a straining run.</summary>
internal static class StrainSheet
{
    public static RunSheet Of(RunStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        SheetPage page = new();
        ResultText text = new(page, new Display(units));
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        FigureBlock figure = new(
            figures.Svg(new Figure.Run(story.Result), units, story.Name),
            "The run over time",
            "Four panels over one time axis: levels in the tank and in the receiver; depth of the pond on the strainer beneath its rim; flow through gate, cloth and over the rim; open share of the cloth. The times and masses stand in the tables of this page.");
        return page.Sheet("Straining: " + story.Name, story.Watch, [figure], made);
    }
}
