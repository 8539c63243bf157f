namespace FlowSim.Commands.Tests.Hardening;

/// <summary>What the fuzzer found, each finding by its name.</summary>
public sealed class FuzzFindingTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    /// <summary>The TOML parser threw where an escape has the number of half a character, or of none.</summary>
    [Theory]
    [InlineData("[honey]\nform = \"\\uD800\"\n", "line 2, column 9")]
    [InlineData("[honey]\n\"\\uDFFF\" = 1\n", "line 2, column 2")]
    [InlineData("[honey]\nform = \"liquid\" # \\u0041\nmoisture = \"\\U00110000\"\n", "line 3, column 13")]
    public void An_escape_that_names_no_character(string text, string place)
    {
        Ran ran = Ran.With("strain", _folder.Write("a.toml", text));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(place + ": holds an escape that names no character; allowed: ", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_escape_that_names_no_character_in_an_option()
    {
        Ran ran = Ran.With("strain", "--set", "honey.form=\"\\uD800\"");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("holds an escape that names no character", ran.Error, StringComparison.Ordinal);
    }
}
