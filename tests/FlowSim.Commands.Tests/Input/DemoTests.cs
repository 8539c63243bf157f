using FlowSim.Commands.Input;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Commands.Tests.Input;

/// <summary>The example file and the reader agree both ways.</summary>
public class DemoTests
{
    /// <summary>Section and key of every line that gives one, commented out or not.</summary>
    private static HashSet<string> Mentioned()
    {
        HashSet<string> keys = new(StringComparer.Ordinal);
        string section = string.Empty;
        foreach (string raw in Demo.Text.Split('\n'))
        {
            string line = raw.TrimStart('#', ' ');
            int equals = line.IndexOf(" = ", StringComparison.Ordinal);
            if (raw.StartsWith('['))
                section = raw.Trim('[', ']', ' ');
            else if (equals > 0 && line[..equals].All(c => char.IsAsciiLetterLower(c) || c == '_'))
                keys.Add(section + "." + line[..equals]);
        }

        return keys;
    }

    private static HashSet<string> Known()
    {
        HashSet<string> keys = new(Keys.All.Select(key => key.ToString()), StringComparer.Ordinal);
        foreach (string parameter in VesselShapes.All.SelectMany(shape => shape.Parameters).Select(p => p.Key))
            keys.Add("tank." + parameter);
        foreach (string parameter in ScreenShapes.All.SelectMany(shape => shape.Parameters).Select(p => p.Key))
            keys.Add("screen." + parameter);
        return keys;
    }

    [Fact]
    public void It_mentions_every_key() => Assert.Subset(Mentioned(), Known());

    [Fact]
    public void Every_key_it_mentions_is_known()
    {
        HashSet<string> known = Known();
        foreach (string parameter in VesselShapes.All.SelectMany(shape => shape.Parameters).Select(p => p.Key))
        {
            known.Add("receiver." + parameter);
            known.Add("vessel." + parameter);
            known.Add("bottling_tank." + parameter);
        }

        Assert.Subset(known, Mentioned());
    }

