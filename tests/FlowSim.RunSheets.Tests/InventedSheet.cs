using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace FlowSim.RunSheets.Tests;

/// <summary>A sheet with a block of each kind, invented for the purpose, and the same text in every place that takes one.</summary>
internal static class InventedSheet
{
    public const string Drawing = """
        <svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="120" height="60" viewBox="0 0 120 60">
        <title>its own title</title><defs><path id="a" d="M0 0L9 9"/></defs><clipPath id="b"><rect width="9" height="9"/></clipPath>
        <g clip-path="url(#b)"><use xlink:href="#a"/><text x="1" y="9" font-family="'DejaVu Sans', sans-serif">T &lt; 40 °C</text></g></svg>
        """;

    public static RunSheet Of(Func<string, string> text, params IReadOnlyList<string> drawings) => new()
    {
        Title = text("Straining: spring.toml"),
        Outcome = new SheetOutcome(text("DRAINS"), text("What can drain is strained."), IsBad: false),
        First =
        [
            new SheetSection(text("Keep in sight"), [new WatchBlock([new WatchNumber(text("Open the gate"), text("24 % at most"), text("and rather less")), new WatchNumber(text("Stand by"), text("8 min"))])]),
            new SheetSection(text("What to do next"), [new ListBlock([text("Set the thermostat."), text("Open the gate.")], Numbered: true)]),
        ],
        Rest =
        [
            new SheetSection(text("Mind"), [new CautionsBlock([new SheetCaution(text("An open gate makes no sound."), text("(common practice)")), new SheetCaution(text("Wipe it up."), string.Empty)])]),
            new SheetSection(text("The result in full"), [new ParagraphBlock(text("All of it.")), new ListBlock([text("one"), text("two")]), new PairsBlock(text("setup"), [new SheetPair(text("Honey"), text("17.8 %"))])]),
            new SheetSection(text("Notices"), [new NoticesBlock([new SheetNotice(text("seen"), text("may mean"), text("helps"))])]),
            new SheetSection(text("Charts"), [.. drawings.Select(svg => new FigureBlock(svg, text("The run over time"), text("Four panels.")))]),
            new SheetSection(
                text("In numbers"),
                [new TableBlock(text("Times"), [new TableColumn(text("of what can drain")), new TableColumn(text("after"), IsNumber: true)], [new TableRow([text("50 %"), text("46 s")], IsChosen: true), new TableRow([text("never")])])]),
            new SheetSection(text("Assumed"), [new AssumptionsBlock([new SheetAssumption(text("lot factor 1"), text("engineering choice"), text("honey.lot_factor"))])]),
            new SheetSection(text("How it was made"), [new VerbatimBlock(text("Command"), text("flowsim strain"))]),
        ],
        Colophon = text("Computed by a test."),
    };

    public static RunSheet Plain(params IReadOnlyList<string> drawings) => Of(text => text, drawings);

    public static IHtmlDocument Read(RunSheet sheet) => new HtmlParser().ParseDocument(RunSheetHtml.Of(sheet));
}
