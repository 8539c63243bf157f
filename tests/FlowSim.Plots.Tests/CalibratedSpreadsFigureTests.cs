using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using SkiaSharp;

namespace FlowSim.Plots.Tests;

public class CalibratedSpreadsFigureTests
{
    [Fact]
    public void Each_input_is_written_with_its_intervals()
    {
        string[] texts = Sheet.Texts(CalibratedSpreadsFigure.Of(new InventedCalibration().Answer()).ToSvg());
        Assert.Equal("4 of 8 inputs are better known: lot factor of viscosity most of all", texts[0]);
        Assert.Contains("Lot factor of viscosity", texts, StringComparer.Ordinal);
        Assert.Contains("before 0.56 to 1.8, now 1.13 (1.03 to 1.23)", texts, StringComparer.Ordinal);
        Assert.Contains("Honey temperature (run: first pail)", texts, StringComparer.Ordinal);

        // Moisture, two sizes of debris and the opening keep more than 0.7 of their spread.
        Assert.Equal(4, texts.Count(t => t == "– not shown by these runs"));

        // 307.15 K ± 1.96 K is 34 °C, 93.2 °F ± 3.53 °F.
        Assert.Contains(texts, t => t.StartsWith("before 32.0 to 36.0 °C, now ", StringComparison.Ordinal));
        Assert.Contains(
            Sheet.Texts(CalibratedSpreadsFigure.Of(new InventedCalibration().Answer(), DisplayUnits.UsCustomary).ToSvg()), t => t.StartsWith("before 89.7 to 96.7 °F, now ", StringComparison.Ordinal));
    }

    [Fact]
    public void Titles_tell_of_nothing_learnt_and_of_what_was_learnt_of_a_run_alone()
    {
        Assert.Equal("These runs say nothing new of any input", Title(new() { Left = 1, Indistinct = 0 }));
        Assert.Equal("1 of 1 inputs is better known: lot factor of viscosity", Title(new() { Shared = 1, OfRun = 0, Indistinct = 0 }));
        Assert.Equal("1 of 1 inputs is better known, none of honey or kit", Title(new() { Shared = 0, OfRun = 1, Indistinct = 0 }));
        Assert.Equal("No fit was found: nothing is to be kept", Title(new() { Status = CalibrationStatus.NotFound }));

        static string Title(InventedCalibration invented) => Sheet.Texts(CalibratedSpreadsFigure.Of(invented.Answer()).ToSvg())[0];
    }

    [Fact]
    public void A_bar_is_as_wide_as_what_is_left()
    {
        int Blue(double left)
        {
            using SKBitmap picture = SKBitmap.Decode(CalibratedSpreadsFigure.Of(With(new NormalDistribution(307.15, 1), new NormalDistribution(307.15, left))).ToPng());
            return Sheet.Count(picture, OkabeIto.Blue);
        }

        // The diamond over its middle stays, so equal steps of the spread add equal areas: within 3 % for the ends of the bar.
        double step = Blue(0.4) - Blue(0.2);
        Assert.True(step > 1000);
        Assert.Equal(1, (Blue(0.8) - Blue(0.4)) / (2 * step), 0.03);
    }

    // Whatever the family before: the bar of an input of which nothing was learnt covers the spread before from end to end.
    [Fact]
    public void Nothing_learnt_leaves_the_bar_as_it_was()
    {
        Distribution[] priors = [new NormalDistribution(300, 2), new LogNormalDistribution(1, 0.3), new UniformDistribution(280, 320), new TriangularDistribution(280, 290, 320), new NormalDistribution(300, 2).Within(299, 307)];
        Assert.All(priors, prior =>
        {
            using SKBitmap picture = SKBitmap.Decode(CalibratedSpreadsFigure.Of(With(prior, prior)).ToPng());

            // Below the legend, which shows both colours too.
            (int left, _, int right, _) = Sheet.Extent(picture, OkabeIto.Blue, 140);
            (int before, _, int until, _) = Sheet.Extent(picture, SpreadRows.PriorHex, 140);
            Assert.InRange(left - before, -2, 2);
            Assert.InRange(right - until, -2, 2);
            Assert.True(right - left > 500);
        });
    }

    [Fact]
    public void What_lies_beyond_the_axis_is_given_an_arrow()
    {
        int Black(double mean)
        {
            using SKBitmap picture = SKBitmap.Decode(CalibratedSpreadsFigure.Of(With(new UniformDistribution(280, 320), new NormalDistribution(mean, 1))).ToPng());
            return Sheet.Count(picture, OkabeIto.Black);
        }

        // Beyond a uniform spread lies no score at all. The words differ by a few figures, an arrow has more.
        Assert.True(Black(340) > Black(300) + 40);
        Assert.True(Black(260) > Black(300) + 40);
    }

    [Fact]
    public void Inputs_that_cannot_be_told_apart_are_tied_and_explained()
    {
        InventedCalibration two = new() { Indistinct = 2 };
        string[] texts = Sheet.Texts(CalibratedSpreadsFigure.Of(two.Answer()).ToSvg());
        Assert.Contains("A", texts, StringComparer.Ordinal);
        Assert.Contains("B", texts, StringComparer.Ordinal);
        Assert.Contains(
            "A: Lot factor of viscosity and debris cannot be told apart by these runs: only their product shows; a ball through a tall jar of this honey would tell them apart.",
            string.Join(' ', texts), StringComparison.Ordinal);
        Assert.DoesNotContain("A", Sheet.Texts(CalibratedSpreadsFigure.Of((two with { Indistinct = 0 }).Answer()).ToSvg()), StringComparer.Ordinal);

        // Six groups: three are tied, the others told in words alone.
        string[] six = Sheet.Texts(CalibratedSpreadsFigure.Of((two with { Shared = 12, Indistinct = 6 }).Answer()).ToSvg());
        Assert.DoesNotContain("D", six, StringComparer.Ordinal);
        Assert.Equal(6, string.Join(' ', six).Split("cannot be told apart by these runs").Length - 1);
    }

