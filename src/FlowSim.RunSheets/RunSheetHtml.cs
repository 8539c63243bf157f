using System.Globalization;
using System.Text;

namespace FlowSim.RunSheets;

/// <summary>A run sheet as one HTML page that needs nothing else: no network, no script, no font, no file beside it.</summary>
/// <remarks>It reads on a phone, in the dark, by keyboard and by screen reader, and prints on A4 and Letter. The same sheet gives the same bytes.</remarks>
public static class RunSheetHtml
{
    /// <summary>What the page may load: its own style, and pictures that it carries itself.</summary>
    public const string ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

    /// <summary>What is filled in by hand on paper.</summary>
    private static readonly string[] s_byHand = ["Date", "Lot", "By"];

    private static readonly string s_css = ReadStyle();

    /// <summary>Renders a sheet.</summary>
    /// <param name="sheet">Sheet. Its texts may hold anything: markup in them is shown and not obeyed, and what would steer the page is written out.</param>
    /// <returns>The page, to be stored as UTF-8.</returns>
    /// <exception cref="ArgumentNullException">There is no sheet.</exception>
    /// <exception cref="ArgumentException">A figure is no SVG with a view box, or holds something that does not draw.</exception>
    public static string Of(RunSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        HtmlWriter html = new();
        try
        {
            Write(html, sheet);
        }
        catch (FormatException refused)
        {
            throw new ArgumentException(refused.Message, nameof(sheet), refused);
        }

        return html.ToString();
    }

    private static void Write(HtmlWriter html, RunSheet sheet)
    {
        html.Doctype().Open("html", ("lang", "en"));
        WriteHead(html, sheet);
        html.Open("body");
        html.Element("a", "Skip to the answer", ("class", "skip"), ("href", "#answer"));
        html.Open("header").Element("p", "Run sheet", ("class", "kind")).Element("h1", sheet.Title);
        html.Open("p", ("class", "by-hand"), ("aria-hidden", "true"));
        foreach (string blank in s_byHand)
            html.Element("span", blank);
        html.Close().Close();
        html.Open("main", ("id", "answer"), ("tabindex", "-1"));
        WriteOutcome(html, sheet.Outcome);
        BlockHtml blocks = new(html);
        SheetSection[] all = [.. sheet.First, .. sheet.Rest];
        for (int i = 0; i < all.Length; i++)
        {
            if (i == sheet.First.Count)
                WriteContents(html, all, i);
            WriteSection(html, blocks, all[i], i);
        }

        html.Close();
        if (sheet.Colophon.Length > 0)
            html.Open("footer").Element("p", sheet.Colophon).Close();
        html.Close().Close();
    }

    private static void WriteHead(HtmlWriter html, RunSheet sheet)
    {
        html.Open("head");
        html.Void("meta", ("charset", "utf-8"));
        html.Void("meta", ("http-equiv", "Content-Security-Policy"), ("content", ContentSecurityPolicy));
        html.Void("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        html.Void("meta", ("name", "color-scheme"), ("content", "light dark"));
        html.Void("meta", ("name", "referrer"), ("content", "no-referrer"));

        // Without it a browser asks the server for one.
        html.Void("link", ("rel", "icon"), ("href", "data:,"));
        html.Element("title", sheet.Title);
        html.Style(s_css);
        html.Close();
    }

    private static void WriteOutcome(HtmlWriter html, SheetOutcome outcome)
    {
        html.Open("section", ("class", outcome.IsBad ? "outcome bad" : "outcome good"), ("aria-label", "Result"));
        if (outcome.Verdict.Length > 0)
            html.Element("p", outcome.Verdict, ("class", "verdict"));
        if (outcome.Text.Length > 0)
            html.Element("p", outcome.Text, ("class", "says"));
        html.Close();
    }

    private static void WriteContents(HtmlWriter html, SheetSection[] all, int from)
    {
        html.Open("nav", ("aria-label", "Also on this page")).Open("ul");
        for (int i = from; i < all.Length; i++)
            html.Open("li").Element("a", all[i].Heading, ("href", "#" + IdOf(i))).Close();
        html.Close().Close();
    }

    private static void WriteSection(HtmlWriter html, BlockHtml blocks, SheetSection section, int number)
    {
        string heading = IdOf(number);
        html.Open("section", ("aria-labelledby", heading));
        html.Element("h2", section.Heading, ("id", heading));
        foreach (SheetBlock block in section.Blocks)
            blocks.Write(block, section.Heading);
        html.Close();
    }

    private static string IdOf(int number) => "part-" + (number + 1).ToString(CultureInfo.InvariantCulture);

    private static string ReadStyle()
    {
        using Stream stream = typeof(RunSheetHtml).Assembly.GetManifestResourceStream("RunSheet.css")
            ?? throw new InvalidOperationException("The style of run sheets is missing from the assembly.");
        using StreamReader reader = new(stream, Encoding.UTF8);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}
