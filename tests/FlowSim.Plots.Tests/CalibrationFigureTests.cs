using FlowSim.Calibration;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class CalibrationFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<CalibrationAnswer>> s_cases = new(StringComparer.Ordinal)
    {
        ["usual"] = () => new InventedCalibration { ScrapesMinutes = [12, 25, 40], OpeningsMinutes = [15, 33] }.Answer(),
        ["no outliers"] = () => new InventedCalibration { OutlierEvery = 0 }.Answer(),
        ["outliers far off"] = () => new InventedCalibration { OutlierBy = 4000 }.Answer(),
        ["poor"] = () => new InventedCalibration { Status = CalibrationStatus.FittedPoorly, Wave = 2.5, Readings = 150 }.Answer(),
        ["not found"] = () => new InventedCalibration { Status = CalibrationStatus.NotFound, Indistinct = 0, Next = 0 }.Answer(),
        ["nothing learnt"] = () => new InventedCalibration { Left = 1, Correlation = 0.01, Indistinct = 0, BestLeft = 0.99 }.Answer(),
        ["constant column"] = () => new InventedCalibration { Constant = true, Left = 1 }.Answer(),
        ["constant weight"] = () => new InventedCalibration { Constant = true, Quantities = [StrainingObservable.ReceiverMass] }.Answer(),
        ["no scatter"] = () => new InventedCalibration { Noise = 0, OutlierEvery = 0 }.Answer(),
        ["many series"] = () => new InventedCalibration { Runs = ["a", "b", "c"], Quantities = [StrainingObservable.PondDepth, StrainingObservable.TankMass, StrainingObservable.ReceiverVolume], OpeningsMinutes = [1, 2, 3, 4, 5, 6, 7, 8, 9] }.Answer(),
        ["every input"] = () => new InventedCalibration { Shared = 12, OfRun = 5, Runs = ["a", "b"], Indistinct = 6, Next = 12, Left = 0.02 }.Answer(),
        ["far from what was thought"] = () => new InventedCalibration { Moved = 9, Left = 0.001, HasCheck = false }.Answer(),
        ["one reading"] = () => new InventedCalibration { Readings = 1, OutlierEvery = 0, Minutes = 0 }.Answer(),
        ["seconds"] = () => new InventedCalibration { Minutes = 1.2, ScrapesMinutes = [0.3, 90], OpeningsMinutes = [0.5, 90] }.Answer(),
        ["days"] = () => new InventedCalibration { Minutes = 9000, OpeningsMinutes = [3000] }.Answer(),
        ["long names"] = () => new InventedCalibration { Runs = [new string('W', 100), "w\u0007" + new string('i', 98)], Column = new string('M', 300), Next = 9, BestLeft = 0.01 }.Answer(),
        ["overflow certain"] = () => new InventedCalibration { OverflowKnown = true }.Answer(),
        ["one input"] = () => new InventedCalibration { Shared = 1, OfRun = 0, Indistinct = 0 }.Answer(),
        ["no inputs"] = () => new InventedCalibration { Shared = 0, OfRun = 0, Indistinct = 0, Next = 1 }.Answer(),
        ["no runs"] = () => new InventedCalibration { Runs = [] }.Answer(),
        ["not numbers"] = NotNumbers,
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        CalibrationAnswer answer = s_cases[name]();
        (Func<DisplayUnits, string, string> Svg, Func<byte[]> Png, int Width)[] figures =
        [
            ((units, called) => CalibrationFigure.Of(answer, units, called).ToSvg(), () => CalibrationFigure.Of(answer).ToPng(), CalibrationFigure.Width),
            ((units, called) => CalibratedSpreadsFigure.Of(answer, units, called).ToSvg(), () => CalibratedSpreadsFigure.Of(answer).ToPng(), CalibratedSpreadsFigure.Width),
            ((units, called) => NextMeasurementFigure.Of(answer, units, called).ToSvg(), () => NextMeasurementFigure.Of(answer).ToPng(), NextMeasurementFigure.Width),
        ];
        Assert.All(figures, figure =>
        {
            string svg = figure.Svg(DisplayUnits.Metric, "Invented lot");
            Sheet.AssertReadable(svg);
            Assert.DoesNotContain(Sheet.Texts(svg), t => t.Contains("NaN", StringComparison.Ordinal) || t.Contains('∞') || t.Contains("safe", StringComparison.OrdinalIgnoreCase));
            Sheet.AssertReadable(figure.Svg(DisplayUnits.UsCustomary, new string('W', 500)));
            Sheet.AssertPicture(figure.Png(), figure.Width).Dispose();
        });
    }

    // The invented lot factor: median e^(0.4 × 0.3), 95 % within ×/÷ e^(1.96 × 0.15 × 0.3): 1.127, 1.032 to 1.231.
    [Fact]
    public void The_title_says_what_was_learnt_or_why_nothing_was()
    {
        string[] usual = Sheet.Texts(CalibrationFigure.Of(s_cases["usual"]()).ToSvg());
        Assert.Equal("Lot factor of viscosity 1.13 (1.03 to 1.23)", usual[0]);
        Assert.Contains(usual, t => t.StartsWith("Also: resistance of the cloth 0.77 (", StringComparison.Ordinal));
        Assert.Contains(usual, t => t.StartsWith("Not shown by these runs: moisture, size of the debris", StringComparison.Ordinal));

        string[] poor = Sheet.Texts(CalibrationFigure.Of(s_cases["poor"]()).ToSvg());
        Assert.Equal("Readings lie off the model by more than their scatter", poor[0]);
        Assert.Contains("The intervals are widened for it.", poor, StringComparer.Ordinal);
        Assert.Contains(poor, t => t.StartsWith("Learnt: lot factor of viscosity 1.13 (1.03 to 1.23)", StringComparison.Ordinal));

        string[] none = Sheet.Texts(CalibrationFigure.Of(s_cases["not found"]()).ToSvg());
        Assert.Equal("No fit was found: nothing is to be kept", none[0]);
        Assert.Contains("best tried", none, StringComparer.Ordinal);
        Assert.DoesNotContain("fitted", none, StringComparer.Ordinal);
        Assert.Equal("These runs say nothing new of honey and kit", Sheet.Texts(CalibrationFigure.Of(s_cases["nothing learnt"]()).ToSvg())[0]);
        Assert.Contains("No timed run was fitted.", Sheet.Texts(CalibrationFigure.Of(s_cases["no runs"]()).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void A_series_says_how_it_was_met()
    {
        string words = string.Join(' ', Sheet.Texts(CalibrationFigure.Of(s_cases["poor"]()).ToSvg())).Replace('\u00A0', ' ');
        Assert.Contains("150 readings, 8 outliers, scatter 0.10 cm, clock 4.2 ± 1.3 s behind, zero of the scale off by 0.02 ± 0.01 cm, the fit explains 99.4 %, neighbours go together (0.71), so their variance counts 5.9 times.", words, StringComparison.Ordinal);
        Assert.Contains("Run: first pail, 2026-05-03", words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(StrainingObservable.PondDepth, "Depth, cm", "Depth, in", "Depth of the pond")]
    [InlineData(StrainingObservable.TankLevel, "Level, cm", "Level, in", "Level in the tank")]
    [InlineData(StrainingObservable.TankMass, "Honey, kg", "Honey, lb", "Honey in the tank by weight")]
    [InlineData(StrainingObservable.ReceiverVolume, "Honey, L", "Honey, US gal", "Honey in the receiver by its marks")]
    public void Axes_carry_the_unit_of_the_quantity(StrainingObservable quantity, string metric, string us, string heading)
    {
        CalibrationAnswer answer = new InventedCalibration { Quantities = [quantity] }.Answer();
        string[] texts = Sheet.Texts(CalibrationFigure.Of(answer).ToSvg());
        Assert.Contains(metric, texts, StringComparer.Ordinal);
        Assert.Contains(heading, texts, StringComparer.Ordinal);
        Assert.Contains(us, Sheet.Texts(CalibrationFigure.Of(answer, DisplayUnits.UsCustomary).ToSvg()), StringComparer.Ordinal);
    }

    // The invented weight begins at 25 kg, 55.1 lb: an axis of pounds has a 40, one of kilograms has none.
    [Fact]
    public void Readings_are_converted_with_their_axis()
    {
        CalibrationAnswer answer = new InventedCalibration { Quantities = [StrainingObservable.TankMass], OutlierEvery = 0, Minutes = 30 }.Answer();
        Assert.DoesNotContain("40", Sheet.Texts(CalibrationFigure.Of(answer).ToSvg()), StringComparer.Ordinal);
        Assert.Contains("40", Sheet.Texts(CalibrationFigure.Of(answer, DisplayUnits.UsCustomary).ToSvg()), StringComparer.Ordinal);
    }

    // Readings on the fitted line: their rings reach half their size, 6 px, beyond its ends, in both units; so does a band as high as the line is.
    [Theory]
    [InlineData(DisplayUnits.Metric)]
    [InlineData(DisplayUnits.UsCustomary)]
    public void Readings_and_course_and_band_lie_on_one_axis(DisplayUnits units)
    {
        CalibrationAnswer answer = new InventedCalibration { Quantities = [StrainingObservable.ReceiverVolume], Noise = 1e-9, OutlierEvery = 0, Readings = 9 }.Answer();
        SeriesFit fit = answer.Series[0];
        double highest = fit.Readings.Max(r => r.Read);
        CalibrationAnswer banded = answer with { Series = [fit with { Course = [.. fit.Course.Select(p => p with { Low = 0, High = highest })] }] };
        using SKBitmap picture = SKBitmap.Decode(CalibrationFigure.Of(banded, units).ToPng());
        (int lineLeft, int lineTop, int lineRight, int lineBottom) = Sheet.Extent(picture, OkabeIto.Blue, 390);
        (int bandLeft, int bandTop, int bandRight, int bandBottom) = Sheet.Extent(picture, "#C7E0EE", 390);
        (_, int readTop, int readRight, int readBottom) = Sheet.Extent(picture, "#333333", 390, lineBottom + 10);
        int[] apart = [lineLeft - bandLeft, lineTop - bandTop, lineRight - bandRight, lineBottom - bandBottom, lineTop - readTop - 6, readBottom - 6 - lineBottom, readRight - 6 - lineRight];
        Assert.All(apart, d => Assert.InRange(d, -5, 5));
        Assert.True(lineRight - lineLeft > 700 && lineBottom - lineTop > 200);
    }

    [Fact]
    public void Outliers_have_a_shape_of_their_own_and_do_not_flatten_the_rest()
    {
        using SKBitmap some = SKBitmap.Decode(CalibrationFigure.Of(s_cases["usual"]()).ToPng());
        using SKBitmap none = SKBitmap.Decode(CalibrationFigure.Of(s_cases["no outliers"]()).ToPng());
        Assert.True(Sheet.Count(some, OkabeIto.Vermillion) > 40);
        Assert.Equal(0, Sheet.Count(none, OkabeIto.Vermillion));
        Assert.DoesNotContain("outlier", Sheet.Texts(CalibrationFigure.Of(s_cases["no outliers"]()).ToSvg()), StringComparer.Ordinal);

        // 4 m off a pond of 12 cm: the axis goes on naming 10 cm.
        string[] far = Sheet.Texts(CalibrationFigure.Of(s_cases["outliers far off"]()).ToSvg());
        Assert.Contains("off the scale", far, StringComparer.Ordinal);
        Assert.DoesNotContain("outlier", far, StringComparer.Ordinal);
        Assert.Contains("10", far, StringComparer.Ordinal);
        Assert.DoesNotContain("400", far, StringComparer.Ordinal);
    }

    [Fact]
    public void What_was_done_to_gate_and_cloth_is_marked_while_readings_go_on()
    {
        string[] texts = Sheet.Texts(CalibrationFigure.Of(s_cases["usual"]()).ToSvg());
        Assert.Contains("gate to 25 % at 15:00 min", texts, StringComparer.Ordinal);
        Assert.Contains("gate to 37.5 % at 33:00 min", texts, StringComparer.Ordinal);
        Assert.Contains("scraped 3 times", texts, StringComparer.Ordinal);

        // The second of each lies at 90 min, long after the last reading.
        string[] seconds = Sheet.Texts(CalibrationFigure.Of(s_cases["seconds"]()).ToSvg());
        Assert.Contains("scraped once", seconds, StringComparer.Ordinal);
        Assert.Single(seconds, t => t.StartsWith("gate to", StringComparison.Ordinal));

        string[] many = Sheet.Texts(CalibrationFigure.Of(s_cases["many series"]()).ToSvg());
        Assert.Contains("gate moved 9 times", many, StringComparer.Ordinal);
        Assert.DoesNotContain(many, t => t.StartsWith("gate to", StringComparison.Ordinal));
    }

    // A clock 30 min behind showed 10 min when it was scraped at 40 min: a sixth of the axis from its begin, to a triangle's width.
    [Theory]
    [InlineData(30, 10)]
    [InlineData(-15, 55)]
    public void Marks_stand_where_the_clock_of_the_readings_showed_them(double behind, double shown)
    {
        CalibrationAnswer answer = new InventedCalibration { ScrapesMinutes = [40], OutlierEvery = 0, Readings = 0 }.Answer();
        using SKBitmap picture = SKBitmap.Decode(CalibrationFigure.Of(answer with { Series = [answer.Series[0] with { Clock = (Duration.FromMinutes(behind), Duration.Zero) }] }).ToPng());

        // Below the legend; the triangle stands above the highest place of the course.
        (int left, int top, int right, _) = Sheet.Extent(picture, OkabeIto.Blue, 370);
        int[] black = [.. Enumerable.Range(left + 2, right - left - 4).Where(x => picture.GetPixel(x, top - 10) == SKColors.Black)];
        Assert.InRange(black.Average(), left + shown / 60 * (right - left) - 8, left + shown / 60 * (right - left) + 8);
    }

    [Fact]
    public void Four_series_are_drawn_and_the_others_counted()
    {
        // Three runs with three series each: all of the first run, one of the second.
        string[] texts = Sheet.Texts(CalibrationFigure.Of(s_cases["many series"]()).ToSvg());
        Assert.Contains("The first 4 of 9 series are drawn.", texts, StringComparer.Ordinal);
        Assert.Equal(4, texts.Count(t => t.StartsWith("Residuals, in scatters of ", StringComparison.Ordinal)));
        Assert.Equal(2, texts.Count(t => t.StartsWith("Run: ", StringComparison.Ordinal)));
        Assert.Equal(2, texts.Count(t => t == "Time by the clock of the readings, min"));
        Assert.Single(texts, t => t == "fitted");
    }

    [Fact]
    public void Readings_that_would_cover_each_other_are_drawn_once()
    {
        CalibrationAnswer most = new InventedCalibration { Readings = 100_000, OutlierEvery = 50 }.Answer();
        Assert.Contains(Sheet.Texts(CalibrationFigure.Of(most).ToSvg()), t => t.StartsWith("100\u202F000 readings, 2000 outliers, ", StringComparison.Ordinal));

        // A marker takes some 70 bytes, so all of them in both panels would take 14 MB.
        Assert.InRange(CalibrationFigure.Of(most).Encode(FigureFormat.Svg).Length, 100_000, 4_000_000);
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_answer_gives_the_same_bytes(FigureFormat format)
    {
        Assert.Equal(CalibrationFigure.Of(s_cases["usual"]()).Encode(format), CalibrationFigure.Of(s_cases["usual"]()).Encode(format));
        Assert.Equal(CalibratedSpreadsFigure.Of(s_cases["usual"]()).Encode(format), CalibratedSpreadsFigure.Of(s_cases["usual"]()).Encode(format));
        Assert.Equal(NextMeasurementFigure.Of(s_cases["usual"]()).Encode(format), NextMeasurementFigure.Of(s_cases["usual"]()).Encode(format));
    }

    [Fact]
    public void Saving_takes_the_format_from_the_ending()
    {
        string folder = Directory.CreateTempSubdirectory().FullName;
        try
        {
            CalibrationAnswer answer = s_cases["usual"]();
            CalibrationFigure.Of(answer, DisplayUnits.UsCustomary, "lot").Save(Path.Combine(folder, "fit.PNG"));
            Assert.Equal(CalibrationFigure.Of(answer, DisplayUnits.UsCustomary, "lot").ToPng(), File.ReadAllBytes(Path.Combine(folder, "fit.PNG")));
            CalibratedSpreadsFigure.Of(answer).Save(Path.Combine(folder, "spreads.svg"));
            Assert.Equal(CalibratedSpreadsFigure.Of(answer).ToSvg(), File.ReadAllText(Path.Combine(folder, "spreads.svg")));
            NextMeasurementFigure.Of(answer).Save(Path.Combine(folder, "next.svg"));
            Assert.Throws<ArgumentException>(() => CalibrationFigure.Of(answer).Save(Path.Combine(folder, "fit.jpg")));
            Assert.Throws<ArgumentException>(() => CalibratedSpreadsFigure.Of(answer).Save(Path.Combine(folder, "spreads")));
            Assert.Throws<ArgumentException>(() => NextMeasurementFigure.Of(answer).Save(Path.Combine(folder, "next.pdf")));
            Assert.Equal(3, Directory.GetFiles(folder).Length);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static CalibrationAnswer NotNumbers()
    {
        CalibrationAnswer answer = new InventedCalibration().Answer();
        SeriesFit fit = answer.Series[0];
        FittedReading[] spoilt = [.. fit.Readings.Select((r, i) => i % 5 == 0 ? r with { Residual = double.NaN } : i % 5 == 1 ? r with { Read = double.PositiveInfinity, IsOutlier = true } : r)];
        PredictedReading[] course = [.. fit.Course.Select((p, i) => i % 7 == 0 ? p with { Value = double.NaN, Low = double.NegativeInfinity } : p)];
        return answer with
        {
            Series = [fit with { Noise = double.NaN, Zero = (double.NaN, double.NaN), Autocorrelation = double.NaN, Inflation = double.PositiveInfinity, Explained = double.NaN, Readings = spoilt, Course = course }],
            Correlations = [.. answer.Correlations.Select(row => row.Select(_ => double.NaN).ToArray())],
            Inputs = [.. answer.Inputs.Select((input, i) => i == 1 ? input with { Left = double.NaN } : input)],
            Next = [new("nothing", "", double.NaN, double.NaN), .. answer.Next],
            Prediction = answer.Prediction with { StrainAfter = new(null, null, null, 1), OverflowAfter = double.NaN },
        };
    }
}
