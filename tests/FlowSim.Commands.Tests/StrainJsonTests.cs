using System.Text.Json;
using FlowSim.Catalogue;
using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>JSON of a run: its shape, and that it says what the library says of the same setup built by hand.</summary>
public sealed class StrainJsonTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void It_has_the_keys_that_are_promised_in_a_stable_order()
    {
        using JsonDocument json = Run();
        string[] promised =
        [
            "status", "ending", "elapsedSeconds", "drainSeconds", "drain50Seconds", "drain90Seconds", "drain99Seconds", "drainToHeelSeconds",
            "strainSeconds", "peakPondM", "peakPondSeconds", "rimM", "firstOverflowSeconds", "overflowSeconds", "strainedKg", "bypassedKg",
            "spilledKg", "heldKg", "heldOnClothKg", "heldInFilmKg", "heldInTankKg", "massBalanceRelative", "viscosityPaS", "blindedShare",
            "scrapeSeconds", "spread", "notices", "cautions", "solver",
        ];
        string[] names = [.. json.RootElement.EnumerateObject().Select(p => p.Name)];
        Assert.Equal(promised, names.Where(promised.Contains), StringComparer.Ordinal);
        Assert.All(names, name => Assert.True(char.IsAsciiLetterLower(name[0]) && name.All(char.IsAsciiLetterOrDigit), name));
        Assert.Equal(names.Length, names.ToHashSet(StringComparer.Ordinal).Count);
    }

    [Fact]
    public void It_says_what_the_library_says()
    {
        StrainingResult expected = StrainingRun.Simulate(DemoByHand());
        using JsonDocument json = Run();
        JsonElement root = json.RootElement;

        // The same setup reaches the library by two ways; inputs may differ in their last place.
        Near(expected.Drain.To95!.Value.Seconds, "drainSeconds");
        Near(expected.Drain.To50!.Value.Seconds, "drain50Seconds");
        Near(expected.DrainToHeel!.Value.Seconds, "drainToHeelSeconds");
        Near(expected.PeakPond.Meters, "peakPondM");
        Near(expected.FirstOverflow!.Value.Seconds, "firstOverflowSeconds");
        Near(expected.Masses.Strained.Kilograms, "strainedKg");
        Near(expected.Masses.Bypassed.Kilograms, "bypassedKg");
        Near(expected.Masses.Held.Kilograms, "heldKg");
        Near(expected.StartViscosity.PascalSeconds, "viscosityPaS");
        Near(expected.Blinded[0].DecimalFractions, root.GetProperty("blindedShare")[0].GetDouble());
        Assert.Equal("overflowed", root.GetProperty("status").GetString());
        Assert.Equal(expected.Notices.Select(n => n.Code), root.GetProperty("notices").EnumerateArray().Select(n => n.GetProperty("code").GetString()!), StringComparer.Ordinal);
        Assert.Equal(expected.Cautions.Select(c => c.Text), root.GetProperty("cautions").EnumerateArray().Select(c => c.GetProperty("text").GetString()!), StringComparer.Ordinal);

        void Near(double value, object place) =>
            Assert.Equal(value, place is string name ? root.GetProperty(name).GetDouble() : (double)place, 1e-6 * Math.Abs(value));
    }

    [Fact]
    public void The_run_itself_lies_within_its_spread()
    {
        using JsonDocument json = Run("--set", "gate.opening=20%");
        JsonElement spread = json.RootElement.GetProperty("spread");
        Assert.InRange(json.RootElement.GetProperty("strainSeconds").GetDouble(), spread.GetProperty("strainLowSeconds").GetDouble(), spread.GetProperty("strainHighSeconds").GetDouble());
        Assert.InRange(json.RootElement.GetProperty("peakPondM").GetDouble(), spread.GetProperty("peakPondLowM").GetDouble(), spread.GetProperty("peakPondHighM").GetDouble());
    }

    [Fact]
    public void The_masses_add_up()
    {
        using JsonDocument json = Run();
        double Kg(string name) => json.RootElement.GetProperty(name).GetDouble();
        Assert.Equal(Kg("heldOnClothKg") + Kg("heldInFilmKg") + Kg("heldInTankKg"), Kg("heldKg"), 1e-9);
        Assert.Equal(Kg("startKg"), Kg("strainedKg") + Kg("bypassedKg") + Kg("spilledKg") + Kg("heldKg"), 1e-6 * Kg("startKg"));
    }

    [Fact]
    public void What_never_happened_is_null_and_a_shut_gate_is_told_without_a_number_that_json_lacks()
    {
        using JsonDocument dry = Run("--set", "gate.opening=10%");
        Assert.Equal(JsonValueKind.Null, dry.RootElement.GetProperty("firstOverflowSeconds").ValueKind);
        Assert.Equal(0, dry.RootElement.GetProperty("overflowSeconds").GetDouble());
        using JsonDocument shut = Run("--set", "gate.opening=0%");
        Assert.Equal(JsonValueKind.Null, shut.RootElement.GetProperty("drainSeconds").ValueKind);
    }

    [Theory]
    [InlineData("--set", "gate.bore=1 mm")]
    [InlineData("none.toml")]
    [InlineData("--set", "honey.form=gelling")]
    public void Errors_leave_stdout_empty(params string[] arguments)
    {
        Ran ran = Ran.With(["strain", "--json", .. arguments]);
        Assert.NotEqual(ExitCode.Done, ran.Code);
        Assert.Empty(ran.Out);
        Assert.NotEmpty(ran.Error);
    }

    [Fact]
    public void The_honey_sheet_and_its_table_are_json_too()
    {
        Ran ran = Ran.With("honey", "--json", "--table", "--property", "density");
        using var json = JsonDocument.Parse(ran.Out);
        JsonElement table = json.RootElement.GetProperty("table");
        Assert.Equal("density", table.GetProperty("property").GetString());
        Assert.Equal(table.GetProperty("moistureShare").GetArrayLength(), table.GetProperty("rows").GetArrayLength());
        Assert.All(table.GetProperty("rows").EnumerateArray(), row => Assert.Equal(table.GetProperty("temperatureK").GetArrayLength(), row.GetProperty("values").GetArrayLength()));
    }

    private static JsonDocument Run(params string[] more)
    {
        Ran ran = Ran.With(["strain", "--json", .. more]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return JsonDocument.Parse(ran.Out);
    }

    /// <summary>The example, built in code from the figures that stand in demo.toml.</summary>
    private static StrainingSetup DemoByHand() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        RoomTemperature = Temperature.FromDegreesCelsius(22),
        Tank = new Tank { Shape = CommonVessels.ByName("pail-19l").Item, Level = Length.FromMillimeters(298) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(30)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)),
            Cloths = [new Cloth { Opening = Length.FromMicrometers(400), WireDiameter = Length.FromMicrometers(250) }],
        },

        // A cylinder as wide as high holds π d³/4.
        Receiver = new Receiver
        {
            Shape = new UprightCylinder(Length.FromMeters(Math.Cbrt(0.1 / Math.PI)), Length.FromMeters(Math.Cbrt(0.1 / Math.PI))),
            Spacer = Length.FromMillimeters(30),
        },
    };
}
