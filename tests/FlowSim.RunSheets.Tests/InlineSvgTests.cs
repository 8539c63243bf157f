using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace FlowSim.RunSheets.Tests;

/// <summary>Drawings in a page: only what draws is let in, and two of them do not meet.</summary>
public class InlineSvgTests
{
    private const string Open = "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" viewBox=\"0 0 9 9\">";

    [Theory]
    [InlineData("<script>alert(1)</script>", "<script>")]
    [InlineData("<g><foreignObject><p xmlns=\"http://www.w3.org/1999/xhtml\"/></foreignObject></g>", "<foreignObject>")]
    [InlineData("<style>*{fill:red}</style>", "<style>")]
    [InlineData("<a xlink:href=\"#x\"><text>x</text></a>", "<a>")]
    [InlineData("<animate attributeName=\"x\"/>", "<animate>")]
    [InlineData("<p xmlns=\"http://www.w3.org/1999/xhtml\"/>", "<p>")]
    [InlineData("<path onload=\"alert(1)\"/>", "onload")]
    [InlineData("<path style=\"fill:url(//x)\"/>", "style")]
    [InlineData("<image href=\"http://example.org/a.png\"/>", "outside")]
    [InlineData("<image href=\"data:text/html,x\"/>", "outside")]
    [InlineData("<use xlink:href=\"other.svg#a\"/>", "outside")]
    [InlineData("<use href=\"javascript:alert(1)\"/>", "outside")]
    [InlineData("<path fill=\"url(http://example.org/#a)\"/>", "outside")]
    [InlineData("<path fill=\"url(#a) URL( '//x' )\"/>", "outside")]
    [InlineData("<path d=\"M0 0\"", "not XML")]
    public void What_does_not_draw_is_refused(string within, string said)
    {
        ArgumentException refused = Assert.Throws<ArgumentException>(() => RunSheetHtml.Of(InventedSheet.Plain(Open + within + "</svg>")));
        Assert.Contains(said, refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\"/>")]
    [InlineData("<svg viewBox=\"0 0 9 9\"/>")]
    [InlineData("<g xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"/>")]
    [InlineData("<!DOCTYPE svg [<!ENTITY x SYSTEM \"file:///etc/hostname\">]><svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><text>&x;</text></svg>")]
    [InlineData("")]
    public void What_is_no_drawing_is_refused(string svg) => Assert.Throws<ArgumentException>(() => RunSheetHtml.Of(InventedSheet.Plain(svg)));

    [Fact]
    public void Pictures_that_the_drawing_carries_stay()
    {
        IHtmlDocument page = InventedSheet.Read(InventedSheet.Plain(Open + "<image width=\"9\" height=\"9\" xlink:href=\"data:image/png;base64,iVBORw0KGgo=\"/></svg>"));
        Assert.Equal("data:image/png;base64,iVBORw0KGgo=", page.QuerySelector("svg image")!.GetAttribute("href"));
    }

    [Fact]
    public void Two_drawings_with_the_same_ids_point_at_their_own()
    {
        IHtmlDocument page = InventedSheet.Read(InventedSheet.Plain(InventedSheet.Drawing, InventedSheet.Drawing));
        IElement[] drawings = [.. page.QuerySelectorAll("svg")];
        Assert.Equal(2, drawings.Length);
        foreach (IElement drawing in drawings)
        {
            Assert.Equal("path", Target(drawing, drawing.QuerySelector("use")!.GetAttribute("href")![1..]));
            Assert.Equal("clipPath", Target(drawing, drawing.QuerySelector("g")!.GetAttribute("clip-path")!["url(#".Length..^1]));
            Assert.Equal("title", Target(drawing, drawing.GetAttribute("aria-labelledby")!));
            Assert.Equal("desc", Target(drawing, drawing.GetAttribute("aria-describedby")!));
        }

        string Target(IElement drawing, string id)
        {
            IElement target = Assert.Single(page.All, element => element.Id == id);
            Assert.Contains(drawing, target.GetAncestors());
            return target.LocalName;
        }
    }

    [Fact]
    public void Words_of_the_drawing_stay_words() =>
        Assert.Equal("T < 40 °C", InventedSheet.Read(InventedSheet.Plain(InventedSheet.Drawing)).QuerySelector("svg text")!.TextContent);
}
