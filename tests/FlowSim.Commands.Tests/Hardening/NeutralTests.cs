using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests.Hardening;

/// <summary>Names that come from files and options reach terminal, JSON, CSV, page and figure as text and as nothing else.</summary>
public sealed class NeutralTests : IDisposable
{
    /// <summary>A small day, quick to plan.</summary>
    private const string Day = """
        [day]
        date = "2026-03-14"
        [[person]]
        name = "A"
        from = "8:00"
        to = "17:00"
        [[strainer]]
        name = "NAME"
        [[bottling_tank]]
        name = "tank"
        capacity = "40 L"
        [[batch]]
        name = "lime"
        strain = "1 h"
        volume = "20 L"
        fill = "1 h"
        """;

    private readonly Folder _folder = new();

    public static TheoryData<string> All => [.. Hostile.All];

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Text_for_a_terminal_steers_nothing() =>
        Assert.All(Hostile.All, text => AssertSteersNothing(Printable.Of(text, 1000)));

    [Fact]
    public void Json_holds_the_very_text_and_steers_nothing() => Assert.All(Hostile.All, text =>
    {
        string json = JsonText.Object(writer => writer.WriteString("name", text));
        AssertSteersNothing(json.Replace("\n", "", StringComparison.Ordinal));
        Assert.Equal(text, JsonDocument.Parse(json).RootElement.GetProperty("name").GetString());
    });

    [Fact]
    public void A_word_in_csv_is_one_cell_and_no_formula() => Assert.All(Hostile.All, text =>
    {
        string csv = CsvText.OfRows(["name", "n"], [[text, 1.0]]);
        string[] lines = csv.Split("\r\n");
        Assert.Equal(3, lines.Length);
        AssertSteersNothing(lines[1]);
        Assert.EndsWith(",1", lines[1], StringComparison.Ordinal);
        string cell = lines[1][..^2];
        if (cell.StartsWith('"'))
            cell = cell[1..^1].Replace("\"\"", "\"", StringComparison.Ordinal);
        Assert.DoesNotContain(cell.TrimStart(' ')[..1], "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20", StringComparison.Ordinal);
    });

    [Fact]
    public void Every_formula_gets_an_apostrophe_and_other_words_none()
    {
        Assert.All(Hostile.Formulas.Where(text => text[0] != '"'), text => Assert.Contains("'", CsvText.OfRows(["n"], [[text]]), StringComparison.Ordinal));
        Assert.Equal("n\r\na - b\r\n", CsvText.OfRows(["n"], [["a - b"]]));
    }

    [Fact]
    public void Numbers_in_csv_stay_numbers() =>
        Assert.Equal("a,b,c\r\n-1.5,-3,\r\n", CsvText.OfRows(["a", "b", "c"], [[-1.5, -3, null]]));

    /// <summary>One name that a file gives, through all that a plan writes.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void A_name_of_a_day_stays_a_name(string text)
    {
        string name = text.Length > 40 ? text[..40] : text;
        string day = _folder.Write("day.toml", Day.Replace("\"NAME\"", Toml(name), StringComparison.Ordinal));
        Ran ran = Ran.With("plan", day, "--csv", _folder["day.csv"], "--plot", _folder["day.svg"], "--report", _folder["day.html"]);
        Assert.True(ran.Code is ExitCode.Done or ExitCode.PlanConflicts, ran.Error);
        AssertSteersNothing(Lines(ran.Out));
        AssertSteersNothing(Lines(ran.Error));
        AssertSteersNothing(Lines(Ran.With("plan", day, "--json").Out));
        AssertSteersNothing(File.ReadAllText(_folder["day.csv"]).Replace("\r\n", "", StringComparison.Ordinal));
        AssertSteersNothing(Lines(File.ReadAllText(_folder["day.svg"])));
        AssertSteersNothing(Lines(File.ReadAllText(_folder["day.html"])));
        Assert.DoesNotContain(XDocument.Parse(File.ReadAllText(_folder["day.svg"])).Descendants(), element => element.Name.LocalName is "script" or "img");
    }

    /// <summary>A wrong value, key and file name in every message.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void A_message_repeats_what_is_wrong_as_text(string text)
    {
        AssertSteersNothing(Lines(Ran.With("strain", "--set", "honey.form=" + text).Error));
        AssertSteersNothing(Lines(Ran.With("strain", "--set", text + "=1").Error));
        AssertSteersNothing(Lines(Ran.With("strain", "--scan", text).Error));
        AssertSteersNothing(Lines(Ran.With("strain", _folder[text.Replace('/', '_')]).Error));
        AssertSteersNothing(Lines(Ran.With("strain", "--csv", _folder["none/" + text.Replace('/', '_')]).Error));
        AssertSteersNothing(Lines(Ran.With("measure", "ball", "--time", text).Error));
        AssertSteersNothing(Lines(Ran.With("strain", _folder.Write("a.toml", $"[honey]\nform = {Toml(text)}\n[{Toml(text)}]\n{Toml(text)} = 1\n")).Error));
    }

    private static string Toml(string text)
    {
        StringBuilder quoted = new("\"");
        foreach (Rune rune in text.EnumerateRunes())
            quoted.Append(CultureInfo.InvariantCulture, $"\\U{rune.Value:X8}");
        return quoted.Append('"').ToString();
    }

    private static string Lines(string text) => text.Replace("\n", "", StringComparison.Ordinal);

    private static void AssertSteersNothing(string text)
    {
        foreach (Rune rune in text.EnumerateRunes())
        {
            Assert.False(
                Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.PrivateUse or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator,
                string.Create(CultureInfo.InvariantCulture, $"U+{rune.Value:X4} in {Printable.Of(text, 300)}"));
        }
    }
}
