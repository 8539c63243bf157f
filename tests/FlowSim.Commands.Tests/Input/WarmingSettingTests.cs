using System.Text.Json;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests.Input;

/// <summary>The keys of warming: each is refused with its place and its range, read in the units people use, and does something.</summary>
public sealed class WarmingSettingTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    /// <summary>A kit that the library gains must be offered here too.</summary>
    [Fact]
    public void Every_kit_of_the_library_has_a_name_in_a_file()
    {
        int kits = typeof(FlowSim.Warming.HeatingKit).Assembly.GetTypes().Count(type => type.IsSubclassOf(typeof(FlowSim.Warming.HeatingKit)) && !type.IsAbstract);
        Assert.Equal(kits, HeatingReader.All.Count());
    }

    [Theory]
    [InlineData("vessel.count=0", "vessel.count", "1 to 1000")]
    [InlineData("vessel.count=1.5", "vessel.count", "whole number")]
    [InlineData("vessel.wall=polyetylene 2 mm", "vessel.wall", "nearest: \"polyethylene\"")]
    [InlineData("vessel.wall=2 mm", "vessel.wall", "\"polyethylene 2 mm\"")]
    [InlineData("vessel.wall=steel", "vessel.wall", "\"polyethylene 2 mm\"")]
    [InlineData("vessel.wall=steel 2 s", "vessel.wall", "is a time, but a length is wanted")]
    [InlineData("vessel.wall=steel -2 mm", "vessel.wall", "0 mm or more")]
    [InlineData("vessel.insulation=foam 3 m", "vessel.insulation", "0 to 500 mm")]
    [InlineData("vessel.emissivity=2", "vessel.emissivity", "0 to 1")]
    [InlineData("vessel.lid=ajar", "vessel.lid", "closed, open, insulated")]
    [InlineData("vessel.stands_on=floor", "vessel.stands_on", "rack, insulated")]
    [InlineData("vessel.level=2 m", "vessel.level", "10 to 330 mm")]
    [InlineData("vessel.use=pail-18l", "vessel.use", "pail-19l, pail-23l")]
    [InlineData("warming.by=microwave", "warming.by", "warm-air, bath, jacket, band, immersion")]
    [InlineData("warming.by=bath", "warming.water_level", "is missing")]
    [InlineData("warming.by=jacket", "warming.upper_end", "is missing")]
    [InlineData("warming.water_level=1 m", "warming.water_level", "it goes with \"bath\"")]
    [InlineData("warming.contact=50 W/m2K", "warming.contact", "it goes with \"band\"")]
    [InlineData("warming.from=90 °C", "warming.from", "-20 to 80 °C")]
    [InlineData("warming.from=18", "warming.from", "°C, °F, K")]
    [InlineData("warming.granulation=medium", "warming.granulation", "fine, coarse")]
    [InlineData("warming.crystals=15 %", "warming.granulation", "is missing")]
    [InlineData("warming.melt_from=40 °C", "warming.melt_to", "is missing")]
    [InlineData("warming.air_speed=100 m/s", "warming.air_speed", "0 to 20")]
    [InlineData("warming.power=2 MW", "warming.power", "units of a power: W, kW")]
    [InlineData("warming.power=2000 kW", "warming.power", "1 to 1000000 W")]
    [InlineData("warming.power=1e300 W", "warming.power", "1 to 1000000 W")]
    [InlineData("warming.body_start=200 °C", "warming.body_start", "-30 to 120 °C")]
    [InlineData("warming.body_heat_capacity=1 J/K", "warming.body_heat_capacity", "0.1 to 100000 kJ/K")]
    [InlineData("warming.loss_area=5000 m2", "warming.loss_area", "0 to 1000 m²")]
    [InlineData("warming.loss_coefficient=500 W/m2K", "warming.loss_coefficient", "0 to 100")]
    [InlineData("warming.room=90 °C", "warming.room", "-30 to 60 °C")]
    [InlineData("thermostat.setpoint=200 °C", "thermostat.setpoint", "-30 to 120 °C")]
    [InlineData("thermostat.setpoint=[]", "thermostat.setpoint", "\"12 h 40 °C\"")]
    [InlineData("thermostat.setpoint=[\"1 h 40 °C\"]", "thermostat.setpoint", "begins at 0 s")]
    [InlineData("thermostat.setpoint=[\"0 h 40 °C\", \"0 h 45 °C\"]", "thermostat.setpoint", "does not come later")]
    [InlineData("thermostat.setpoint=[\"0 h 40 °C\", \"5 h\"]", "thermostat.setpoint", "\"12 h ramp 40 °C\"")]
    [InlineData("thermostat.setpoint=[\"0 h 40 °C\", \"5 h 45 mm\"]", "thermostat.setpoint", "is a length, but a temperature is wanted")]
    [InlineData("thermostat.setpoint=[\"0 h 40 °C\", \"5 kg 45 °C\"]", "thermostat.setpoint", "is a mass, but a time is wanted")]
    [InlineData("thermostat.setpoint=[\"0 h 40 °C\", \"5 h slowly 45 °C\"]", "thermostat.setpoint", "not known")]
    [InlineData("thermostat.sensor=lid", "thermostat.sensor", "body, wall, honey")]
    [InlineData("thermostat.sensor=wall", "thermostat.sensor", "needs a heater of stated power")]
    [InlineData("thermostat.lag=2 h", "thermostat.lag", "1 to 3600 s")]
    [InlineData("thermostat.cut_out=200 °C", "thermostat.cut_out", "-20 to 150 °C")]
    [InlineData("until.mean=200 °C", "until.mean", "-20 to 100 °C")]
    [InlineData("until.coldest=200 °C", "until.coldest", "-20 to 100 °C")]
    [InlineData("until.thin=1 cP", "until.thin", "0.05 to 10000 Pa·s")]
    [InlineData("until.no_crystals=soon", "until.no_crystals", "true or false")]
    [InlineData("until.hold=90 d", "until.hold", "0 to 60 d")]
    [InlineData("until.longest=90 d", "until.longest", "1 to 86400 min")]
    [InlineData("heat.hmf=5", "heat.hmf", "mg/kg, g/kg, %")]
    [InlineData("heat.hmf=5 g/kg", "heat.hmf", "0 to 1000 mg/kg")]
    [InlineData("heat.diastase=200", "heat.diastase", "0 to 100")]
    [InlineData("heat.law=hmf", "heat.law", "hmf-20-70, hmf-30-70")]
    [InlineData("heat.floral_multiplier=100", "heat.floral_multiplier", "0.0833 to 12")]
    [InlineData("limits.heat=us", "limits.heat", "eu-tropical")]
    [InlineData("limits.diastase=200", "limits.diastase", "0 to 100")]
    [InlineData("limits.confidence=broken", "limits.confidence", "only-at-the-kind-end")]
    [InlineData("run.radial_cells=1", "run.radial_cells", "2 to 400")]
    [InlineData("run.step_error=10 K", "run.step_error", "1e-7 to 1 K")]
    [InlineData("run.maps=[\"2 h\", \"1 h\"]", "run.maps", "increase")]
    [InlineData("warming.colour=1", "\"colour\" is not a key of [warming]", "known here: by, from,")]
    [InlineData("warning.by=bath", "[warning] is not a section", "nearest: [warming]")]
    public void Refused(string setting, string key, string allowed)
    {
        Ran ran = Ran.With("warm", "--set", setting);
        Assert.True(ran.Code == ExitCode.BadInput, ran.Out);
        Assert.Empty(ran.Out);
        Assert.Contains(setting.Split('=')[0].Split('.')[0], ran.Error, StringComparison.Ordinal);
        Assert.Contains(key, ran.Error, StringComparison.Ordinal);
        Assert.Contains(allowed, ran.Error, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("warming.from=64.4 F", "warming.from=18 °C")] // (64.4 − 32)/1.8 = 18
    [InlineData("thermostat.setpoint=[\"0 h 42 °C\"]", "thermostat.setpoint=107.6 F")] // (107.6 − 32)/1.8 = 42
    [InlineData("vessel.insulation=foam 1 in", "vessel.insulation=[\"foam 25.4 mm\"]")]
    [InlineData("vessel.fill=19 L", "vessel.fill=0.019 m3")]
    [InlineData("vessel.level=298 mm", "vessel.stands_on=RACK")] // the example's own
    [InlineData("warming.air_speed=1 m/s", "warming.air_speed=196.8503937007874 ft/min")] // 60/0.3048
    [InlineData("until.coldest=35 °C", "until.coldest=95 F")]
    public void Two_ways_of_saying_the_same(string one, string other)
    {
        double a = Seconds(one);
        Assert.Equal(a, Seconds(other), 1e-3 * a);
    }

    /// <summary>Directions that follow from the balance of heat alone; how far is the library's affair.</summary>
    [Theory]
    [InlineData("warming.from=25 °C", -1)]
    [InlineData("thermostat.setpoint=48 °C", -1)]
    [InlineData("warming.air_speed=2 m/s", -1)]
    [InlineData("vessel.insulation=foam 30 mm", +1)]
    [InlineData("vessel.stands_on=insulated", +1)]
    [InlineData("vessel.lid=insulated", +1)]
    [InlineData("vessel.use=drum-114l", +1, "vessel.level=600 mm")]
    [InlineData("warming.granulation=fine", +1)]
    [InlineData("until.coldest=35 °C", +1)]
    [InlineData("until.mean=38 °C", +1)]
    [InlineData("thermostat.setpoint=[\"0 h 30 °C\", \"5 h 42 °C\"]", +1)]
    [InlineData("thermostat.setpoint=[\"0 h 30 °C\", \"5 h ramp 42 °C\"]", +1)]
    [InlineData("warming.power=60 W", +1)]
    public void A_change_changes_the_time(string setting, int sign, string? more = null)
    {
        double usual = Seconds("vessel.stands_on=rack");
        Assert.Equal(sign, Math.Sign(Seconds(more is null ? [setting] : [setting, more]) - usual));
    }

    [Fact]
    public void A_ramp_is_sooner_than_the_jump_at_its_end_and_later_than_the_jump_at_its_begin()
    {
        double ramp = Seconds("thermostat.setpoint=[\"0 h 30 °C\", \"5 h ramp 42 °C\"]");
        Assert.InRange(ramp, Seconds("thermostat.setpoint=42 °C"), Seconds("thermostat.setpoint=[\"0 h 30 °C\", \"5 h 42 °C\"]"));
    }

    [Fact]
    public void Steps_may_be_below_freezing()
    {
        Problems problems = new();
        InputDocument document = TomlReader.Read("[thermostat]\nsetpoint = [\"0 h -5 °C\", \"1 h \u221210.5 °C\", \"1 d 2 h, ramp 5 °C\"]", "test", problems);
        Journal journal = new(new Spot("test", 1, 1));
        Warming.Thermostat? read = ThermostatReader.Read(new Section("thermostat", document, problems, journal), limited: false, journal);
        Assert.Empty(problems.All);
        Assert.Equal([-5, -10.5, 5], read!.Schedule.Select(step => Math.Round(step.Setpoint.DegreesCelsius, 9)));
        Assert.Equal([0, 3600, 26 * 3600], read.Schedule.Select(step => step.At.Seconds));
        Assert.Equal([false, false, true], read.Schedule.Select(step => step.Ramp));
    }

    [Fact]
    public void A_file_with_the_sections_of_straining_alone_is_warmed_by_documented_defaults()
    {
        string text = Demo.Text[..Demo.Text.IndexOf("[vessel]", StringComparison.Ordinal)];
        Ran ran = Ran.With("warm", _folder.Write("old.toml", text), "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        using var json = JsonDocument.Parse(ran.Out);
        string[] assumed = [.. json.RootElement.GetProperty("assumptions").EnumerateArray().Select(a => a.GetProperty("key").GetString()!)];
        Assert.Subset(assumed.ToHashSet(StringComparer.Ordinal), new HashSet<string>(
            ["vessel.use", "vessel.wall", "warming.by", "warming.from", "warming.power", "thermostat.setpoint", "until.mean", "heat.hmf", "heat.floral_multiplier", "limits.heat"], StringComparer.Ordinal));
        Assert.All(json.RootElement.GetProperty("assumptions").EnumerateArray(), a => Assert.NotEmpty(a.GetProperty("standing").GetString()!));
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("after").ValueKind);
        Assert.Equal("unknown", json.RootElement.GetProperty("heatLimit").GetProperty("check").GetString());
    }

    [Fact]
    public void A_vessel_of_its_own_needs_no_tank()
    {
        string path = _folder.Write("jar.toml", "[honey]\nmoisture = \"17 %\"\ntemperature = \"35 °C\"\n[vessel]\nshape = \"upright-cylinder\"\ndiameter = \"80 mm\"\nheight = \"110 mm\"\nfill = \"500 g\"\ncount = 24\n");
        Ran ran = Ran.With("warm", path, "--json");
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        using var json = JsonDocument.Parse(ran.Out);
        Assert.Equal(0.5, json.RootElement.GetProperty("honeyKgPerVessel").GetDouble(), 5e-3);
        Assert.Equal(24, json.RootElement.GetProperty("vessels").GetInt32());
    }

    [Fact]
    public void What_is_wrong_in_the_tank_is_said_of_the_tank()
    {
        Ran ran = Ran.With("warm", "--set", "tank.fill=100 L");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.StartsWith("--set tank.fill=100 L: tank.fill: 100 L do not fit", ran.Error, StringComparison.Ordinal);
        Assert.Contains("tank.level: \"5 mm\" is outside what is allowed, 10 to 330 mm", Ran.With("warm", "--set", "tank.level=5 mm").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_own_limit_takes_the_place_of_a_published_one()
    {
        string path = _folder.Write("own.toml", Demo.Text.Replace("# hmf = \"20 mg/kg\"", "hmf = \"20 mg/kg\"", StringComparison.Ordinal));
        Assert.Contains("within the limit you set (at most 20 mg/kg)", Folded(Ran.With("warm", path, "-q")), StringComparison.Ordinal);
        Assert.Contains("within the limit of Codex", Folded(Ran.With("warm", path, "-q", "--set", "limits.heat=codex")), StringComparison.Ordinal);
        string both = _folder.Write("both.toml", Demo.Text.Replace("# hmf = \"20 mg/kg\"", "heat = \"eu\"\nhmf = \"20 mg/kg\"", StringComparison.Ordinal));
        Assert.Contains("stands beside heat", Ran.With("warm", both).Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("thermostat.hysteresis=3 K", "thermostat.hysteresis does not steer anything")]
    [InlineData("warming.body_start=20 °C", "warming.body_start plays no part")]
    public void What_plays_no_part_is_said(string setting, string said) =>
        Assert.Contains(said, Folded(Ran.With("warm", "--set", setting)), StringComparison.Ordinal);

    [Fact]
    public void An_option_for_another_kit_drops_what_went_with_the_old_one()
    {
        string path = _folder.Write("fan.toml", Demo.Text.Replace("# air_speed = \"0 m/s\"", "air_speed = \"1 m/s\"", StringComparison.Ordinal));
        Assert.Equal(ExitCode.Done, Ran.With("warm", path, "--set", "warming.by=bath", "--set", "warming.water_level=250 mm").Code);
    }

    private static string Folded(Ran ran) => string.Join(' ', ran.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static double Seconds(params string[] settings)
    {
        // Few cells: these tests ask for directions and sameness.
        Ran ran = Ran.With(["warm", "--json", "--set", "run.radial_cells=6", "--set", "run.axial_cells=8", .. settings.SelectMany(setting => new[] { "--set", setting })]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        using var json = JsonDocument.Parse(ran.Out);
        return json.RootElement.GetProperty("timeToTargetSeconds").GetDouble();
    }
}
