using System.Text.Json;

namespace FlowSim.Commands.Tests;

/// <summary><c>flowsim shelf</c>: what it says, and what it does not guess.</summary>
public class ShelfCommandTests
{
    private static Ran Shelf(params string[] settings) => Ran.With(["shelf", .. settings.SelectMany(setting => new[] { "--set", setting })]);

    [Fact]
    public void The_result_comes_last()
    {
        string text = Ran.With("shelf").Out;
        Assert.EndsWith(Ran.With("shelf", "--quiet").Out, text, StringComparison.Ordinal);
        Assert.Contains("not for infants", text, StringComparison.Ordinal);
        Assert.Contains("a floral name does not tell it", string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.Contains("Lochhead 1933", text, StringComparison.Ordinal);
        Assert.DoesNotContain("safe", text, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("KEEPS, ", "honey.moisture=16.5 %")]
    [InlineData("DEPENDS ON THE YEASTS: it keeps if fewer than 1000", "honey.moisture=17.8 %")]
    [InlineData("MAY FERMENT: ", "honey.moisture=18.4 %", "shelf.yeasts=50")]
    [InlineData("MAY FERMENT: ", "honey.moisture=20.4 %")]
    [InlineData("Granulation: soon.", "honey.moisture=17 %", "shelf.glucose=38 %")]
    [InlineData("Granulation: stays liquid for long.", "honey.moisture=17 %", "shelf.glucose=27 %")]
    public void Verdicts(string said, params string[] settings) => Assert.Contains(said, Shelf(settings).Out, StringComparison.Ordinal);

    [Fact]
    public void Json_says_the_same()
    {
        JsonElement json = JsonDocument.Parse(Ran.With("shelf", "--json", "--set", "honey.moisture=18.4 %", "--set", "shelf.yeasts=5").Out).RootElement;
        Assert.Equal("not-expected", json.GetProperty("fermentation").GetString());
        Assert.Equal(10, json.GetProperty("yeastsBelowPerGram").GetDouble());
        Assert.Equal("unknown", json.GetProperty("granulation").GetString());
        Assert.Equal(JsonValueKind.Null, json.GetProperty("glucoseOverWater").ValueKind);
    }

    [Theory]
    [InlineData("honey.moisture=30 %", "12 to 23 %")]
    [InlineData("shelf.yeasts=-1", "shelf.yeasts")]
    [InlineData("shelf.glucose=2 %", "10 to 60 %")]
    [InlineData("shelf.crystals=70 %", "0 to 40 %")]
    [InlineData("shelf.flower=clover", "nearest")]
    public void Bad_values_are_refused(string setting, string said)
    {
        Ran ran = Shelf(setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }
}
