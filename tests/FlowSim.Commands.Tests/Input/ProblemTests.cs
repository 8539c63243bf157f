using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests.Input;

/// <summary>What is wrong in a file is said with its line and column, what is allowed, and what is nearest.</summary>
public sealed class ProblemTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    // Columns counted by hand: the value's first quote, or the character in it that goes wrong.
    [InlineData("[honey]\ntemperature = 35", "line 2, column 15", "needs one: °C, °F, K")]
    [InlineData("[honey]\ntemperature = \"35\"", "line 2, column 18", "has no unit")]
    [InlineData("[honey]\ntemperature = \"35,5 °C\"", "line 2, column 18", "comma")]
    [InlineData("[honey]\ntemperature = \"35 mm\"", "line 2, column 19", "is a length, but a temperature is wanted")]
    [InlineData("[honey]\ntemperature = 35 °C", "line 2, column 18", "temperature = \"35 °C\"")]
    [InlineData("[honey]\ntemperature = nan", "line 2, column 15", "has no unit")]
    [InlineData("[honey]\nlot_factor = nan", "line 2, column 14", "does not begin with a number")]
    [InlineData("[honey]\nlot_factor = \"1.2\"", "line 2, column 14", "plain number without quotes")]
    [InlineData("[honey]\nform = \"liquit\"", "line 2, column 8", "nearest: \"liquid\"")]
    [InlineData("[honey]\nmoistur = \"17 %\"", "line 2, column 1", "nearest: \"moisture\"")]
    [InlineData("[honey]\nbore = \"38 mm\"", "line 2, column 1", "(but of [gate], [bottling_gate])")]
    [InlineData("[honny]\nmoisture = \"17 %\"", "line 1, column 2", "nearest: [honey]")]
    [InlineData("[honey]\nmoisture = \"17 %\"\nmoisture = \"18 %\"", "line 3, column 1", "first in line 2")]
    [InlineData("[honey]\n[room]\n[honey]", "line 3, column 2", "first in line 1")]
    [InlineData("[[honey]]", "line 1, column 3", "write [honey] once")]
    [InlineData("moisture = \"17 %\"", "line 1, column 1", "before any section")]
    [InlineData("honey = { moisture = \"17 %\" }", "line 1, column 1", "write a section: [honey]")]
    [InlineData("[tank]\nwall_film = \"yes\"", "line 2, column 13", "true or false")]
    [InlineData("[tank]\nuse = \"pail-19\"", "line 2, column 7", "nearest: \"pail-19l\"")]
    [InlineData("[tank]\nuse = \"pail-19l\"\ndiameter = \"1 m\"", "line 3, column 1", "stands beside use")]
    [InlineData("[tank]\nlevel = \"1 m\"\nfill = \"1 L\"", "line 3, column 1", "stands beside level")]
    [InlineData("[tank]\nshape = \"upright-cylinder\"\ndiameter = \"1 mm\"", "line 3, column 12", "10 mm to 20 m")]
    [InlineData("[receiver]\nshape = \"upright-cylinder\"\ndiameter = \"285 mm\"\ncapacity = \"0.1 L\"", "line 4, column 12", "0.63794")]
    [InlineData("[gate]\nopening = [\"0 min 40%\", \"5 min\"]", "line 2, column 25", "\"5 min 25%\"")]
    [InlineData("[gate]\nopening = [\"0 min 40%\", \"5 mm 25%\"]", "line 2, column 28", "is a length, but a time is wanted")]
    [InlineData("[screen]\nform = \"cone\"", "line 1, column 2", "top_diameter is missing")]
    [InlineData("[screen]\ncloths = [\"astm 41\"]", "line 2, column 11", "Nearest: No. 40")]
    [InlineData("[screen]\nopening = \"590 um\"", "line 2, column 11", "Nearest: 600")]
    [InlineData("[honey]\nmeasured = [\"35 °C\"]", "line 2, column 13", "one comma between")]
    [InlineData("[honey]\r\nmoisture = \"17 %\"\r\ntemperature = \"35\"\r\n", "line 3, column 18", "has no unit")]
    [InlineData("\uFEFF[honey]\ntemperature = \"35\"", "line 2, column 18", "has no unit")]
    public void Place_and_remedy(string text, string place, string said)
    {
        string path = _folder.Write("run.toml", text);
        Ran ran = Ran.With("strain", path);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Empty(ran.Out);
        Assert.Contains(ran.Error.Split('\n'), line =>
            line.StartsWith(path + ", " + place + ":", StringComparison.Ordinal) && line.Contains(said, StringComparison.Ordinal));
    }

    [Fact]
    public void Several_are_reported_together_in_the_order_of_the_file()
    {
        string path = _folder.Write("run.toml", "[honey]\nmoisture = 17\ncolour = 1\n[gate]\nbore = \"x\"\n");
        string[] lines = Ran.With("strain", path).Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        int[] places = [.. lines.Where(line => line.Contains(", line ", StringComparison.Ordinal)).Select(line => int.Parse(line.Split(", line ")[1].Split(',')[0], System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(places.Order(), places);
        Assert.Subset(places.ToHashSet(), new HashSet<int> { 2, 3, 5 });
    }

    [Fact]
    public void A_flood_of_problems_is_cut()
    {
        string path = _folder.Write("run.toml", "[honey]\n" + string.Concat(Enumerable.Range(0, TomlLimits.Keys - 1).Select(i => $"k{i} = 1\n")));
        Ran ran = Ran.With("strain", path);
        Assert.InRange(ran.Error.Split('\n').Length, 2, Problems.Most + 2);
        Assert.Contains("more", ran.Error, StringComparison.Ordinal);
    }
}
