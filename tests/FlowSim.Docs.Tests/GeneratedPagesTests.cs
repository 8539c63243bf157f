using FlowSim.Commands.Reference;
using FlowSim.House.Tests;

namespace FlowSim.Docs.Tests;

/// <summary>The pages that are made from the program are those of the program as it is.</summary>
public class GeneratedPagesTests
{
    private static readonly IReadOnlyDictionary<string, string> Pages = GeneratedPages.All();

    public static TheoryData<string> Paths => [.. Pages.Keys];

    [Theory]
    [MemberData(nameof(Paths))]
    public void A_page_is_not_stale(string path) =>
        Assert.True(Pages[path] == Repository.Read("docs", path), $"docs/{path} is stale: run docs/generate");

    [Fact]
    public void Every_command_has_its_section_and_its_part_of_the_man_page()
    {
        CommandInfo[] commands = [.. GeneratedPages.Program.Leaves];
        Assert.InRange(commands.Length, 20, 100);
        Assert.All(commands, command => Assert.Contains($"\n## flowsim {command.Path}\n", Pages["commands.md"], StringComparison.Ordinal));
        Assert.All(commands, command => Assert.Contains($"\n.SS flowsim {command.Path}", Pages["man/flowsim.1"], StringComparison.Ordinal));
    }

    [Fact]
    public void Of_every_option_that_takes_a_file_it_is_known_whether_it_writes()
    {
        string[] files = [.. GeneratedPages.Program.Leaves.SelectMany(command => command.Options).Where(option => option.Hint == ValueHint.File).Select(option => option.Name).Distinct(StringComparer.Ordinal)];
        Assert.NotEmpty(files);
        Assert.All(files, file => Assert.Single(CommandFacts.Writing.Concat(CommandFacts.Reading), file));
    }

    [Fact]
    public void A_code_of_one_command_stands_with_that_command_alone()
    {
        Assert.Equal(["setpoint"], WithCode(12));
        Assert.Equal(["strain"], WithCode(10));
        Assert.Equal(["fit"], WithCode(14));
        Assert.Equal(GeneratedPages.Program.Leaves.Select(command => command.Path), WithCode(2));

        static IEnumerable<string> WithCode(int code) =>
            GeneratedPages.Program.Leaves.Where(command => CommandFacts.ExitCodesOf(command).Any(entry => entry.Code == code)).Select(command => command.Path);
    }

    /// <summary>Every example is one that the parser takes.</summary>
    [Fact]
    public void Every_example_is_understood()
    {
        int seen = 0;
        foreach (string example in GeneratedPages.Program.All.SelectMany(CommandFacts.ExamplesOf).Where(line => line.StartsWith("flowsim ", StringComparison.Ordinal) && !line.Contains('|', StringComparison.Ordinal) && !line.Contains('\\', StringComparison.Ordinal)))
        {
            System.CommandLine.ParseResult parsed = Commands.FlowSimCommand.Build(new Commands.Surroundings(TextWriter.Null, TextWriter.Null), CancellationToken.None).Parse(example["flowsim ".Length..]);
            Assert.True(parsed.Errors.Count == 0, $"{example}: {string.Join("; ", parsed.Errors)}");
            seen++;
        }

        Assert.InRange(seen, 30, 1000);
    }
}
