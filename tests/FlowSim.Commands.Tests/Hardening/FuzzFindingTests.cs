namespace FlowSim.Commands.Tests.Hardening;

/// <summary>What the fuzzer found, each finding by its name.</summary>
public sealed class FuzzFindingTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    /// <summary>The TOML parser threw where a file ends within an escape.</summary>
    [Theory]
    [InlineData("[honey]\nform = \"a\\", "line 2, column 11")]
    [InlineData("[honey]\nform = \"\\u00", "line 2, column 13")]
    [InlineData("[honey]\nform = \"\"\"\\", "line 2, column 12")]
    public void A_file_that_ends_within_an_escape(string text, string place)
    {
        Ran ran = Ran.With("strain", _folder.Write("a.toml", text));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(place + ": ends within a text, after a \\", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_option_that_ends_within_an_escape()
    {
        Ran ran = Ran.With("strain", "--set", "honey.form=\"a\\");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("ends within a text", ran.Error, StringComparison.Ordinal);
    }
}
