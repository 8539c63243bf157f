using System.Buffers.Binary;
using System.Xml.Linq;
using FlowSim.Straining;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class StrainingFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<StrainingResult>> s_cases = new(StringComparer.Ordinal)
    {
        ["plain drain"] = InventedRun.PlainDrain,
        ["overflow that ends"] = InventedRun.Overflowing,
        ["scraped"] = InventedRun.Scraped,
        ["three cloths"] = InventedRun.ThreeCloths,
        ["ridden gate"] = InventedRun.Ridden,
        ["eight hours"] = InventedRun.EightHours,
        ["receiver full"] = () => InventedRun.PlainDrain() with { ReceiverFullAt = Duration.FromSeconds(215), Status = StrainingStatus.ReceiverFull },
        ["everything at once"] = EverythingAtOnce,
        ["many spells"] = ManySpells,
        ["eight cloths"] = () => new InventedRun { OpeningsMm = [2, 1.5, 1, 0.8, 0.6, 0.4, 0.2, 0.1] }.Result(),
        ["no series"] = NoSeries,
        ["one point"] = OnePoint,
        ["no duration"] = NoDuration,
        ["not numbers"] = NotNumbers,
        ["no times"] = NoTimes,
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Png_has_the_signature_and_size_of_the_specification(string name)
    {
        byte[] png = StrainingFigure.Of(s_cases[name]()).ToPng();

        // PNG specification (ISO/IEC 15948), 5.2 and 11.2.2: signature, then the IHDR chunk with width and height. From memory.
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
        Assert.Equal("IHDR"u8.ToArray(), png[12..16]);
        Assert.Equal(StrainingFigure.Width, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        Assert.Equal(StrainingFigure.Height, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
        using SKBitmap picture = SKBitmap.Decode(png);
        Assert.Equal(SKColors.White, picture.GetPixel(2, 2));
        Assert.Equal(SKColors.White, picture.GetPixel(picture.Width - 3, picture.Height - 3));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        SvgText[] texts = SvgText.In(StrainingFigure.Of(s_cases[name](), name: "Invented lot").ToSvg());

        Assert.NotEmpty(texts);
        foreach (SvgText text in texts)
        {
            Assert.True(text.Left >= 0 && text.Right <= StrainingFigure.Width && text.Top >= 0 && text.Bottom <= StrainingFigure.Height, text.ToString());

            // 11 pt is 14.67 px at the 96 px per inch of CSS.
            Assert.True(text.Size >= 14.67f, text.ToString());
        }

        for (int i = 0; i < texts.Length; i++)
        {
            for (int j = 0; j < i; j++)
                Assert.False(texts[i].Overlaps(texts[j]), texts[i] + " on " + texts[j]);
        }
    }

    [Fact]
    public void Svg_names_curves_lines_axes_and_what_happened()
    {
        StrainingResult result = InventedRun.Overflowing();
        string[] texts = Texts(StrainingFigure.Of(result).ToSvg());

        string[] expected =
        [
            "rim", "brim", "cloth", "level in the tank", "level in the receiver", "depth of the pond", "through the gate", "through the cloth",
            "over the rim", "400 µm cloth", "Level, cm", "Pond, cm", "Flow, kg/min", "Open share, %", "Time from the start, min",
        ];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("over the rim ", StringComparison.Ordinal) && t.EndsWith(" kg", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("95 % drained ", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("tank at its heel ", StringComparison.Ordinal));
        Assert.StartsWith("Ran over the rim at ", texts[0], StringComparison.Ordinal);
        Assert.Contains("95 % drained in ", texts[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Us_units_stand_in_the_labels()
    {
        string[] texts = Texts(StrainingFigure.Of(InventedRun.Overflowing(), DisplayUnits.UsCustomary).ToSvg());

        Assert.All((string[])["Level, in", "Pond, in", "Flow, lb/min"], e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("over the rim ", StringComparison.Ordinal) && t.EndsWith(" lb", StringComparison.Ordinal));
        Assert.DoesNotContain(texts, t => t.Contains("kg", StringComparison.Ordinal) || t.Contains(" cm", StringComparison.Ordinal));
    }

    [Fact]
    public void Spells_are_told_in_words()
    {
        Overflow spell = new(Duration.FromSeconds(200), Duration.FromSeconds(310), Mass.FromKilograms(2.14));
        string[] texts = Texts(StrainingFigure.Of(InventedRun.PlainDrain() with { Overflows = [spell] }).ToSvg());
        Assert.Contains("over the rim 3:20–5:10 min, 2.1 kg", texts, StringComparer.Ordinal);

        // 600 s is the end of the run.
        texts = Texts(StrainingFigure.Of(InventedRun.PlainDrain() with { Overflows = [spell with { To = Duration.FromSeconds(600) }] }).ToSvg());
        Assert.Contains("over the rim from 3:20 min to the end, 2.1 kg", texts, StringComparer.Ordinal);
    }

    [Fact]
    public void The_title_says_why_a_run_ended_early()
    {
        StrainingResult result = InventedRun.Overflowing() with { Drain = new(null, null, null, null), Ending = StrainingStatus.ReceiverFull, Elapsed = Duration.FromSeconds(900) };
        Assert.EndsWith("; receiver full at 15:00 min, not 95 % drained", Texts(StrainingFigure.Of(result).ToSvg())[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_gate_far_above_the_rest_is_cut_and_says_so() =>
        Assert.Contains(Texts(StrainingFigure.Of(InventedRun.Ridden()).ToSvg()), t => t.StartsWith("through the gate (up to ", StringComparison.Ordinal));

    [Fact]
    public void Scrapes_are_counted_and_marked()
    {
        Assert.Contains("scraped 3 times", Texts(StrainingFigure.Of(InventedRun.Scraped()).ToSvg()), StringComparer.Ordinal);
        Assert.DoesNotContain(Texts(StrainingFigure.Of(InventedRun.PlainDrain()).ToSvg()), t => t.StartsWith("scraped", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("<script>alert(1)</script> & \"x\"")]
    [InlineData("a\u0000b\u0007c\u001b[31md\r\ne\tf")]
    [InlineData("lone \uD800 half, right-to-left \u202E turned, \uFFFE not a character")]
    [InlineData("漢字 and 🐝")]
    public void Hostile_names_stay_words(string name)
    {
        string svg = StrainingFigure.Of(InventedRun.PlainDrain(), name: name).ToSvg();

        // XDocument refuses whatever XML forbids.
        XDocument document = XDocument.Parse(svg);
        Assert.DoesNotContain(document.Descendants(), e => e.Name.LocalName == "script");
        Assert.DoesNotContain(svg, c => char.IsControl(c) && c is not '\n' and not '\t');
        Assert.DoesNotContain('\u202E', svg);
        Assert.NotEmpty(StrainingFigure.Of(InventedRun.PlainDrain(), name: name).ToPng());
    }

    [Fact]
    public void A_huge_name_is_cut_to_the_sheet()
    {
        SvgText[] texts = SvgText.In(StrainingFigure.Of(InventedRun.PlainDrain(), name: new string('W', 1_000_000)).ToSvg());

        SvgText name = Assert.Single(texts, t => t.Text.StartsWith("WWW", StringComparison.Ordinal));
        Assert.EndsWith("…", name.Text, StringComparison.Ordinal);
        Assert.True(name.Right <= StrainingFigure.Width);
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_result_gives_the_same_bytes(FigureFormat format) =>
        Assert.Equal(StrainingFigure.Of(InventedRun.Overflowing()).Encode(format), StrainingFigure.Of(InventedRun.Overflowing()).Encode(format));

    [Fact]
    public void A_culture_with_decimal_commas_changes_nothing()
    {
        var before = System.Globalization.CultureInfo.CurrentCulture;
        byte[] expected = StrainingFigure.Of(InventedRun.Scraped()).Encode(FigureFormat.Svg);
        try
        {
            // Made by hand, because named cultures are not available when globalization is invariant.
            var commas = (System.Globalization.CultureInfo)System.Globalization.CultureInfo.InvariantCulture.Clone();
            commas.NumberFormat.NumberDecimalSeparator = ",";
            System.Globalization.CultureInfo.CurrentCulture = commas;
            Assert.Equal(expected, StrainingFigure.Of(InventedRun.Scraped()).Encode(FigureFormat.Svg));
        }
        finally
        {
            System.Globalization.CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Every_panel_line_is_drawn_once()
    {
        // ScottPlot draws a new plot twice; letters drawn twice look bold and double the file.
        SvgText[] texts = SvgText.In(StrainingFigure.Of(InventedRun.PlainDrain()).ToSvg());
        Assert.Equal(texts.Length, texts.Distinct().Count());
    }

    [Fact]
    public void Saving_takes_the_format_from_the_ending()
    {
        string folder = Directory.CreateTempSubdirectory().FullName;
        try
        {
            string png = Path.Combine(folder, "run.PNG");
            string svg = Path.Combine(folder, "run.svg");
            StrainingFigure.Of(InventedRun.PlainDrain()).Save(png);
            StrainingFigure.Of(InventedRun.PlainDrain()).Save(svg);
            Assert.Equal(StrainingFigure.Of(InventedRun.PlainDrain()).ToPng(), File.ReadAllBytes(png));
            Assert.Equal(StrainingFigure.Of(InventedRun.PlainDrain()).ToSvg(), File.ReadAllText(svg));
            Assert.Throws<ArgumentException>(() => StrainingFigure.Of(InventedRun.PlainDrain()).Save(Path.Combine(folder, "run.jpg")));
            Assert.Equal("format", Assert.Throws<ArgumentOutOfRangeException>(() => StrainingFigure.Of(InventedRun.PlainDrain()).Encode((FigureFormat)9)).ParamName);
            Assert.Equal(2, Directory.GetFiles(folder).Length);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void A_run_without_series_says_so() =>
        Assert.Contains("No series was kept for this run.", Texts(StrainingFigure.Of(NoSeries()).ToSvg()), StringComparer.Ordinal);

    private static string[] Texts(string svg) => [.. SvgText.In(svg).Select(t => t.Text)];

    private static StrainingResult EverythingAtOnce()
    {
        Duration at = Duration.FromSeconds(300);
        return InventedRun.Scraped() with
        {
            Overflows =
            [
                new(Duration.FromSeconds(10), Duration.FromSeconds(40), Mass.FromKilograms(1)),
                new(Duration.FromSeconds(295), at, Mass.FromKilograms(1)),
                new(at, Duration.FromSeconds(310), Mass.FromKilograms(1)),
            ],
            ReceiverFullAt = at,
            Drain = new(at, at, at, at),
            Strain = new(at, at, at, at),
            DrainToHeel = at,
        };
    }

    private static StrainingResult ManySpells() => InventedRun.PlainDrain() with
    {
        Overflows = [.. Enumerable.Range(1, 50).Select(i => new Overflow(Duration.FromSeconds(10 * i), Duration.FromSeconds(10 * i + 5), Mass.FromKilograms(0.1)))],
    };

    private static StrainingResult NoSeries()
    {
        StrainingResult run = InventedRun.PlainDrain();
        return run with { Series = Empty(run.Series) };
    }

    private static StrainingResult OnePoint() => new InventedRun { Points = 0 }.Result();

    private static StrainingResult NoDuration() => OnePoint() with { Elapsed = Duration.Zero };

    private static StrainingResult NoTimes() => InventedRun.PlainDrain() with
    {
        Drain = new(null, null, null, null),
        Strain = new(null, null, null, null),
        DrainToHeel = null,
        Status = StrainingStatus.Stalled,
    };

    private static StrainingResult NotNumbers()
    {
        StrainingResult run = InventedRun.ThreeCloths();
        double[] spoilt = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, 1, double.NaN];
        return run with
        {
            Series = run.Series with { TankLevelM = spoilt, GateFlowKgPerS = spoilt, ClothFlowKgPerS = [], OpenShare = [spoilt] },
        };
    }

    private static StrainingSeries Empty(StrainingSeries series) => series with
    {
        TimeS = [],
        TankLevelM = [],
        PondDepthM = [],
        ReceiverLevelM = [],
        GateFlowKgPerS = [],
        ClothFlowKgPerS = [],
        OverRimFlowKgPerS = [],
        OpenShare = [],
    };
}
