using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Hours for a layer of 1 m to clear by standing: 360 at 10 °C, 72 at 20 °C, 10 at 35 °C, 2 at 50 °C. Tradition rather than measurement, without
/// moisture or what counts as clear: so their ratios are tested, and of their level only that it lies in our band.
/// </summary>
[Publication("Practice of settling", "Hours for 1 m of honey to clear, on two public beekeeping pages", Standing.SecondaryCopy, Remark = "tradition rather than measurement")]
public class SettlingPracticeTests
{
    private static readonly (double Celsius, double Hours)[] Practice = [(10, 360), (20, 72), (35, 10), (50, 2)];

    private static SettlingSetup Layer(double celsius) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17) },
        Depth = Length.FromMeters(1),
        Temperature = TemperatureHistory.Hold(Temperature.FromDegreesCelsius(celsius), Duration.FromHours(1)),
        Longest = Duration.FromDays(1000),
        Debris = null,
    };

    private static double Hours(double celsius) => SettlingRun.Simulate(Layer(celsius)).ClearAfter!.Value.Hours;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void From_one_temperature_to_the_next_the_times_go_as_in_practice_within_40_percent(int from)
    {
        (double cool, double coolHours) = Practice[from];
        (double warm, double warmHours) = Practice[from + 1];
        Published.Agrees(
            coolHours / warmHours,
            Hours(cool) / Hours(warm),
            Within.Ratio(1 / 1.4, 1.4, "round figures of tradition, without moisture or what counts as clear"),
            $"time at {cool} °C over that at {warm} °C");
    }

    [Theory]
    [InlineData(20, 72)]
    [InlineData(35, 10)]
    [InlineData(50, 2)]
    public void The_times_of_practice_lie_within_the_band(double celsius, double hours)
    {
        SettlingBand band = SettlingBand.Of(Layer(celsius));
        Published.IsHeldBy(
            (band.Quick!.Value.Hours, band.Slow!.Value.Hours), hours, "neither moisture nor what counts as clear is given", $"time to clear 1 m at {celsius} °C", "h");
    }

    /// <summary>
    /// "Generally about a week", "several hours to a full day" for wax, "overnight" for strained honey in a settling bucket, without temperature. Between
    /// them lies what we compute for wax in half a metre.
    /// </summary>
    [Theory]
    [Publication("practice of settling wax", "public pages of a dealer and of a club of beekeepers", Standing.Opened, Remark = "excerpts; from half a day to two weeks as their words are taken")]
    [InlineData(25)]
    [InlineData(35)]
    public void Wax_in_half_a_metre_takes_days(double celsius)
    {
        SettlingResult result = SettlingRun.Simulate(Layer(celsius) with { Depth = Length.FromMeters(0.5), Debris = new() { Load = Ratio.FromPartsPerMillion(1000) } });
        Published.Holds(0.5, 14, result.Debris!.ClearAfter!.Value.Days, "words, not figures", $"wax out of half a metre at {celsius} °C", "d");
    }
}
