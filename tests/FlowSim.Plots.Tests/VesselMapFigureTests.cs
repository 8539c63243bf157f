using System.Xml.Linq;
using FlowSim.Plots.Drawing;
using FlowSim.Warming;
using ScottPlot;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class VesselMapFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<WarmingResult>> s_cases = new(StringComparer.Ordinal)
    {
        ["one"] = () => new InventedWarming { MapHours = [3] }.Result(),
        ["two"] = () => new InventedWarming { MapHours = [0, 20] }.Result(),
        ["five"] = () => new InventedWarming { MapHours = [0, 2, 5, 10, 20], CrystalShare = 0.15 }.Result(),
        ["eight"] = () => new InventedWarming { MapHours = [0, 1, 2, 3, 5, 8, 12, 20], CrystalShare = 0.15 }.Result(),
        ["more than fit"] = () => new InventedWarming { MapHours = [.. Enumerable.Range(0, 100).Select(i => 0.3 * i)] }.Result(),
        ["drum"] = () => new InventedWarming { MapHours = [0, 24, 72, 400], RadiusM = 0.285, LevelM = 0.85, Sensor = SensorPlace.Wall, Kit = t => new BandHeater { Thermostat = t, From = Length.FromMeters(0.1), To = Length.FromMeters(0.3) } }.Result(),
        ["jar"] = () => new InventedWarming { MapHours = [0.1, 0.5], RadiusM = 0.035, LevelM = 0.09, Kit = t => new HeatedBath { Thermostat = t, WaterLevel = Length.FromMeters(0.05) } }.Result(),
        ["pipe"] = () => new InventedWarming { MapHours = [1, 2], RadiusM = 0.05, LevelM = 5 }.Result(),
        ["flat tank"] = () => new InventedWarming { MapHours = [1, 2, 3], RadiusM = 1.5, LevelM = 0.1, Kit = t => new HeatedJacket { Thermostat = t, To = Length.FromMeters(0.1) } }.Result(),
        ["element"] = () => new InventedWarming { MapHours = [1, 2], Sensor = SensorPlace.Honey, Kit = t => new ImmersionHeater { Thermostat = t, From = Length.FromMeters(0.02), To = Length.FromMeters(0.2), Radius = Length.FromMeters(0.02) } }.Result(),
        ["all the same"] = () => new InventedWarming { MapHours = [1], StartC = 45, SetpointC = 45 }.Result(),
        ["one cell"] = () => OneCell(30),
        ["not numbers"] = () => OneCell(double.NaN),
        ["none"] = () => new InventedWarming().Result(),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        WarmingResult result = s_cases[name]();
        Sheet.AssertReadable(VesselMapFigure.Of(result, name: "Invented lot").ToSvg());
        Sheet.AssertReadable(VesselMapFigure.Of(result, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
        Sheet.AssertPicture(VesselMapFigure.Of(result).ToPng(), VesselMapFigure.Width).Dispose();
    }

    [Fact]
    public void Each_map_is_named_and_the_scale_has_units()
    {
        string[] texts = Sheet.Texts(VesselMapFigure.Of(new InventedWarming { MapHours = [0, 4, 8, 24], CrystalShare = 0.15 }.Result()).ToSvg());
        string[] expected = ["at the start", "4:00 h", "8:00 h", "24:00 h", "coldest", "a line every 5 K", "hatched: crystals left, dense: over half", "Temperature, °C", "Distance from the axis, cm", "Height, cm"];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Equal(4, texts.Count(t => t.StartsWith("crystals ", StringComparison.Ordinal) && t.EndsWith(" % left", StringComparison.Ordinal)));

        // The coldest cell at the start is at the start's temperature, 16 °C, within the tenth that is written.
        Assert.Contains(texts, t => t.StartsWith("16.", StringComparison.Ordinal) && t.EndsWith(" °C", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0.145, 0.30)]
    [InlineData(0.285, 0.85)]
    [InlineData(1.2, 0.3)]
    public void Maps_have_the_proportions_of_the_vessel(double radiusM, double levelM)
    {
        string svg = VesselMapFigure.Of(new InventedWarming { MapHours = [1, 2, 3], RadiusM = radiusM, LevelM = levelM }.Result()).ToSvg();
        SKMatrix[] places = [.. Pictures(svg).Select(p => p.Place)];

        // Three maps and the bar of the scale; the first is a map.
        Assert.Equal(4, places.Length);
        (SKMatrix place, float width, float height) = Pictures(svg)[0];
        Assert.Equal(2 * radiusM / levelM, place.ScaleX * width / (place.ScaleY * height), 0.02);
    }

    [Fact]
    public void More_maps_than_fit_are_chosen_with_the_first_and_the_last()
    {
        string[] texts = Sheet.Texts(VesselMapFigure.Of(new InventedWarming { MapHours = [.. Enumerable.Range(0, 25).Select(i => (double)i)] }.Result()).ToSvg());
        Assert.Contains("8 of 25 maps", texts, StringComparer.Ordinal);
        Assert.Contains("at the start", texts, StringComparer.Ordinal);
        Assert.Contains("24:00 h", texts, StringComparer.Ordinal);
    }

    [Fact]
    public void A_run_without_maps_says_so() => Assert.Equal(["No map was kept for this run"], Sheet.Texts(VesselMapFigure.Of(new InventedWarming().Result()).ToSvg()));

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_result_gives_the_same_bytes(FigureFormat format)
    {
        WarmingResult result = new InventedWarming { MapHours = [0, 4], CrystalShare = 0.1 }.Result();
        Assert.Equal(VesselMapFigure.Of(result).Encode(format), VesselMapFigure.Of(result).Encode(format));
    }

    [Fact]
    public void The_scale_gets_lighter_all_the_way()
    {
        ColourScale scale = new(20, 60);

        // Relative luminance of sRGB (IEC 61966-2-1, from memory): what is left of a colour in grey.
        double Luminance(double value)
        {
            Color colour = scale.Of(value);
            static double Linear(byte channel)
            {
                double c = channel / 255.0;
                return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
            }

            return 0.2126 * Linear(colour.R) + 0.7152 * Linear(colour.G) + 0.0722 * Linear(colour.B);
        }

        double[] all = [.. Enumerable.Range(0, 41).Select(i => Luminance(20 + i))];
        Assert.Equal(all.Order(), all);
        Assert.True(all[^1] - all[0] > 0.6);
    }

    // Levels of a linear field are known: z from 10 to 20 over thirty cells, so 15 is at half the height.
    [Fact]
    public void A_contour_lies_where_the_field_has_the_value()
    {
        const int Radial = 7;
        const int Axial = 30;
        double[] cells = [.. from j in Enumerable.Range(0, Axial) from i in Enumerable.Range(0, Radial) select 10 + 10 * (j + 0.5) / Axial];
        MirroredField field = new(cells, Radial, Axial);

        List<(double X1, double Z1, double X2, double Z2)> pieces = field.Contour(15);
        Assert.All(pieces, p => Assert.True(Math.Abs(p.Z1 - 0.5) < 1e-9 && Math.Abs(p.Z2 - 0.5) < 1e-9));
        Assert.Equal(2, pieces.Sum(p => Math.Abs(p.X2 - p.X1)), 9);
        Assert.Equal(10, field.At(0.3, 0), 9);
        Assert.Equal(20, field.At(-1, 1), 9);
        Assert.Equal(15, field.MeanByVolume(), 9);
        Assert.Empty(field.Contour(25));
    }

    // The mean of r/R over the volume of a cylinder is 2/3; of rings taken at their middles that is short by 1/(6n²).
    [Fact]
    public void Rings_count_by_their_volume()
    {
        const int Radial = 20;
        double[] cells = [.. Enumerable.Range(0, Radial).Select(i => (i + 0.5) / Radial)];
        Assert.Equal(2.0 / 3 - 1.0 / (6 * Radial * Radial), new MirroredField(cells, Radial, 1).MeanByVolume(), 9);
    }

    [Fact]
    public void The_coldest_place_is_found()
    {
        double[] cells = [3, 4, 5, 2, 1, 9, 3, 4, 5];
        (double x, double z, double value) = new MirroredField(cells, 3, 3).Lowest();
        Assert.Equal((0.5, 0.5, 1.0), (x, z, value));
    }

    private static WarmingResult OneCell(double celsius)
    {
        WarmingResult run = new InventedWarming().Result();
        return run with { Maps = [new(Duration.FromHours(1), Length.FromMeters(0.1), Length.FromMeters(0.2), 1, 1, [celsius + 273.15], [1.0])] };
    }

    private static List<(SKMatrix Place, float Width, float Height)> Pictures(string svg)
    {
        XElement root = XDocument.Parse(svg).Root!;
        Dictionary<string, XElement> images = root.Descendants(root.Name.Namespace + "image").ToDictionary(i => "#" + i.Attribute("id")!.Value, StringComparer.Ordinal);
        List<(SKMatrix, float, float)> places = [];
        foreach (XElement use in root.Descendants(root.Name.Namespace + "use"))
        {
            string text = use.Attribute("transform")!.Value;
            float[] n = [.. text[(text.IndexOf('(', StringComparison.Ordinal) + 1)..].TrimEnd(')').Split(' ').Select(v => float.Parse(v, System.Globalization.CultureInfo.InvariantCulture))];
            XElement image = images[use.Attribute(XName.Get("href", "http://www.w3.org/1999/xlink"))!.Value];
            places.Add((new SKMatrix(n[0], n[2], n[4], n[1], n[3], n[5], 0, 0, 1), float.Parse(image.Attribute("width")!.Value, System.Globalization.CultureInfo.InvariantCulture), float.Parse(image.Attribute("height")!.Value, System.Globalization.CultureInfo.InvariantCulture)));
        }

        return places;
    }
}
