using FlowSim.Properties;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

public class WarmingCautionsTests
{
    private static Temperature Celsius(double celsius) => Temperature.FromDegreesCelsius(celsius);

    private static Thermostat At(double celsius, double? cutOutC = null) =>
        Thermostat.At(Celsius(celsius)) with { CutOut = cutOutC is { } c ? Celsius(c) : null };

    private static IReadOnlyList<Caution> For(HeatingKit kit, double surfaceC = 40, double honeyC = 38, double kg = 10) =>
        WarmingCautions.For(surfaceC + 273.15, honeyC + 273.15, kg, kit);

    private static readonly HeatingKit[] s_kits =
    [
        new WarmAir { Thermostat = At(45) },
        new HeatedBath { Thermostat = At(45), WaterLevel = Length.FromMillimeters(250) },
        new HeatedJacket { Thermostat = At(45), To = Length.FromMillimeters(300) },
        new BandHeater { Thermostat = At(45), From = Length.Zero, To = Length.FromMillimeters(100) },
        new ImmersionHeater { Thermostat = At(45), From = Length.Zero, To = Length.FromMillimeters(100), Radius = Length.FromMillimeters(20) },
    ];

    [Fact]
    public void Every_kit_has_its_own_words_about_electricity()
    {
        // Protected circuits, the maker and licensed work are common practice; so is a list that names no kit twice.
        string[] texts = [.. s_kits.Select(kit => For(kit).Single(c => c.Code == "electricity").Text)];
        Assert.Equal(texts.Length, texts.Distinct(StringComparer.Ordinal).Count());
        Assert.All(texts, text =>
        {
            Assert.Contains("residual-current", text, StringComparison.Ordinal);
            Assert.Contains("maker", text, StringComparison.Ordinal);
            Assert.Contains("licensed", text, StringComparison.Ordinal);
        });
        Type[] all = [.. typeof(HeatingKit).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(HeatingKit)))];
        Assert.Equal(all.Length, s_kits.Length);
    }

    [Theory]
    [InlineData(47.9, null)]
    [InlineData(48, "minutes")]
    [InlineData(53.9, "minutes")]
    [InlineData(54, "seconds")]
    public void Hot_honey_is_warned_of(double celsius, string? word)
    {
        Caution? scald = For(s_kits[0], honeyC: celsius).SingleOrDefault(c => c.Code == "scald");
        if (word is null)
            Assert.Null(scald);
        else
            Assert.Contains(word, scald!.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(47.9, null)]
    [InlineData(48, "lean on")]
    [InlineData(64.9, "lean on")]
    [InlineData(65, "at a touch")]
    public void Hot_walls_and_elements_are_warned_of(double celsius, string? words)
    {
        Caution? surface = For(s_kits[3], surfaceC: celsius).SingleOrDefault(c => c.Code == "hot-surface");
        if (words is null)
            Assert.Null(surface);
        else
            Assert.Contains(words, surface!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_full_pail_is_too_heavy_and_the_vessel_is_not_counted()
    {
        // 60 lb of honey is 27.2 kg.
        string text = For(s_kits[0], kg: 27.2).Single(c => c.Code == "lift").Text;
        Assert.Contains("27.2 kg, and the vessel, whose weight is not known here", text, StringComparison.Ordinal);
        Assert.DoesNotContain(For(s_kits[0], kg: 23), c => c.Code == "lift");
    }

    [Fact]
    public void A_lid_stays_loose_by_as_much_as_honey_expands()
    {
        Assert.Contains(For(s_kits[0]), c => c.Code == "do-not-seal" && c.Text.Contains("about 1 % from 20 to 45 °C", StringComparison.Ordinal));
        double cold = HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(17) }).DensityAt(Celsius(20)).KilogramsPerCubicMeter;
        double warm = HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(17) }).DensityAt(Celsius(45)).KilogramsPerCubicMeter;
        Assert.Equal(1.0, 100 * (cold / warm - 1), 0.05);
    }

    [Fact]
    public void A_plan_without_cut_out_is_told_so()
    {
        Assert.Contains(For(new WarmAir { Thermostat = At(45) }), c => c.Code == "cut-out");
        Assert.DoesNotContain(For(new WarmAir { Thermostat = At(45, cutOutC: 60) }), c => c.Code == "cut-out");
    }

    [Fact]
    public void A_cold_room_has_no_heater_to_mind()
    {
        string[] codes = [.. For(new WarmAir { Thermostat = At(10) }).Select(c => c.Code)];
        Assert.Equal(["slip", "infants", "local-rules"], codes);
        Assert.DoesNotContain(For(new WarmAir { Thermostat = At(24.9) }), c => c.Code == "electricity");
        Assert.Contains(For(new WarmAir { Thermostat = At(25) }), c => c.Code == "electricity");
        Thermostat laterWarm = new() { Schedule = [new SetpointStep(Duration.Zero, Celsius(10)), new SetpointStep(Duration.FromHours(1), Celsius(40))] };
        Assert.Contains(For(new WarmAir { Thermostat = laterWarm }), c => c.Code == "electricity");
    }

    [Fact]
    public void Texts_are_short_defer_to_local_rules_and_call_nothing_harmless()
    {
        foreach (HeatingKit kit in s_kits)
        {
            IReadOnlyList<Caution> cautions = For(kit, 90, 70, 300);
            Assert.Equal(cautions.Count, cautions.Select(c => c.Code).Distinct(StringComparer.Ordinal).Count());
            Assert.Contains(cautions, c => c.Code == "local-rules");
            Assert.Contains(cautions, c => c.Code == "infants");
            Assert.All(cautions, c =>
            {
                Assert.DoesNotContain("safe", c.Text, StringComparison.OrdinalIgnoreCase);
                Assert.InRange(c.Text.Length, 20, 220); // Three lines of a terminal: longer is not read.
            });
        }
    }
}