    [Fact]
    public void The_list_of_keys_is_complete()
    {
        int declared = typeof(Keys).GetNestedTypes().SelectMany(type => type.GetFields()).Count(field => field.FieldType == typeof(Key));
        Assert.Equal(declared, Keys.All.Count);
        Assert.Equal(Keys.Sections, Keys.All.Select(key => key.Section).Distinct(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    /// <summary>What is commented out as "the value taken without it" must be that value: uncommented, nothing changes.</summary>
    [Theory]
    [InlineData("lot_factor")]
    [InlineData("form")]
    [InlineData("viscosity")]
    [InlineData("gate_height")]
    [InlineData("wall_film")]
    [InlineData("held")]
    [InlineData("heat_loss")]
    [InlineData("blade")]
    [InlineData("outlet")]
    [InlineData("outlet_above_screen")]
    [InlineData("factor")]
    [InlineData("venting")]
    [InlineData("overflow")]
    [InlineData("minimum_head")]
    [InlineData("load")]
    [InlineData("median_size")]
    [InlineData("size_spread")]
    [InlineData("capture")]
    [InlineData("density")]
    [InlineData("law")]
    [InlineData("recovery")]
    [InlineData("pause")]
    [InlineData("already_in")]
    [InlineData("shut_when_full")]
    [InlineData("longest")]
    [InlineData("tolerance")]
    [InlineData("points")]
    public void A_default_in_a_comment_is_the_default(string key)
    {
        using Folder folder = new();
        string text = Demo.Text.Replace("\n# " + key + " = ", "\n" + key + " = ", StringComparison.Ordinal);
        Assert.False(Demo.Text == text, key);
        Assert.True(Setup(Demo.Text) == Setup(text), Setup(Demo.Text) + "\n" + Setup(text));

        static string Setup(string toml)
        {
            Problems problems = new();
            StrainInput? input = SetupReader.Read(TomlReader.Read(toml, "demo", problems), problems, new Journal(new Spot("demo", 1, 1)));
            Assert.Empty(problems.All);

            // Named correlations and the default one are the same object under two names.
            var setup = input!.Setup with { Honey = input.Setup.Honey with { Viscosity = input.Setup.Honey.Viscosity ?? Properties.ViscosityCorrelations.Default } };
            double[] figures =
            [
                setup.Honey.LotFactor, setup.Tank.GateHeight.Meters, setup.Tank.HeatLoss.WattsPerSquareMeterKelvin, setup.Gate.OutletAboveScreen.Meters,
                setup.Strainer.ScreenFactor, setup.Strainer.MinimumHead.Meters, setup.Debris.Load.DecimalFractions, setup.Debris.MedianSize.Meters,
                setup.Debris.SizeSpread, setup.Debris.CaptureEfficiency, setup.Debris.Density.KilogramsPerCubicMeter, setup.Scraping.Recovery,
                setup.Scraping.Pause.Seconds, setup.Receiver.AlreadyIn.CubicMeters, setup.Receiver.HeatLoss.WattsPerSquareMeterKelvin, setup.Longest.Seconds,
                input.Options.RelativeTolerance, input.Options.SeriesPoints,
            ];
            object[] words =
            [
                setup.Honey.Viscosity!.Name, setup.Honey.Form, setup.Tank.WallFilm, setup.Tank.HeldAtTemperature, setup.Gate.Blade, setup.Gate.Outlet,
                setup.Strainer.Venting, setup.Strainer.Overflow, setup.Debris.Law, setup.Receiver.ShutWhenFull,
            ];
            return string.Join('|', figures.Select(f => f.ToString("G9", System.Globalization.CultureInfo.InvariantCulture))) + string.Join('|', words);
        }
    }

    /// <summary>The same for the keys of warming; each must also still read as what it is shown as.</summary>
    [Theory]
    [InlineData("count")]
    [InlineData("emissivity")]
    [InlineData("lid")]
    [InlineData("stands_on")]
    [InlineData("air_speed")]
    [InlineData("body_heat_capacity")]
    [InlineData("loss_coefficient")]
    [InlineData("body_start")]
    [InlineData("room")]
    [InlineData("hysteresis")]
    [InlineData("sensor")]
    [InlineData("sensor_radius")]
    [InlineData("sensor_height")]
    [InlineData("lag")]
    [InlineData("mean")]
    [InlineData("hold")]
    [InlineData("longest", "[until]")]
    [InlineData("floral_multiplier")]
    [InlineData("floral_spread")]
    [InlineData("heat")]
    [InlineData("confidence")]
    [InlineData("ceiling")]
    [InlineData("at_strainer")]
    [InlineData("longest", "[limits]")]
    [InlineData("lowest_setpoint")]
    [InlineData("coldest_straining")]
    [InlineData("radial_cells")]
    [InlineData("axial_cells")]
    [InlineData("step_error")]
    public void A_default_of_warming_in_a_comment_is_the_default(string key, string section = "[vessel]")
    {
        int from = Demo.Text.IndexOf(section, StringComparison.Ordinal);
        int at = Demo.Text.IndexOf("\n# " + key + " = ", from, StringComparison.Ordinal);
        Assert.True(at > 0, key);
        string text = Demo.Text.Remove(at + 1, 2);
        Assert.Equal(Question(Demo.Text, key), Question(text, key), StringComparer.Ordinal);

        static string Question(string toml, string key)
        {
            Problems problems = new();
            SetpointInput? input = WarmingReader.ReadQuestion(TomlReader.Read(toml, "demo", problems), problems, new Journal(new Spot("demo", 1, 1)));
            WarmInput? warm = WarmingReader.Read(TomlReader.Read(toml, "demo", problems), problems, new Journal(new Spot("demo", 1, 1)));
            Assert.Empty(problems.All);
            Warming.WarmingSetup setup = warm!.Setup;
            Warming.HeatingKit kit = setup.Heating;
            Setpoints.SetpointLimits limits = input!.Question.Limits;
            double[] figures =
            [
                setup.Vessels, setup.Vessel.Emissivity, ((Warming.WarmAir)kit).AirSpeed.MetersPerSecond, kit.BodyHeatCapacity.JoulesPerKelvin, kit.LossCoefficient.WattsPerSquareMeterKelvin,
                (kit.BodyStart ?? setup.RoomTemperature).Kelvins, setup.RoomTemperature.Kelvins, kit.Thermostat.Hysteresis.Kelvins, kit.Thermostat.SensorRadius.Percent, kit.Thermostat.SensorHeight.Percent,
                kit.Thermostat.Lag.Seconds, setup.HoldAfter.Seconds, setup.Longest.Seconds, setup.Response.FloralMultiplier, limits.Ceiling.Kelvins, limits.WarmestAtStrainer.Kelvins, limits.Longest.Seconds,
                input.Question.Lowest.Kelvins, input.Question.ColdestStraining.Kelvins, warm.Options.RadialCells, warm.Options.AxialCells, warm.Options.Tolerance.Kelvins,
            ];
            object[] words =
            [
                setup.Vessel.Lid, setup.Vessel.Base, kit.Thermostat.Sensor, setup.Response.IncludeFloralSpread, limits.Heat.Name, limits.Confidence,
                string.Join(',', setup.Targets.OfType<Warming.MeanAtLeast>().Select(mean => mean.Temperature.Kelvins)), setup.Targets.Count,
            ];
            return key + string.Join('|', figures.Select(f => f.ToString("G9", System.Globalization.CultureInfo.InvariantCulture))) + string.Join('|', words);
        }
    }

    [Fact]
    public void The_demo_serves_all_commands()
    {
        using Folder folder = new();
        string path = folder.Write("run.toml", Demo.Text);
        Assert.Equal(ExitCode.Done, Ran.With("strain", path).Code);
        Assert.Equal(ExitCode.Done, Ran.With("risk", path, "--runs", "64").Code);
        Assert.Equal(ExitCode.Done, Ran.With("warm", path, "--fail-on-miss").Code);
        Problems problems = new();
        Assert.NotNull(WarmingReader.ReadQuestion(TomlReader.Read(Demo.Text, "demo", problems), problems, new Journal(new Spot("demo", 1, 1))));
        Assert.Empty(problems.All);
    }

    [Fact]
    public void New_writes_exactly_the_example_and_it_runs()
    {
        using Folder folder = new();
        Assert.Equal(ExitCode.Done, Ran.With("new", folder["run.toml"]).Code);
        Assert.Equal(Demo.Text, File.ReadAllText(folder["run.toml"]));
        Ran without = Ran.With("strain", "--json");
        Ran with = Ran.With("strain", folder["run.toml"], "--json");
        Assert.Equal(without.Out, with.Out);
        Assert.Equal(ExitCode.Done, with.Code);
    }

    /// <summary>A new shape needs nothing in the program: each on the list is read by the keys it names.</summary>
    [Fact]
    public void Every_shape_on_the_lists_can_be_read_from_a_file()
    {
        foreach (ShapeEntry<VesselShape> shape in VesselShapes.All)
            Assert.NotNull(Read(Keys.Tank.Shape, shape, VesselShapes.All));
        foreach (ShapeEntry<ScreenShape> shape in ScreenShapes.All)
            Assert.NotNull(Read(Keys.Screen.Form, shape, ScreenShapes.All));
    }

    private static TShape? Read<TShape>(Key key, ShapeEntry<TShape> shape, IReadOnlyList<ShapeEntry<TShape>> all)
        where TShape : class
    {
        string text = $"[{key.Section}]\n{key.Name} = \"{shape.Name}\"\n";
        foreach (ShapeParameter parameter in shape.Parameters.Where(p => p.IsRequired))
        {
            string unit = ShapeReader.DimensionOf(parameter) == FlowSim.Commands.Quantities.Dimension.Volume ? "m3" : "m";
            text += parameter.Key + (ShapeReader.IsList(parameter) ? $" = [\"0 {unit}\", \"0.5 {unit}\"]\n" : $" = \"0.5 {unit}\"\n");
        }

        // Height or capacity: one of several optional keys may be needed.
        if (shape.Parameters.Any(p => p.Key == "capacity"))
            text += "capacity = \"20 L\"\n";
        Problems problems = new();
        InputDocument document = TomlReader.Read(text, "shape", problems);
        TShape? read = ShapeReader.Read(new Section(key.Section, document, problems, new Journal(new Spot("shape", 1, 1))), key, all, "shape", fallback: null);
        Assert.Empty(problems.All);
        return read;
    }
}