    [Fact]
    public void Correlations_are_figures_in_a_grid()
    {
        string[] texts = Sheet.Texts(CalibratedSpreadsFigure.Of(new InventedCalibration().Answer()).ToSvg());
        Assert.Contains("−0.85", texts, StringComparer.Ordinal);
        Assert.Contains("0.51", texts, StringComparer.Ordinal);
        Assert.Contains("lot factor of viscosity", texts, StringComparer.Ordinal);

        // Two inputs need no grid, weak correlations a sentence.
        Assert.DoesNotContain("−0.85", Sheet.Texts(CalibratedSpreadsFigure.Of(new InventedCalibration { Shared = 2 }.Answer()).ToSvg()), StringComparer.Ordinal);
        Assert.Contains(
            "No two inputs of honey and kit go together: all correlations are below 0.1.",
            Sheet.Texts(CalibratedSpreadsFigure.Of(new InventedCalibration { Correlation = 0.04 }.Answer()).ToSvg()), StringComparer.Ordinal);

        // Of twelve, those that hardly go with any are said in a sentence: six of 0.07 and less.
        Assert.Contains("The other 6: 0.07 at most.", Sheet.Texts(CalibratedSpreadsFigure.Of(new InventedCalibration { Shared = 12 }.Answer()).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void The_check_of_the_intervals_is_told()
    {
        CalibrationAnswer answer = new InventedCalibration().Answer();
        string words = string.Join(' ', Sheet.Texts(CalibratedSpreadsFigure.Of(answer).ToSvg()));
        Assert.Contains("Checked with 8000 draws: medians within 0.08 standard deviations, widths 1.06 times those of the fit at most.", words, StringComparison.Ordinal);
        string used = string.Join(' ', Sheet.Texts(CalibratedSpreadsFigure.Of(answer with { Check = answer.Check! with { Used = true, WidthRatio = 0.72 } }).ToSvg()));
        Assert.Contains("widths 0.72 times those of the fit at least; the intervals are those of the draws.", used, StringComparison.Ordinal);
        Assert.DoesNotContain("Checked with", string.Join(' ', Sheet.Texts(CalibratedSpreadsFigure.Of(answer with { Check = null }).ToSvg())), StringComparison.Ordinal);
    }

    // Kelvin and degrees: ITS-90 offset 273.15 and 1.8 per kelvin; inch 25.4 mm and US gallon 231 cubic inches, exact by definition.
    [Fact]
    public void Values_are_written_in_the_units_and_figures_that_count()
    {
        (StrainingInput Input, Distribution Spread, string Metric, string Us)[] expected =
        [
            (StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3), "1.0 (0.56 to 1.8)", "1.0 (0.56 to 1.8)"),
            (StrainingInputs.Moisture, new NormalDistribution(0.178, 0.002), "17.80 % (17.41 to 18.19 %)", "17.80 % (17.41 to 18.19 %)"),
            (StrainingInputs.HoneyTemperature, new NormalDistribution(308.15, 1), "35.0 °C (33.0 to 37.0 °C)", "95.0 °F (91.5 to 98.5 °F)"),
            (StrainingInputs.TankLevel, new NormalDistribution(0.254, 0.005), "25.4 cm (24.4 to 26.4 cm)", "10.00 in (9.61 to 10.39 in)"),
            (StrainingInputs.ClothOpening, new NormalDistribution(400e-6, 10e-6), "400 µm (380 to 420 µm)", "400 µm (380 to 420 µm)"),
            (StrainingInputs.AlreadyIn, new NormalDistribution(0.003785411784, 0.0005), "3.8 L (2.8 to 4.8 L)", "1.00 US gal (0.74 to 1.26 US gal)"),
            (StrainingInputs.DebrisLoad, new LogNormalDistribution(0.0004, 0.1), "0.40 g/kg (0.33 to 0.49 g/kg)", "0.40 g/kg (0.33 to 0.49 g/kg)"),
            (StrainingInputs.DebrisDensity, new NormalDistribution(960, 30), "960 kg/m³ (901 to 1019 kg/m³)", "960 kg/m³ (901 to 1019 kg/m³)"),
        ];
        Assert.All(expected, e => Assert.Equal((e.Metric, e.Us), (InputText.Estimate(e.Input, e.Spread, DisplayUnits.Metric), InputText.Estimate(e.Input, e.Spread, DisplayUnits.UsCustomary))));
        Assert.Equal("17.41 to 18.19 %", InputText.Interval(StrainingInputs.Moisture, new NormalDistribution(0.178, 0.002), DisplayUnits.Metric));

        // Known all but exactly: three figures.
        Assert.Equal("1.23 (1.23 to 1.23)", InputText.Estimate(StrainingInputs.LotFactor, new NormalDistribution(1.234, 1e-300), DisplayUnits.Metric));
    }

    private static CalibrationAnswer With(Distribution prior, Distribution posterior) => new InventedCalibration { Indistinct = 0 }.Answer() with
    {
        Inputs = [new() { Input = StrainingInputs.HoneyTemperature, Run = null, Prior = new UncertainInput(StrainingInputs.HoneyTemperature, prior, new Source("Invented", Standing.EngineeringChoice)), Posterior = posterior, Left = 0.5 }],
        Correlations = [[1.0]],
    };
}
