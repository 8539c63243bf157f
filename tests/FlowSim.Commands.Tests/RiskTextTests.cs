using System.Text.Json;
using FlowSim.Commands.Output;
using FlowSim.OverflowRisk;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>Sentences, JSON and CSV about a chance, on answers invented for the purpose.</summary>
public class RiskTextTests
{
    [Theory]
    [InlineData(0, "none")]
    [InlineData(1e-5, "1 in 100000")]
    [InlineData(0.000123, "1 in 8100")] // 1/0.000123 = 8130
    [InlineData(0.0049, "1 in 200")] // 204.1
    [InlineData(0.01, "1 in 100")]
    [InlineData(0.025, "1 in 40")]
    [InlineData(0.15, "1 in 6.7")] // 6.667
    [InlineData(0.2, "20 in 100")]
    [InlineData(0.486, "49 in 100")]
    [InlineData(0.998, "more than 99 in 100")]
    [InlineData(1, "all")]
    [InlineData(1e-9, "less than 1 in 1000000")]
    public void A_chance_in_words(double chance, string words) => Assert.Equal(words, ChanceText.Words(chance));

    [Theory]
    [InlineData(0.025, 0.0192, 0.0303, "about 1 in 40 (1 in 52 to 1 in 33)")]
    [InlineData(0.37, 0.36, 0.39, "about 37 in 100 (36 to 39 in 100)")]
    [InlineData(0.45, 0.449, 0.451, "about 45 in 100")]
    [InlineData(0.19, 0.17, 0.22, "about 1 in 5.3 (1 in 5.9 to 22 in 100)")]
    [InlineData(0, 0, 0.0005, "none in 8192 runs (at most 1 in 2000)")]
    [InlineData(1, 0.9995, 1, "all")]
    [InlineData(0.997, 0.99, 0.999, "more than 99 in 100 (at least 99 in 100)")]
    [InlineData(0.98, 0.96, 0.999, "about 98 in 100 (96 in 100 to more than 99 in 100)")]
    [InlineData(0, 0, 1e-14, "less than 1 in 1000000")]
    [InlineData(1e-8, 1e-9, 1e-5, "less than 1 in 1000000 (at most 1 in 100000)")]
    public void With_its_interval(double value, double low, double high, string words) =>
        Assert.Equal(words, ChanceText.Of(InventedAnswer.Chance(value, low, high)));

    [Theory]
    [InlineData(0.01, "1 %")]
    [InlineData(0.0005, "0.05 %")]
    [InlineData(0.000001, "0.0001 %")]
    [InlineData(0.5, "50 %")]
    public void A_tolerance_keeps_its_figures(double chance, string words) => Assert.Equal(words, ChanceText.Percent(chance));

    [Theory]
    [InlineData(119.9, "1 min 59 s")]
    [InlineData(599, "9 min 50 s")]
    [InlineData(659, "10 min")]
    [InlineData(7199, "1 h 50 min")]
    [InlineData(0.4, "0 s")]
    public void A_time_that_must_not_be_exceeded_is_rounded_down(double seconds, string words) => Assert.Equal(words, Display.TimeAtMost(seconds));

