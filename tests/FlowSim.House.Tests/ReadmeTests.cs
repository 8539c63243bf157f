using System.Diagnostics;
using System.Text.RegularExpressions;

namespace FlowSim.House.Tests;

/// <summary>Executes what the README shows: its commands in one folder, in order; its file; its program.</summary>
public sealed partial class ReadmeTests : IDisposable
{
    private const string DemoCommand = "dotnet run --project src/FlowSim.Console -c Release -- strain";
    private const string TestCommand = "dotnet test FlowSim.sln";
    private const string RunPrefix = "dotnet run --project src/FlowSim.Console -c Release -- ";

    private static readonly string Readme = Repository.Read("README.md");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("flowsim-readme-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void The_job_comes_first_in_one_paragraph()
    {
        string[] paragraphs = Readme.Split("\n\n");
        Assert.Equal("# FlowSim", paragraphs[0]);
        Assert.StartsWith("Extracted honey", paragraphs[1], StringComparison.Ordinal);
        Assert.Equal("## Two commands", paragraphs[2]);
    }

    [Fact]
    public void The_two_commands_are_those_that_CI_runs()
    {
        Assert.Equal([DemoCommand, TestCommand], Commands().Take(2));
        string ci = Repository.Read(".ci", "run");
        Assert.Contains(DemoCommand, ci, StringComparison.Ordinal);
        Assert.Contains(TestCommand, ci, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_command_runs()
    {
        int run = 0;
        File.WriteAllText(Path.Combine(_folder.FullName, "pail.csv"), Blocks("csv").Single());
        foreach (string command in Commands())
        {
            if (command == TestCommand)
                continue; // This is it.

            string arguments = command.StartsWith(RunPrefix, StringComparison.Ordinal)
                ? command[RunPrefix.Length..]
                : command.StartsWith("flowsim ", StringComparison.Ordinal) ? command["flowsim ".Length..]
                : throw new InvalidOperationException($"The README shows a command that no test knows how to run: {command}");
            (int exit, string output, string errors) = Flowsim(Split(arguments));
            Assert.True(exit == 0, $"{command}: exit {exit}\n{errors}");
            Assert.True(output.Length + errors.Length > 0, $"{command} says nothing.");
            run++;
        }

        Assert.True(run >= 10, $"Only {run} commands were found.");
        Assert.All(new[] { "my-run.toml", "run.png", "run.csv", "viscosity.svg", "warm.png", "map.png", "damage.svg", "warm.csv", "setpoint.svg", "settle.svg", "scan.csv", "scan.svg", "risk.svg", "risk.csv", "learnt.toml", "fit.svg", "residuals.csv", "jars.csv", "fill.svg", "run.html", "day.toml", "day.svg", "day.csv", "day.html" }, file => Assert.True(new FileInfo(Path.Combine(_folder.FullName, file)).Length > 0, file));
    }

    [Fact]
    public void The_file_shown_runs()
    {
        string path = Path.Combine(_folder.FullName, "shown.toml");
        File.WriteAllText(path, Blocks("toml").Single());
        string json = "";
        foreach (string command in new[] { "strain", "settle", "warm", "setpoint", "risk", "fill", "shelf", "yield" })
        {
            (int exit, string output, string errors) = Flowsim([command, path, "--json"]);
            Assert.True(exit == 0, errors);
            json += output;
        }

        string table = Path.Combine(_folder.FullName, "pail.csv");
        File.WriteAllText(table, Blocks("csv").Single());
        (int fitted, string fit, string complaints) = Flowsim(["fit", table, "--batch", path, "--no-sampler", "--json"]);
        Assert.True(fitted == 0, complaints);
        json += fit;
        (int watched, string outlook, string words) = Flowsim(["watch", path, "--log", table, "--at", "3 min", "--json"]);
        Assert.True(watched == 0, words);
        json += outlook;

        // The keys that the README names.
        string[] named = [.. JsonKey().Matches(Readme[Readme.IndexOf("With `--json`", StringComparison.Ordinal)..Readme.IndexOf("| exit code |", StringComparison.Ordinal)]).Select(match => match.Groups["key"].Value)];
        Assert.True(named.Length > 10);
        Assert.All(named, key => Assert.Contains($"\"{key}\":", json, StringComparison.Ordinal));
    }

    [Fact]
    public void The_program_shown_is_the_one_that_is_tested()
    {
        string tested = Repository.Read("tests", "FlowSim.House.Tests", "ReadmeProgram.cs");
        Assert.Equal(ShownCode.Undent(Blocks("csharp").Single()), ShownCode.Undent(ShownCode.Marked(tested)));
    }

    [Fact]
    public void The_exit_codes_are_those_of_the_help()
    {
        (_, string help, _) = Flowsim(["--help"]);
        Match[] rows = ExitCodeRow().Matches(Readme).ToArray();
        Assert.True(rows.Length >= 5);
        foreach (Match row in rows)
        {
            string meaning = row.Groups["meaning"].Value.Replace("`", "", StringComparison.Ordinal);
            Assert.Matches($@"(?m)^\s*{row.Groups["code"].Value}\s+{Regex.Escape(meaning)}\s*$", help);
        }
    }

    private static IEnumerable<string> Commands() => Blocks("console").SelectMany(b => b.Split('\n', StringSplitOptions.RemoveEmptyEntries));

    private static IEnumerable<string> Blocks(string language) => ShownCode.Blocks(Readme, language);

    /// <summary>Splits as a shell does, as far as double quotes go.</summary>
    private static string[] Split(string arguments) =>
        ShellWord().Matches(arguments).Select(m => m.Value.Replace("\"", "", StringComparison.Ordinal)).ToArray();

    private (int Exit, string Output, string Errors) Flowsim(string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "FlowSim.Console.dll"), .. arguments])
        {
            WorkingDirectory = _folder.FullName,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, errors.Result);
    }

    [GeneratedRegex(@"^\| (?<code>\d+) \| (?<meaning>.+) \|$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ExitCodeRow();

    [GeneratedRegex("`(?<key>[a-z][A-Za-z]*[A-Z][A-Za-z]*)`", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex JsonKey();

    [GeneratedRegex("""(?:"[^"]*"|\S)+""", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex ShellWord();
}
