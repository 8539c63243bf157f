using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests;

/// <summary>Commands inside another program: texts in place of files, nobody who draws, problems as they are found.</summary>
public class SurroundingsTests
{
    [Theory]
    [InlineData("strain", "--plot", "a.svg")]
    [InlineData("strain", "--report", "a.html")]
    [InlineData("honey", "--plot", "a.png")]
    [InlineData("warm", "--map", "a.svg")]
    [InlineData("strain", "--scan", "gate.opening=10%..60%:3", "--plot", "a.svg")]
    public void Without_figures_what_draws_is_refused(params string[] arguments)
    {
        (int code, string output, Problem[] wrong, string messages) = Ask(arguments);
        Assert.Equal(ExitCode.BadInput, code);
        Assert.Empty(output);
        Assert.Contains("no figures are drawn here", Assert.Single(wrong).What, StringComparison.Ordinal);
        Assert.Equal(wrong[0] + "\n", messages);
    }

    [Theory]
    [InlineData("strain", "--csv", "a.csv")]
    [InlineData("new", "a.toml")]
    [InlineData("watch", "run.toml", "--log", "a.csv")]
    public void Without_a_disk_what_writes_is_refused(params string[] arguments)
    {
        (int code, string output, Problem[] wrong, string messages) = Ask(arguments);
        Assert.Equal(ExitCode.FileTrouble, code);
        Assert.Empty(output);
        Assert.Empty(wrong);
        Assert.Contains("no files are written here", messages, StringComparison.Ordinal);
    }

    [Fact]
    public void A_text_is_read_by_its_name()
    {
        (int code, string output, _, _) = Ask(["strain", "run.toml", "--json"]);
        Assert.Equal(ExitCode.Done, code);
        Assert.StartsWith("{\n", output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.FileTrouble, Ask(["strain", "./run.toml"]).Code);
    }

    [Fact]
    public void Wrong_usage_is_a_problem_too()
    {
        Problem problem = Assert.Single(Ask(["strain", "--nonsense"]).Wrong);
        Assert.Equal("arguments", problem.Spot.Source);
        Assert.Contains("--nonsense", problem.What, StringComparison.Ordinal);
    }

    private static (int Code, string Output, Problem[] Wrong, string Messages) Ask(string[] arguments)
    {
        NamedTexts texts = new();
        texts.Add("run.toml", Demo.Text);
        using StringWriter output = new();
        using StringWriter messages = new();
        List<Problem> wrong = [];
        int code = FlowSimCommand.Run(arguments, new Surroundings(output, messages) { Files = texts, Wrong = wrong }, default);
        return (code, output.ToString(), [.. wrong], messages.ToString());
    }
}
