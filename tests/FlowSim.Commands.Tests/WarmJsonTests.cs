using System.Text.Json;
using FlowSim.Catalogue;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>JSON of a warming run: its shape, and that it says what the library says of the same setup built by hand.</summary>
public sealed class WarmJsonTests
{
    [Fact]
    public void It_has_the_keys_that_are_promised_in_a_stable_order()
    {
        using JsonDocument json = Run();
        string[] promised =
        [
            "status", "elapsedSeconds", "timeToTargetSeconds", "timeToTargetLowSeconds", "timeToTargetHighSeconds", "targets", "coldestK", "meanK",
            "wallMaxK", "energyJ", "hmfGainLow", "hmfGain", "hmfGainHigh", "diastaseLeft", "worst", "after", "heatLimit", "wellMixed", "conductionOnly", "spread",
            "notices", "cautions", "assumptions", "readAs", "solver",
        ];
        string[] names = [.. json.RootElement.EnumerateObject().Select(p => p.Name)];
        Assert.Equal(promised, names.Where(promised.Contains), StringComparer.Ordinal);
        Assert.All(names, name => Assert.True(char.IsAsciiLetterLower(name[0]) && name.All(char.IsAsciiLetterOrDigit), name));
        Assert.Equal(names.Length, names.ToHashSet(StringComparer.Ordinal).Count);
    }

    [Fact]
    public void It_says_what_the_library_says()
    {
        WarmingBounds expected = WarmingBounds.Of(DemoByHand());
        using JsonDocument json = Run();
        JsonElement root = json.RootElement;
        Assert.Equal("reached", root.GetProperty("status").GetString());
        Near(expected.Best.TimeToTarget!.Value.Seconds, "timeToTargetSeconds");
        Near(expected.TimeToTargetLow!.Value.Seconds, "timeToTargetLowSeconds");
        Near(expected.TimeToTargetHigh!.Value.Seconds, "timeToTargetHighSeconds");
        Near(expected.Best.End.Coldest.Kelvins, "coldestK");
        Near(expected.Best.HottestWall.Temperature.Kelvins, "wallMaxK");
        Near(expected.Best.Energy.Heater.Joules, "energyJ");
        Near(expected.Best.Damage.HmfGain.MilligramsPerKilogram, "hmfGain");
        Near(expected.Best.Damage.HmfGainHigh.MilligramsPerKilogram, "hmfGainHigh");
        Near(expected.Best.Damage.DiastaseLeft.DecimalFractions, "diastaseLeft");
        Assert.Equal(expected.Best.Cautions.Select(c => c.Text), root.GetProperty("cautions").EnumerateArray().Select(c => c.GetProperty("text").GetString()!), StringComparer.Ordinal);

        // The same setup reaches the library by two ways; inputs may differ in their last place.
        void Near(double value, string name) => Assert.Equal(value, root.GetProperty(name).GetDouble(), 1e-6 * Math.Abs(value));
    }

    [Fact]
    public void Bounds_bands_and_energies_are_in_order()
    {
        using JsonDocument json = Run("--set", "warming.power=150 W", "--set", "warming.loss_area=2 m2");
        JsonElement root = json.RootElement;
        double Of(string name) => root.GetProperty(name).GetDouble();
        Assert.InRange(Of("timeToTargetSeconds"), Of("timeToTargetLowSeconds"), Of("timeToTargetHighSeconds"));
        JsonElement spread = root.GetProperty("spread");
        Assert.InRange(Of("timeToTargetSeconds"), spread.GetProperty("timeToTargetLowSeconds").GetDouble(), spread.GetProperty("timeToTargetHighSeconds").GetDouble());
        Assert.InRange(Of("hmfGain"), Of("hmfGainLow"), Of("hmfGainHigh"));
        Assert.InRange(Of("diastaseLeft"), Of("diastaseLeftLow"), Of("diastaseLeftHigh"));
        Assert.True(root.GetProperty("worst").GetProperty("hmfGain").GetDouble() >= Of("hmfGain"));
        Assert.Equal(Of("energyJ"), Of("intoHoneyJ") + Of("intoBodyJ") + Of("toRoomJ"), 1e-6 * Of("energyJ"));
        Assert.InRange(Of("meanK"), Of("coldestK"), Of("hottestK"));
    }

    [Fact]
    public void What_never_happened_is_null()
    {
        using JsonDocument json = Run("--set", "until.longest=1 h");
        Assert.Equal("time-limit", json.RootElement.GetProperty("status").GetString());
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("timeToTargetSeconds").ValueKind);
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("targets")[0].GetProperty("seconds").ValueKind);
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("cutOutSeconds").ValueKind);
    }

    [Fact]
    public void A_ceiling_that_is_set_is_echoed()
    {
        using JsonDocument own = Run("--set", "limits.ceiling=45 °C");
        Assert.True(own.RootElement.GetProperty("ceilingIsSetByUser").GetBoolean());
        Assert.Equal(318.15, own.RootElement.GetProperty("ceilingK").GetDouble(), 1e-9);
        using JsonDocument usual = Run();
        Assert.False(usual.RootElement.GetProperty("ceilingIsSetByUser").GetBoolean());
    }

    [Theory]
    [InlineData("--set", "warming.power=0 W")]
    [InlineData("none.toml")]
    [InlineData("--set", "honey.form=gelling")]
    public void Errors_leave_stdout_empty(params string[] arguments)
    {
        Ran ran = Ran.With(["warm", "--json", .. arguments]);
        Assert.NotEqual(ExitCode.Done, ran.Code);
        Assert.Empty(ran.Out);
        Assert.NotEmpty(ran.Error);
    }

    private static JsonDocument Run(params string[] more)
    {
        Ran ran = Ran.With(["warm", "--json", .. more]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return JsonDocument.Parse(ran.Out);
    }

    /// <summary>The example, built in code from the figures that stand in demo.toml.</summary>
    private static WarmingSetup DemoByHand() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        StartTemperature = Temperature.FromDegreesCelsius(18),
        Vessel = new WarmedVessel
        {
            Shape = CommonVessels.ByName("pail-19l").Item,
            Level = Length.FromMillimeters(298),
            Wall = [WallMaterial.ByName("polyethylene").Layer(Length.FromMillimeters(2))],
        },
        Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(42)) },
        RoomTemperature = Temperature.FromDegreesCelsius(22),
        Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(35))],
        Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(4), DiastaseNumber = 20 },
    };
}
