using System.Globalization;
using System.Text;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;

namespace FlowSim.RunSheets.Tests;

/// <summary>Text from anywhere in every place that takes one: it is shown and not obeyed, and the page stays the page it is.</summary>
public class HostileTextTests
{
    private static readonly string s_shape = Shape(InventedSheet.Read(InventedSheet.Plain(InventedSheet.Drawing)));

    public static TheoryData<string> Hostile =>
    [
        "</script><script>alert(1)</script>", "<img src=x onerror=alert(1)>", "</title></head><body onload=alert(1)>", "]]><!--", "--><svg onload=alert(1)>", "</style><link rel=stylesheet href=//x>",
        "\" onmouseover=\"alert(1)", "' style='position:fixed'", "javascript:alert(1)", "&lt;b&gt; &amp; &#0; &notit;", "<![CDATA[x]]>", "</pre></code></main>", "`${1}`{{1}}", "<base href=//x>",
        "</textarea></select></svg></math><table><td>", "<plaintext>", "<template><iframe srcdoc=x>",
    ];

    [Theory]
    [MemberData(nameof(Hostile))]
    public void Markup_in_a_text_is_text(string hostile)
    {
        IHtmlDocument page = InventedSheet.Read(InventedSheet.Of(text => text + hostile, InventedSheet.Drawing));
        Assert.Equal(s_shape, Shape(page));
        Assert.Equal("Straining: spring.toml" + hostile, page.Title);
        Assert.All(new[] { "h1", ".verdict", ".says", ".watch dt", ".steps li", ".cautions small", ".pairs dd", "caption", "th", "tbody td", "figcaption", "figure title", "figure desc", "code", "footer p" }, place =>
            Assert.EndsWith(hostile.TrimEnd(), page.QuerySelector(place)!.TextContent.Replace(" chosen", "", StringComparison.Ordinal), StringComparison.Ordinal));
    }

    [Property(MaxTest = 300)]
    public void Any_text_leaves_the_page_as_it_is(NonNull<string> anything)
    {
        RunSheet sheet = InventedSheet.Of(text => text + anything.Get, InventedSheet.Drawing);
        Assert.Equal(s_shape, Shape(InventedSheet.Read(sheet)));
        Assert.DoesNotContain(RunSheetHtml.Of(sheet).EnumerateRunes(), Steers);
    }

    [Property]
    public Property Any_piece_of_markup_leaves_the_page_as_it_is() => Prop.ForAll(
        Gen.Elements("<", ">", "\"", "'", "&", "/", "=", "!", "-", "]", "script", "svg", "on", "x", " ", "\n", "\0", "\u202E", "\u2028").ArrayOf(12).Select(pieces => string.Concat(pieces)).ToArbitrary(),
        hostile => Assert.Equal(s_shape, Shape(InventedSheet.Read(InventedSheet.Of(text => hostile + text, InventedSheet.Drawing)))));

    /// <summary>What turns the direction of writing, hides or steers, after the categories of Unicode, is written out so that it is seen.</summary>
    [Theory]
    [InlineData("a\u202Eb", "a\\u{202E}b")] // right-to-left override
    [InlineData("a\u2066b", "a\\u{2066}b")] // left-to-right isolate
    [InlineData("a\u200Bb", "a\\u{200B}b")] // zero width space
    [InlineData("a\0b\u001Bc\u0085d", "a\\u{0000}b\\u{001B}c\\u{0085}d")] // control characters
    [InlineData("a\u2028b", "a\\u{2028}b")] // line separator
    [InlineData("a\tb\r\nc", "a b  c")]
    [InlineData("Blütenhonig – 蜂蜜 μ·°C", "Blütenhonig – 蜂蜜 μ·°C")]
    public void What_steers_is_written_out(string text, string shown)
    {
        IHtmlDocument page = InventedSheet.Read(InventedSheet.Plain() with { Title = text });
        Assert.Equal(shown, page.QuerySelector("h1")!.TextContent);
    }

    [Fact]
    public void Half_of_a_pair_is_replaced() => // not as data of the test above: an attribute cannot hold it
        Assert.Equal("a\uFFFDb", InventedSheet.Read(InventedSheet.Plain() with { Title = "a\uD800b" }).QuerySelector("h1")!.TextContent);

    [Fact]
    public void Lines_of_a_file_stay_lines()
    {
        RunSheet sheet = InventedSheet.Plain() with { Rest = [new SheetSection("File", [new VerbatimBlock("spring.toml", "[honey]\r\n\tmoisture = \"17.8 %\"\n")])] };
        Assert.Equal("[honey]\n\tmoisture = \"17.8 %\"", InventedSheet.Read(sheet).QuerySelector("code")!.TextContent);
    }

    private static bool Steers(Rune rune) => rune.Value is not ('\n' or '\t') && Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;

    /// <summary>Every element with the names of its attributes.</summary>
    private static string Shape(IHtmlDocument page) =>
        string.Join('\n', page.All.Select(element => new string(' ', element.GetAncestors().Count()) + element.LocalName + " " + string.Join(' ', element.Attributes.Select(attribute => attribute.Name))));
}
