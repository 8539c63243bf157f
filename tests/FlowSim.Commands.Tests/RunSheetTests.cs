using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output.Sheets;

namespace FlowSim.Commands.Tests;

/// <summary>Run sheets of the commands: they say what the terminal says, can be made again from what they say, and are written like every other file.</summary>
public sealed partial class RunSheetTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Commands => ["strain", "strain --units us --set gate.opening=20%", "warm", "warm --units us", "settle", "fill --units us", "setpoint --ceiling 45°C", "risk --runs 1024"];

    [Theory]
    [MemberData(nameof(Commands))]
    public void It_says_what_the_terminal_says(string line)
    {
        string path = _folder["sheet.html"];
        Ran ran = Ran.On([.. line.Split(' '), "--report", path], colour: false, width: 2000);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        Assert.Contains("wrote ", ran.Error, StringComparison.Ordinal);
        string sheet = TextOf(File.ReadAllText(path));

        // The first line is the name, which the page shows without its folder. At that width nothing is folded, so every line that is a sentence stands in the page as it is; of notices and assumptions their parts do.
        string[] sentences = [.. ran.Out.Split('\n').Skip(1).Where(said => said.Contains(' ', StringComparison.Ordinal)).SelectMany(Sentences).Select(said => Spaces().Replace(said, " ").Trim())];
        Assert.True(sentences.Length > 30);
        Assert.All(sentences, sentence => Assert.Contains(sentence, sheet, StringComparison.OrdinalIgnoreCase));
    }

    [Theory]
    [InlineData("strain", "Open the gate 26.5 % at most")]
    [InlineData("warm", "Set the thermostat at 42 °C")]
    [InlineData("setpoint", "Set the thermostat at 50 °C")]
    public void Numbers_to_keep_in_sight_are_those_of_the_advice(string command, string number)
    {
        string html = Sheet(command);
        Assert.Contains(number, TextOf(html[html.IndexOf("class=\"watch\"", StringComparison.Ordinal)..]), StringComparison.Ordinal);
        Assert.Contains(number.Split(' ')[^2], Ran.With(command).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void The_answer_comes_before_what_to_mind_and_what_was_assumed()
    {
        string text = TextOf(Sheet("strain"));
        int[] at = [.. new[] { "RUNS OVER", "Keep in sight", "What to do next", "An open gate makes no sound", "engineering choice", "How this sheet was made" }.Select(part => text.LastIndexOf(part, StringComparison.Ordinal))];
        Assert.DoesNotContain(-1, at);
        Assert.Equal(at.Order(), at);
    }

    [Theory]
    [InlineData("strain", "--set", "honey.temperature=95 F", "--set", "gate.opening=[\"0 min 40%\",\"1 min 10%\"]", "--units", "us")]
    [InlineData("risk", "--runs", "1024", "--tolerance", "2 %", "--seed", "7", "--set", "honey.moisture=17.8 ± 0.2 %")]
    [InlineData("setpoint", "--ceiling", "45 °C")]
    [InlineData("warm", "--set", "warming.air_speed=1 m/s")]
    public void Its_command_makes_it_again(string command, params string[] options)
    {
        string input = _folder.Write("it's \"spring\" $1.toml", Demo.Text);
        Directory.CreateDirectory(_folder["again"]);
        Assert.Equal(ExitCode.Done, Ran.With([command, input, .. options, "--quiet", "--report", _folder["sheet.html"]]).Code);
        string html = File.ReadAllText(_folder["sheet.html"]);

        string said = WebUtility.HtmlDecode(Code().Match(html).Groups["text"].Value);
        string[] words = ShellSplit(said);
        Assert.Equal(["flowsim", command, Path.GetFileName(input)], words[..3]);
        string[] again = [.. words.Skip(1).Select(word => word == Path.GetFileName(input) ? input : word == "sheet.html" ? _folder["again/sheet.html"] : word)];
        Assert.Equal(ExitCode.Done, Ran.With(again).Code);
        Assert.Equal(html, File.ReadAllText(_folder["again/sheet.html"]));
        Assert.DoesNotContain(_folder.Path, html, StringComparison.Ordinal);
    }

    [Fact]
    public void The_input_without_its_comments_is_the_same_input()
    {
        const string Odd = """
            # of the spring # harvest
            [honey] # flow
            moisture = "17.8 %" # not "18 %"
            temperature = '35 °C'

            [gate]
            bore = "38 mm"
            tube_length = "40 mm"
            opening = [ # widest first
              "0 min 40 %", # then
              "1 min 10 %",
            ]
            """;
        Assert.Equal("[honey]\nmoisture = \"17.8 %\"\ntemperature = '35 °C'\n\n[gate]\nbore = \"38 mm\"\ntube_length = \"40 mm\"\nopening = [ # widest first\n  \"0 min 40 %\", # then\n  \"1 min 10 %\",\n]\n", InputDigest.Of(Odd.ReplaceLineEndings("\n")));

        string digest = InputDigest.Of(Demo.Text);
        Assert.DoesNotContain('#', digest);
        string whole = _folder.Write("whole.toml", Demo.Text);
        string bare = _folder.Write("bare.toml", digest);
        foreach (string command in new[] { "strain", "warm" })
            Assert.Equal(Ran.With(command, whole, "--json").Out.Replace("whole.toml", "bare.toml", StringComparison.Ordinal), Ran.With(command, bare, "--json").Out);
    }

    [Fact]
    public void It_stands_beside_json()
    {
        Ran ran = Ran.With("strain", "--json", "--report", _folder["sheet.html"]);
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Equal("overflowed", JsonDocument.Parse(ran.Out).RootElement.GetProperty("status").GetString());
        Assert.Contains("What to do next", File.ReadAllText(_folder["sheet.html"]), StringComparison.Ordinal);
    }

    [Fact]
    public void Units_are_those_that_were_asked_for()
    {
        string us = Sheet("warm", "--units", "us");
        Assert.Contains("95 °F", TextOf(us), StringComparison.Ordinal);
        string text = TextOf(us);
        Assert.DoesNotContain("°C", text[..text.IndexOf("How this sheet was made", StringComparison.Ordinal)], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("strain", "sheet.pdf", ExitCode.BadInput, ".html")]
    [InlineData("strain", "none/sheet.html", ExitCode.FileTrouble, "there is no folder")]
    [InlineData("risk --scan gate.opening=10%..20%:2", "sheet.html", ExitCode.BadInput, "cannot stand beside --scan")]
    [InlineData("strain --scan gate.opening=10%..20%:2", "sheet.html", ExitCode.BadInput, "cannot stand beside --scan")]
    [InlineData("warm --scan gate.opening=10%..20%:2", "sheet.html", ExitCode.BadInput, "cannot stand beside --scan")]
    [InlineData("strain --set gate.bore=1mm", "sheet.html", ExitCode.BadInput, "gate.bore")]
    public void What_is_wrong_is_said_and_nothing_is_written(string line, string name, int code, string said)
    {
        Ran ran = Ran.With([.. line.Split(' '), "--report", _folder[name]]);
        Assert.Equal(code, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void A_file_that_exists_is_left_alone_without_force()
    {
        string path = _folder.Write("sheet.html", "mine");
        Assert.Equal(ExitCode.FileTrouble, Ran.With("strain", "--report", path).Code);
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--report", path, "--force").Code);
        Assert.StartsWith("<!DOCTYPE html>", File.ReadAllText(path), StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void No_setpoint_has_a_sheet_too()
    {
        Ran ran = Ran.With("setpoint", "--set", "limits.longest=1 h", "--report", _folder["sheet.html"]);
        Assert.Equal(ExitCode.NoSetpoint, ran.Code);
        Assert.Contains("NO SETPOINT MEETS THESE LIMITS", File.ReadAllText(_folder["sheet.html"]), StringComparison.Ordinal);
    }

    [Fact]
    public void A_fit_has_a_sheet_without_the_folders_of_its_files()
    {
        string table = _folder.Write("pail.csv", InventedRun.Csv(InventedRun.Truth("gate.opening=20 %"), rows: 20, lastS: 600, seed: 3));
        string batch = _folder.Write("batch.toml", Demo.Text);
        Ran ran = Ran.With("fit", table, "--batch", batch, "--set", "gate.opening=20 %", "--no-sampler", "--quiet", "--report", _folder["sheet.html"]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        string html = File.ReadAllText(_folder["sheet.html"]);
        Assert.DoesNotContain(_folder.Path, html, StringComparison.Ordinal);
        Assert.Contains("flowsim fit pail.csv --batch batch.toml", TextOf(html), StringComparison.Ordinal);
        Assert.Contains("lot factor of viscosity", TextOf(html), StringComparison.Ordinal);
    }

    private string Sheet(params string[] arguments)
    {
        string path = _folder["page.html"];
        Ran ran = Ran.With([.. arguments, "--quiet", "--force", "--report", path]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return File.ReadAllText(path);
    }

    /// <summary>What a line of the terminal says, taken apart where the page sets it in columns.</summary>
    private static IEnumerable<string> Sentences(string line)
    {
        line = Mark().Replace(line, string.Empty);
        int colon = line.IndexOf(": ", StringComparison.Ordinal);
        if (colon > 0 && !line[..colon].Any(char.IsLower))
            return [line[..colon], line[(colon + 2)..]];
        if (Standing().Match(line) is { Success: true } assumed)
            return [assumed.Groups["text"].Value, assumed.Groups["standing"].Value, assumed.Groups["key"].Value];
        return line.Contains("  ", StringComparison.Ordinal) ? Columns().Split(line).Where(cell => cell.Length > 0 && !cell.Contains('█', StringComparison.Ordinal) && !cell.Contains('░', StringComparison.Ordinal)) : [line];
    }

    private static string TextOf(string html) => Spaces().Replace(WebUtility.HtmlDecode(Tag().Replace(Style().Replace(html, " "), " ")), " ").Replace(" .", ".", StringComparison.Ordinal);

    /// <summary>Words as POSIX takes them: single and double quotes, a backslash outside of them.</summary>
    private static string[] ShellSplit(string line) =>
        [.. ShellWord().Matches(line).Select(word => ShellPart().Replace(word.Value, part => part.Value[0] == '\\' ? part.Value[1..] : part.Value[1..^1]))];

    [GeneratedRegex(@"<pre[^>]*><code>(?<text>.*?)</code>", RegexOptions.Singleline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Code();

    [GeneratedRegex(@"<style>.*?</style>|<svg.*?</svg>", RegexOptions.Singleline, 1000)]
    private static partial Regex Style();

    [GeneratedRegex("<[^>]*>", RegexOptions.None, 1000)]
    private static partial Regex Tag();

    [GeneratedRegex(@"[\s\u00A0]+", RegexOptions.None, 1000)]
    private static partial Regex Spaces();

    [GeneratedRegex(@"^(?:[-!~>]|\d+\.)? +|^\d+\. ", RegexOptions.None, 1000)]
    private static partial Regex Mark();

    [GeneratedRegex(@"^(?<text>.*) \[(?<standing>[a-z ]+); (?<key>[a-z_.]+)\]$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Standing();

    [GeneratedRegex(" {2,}", RegexOptions.None, 1000)]
    private static partial Regex Columns();

    [GeneratedRegex("""(?:'[^']*'|"[^"]*"|\\.|[^\s'"\\])+""", RegexOptions.None, 1000)]
    private static partial Regex ShellWord();

    [GeneratedRegex("""'[^']*'|"[^"]*"|\\.""", RegexOptions.None, 1000)]
    private static partial Regex ShellPart();
}
