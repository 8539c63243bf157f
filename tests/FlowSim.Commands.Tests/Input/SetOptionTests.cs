using System.Text.Json;

namespace FlowSim.Commands.Tests.Input;

/// <summary>Options that set one key: they replace what the file says, and a refusal names the option and the range.</summary>
public class SetOptionTests
{
    [Theory]
    [InlineData("gate.bore=1 mm", "gate.bore", "3 to 200 mm")]
    [InlineData("gate.opening=140%", "gate.opening", "0 to 100 %")]
    [InlineData("screen.opening=40 mm", "screen.opening", "0.02 to 10 mm")]
    [InlineData("screen.factor=50", "screen.factor", "0.05 to 20")]
    [InlineData("screen.venting=sealed", "screen.venting", "spill")]
    [InlineData("honey.moisture=30 %", "honey.moisture", "13.5 to 21.5 %")]
    [InlineData("honey.temperature=90 °C", "honey.temperature", "10 to 70 °C")]
    [InlineData("honey.lot_factor=100", "honey.lot_factor", "0.05 to 20")]
    [InlineData("tank.level=2 m", "tank.level", "0.33 m")]
    [InlineData("tank.heat_loss=2000 W/m2K", "tank.heat_loss", "0 to 100")]
    [InlineData("receiver.heat_loss=2000 W/m2K", "receiver.heat_loss", "0 to 100")]
    [InlineData("tank.fill=100 L", "tank.fill", "L to the brim")]
    [InlineData("debris.load=50 %", "debris.load", "0 to 2 %")]
    [InlineData("scraping.recovery=120 %", "scraping.recovery", "0 to 1")]
    [InlineData("scraping.times=[\"10 min\", \"5 min\"]", "scraping.times", "increase")]
    [InlineData("gate.opening=[\"1 min 40%\"]", "gate.opening", "0 s")]
    [InlineData("gate.ride_pond=400 mm", "gate.ride_pond", "mm")]
    [InlineData("room.temperature=5000 K", "room.temperature", "-10 to 60 °C")]
    [InlineData("run.longest=0 s", "run.longest", "1 to 2592000 s")]
    [InlineData("run.tolerance=1", "run.tolerance", "0.001")]
    [InlineData("run.points=1.5", "run.points", "whole number")]
    [InlineData("honey.temperature=35", "honey.temperature", "°C, °F, K")]
    [InlineData("honey.temprature=35 C", "temprature", "nearest: \"temperature\"")]
    [InlineData("hony.temperature=35 C", "hony", "nearest: [honey]")]
    [InlineData("honey", "--set honey", "section.key=value")]
    [InlineData("a.b.c=1", "--set a.b.c", "section.key=value")]
    public void Refused(string setting, string key, string allowed)
    {
        Ran ran = Ran.With("strain", "--set", setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.StartsWith("--set " + setting, ran.Error, StringComparison.Ordinal);
        Assert.Contains(key, ran.Error, StringComparison.Ordinal);
        Assert.Contains(allowed, ran.Error, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void A_key_set_twice_is_refused()
    {
        Ran ran = Ran.With("strain", "--set", "gate.bore=30 mm", "--set", "gate.bore=40 mm");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("second time", ran.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("honey.temperature=95F", "honey.temperature=35 °C")]
    [InlineData("gate.bore=1 1/2 in", "gate.bore=38.1 mm")]
    [InlineData("gate.opening=[\"0 min 30%\"]", "gate.opening=30%")]
    [InlineData("screen.cloths=[\"600/400 um\"]", "screen.opening=600 um")]
    [InlineData("screen.cloths=[\"astm 30\"]", "screen.cloths=[\"cloth-600um\"]")] // ASTM E11: No. 30 is 600 µm
    [InlineData("tank.fill=19 L", "tank.fill=0.019 m3")]
    [InlineData("gate.use=gate-38mm", "gate.tube_length=40 mm")]
    [InlineData("honey.viscosity=VOGEL", "honey.viscosity=vogel")]
    [InlineData("tank.held=false", "tank.wall_film=true")]
    public void Two_ways_of_saying_the_same(string one, string other)
    {
        // Rounding in the last place of an input may move the last places of a result.
        double a = StrainedKg(one);
        double b = StrainedKg(other);
        Assert.Equal(a, b, 1e-6 * a);
    }

    [Fact]
    public void A_change_changes_the_result() =>
        Assert.NotEqual(StrainedKg("honey.temperature=25 °C"), StrainedKg("honey.temperature=45 °C"));

    [Fact]
    public void An_option_replaces_the_other_way_of_saying_it()
    {
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--set", "tank.use=tank-50l").Code);
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--set", "tank.shape=horizontal-cylinder", "--set", "tank.diameter=300 mm", "--set", "tank.length=0.5 m").Code);
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--set", "screen.form=cone", "--set", "screen.top_diameter=240 mm").Code);
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--set", "tank.fill=30 lb").Code);
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--set", "honey.measured=[\"30 °C, 5 Pa.s\", \"40 °C, 2 Pa.s\"]", "--set", "honey.form=gelling").Code);
    }

    [Fact]
    public void A_gallon_is_named_in_the_result()
    {
        Assert.Contains("US gallon", Ran.With("strain", "--set", "receiver.capacity=6 gal").Out, StringComparison.Ordinal);
        Assert.Contains("imperial gallon", Ran.With("strain", "--set", "receiver.capacity=6 imp gal").Out, StringComparison.Ordinal);
    }

    private static double StrainedKg(string setting)
    {
        Ran ran = Ran.With("strain", "--json", "--set", setting);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        using var json = JsonDocument.Parse(ran.Out);
        return json.RootElement.GetProperty("strainedKg").GetDouble();
    }
}
