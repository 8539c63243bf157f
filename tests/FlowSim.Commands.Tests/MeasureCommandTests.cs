using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;
using FlowSim.FieldMeasurements;
using FlowSim.Gates;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>Measurements from the command line: what they answer, that the file takes it, and what is refused.</summary>
public sealed partial class MeasureCommandTests : IDisposable
{
    private static readonly string[] Ball = ["measure", "ball", "--ball", "3 mm", "--jar", "50 mm", "--distance", "100 mm", "--time", "10.9 s", "--temperature", "35 °C", "--moisture", "17.8%"];

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static JsonElement Json(params string[] arguments)
    {
        Ran ran = Ran.With([.. arguments, "--json"]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        using JsonDocument document = JsonDocument.Parse(ran.Out);
        return document.RootElement.Clone();
    }

    private static double Number(JsonElement json, string name) => json.GetProperty(name).GetDouble();

    private string Batch(params string[] changes)
    {
        Assert.Equal(ExitCode.Done, Ran.With("new", _folder["run.toml"], "--force").Code);
        string text = File.ReadAllText(_folder["run.toml"]);
        for (int i = 0; i < changes.Length; i += 2)
        {
            Assert.Contains(changes[i], text, StringComparison.Ordinal);
            text = text.Replace(changes[i], changes[i + 1], StringComparison.Ordinal);
        }

        return _folder.Write("run.toml", text);
    }

    /// <summary>The check number: a 3 mm steel ball in a 50 mm jar, 100 mm in 10.9 s, is honey of 3 Pa·s.</summary>
    [Fact]
    public void The_answer_comes_first()
    {
        Ran ran = Ran.With(Ball);
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.StartsWith("2.98 Pa·s at 35 °C, 2.74 to 3.25 Pa·s with 95 %.", ran.Out, StringComparison.Ordinal);
        foreach (string heading in new[] { "What limits the viscosity", "Taken", "Mind", "Write in your file" })
            Assert.Contains(heading, ran.Out, StringComparison.Ordinal);
        Assert.Contains("a steel ball, 7800 ± 50 kg/m3 [from memory; --ball-density]", ran.Out, StringComparison.Ordinal);
    }

    /// <summary>What is to be written into the file gives back the viscosity, and a question about an overflow takes the spread.</summary>
    [Fact]
    public void The_file_takes_what_is_written_for_it()
    {
        string text = Ran.With(Ball).Out;
        string moisture = FileLine().Match(text).Groups["moisture"].Value, factor = FileLine().Match(text).Groups["factor"].Value;
        string[] set = ["--set", "honey.moisture=" + moisture, "--set", "honey.lot_factor=" + factor];
        JsonElement honey = Json(["honey", "--set", "honey.temperature=35 °C", .. set]);
        double again = honey.GetProperty("properties").EnumerateArray().Single(line => line.GetProperty("property").GetString() == "viscosity").GetProperty("value").GetDouble();
        Assert.Equal(Number(Json(Ball), "viscosityPaS"), again, 0.01);
        Assert.Matches(@"lot_factor.*x/ 1\.0", text);
        Ran risk = Ran.With(["risk", "--runs", "256", "-q", .. set]);
        Assert.True(risk.Code == ExitCode.Done, risk.Error);
    }

    [GeneratedRegex("""moisture = "(?<moisture>[^"]+)"\nlot_factor = "(?<factor>[^"]+)"\n""", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex FileLine();

    /// <summary>The command prints what the library says.</summary>
    [Fact]
    public void Json_is_the_librarys()
    {
        JsonElement json = Json(Ball);
        ViscosityMeasurement measured = new FallingBall
        {
            Sample = new HoneySample { Moisture = Ratio.FromPercent(17.8), Temperature = Temperature.FromDegreesCelsius(35) },
            BallDiameter = Length.FromMillimeters(3),
            JarDiameter = Length.FromMillimeters(50),
            Distance = Length.FromMillimeters(100),
            Times = [Duration.FromSeconds(10.9)],
        }.Measure();
        LotFactorEstimate lot = measured.LotFactor(new Honey { Moisture = Ratio.FromPercent(17.8) });
        Assert.Equal(measured.Viscosity.PascalSeconds, Number(json, "viscosityPaS"), 1e-9);
        Assert.Equal(measured.LogStandardDeviation, Number(json, "logStandardDeviation"), 1e-9);
        Assert.Equal(lot.Value, Number(json.GetProperty("lotFactor"), "value"), 1e-9);
        Assert.Equal(lot.LogStandardDeviationAtStatedMoisture, Number(json.GetProperty("lotFactor"), "logStandardDeviationAtStatedMoisture"), 1e-9);
        Assert.Equal(1, json.GetProperty("contributions").EnumerateArray().Sum(share => Number(share, "share")), 1e-9);
    }

    /// <summary>A spread given with ± takes the place of the common one.</summary>
    [Fact]
    public void Spreads_are_taken()
    {
        double common = Number(Json(Ball), "logStandardDeviation");
        string[] rough = [.. Ball.Select(word => word == "3 mm" ? "3 ± 0.2 mm" : word)];
        Assert.True(Number(Json(rough), "logStandardDeviation") > 2 * common);
        Assert.DoesNotContain("diameter of the ball ± 0.02 mm", Ran.With(rough).Out, StringComparison.Ordinal);
        Assert.True(Number(Json([.. Ball, "--reaction", "0.05 s"]), "logStandardDeviation") < common);
    }

    [Fact]
    public void Bubble_and_cup_and_refractometer()
    {
        JsonElement bubble = Json("measure", "bubble", "--time", "21 s", "--temperature", "35 C", "--moisture", "17.8%");
        Assert.Equal(21e-4, Number(bubble, "kinematicViscosityM2PerS"), 1e-12);
        Assert.Equal(21e-4 * 1.5, Number(Json("measure", "bubble", "--time", "21 s", "--constant", "1.5 ± 0.05", "--temperature", "35 C", "--moisture", "17.8%"), "kinematicViscosityM2PerS"), 1e-12);
        JsonElement cup = Json("measure", "cup", "--cup", "Ford-5", "--time", "62 s", "--temperature", "115 F", "--moisture", "18.5%");
        Assert.Equal(12.1e-6 * 60, Number(cup, "kinematicViscosityM2PerS"), 1e-12);
        JsonElement moisture = Json("measure", "refractometer", "--percent", "17.6", "--percent", "17.8", "--compensated");
        Assert.Equal(0.177, Number(moisture, "moistureShare"), 1e-9);
        Assert.Equal(308.15, Number(moisture, "viscosityAtK"), 1e-9);
        Assert.Contains("moisture = \"17.7 ± 0.14 %\"", Ran.With("measure", "refractometer", "--percent", "17.6", "--percent", "17.8", "--compensated").Out, StringComparison.Ordinal);
    }

    /// <summary>The library's forward model makes the time, the command gives back the viscosity.</summary>
    [Fact]
    public void Jar_under_a_falling_head()
    {
        var fill = new TimedJarFill
        {
            Sample = new HoneySample { Moisture = Ratio.FromPercent(17.8), Temperature = Temperature.FromDegreesCelsius(35) },
            Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
            Opening = Ratio.FromPercent(20),
            Supply = JarSupply.Falling(new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(298)), Length.FromMillimeters(298), Length.FromMillimeters(20)),
            NetWeight = Mass.FromKilograms(5),
            Times = [Duration.FromSeconds(1)],
        };
        string time = fill.TimeFor(DynamicViscosity.FromPascalSeconds(2.5)).Seconds.ToString("R", CultureInfo.InvariantCulture) + " s";
        JsonElement json = Json(
            "measure", "jar", "--net-weight", "5 kg", "--time", time, "--level", "298 mm", "--tank-diameter", "285 mm", "--gate-height", "20 mm",
            "--bore", "38 mm", "--tube-length", "40 mm", "--opening", "20%", "--temperature", "35 C", "--moisture", "17.8%");
        Assert.Equal(2.5, Number(json, "viscosityPaS"), 1e-6);
    }

    /// <summary>Honey, gate and tank of a file, the spread of its moisture with them; and they are told.</summary>
    [Fact]
    public void A_file_gives_honey_gate_and_tank()
    {
        string batch = Batch("moisture = \"17.8 %\"", "moisture = \"18.2 ± 0.4 %\"");
        JsonElement json = Json("measure", "ball", "--ball", "3 mm", "--jar", "50 mm", "--distance", "100 mm", "--time", "10.9 s", "--temperature", "35 °C", "--batch", batch);
        Assert.Equal(0.182, Number(json, "moistureShare"), 1e-9);
        double ofMoisture = json.GetProperty("lotFactor").GetProperty("contributions").EnumerateArray().Single(share => share.GetProperty("name").GetString() == "moisture of the honey").GetProperty("standardDeviation").GetDouble();
        Assert.InRange(ofMoisture, 0.12, 0.16);

        Ran jar = Ran.With("measure", "jar", "--net-weight", "5 kg", "--time", "35 s", "--opening", "20%", "--temperature", "35 °C", "--batch", batch);
        Assert.True(jar.Code == ExitCode.Done, jar.Error);
        Assert.Contains("298 mm deep at the start, as in the file", jar.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_refused_honey_in_the_file_still_has_a_viscosity()
    {
        string batch = Batch("# form = \"liquid\"", "form = \"gelling\"");
        Ran ran = Ran.With("measure", "ball", "--ball", "3 mm", "--jar", "50 mm", "--distance", "100 mm", "--time", "10.9 s", "--temperature", "35 °C", "--batch", batch);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        Assert.Contains("measured = [\"35 °C, 2.98 Pa.s\"]", ran.Out, StringComparison.Ordinal);
    }

    /// <summary>Refusals name the option, say why and what to do; the result is empty and no file is written.</summary>
    [Theory]
    [InlineData("measure cup --cup iso-6 --time 300s --temperature 35C --moisture 17.8%", "--time \"300s\": 300 s are more than the cup iso-6 is good for, 100 s, which is 684 mm2/s", "within the ceiling of 50 °C; else time a falling ball")]
    [InlineData("measure cup --cup iso-6 --time 300s --temperature 35C --moisture 17.8% --ceiling 40C", "within reach at", "above the ceiling of 40 °C: time a falling ball instead")]
    [InlineData("measure cup --cup iso6 --time 30s --temperature 35C --moisture 17.8%", "--cup \"iso6\"", "nearest: iso-6")]
    [InlineData("measure ball --ball 3mm --jar 50mm --distance 100mm --time 1s --temperature 35C --moisture 17.8%", "--time \"1s\"", "ball of at most 1.8 mm")]
    [InlineData("measure ball --ball 3mm --jar 8mm --distance 100mm --time 10s --temperature 35C --moisture 17.8%", "--jar \"8mm\"", "at least 10 mm")]
    [InlineData("measure ball --ball 3mm --jar 50mm --distance 100mm --time 10s --temperature 35C --moisture 40%", "--moisture \"40%\"", "nearest: ")]
    [InlineData("measure ball --ball 0.1mm --jar 50mm --distance 100mm --time 10s --temperature 35C --moisture 17%", "--ball \"0.1mm\"", "0.3 to 50 mm")]
    [InlineData("measure ball --ball 3 --jar 50mm --distance 100mm --time 10s --temperature 35C --moisture 17%", "--ball \"3\"", "has no unit")]
    [InlineData("measure ball --jar 50mm --distance 100mm --time 10s --temperature 35C", "--ball is missing", "--moisture is missing")]
    [InlineData("measure ball --ball 3mm --ball 3mm --jar 50mm --distance 100mm --time 10s --temperature 35C --moisture 17%", "--ball \"3mm\" \"3mm\"", "given twice")]
    [InlineData("measure jar --net-weight 5kg --volume 1L --time 10s --head 250mm --bore 38mm --tube-length 40mm --opening 20% --temperature 35C --moisture 17%", "--net-weight", "give one of the two")]
    [InlineData("measure jar --net-weight 5kg --time 1s --head 250mm --bore 38mm --tube-length 40mm --opening 100% --temperature 35C --moisture 17%", "--time \"1s\"", "without any friction")]
    [InlineData("measure jar --net-weight 5kg --time 10s --temperature 35C --moisture 17%", "--bore is missing", "--head is missing")]
    [InlineData("measure refractometer --percent 17.6", "--temperature is missing", "--compensated")]
    [InlineData("measure refractometer --percent 17.6 --brix 80 --compensated", "--percent", "give one of the two")]
    [InlineData("measure refractometer --percent 47 --compensated", "--percent \"47\"", "13 to 25 %")]
    [InlineData("measure bubble --time 0.5s --temperature 35C --moisture 17%", "--time \"0.5s\"", "1 to 1100 s")]
    [InlineData("measure", "measure needs a word more", "ball, bubble, jar, refractometer, cup")]
    [InlineData("measure bal", "bal is not a command", "nearest: ball")]
    [InlineData("measure ball --bal 3mm", "--bal is not an option of ball", "nearest: --ball")]
    public void What_is_wrong_is_said(string command, string where, string what)
    {
        Ran ran = Ran.With(command.Split(' '));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Empty(ran.Out);
        Assert.Contains(where, ran.Error, StringComparison.Ordinal);
        Assert.Contains(what, ran.Error, StringComparison.Ordinal);
    }

    /// <summary>Nothing of the example is taken for a measurement that does not name it.</summary>
    [Fact]
    public void The_example_is_not_taken_silently()
    {
        Ran ran = Ran.With("measure", "jar", "--net-weight", "5 kg", "--time", "35 s", "--temperature", "35 °C");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        foreach (string option in new[] { "--moisture", "--bore", "--tube-length", "--opening" })
            Assert.Contains(option + " is missing", ran.Error, StringComparison.Ordinal);
    }

    /// <summary>A tank of the options needs its level, whatever stands in the file.</summary>
    [Fact]
    public void A_tank_of_the_options_needs_a_level()
    {
        Ran ran = Ran.With("measure", "jar", "--net-weight", "5 kg", "--time", "35 s", "--opening", "20%", "--temperature", "35 °C", "--tank-diameter", "300 mm", "--batch", Batch());
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("--level is missing", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there() => Assert.Equal(ExitCode.FileTrouble, Ran.With([.. Ball, "--batch", _folder["none.toml"]]).Code);

    public static TheoryData<string> Methods => ["measure", "ball", "bubble", "jar", "refractometer", "cup"];

    /// <summary>The help shows examples, and they run as they stand; the text fits and never says that word.</summary>
    [Theory]
    [MemberData(nameof(Methods))]
    public void Examples_in_the_help_run(string method)
    {
        string[] help = method == "measure" ? ["measure", "--help"] : ["measure", method, "--help"];
        string shown = Ran.With(help).Out;
        string batch = Batch();
        string[] examples = [.. shown.Split('\n').Where(line => line.StartsWith("  flowsim measure", StringComparison.Ordinal) && line.Contains("--", StringComparison.Ordinal)).Where(line => !line.Contains("[options]", StringComparison.Ordinal))];
        Assert.NotEmpty(examples);
        foreach (string example in examples)
        {
            string[] arguments = [.. Argument().Matches(example.Trim()["flowsim ".Length..]).Select(match => match.Value.Replace("\"", "", StringComparison.Ordinal).Replace("run.toml", batch, StringComparison.Ordinal))];
            foreach (int width in new[] { Surroundings.Narrowest, Surroundings.Widest })
            {
                Ran ran = Ran.On([.. arguments, .. arguments.Contains("--help", StringComparer.Ordinal) ? Array.Empty<string>() : ["--units", "us"]], colour: false, width);
                Assert.True(ran.Code == ExitCode.Done, example + "\n" + ran.Error);
                Assert.DoesNotMatch(@"(?i)\bsafe", ran.Out);
                Assert.DoesNotContain("NaN", ran.Out, StringComparison.Ordinal);
                if (!arguments.Contains("--help", StringComparer.Ordinal))
                    Assert.All(ran.Out.Split('\n'), line => Assert.True(line.Length <= Surroundings.Widest, line));
            }
        }

        Assert.Equal(["run.toml"], Directory.GetFiles(_folder.Path).Select(Path.GetFileName));
    }

    [GeneratedRegex("""(?:[^\s"]|"[^"]*")+""", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Argument();
}
