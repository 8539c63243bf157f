using System.Text.Json;

namespace FlowSim.Commands.Tests;

/// <summary>Text and JSON of a whole job: nothing is lost on the way, and only what the file has is done.</summary>
public sealed class YieldCommandTests
{
    private static readonly string[] Strained = ["--set", "gate.opening=12 %"];

    private static JsonElement Json(params string[] arguments)
    {
        Ran ran = Ran.With(["yield", .. arguments, "--json"]);
        Assert.Equal(string.Empty, ran.Error);
        using JsonDocument json = JsonDocument.Parse(ran.Out);
        return json.RootElement.Clone();
    }

    [Fact]
    public void Every_kilogram_of_the_demo_is_somewhere()
    {
        JsonElement job = Json(Strained);
        double start = job.GetProperty("startKg").GetDouble();
        double sum = job.GetProperty("account").EnumerateArray().Sum(line => line.GetProperty("kg").GetDouble());
        Assert.Equal(start, sum, 1e-9);
        Assert.InRange(Math.Abs(job.GetProperty("balanceRelative").GetDouble()), 0, 1e-10);
        double sold = job.GetProperty("account").EnumerateArray().Single(line => line.GetProperty("place").GetString() == "in-jars").GetProperty("kg").GetDouble();
        Assert.Equal(0.5 * job.GetProperty("jars").GetInt32(), sold, 1e-9); // Jars of half a kilogram.
        Assert.Equal(sold / start, job.GetProperty("yieldShare").GetDouble(), 1e-12);
        Assert.Equal(["warm", "settle", "strain", "fill"], job.GetProperty("steps").EnumerateArray().Select(step => step.GetProperty("step").GetString()));
        Assert.Equal(5, job.GetProperty("standing").GetArrayLength());
    }

    [Fact]
    public void The_longer_it_stands_the_fewer_bits_come_to_the_strainer()
    {
        double[] left = [.. Json(Strained).GetProperty("standing").EnumerateArray().Select(choice => choice.GetProperty("debrisLeftShare").GetDouble())];
        Assert.Equal(left.OrderDescending(), left);
        Assert.True(left[^1] < 0.2 * left[0]);
    }

    [Fact]
    public void What_to_do_comes_last_and_an_overflow_first_of_it()
    {
        Ran over = Ran.With("yield", "--set", "gate.opening=100 %");
        Assert.Equal(ExitCode.Done, over.Code);
        int next = over.Out.IndexOf("What to do next", StringComparison.Ordinal);
        Assert.Contains("The strainer must not run over", over.Out[next..], StringComparison.Ordinal);
        Assert.Contains("went past the cloth", over.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("must not run over", Ran.With(["yield", .. Strained]).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Steps_that_the_file_does_not_have_are_left_out()
    {
        string file = Path.Combine(Directory.CreateTempSubdirectory("flowsim").FullName, "plain.toml");
        File.WriteAllText(file, """
            [honey]
            moisture = "17.8 %"
            temperature = "35 C"
            [tank]
            use = "pail-19l"
            level = "298 mm"
            [gate]
            bore = "38 mm"
            tube_length = "40 mm"
            opening = "12 %"
            [screen]
            form = "flat-disc"
            diameter = "240 mm"
            rim_height = "100 mm"
            opening = "400 um"
            wire = "250 um"
            [receiver]
            capacity = "25 L"
            """);
        JsonElement job = Json(file);
        Assert.Equal(["strain"], job.GetProperty("steps").EnumerateArray().Select(step => step.GetProperty("step").GetString()));
        Assert.Equal(JsonValueKind.Null, job.GetProperty("jars").ValueKind);
        Assert.Equal(0, job.GetProperty("standing").GetArrayLength());
        Assert.StartsWith("BOTTLING TANK: ", Ran.With("yield", file, "--quiet").Out.Split('\n')[1], StringComparison.Ordinal);
    }

    [Fact]
    public void The_tank_cannot_be_settled_away()
    {
        Ran ran = Ran.With("yield", "--set", "settling.bubbles=25 %", "--set", "settling.packing=30 %", "--set", "settling.for=1000h");
        Assert.True(ran.Code is ExitCode.BadInput or ExitCode.Done, ran.Error);
        Assert.DoesNotContain("Unhandled", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Bad_input_is_blamed_on_its_key()
    {
        Ran ran = Ran.With("yield", "--set", "filling.jar=jar-nine");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("filling.jar", ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
    }
}
