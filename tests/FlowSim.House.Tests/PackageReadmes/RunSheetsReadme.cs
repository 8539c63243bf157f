using FlowSim.RunSheets;

namespace ReadmeExample;

/// <summary>The program in the README of the package FlowSim.RunSheets.</summary>
public class RunSheetsReadme
{
    [Fact]
    public void Writes_the_page()
    {
        // README begins
        var sheet = new RunSheet
        {
            Title = "Straining: spring honey",
            Outcome = new SheetOutcome("DRAINS", "All that can drain is strained after 7 min.", IsBad: false),
            First =
            [
                new SheetSection("Keep in sight", [new WatchBlock([new WatchNumber("Gate", "20 % at most")])]),
                new SheetSection("What to do next", [new ListBlock(["Set the gate.", "Look after 2 min."], Numbered: true)]),
            ],
            Rest = [new SheetSection("Assumed", [new AssumptionsBlock([new SheetAssumption("The cloth is clean", "engineering choice", "screen.factor")])])],
        };

        string page = RunSheetHtml.Of(sheet);
        // README ends

        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("20 % at most", page, StringComparison.Ordinal);
    }
}