    [Fact]
    public void The_result_answers_what_a_packer_asks()
    {
        string text = Outcome(InventedAnswer.Of());
        Assert.Contains("CHANCE OF AN OVERFLOW: about 1 in 40 (1 in 52 to 1 in 33), above the tolerance of 1 %", text, StringComparison.Ordinal);
        Assert.Contains("Look away For at most 3 min 50 s at a time; that is from 2 min on, and from the opening of the gate it is 8 min.", text, StringComparison.Ordinal);
        Assert.Contains("Open the gate To at most 18.5 % and leave it: then about 1 in 130 (1 in 170 to 1 in 100)", text, StringComparison.Ordinal);
        Assert.Contains("Or ride the pond At 62 mm or less, out of 100 mm to the rim, if somebody looks every 2 min", text, StringComparison.Ordinal);
        Assert.Contains("Scrape Every 8 min at this opening", text, StringComparison.Ordinal);
        Assert.Contains("95 % strained 14 min (eight in ten between 11 min and 18 min); 1 in 1000 never.", text, StringComparison.Ordinal);
        Assert.Contains("1. Narrow the gate to 18.5 %", text, StringComparison.Ordinal);
        Assert.Contains("2. Measure next: debris (debris.load): strain a weighed sample of 1 kg. Known exactly, it would narrow what is uncertain about whether it runs over by 20 %.", text, StringComparison.Ordinal);
        Assert.Contains("no better than those spreads", text, StringComparison.Ordinal);
        Assert.DoesNotContain("safe", text, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData(0.001, 0.0005, 0.0099, "within the tolerance of 1 % you set", "within")]
    [InlineData(0.02, 0.0101, 0.03, "above the tolerance of 1 % you set", "above")]
    [InlineData(0.009, 0.005, 0.02, "on either side of the tolerance of 1 % you set: take it as above", "cannot-be-told")]
    [InlineData(0, 0, 0.0099, "within the tolerance of 1 % you set", "within")]
    public void The_interval_decides_how_it_stands(double value, double low, double high, string said, string verdict)
    {
        RiskAnswer answer = InventedAnswer.Of() with { Overflow = InventedAnswer.Chance(value, low, high) };
        RiskStory story = InventedAnswer.Story(answer, "risk.tolerance=1 %");
        Assert.Contains(said, Outcome(story), StringComparison.Ordinal);
        using var json = JsonDocument.Parse(RiskJson.Of(story));
        Assert.Equal(verdict, json.RootElement.GetProperty("verdict").GetString());
    }

    [Theory]
    [InlineData("gate.opening=30%", "1. Narrow the gate to 18.5 %")]
    [InlineData("gate.opening=18%", "1. Narrow the gate a little, or ask for more runs")]
    [InlineData("gate.ride_pond=60 mm", "1. Leave the gate at 18.5 % in place of what is done with it now")]
    public void The_first_step_fits_what_is_done_with_the_gate(string setting, string step) =>
        Assert.Contains(step, Outcome(InventedAnswer.Of(setting)), StringComparison.Ordinal);

    [Fact]
    public void A_tolerance_that_nobody_set_is_not_called_yours() =>
        Assert.Contains("tolerance of 1 % (risk.tolerance sets another)", Outcome(InventedAnswer.Of()), StringComparison.Ordinal);

    [Fact]
    public void What_cannot_be_advised_is_said()
    {
        string text = Outcome(InventedAnswer.Of() with
        {
            Absence = new AbsenceAdvice(Duration.FromSeconds(0.2), Duration.FromSeconds(22.9), Duration.FromSeconds(33)),
            WidestOpening = new OpeningAdvice(Ratio.Zero, null, null),
            Riding = new RideAdvice(null, null),
            Scraping = new ScrapeAdvice(true, null, null),
            Strain = new TimeSpread(null, null, null, 0.95),
            MeasureNext = null,
        });
        Assert.Contains("For at most 22 s after the opening of the gate; from 33 s on not at all.", text, StringComparison.Ordinal);
        Assert.Contains("No opening keeps within the tolerance", text, StringComparison.Ordinal);
        Assert.Contains("Not with a look every 2 min", text, StringComparison.Ordinal);
        Assert.Contains("no interval that was tried keeps within the tolerance", text, StringComparison.Ordinal);
        Assert.Contains("not reached in nine of ten runs; 95 in 100 never.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Measure next", text, StringComparison.Ordinal);
        Assert.Contains("1. Stand by as said above, take a larger or coarser cloth", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_is_needed_that_is_said()
    {
        string text = Outcome(InventedAnswer.Of() with
        {
            Overflow = InventedAnswer.Chance(0, 0, 0.0004),
            Absence = new AbsenceAdvice(null, null, null),
            Scraping = new ScrapeAdvice(false, null, null),
        });
        Assert.Contains("none in 8192 runs (at most 1 in 2500), within", text, StringComparison.Ordinal);
        Assert.Contains("Nobody need stand by for the tolerance: the whole run is within it.", text, StringComparison.Ordinal);
        Assert.Contains("Scrape Not needed for the tolerance.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Narrow the gate", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_shows_spreads_with_their_standing_and_drivers_with_bars()
    {
        string[] given = ["honey.moisture=17.8 ± 0.1 %", "risk.correlated=[\"honey.moisture, honey.lot_factor, -0.3\"]"];
        StringWriter writer = new();
        new RiskText(new Page(writer, 80, colour: false), new Display(UnitChoice.Metric)).Write(InventedAnswer.Story(InventedAnswer.Of(given), given));
        string page = writer.ToString();
        Assert.All(page.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        string flat = Flat(page);
        Assert.Contains("- moisture 17.8 ± 0.1 % [given by you; honey.moisture]", flat, StringComparison.Ordinal);
        Assert.Matches(@"- honey temperature 35 °C ± 1 °C: [^\[]+\[engineering choice; honey\.temperature\]", flat);
        Assert.Contains("honey.moisture and honey.lot_factor go together, correlation -0.3 [given by you; risk.correlated]", flat, StringComparison.Ordinal);

        // 20 places for a share of 1: 0.31 is 6 of them, 0.58 is 12.
        Assert.Contains("  debris".PadRight(26) + "██████░░░░░░".PadRight(20) + "    31 %  58 % (53 to 63)", page, StringComparison.Ordinal);
        Assert.Contains("lot factor of viscosity + moisture", flat, StringComparison.Ordinal);
        Assert.DoesNotContain("level in the tank ", page[page.IndexOf("What drives", StringComparison.Ordinal)..page.IndexOf("Result", StringComparison.Ordinal)], StringComparison.Ordinal);
        Assert.Contains("Not told: every run takes the same time", flat, StringComparison.Ordinal);
        Assert.EndsWith(Flat(OutcomeOf(InventedAnswer.Story(InventedAnswer.Of(given), given))), flat, StringComparison.Ordinal);
    }

    [Fact]
    public void Us_units()
    {
        // 62 mm = 2.44 in, 0.1 kg = 0.22 lb, 35 °C = 95 °F, 1 K is 1.8 °F of difference.
        StringWriter writer = new();
        new RiskText(new Page(writer, 80, colour: false), new Display(UnitChoice.Us)).Write(InventedAnswer.Story(InventedAnswer.Of()));
        string flat = Flat(writer.ToString());
        Assert.Contains("At 2.44 in or less", flat, StringComparison.Ordinal);
        Assert.Contains("> 0.22 lb past cloth", flat, StringComparison.Ordinal);
        Assert.Contains("honey temperature 95 °F ± 1.8 °F", flat, StringComparison.Ordinal);
        Assert.DoesNotContain("°C", flat, StringComparison.Ordinal);
    }

    [Fact]
    public void The_names_in_json_are_the_ones_promised()
    {
        string[] promised =
        [
            "verdict", "overflowProbability", "overflowProbabilityLow", "overflowProbabilityHigh", "tolerance", "method",
            "longestAbsenceSeconds", "widestOpening", "scrapeEverySeconds", "rideDepthM", "drainSecondsP10", "drainSecondsP50", "drainSecondsP90",
            "strainSecondsP10", "strainSecondsP50", "strainSecondsP90", "bypassProbability", "spillProbability", "receiverFullProbability",
            "drivers", "driversRefused", "driversOfTime", "driversOfTimeRefused", "measureNext", "chanceOverTime", "pondFan", "runs", "runsCounted", "seed", "inputs", "correlations", "notices", "cautions",
            "assumptions", "readAs",
        ];
        using var json = JsonDocument.Parse(RiskJson.Of(InventedAnswer.Story(InventedAnswer.Of())));
        JsonElement root = json.RootElement;
        string[] names = [.. root.EnumerateObject().Select(p => p.Name)];
        Assert.Equal(promised, names.Where(promised.Contains), StringComparer.Ordinal);
        Assert.Equal(names.Length, names.ToHashSet(StringComparer.Ordinal).Count);
        Assert.Equal(1 / 40.0, root.GetProperty("overflowProbability").GetDouble());
        Assert.Equal(0.185, root.GetProperty("widestOpening").GetDouble(), 1e-12);
        Assert.Equal(239.4, root.GetProperty("longestAbsenceSeconds").GetDouble(), 1e-9); // 3.99 min
        Assert.Equal(["name", "firstOrder", "firstOrderLow", "firstOrderHigh", "total", "totalLow", "totalHigh"], root.GetProperty("drivers")[0].EnumerateObject().Select(p => p.Name), StringComparer.Ordinal);
        Assert.Equal(JsonValueKind.Null, root.GetProperty("pondFan").GetProperty("p50M")[2].ValueKind);
        Assert.Equal(JsonValueKind.Null, root.GetProperty("driversRefused").ValueKind);
        Assert.Equal("17.8 % ± 0.2 %", root.GetProperty("inputs")[0].GetProperty("spread").GetString());
        Assert.Equal("engineering-choice", root.GetProperty("inputs")[0].GetProperty("standing").GetString());
    }

    [Fact]
    public void The_csv_brings_chance_and_pond_together_by_time()
    {
        string[][] rows = [.. RiskCsv.Of(InventedAnswer.Of()).TrimEnd().Split("\r\n").Select(line => line.Split(','))];
        Assert.All(rows, row => Assert.Equal(10, row.Length));

        // Chances at 0, 5 and 20 min, the pond at 0, 10 and 20 min, where nothing goes on.
        Assert.Equal(["0", "300", "600", "1200"], rows.Skip(1).Select(row => row[0]), StringComparer.Ordinal);
        Assert.Equal(["0.015", "", "0.025"], rows.Skip(2).Select(row => row[2]), StringComparer.Ordinal);
        Assert.Equal(["0", "", "0.05", ""], rows.Skip(1).Select(row => row[6]), StringComparer.Ordinal);
    }

    private static string Outcome(RiskAnswer answer) => Outcome(InventedAnswer.Story(answer));

    private static string Outcome(RiskStory story) => Flat(OutcomeOf(story));

    private static string OutcomeOf(RiskStory story)
    {
        StringWriter writer = new();
        new RiskText(new Page(writer, 80, colour: false), new Display(UnitChoice.Metric)).WriteOutcome(story);
        return writer.ToString();
    }

    private static string Flat(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
