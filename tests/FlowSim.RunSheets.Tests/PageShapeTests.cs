using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace FlowSim.RunSheets.Tests;

/// <summary>What a page must have to be read by eye, ear and keyboard, and what it must not have to stand alone.</summary>
public class PageShapeTests
{
    private static readonly RunSheet s_sheet = InventedSheet.Plain(InventedSheet.Drawing, InventedSheet.Drawing);
    private static readonly string s_html = RunSheetHtml.Of(s_sheet);
    private static readonly IHtmlDocument s_page = InventedSheet.Read(s_sheet);

    [Fact]
    public void It_says_its_language_its_title_and_its_main_part()
    {
        Assert.StartsWith("<!DOCTYPE html>", s_html, StringComparison.Ordinal);
        Assert.Equal("en", s_page.DocumentElement.GetAttribute("lang"));
        Assert.Equal(s_sheet.Title, s_page.Title);
        Assert.Equal(s_sheet.Title, Assert.Single(s_page.QuerySelectorAll("h1")).TextContent);
        Assert.Single(s_page.QuerySelectorAll("main"));
        Assert.Equal("#answer", s_page.QuerySelector("body > a")!.GetAttribute("href"));
        Assert.Equal("main", s_page.GetElementById("answer")!.LocalName);
    }

    [Fact]
    public void The_answer_comes_before_all_that_stands_behind_it()
    {
        string[] order = [.. s_page.QuerySelectorAll(".outcome, h2").Select(element => element.LocalName == "h2" ? element.TextContent : "outcome")];
        Assert.Equal(["outcome", "Keep in sight", "What to do next", "Mind"], order[..4]);
        Assert.Equal(s_sheet.Rest.Select(section => section.Heading), s_page.QuerySelectorAll("nav a").Select(link => link.TextContent));
    }

    [Fact]
    public void It_loads_nothing()
    {
        IElement policy = Assert.Single(s_page.QuerySelectorAll("meta[http-equiv=Content-Security-Policy]"));
        Assert.StartsWith("default-src 'none'; style-src 'unsafe-inline'; img-src data:;", policy.GetAttribute("content"), StringComparison.Ordinal);
        Assert.Empty(s_page.QuerySelectorAll("script, iframe, object, embed, form, base, img, video, audio, link:not([rel=icon])"));
        Assert.Equal("data:,", Assert.Single(s_page.QuerySelectorAll("link")).GetAttribute("href"));
        Assert.DoesNotContain("@import", s_html, StringComparison.Ordinal);
        Assert.DoesNotContain("url(//", s_html, StringComparison.Ordinal);
        Assert.All(Regex.Matches(s_html, "https?:[^\"' ]*", RegexOptions.None, TimeSpan.FromSeconds(1)), match => Assert.Equal("http://www.w3.org/2000/svg", match.Value));
        Assert.DoesNotContain(s_page.All, element => element.Attributes.Any(attribute => attribute.Name.StartsWith("on", StringComparison.Ordinal)));
    }

    [Fact]
    public void Every_id_stands_once_and_every_pointer_has_its_target()
    {
        string[] ids = [.. s_page.All.Select(element => element.GetAttribute("id")).OfType<string>()];
        Assert.Equal(ids.Distinct(), ids);
        string[] pointers =
        [
            .. s_page.QuerySelectorAll("a").Select(link => link.GetAttribute("href")!.TrimStart('#')),
            .. s_page.All.SelectMany(element => new[] { element.GetAttribute("aria-labelledby"), element.GetAttribute("aria-describedby") }).OfType<string>(),
        ];
        Assert.NotEmpty(pointers);
        Assert.All(pointers, pointer => Assert.Contains(pointer, ids));
    }

    [Fact]
    public void Headings_go_down_step_by_step()
    {
        int level = 0;
        foreach (IElement heading in s_page.QuerySelectorAll("h1, h2, h3, h4"))
        {
            int next = heading.LocalName[1] - '0';
            Assert.True(next <= level + 1, heading.TextContent);
            level = next;
        }
    }

    [Fact]
    public void Tables_have_a_caption_and_heads_with_their_scope()
    {
        IElement[] tables = [.. s_page.QuerySelectorAll("table")];
        Assert.Equal(2, tables.Length);
        foreach (IElement table in tables)
        {
            Assert.False(string.IsNullOrWhiteSpace(table.QuerySelector("caption")!.TextContent));
            Assert.All(table.QuerySelectorAll("thead th"), head => Assert.Equal("col", head.GetAttribute("scope")));
            Assert.All(table.QuerySelectorAll("tbody tr"), row => Assert.Equal("row", row.FirstElementChild!.GetAttribute("scope")));
            Assert.Equal("0", table.ParentElement!.GetAttribute("tabindex"));
        }

        Assert.Equal("50 % chosen", s_page.QuerySelector("tr.chosen th")!.TextContent.TrimEnd());
        Assert.Equal("2", s_page.QuerySelectorAll("tbody th").Single(head => head.TextContent == "never").GetAttribute("colspan"));
    }

    [Fact]
    public void Figures_say_what_they_show()
    {
        foreach (IElement figure in s_page.QuerySelectorAll("figure"))
        {
            IElement drawing = figure.QuerySelector("svg")!;
            Assert.Equal("img", drawing.GetAttribute("role"));
            Assert.Equal("The run over time", figure.QuerySelector("figcaption")!.TextContent);
            Assert.Equal("The run over time", drawing.QuerySelector("title")!.TextContent);
            Assert.Equal("Four panels.", drawing.QuerySelector("desc")!.TextContent);
        }
    }

    [Fact]
    public void A_table_that_says_what_its_heading_says_is_not_seen_to_say_it_twice()
    {
        TableBlock table = new("What drives it", [new TableColumn("input")], [new TableRow(["debris"])]);
        IHtmlDocument page = InventedSheet.Read(s_sheet with { Rest = [new SheetSection("What drives it", [table]), new SheetSection("Other", [table])] });
        Assert.Equal(["heard", null], page.QuerySelectorAll("caption").Select(caption => caption.GetAttribute("class")));
    }

    [Fact]
    public void The_same_sheet_is_the_same_page() => Assert.Equal(s_html, RunSheetHtml.Of(InventedSheet.Plain(InventedSheet.Drawing, InventedSheet.Drawing)));

    [Fact]
    public void No_sheet_is_refused() => Assert.Throws<ArgumentNullException>(() => RunSheetHtml.Of(null!));
}
