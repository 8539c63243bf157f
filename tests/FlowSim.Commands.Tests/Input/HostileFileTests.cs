using System.Text;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests.Input;

/// <summary>Files that nobody should send: each gets one clear message, the right code, and nothing that steers a terminal.</summary>
public sealed class HostileFileTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_missing_file() => Refused(_folder["none.toml"], "does not exist");

    [Fact]
    public void A_folder() => Refused(_folder.Path, "is a folder");

    [Fact]
    public void A_file_in_no_folder() => Refused(_folder["no/where/run.toml"], "no such folder");

    [Fact]
    public void A_zero_byte() => Refused(_folder.Write("b.toml", [0x5B, 0x00, 0x5D]), "zero byte at 1");

    [Fact]
    public void Not_utf8() => Refused(_folder.Write("l.toml", [.. "[honey]\n# 35 "u8, 0xB0, .. "C\n"u8]), "not UTF-8 text: the byte at 13");

    [Fact]
    public void Utf16() => Refused(_folder.Write("u.toml", Encoding.Unicode.GetPreamble().Concat(Encoding.Unicode.GetBytes("[honey]")).ToArray()), "UTF-16");

    [Fact]
    public void A_large_file() => Refused(_folder.Write("big.toml", Encoding.ASCII.GetBytes(new string('#', InputFile.MostBytes + 1))), "larger than 1000 kB");

    [Fact]
    public void An_endless_file()
    {
        if (OperatingSystem.IsLinux())
            Refused("/dev/zero", "larger than 1000 kB");
    }

    [Theory]
    [InlineData("[")]
    [InlineData("{a=")]
    public void Deep_nesting(string open)
    {
        string path = _folder.Write("deep.toml", "a = " + string.Concat(Enumerable.Repeat(open, 50_000)));
        Ran ran = Ran.With("strain", path);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("cannot be read as TOML", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_deep_option_value()
    {
        Ran ran = Ran.With("strain", "--set", "gate.opening=" + new string('[', 50_000));
        Assert.Equal(ExitCode.BadInput, ran.Code);
    }

    [Theory]
    [InlineData("[honey]\nform = \"\\u001b[2J\\u0007\\u202Eliquid\"")]
    [InlineData("[honey]\n\"\\u001b]0;x\\u0007\" = 1")]
    [InlineData("[\"\\u001b[31m\"]\na = 1")]
    [InlineData("[honey]\nmoisture = \"17 \\u001b[0m\"")]
    [InlineData("[screen]\ncloths = [\"\\u009b31m\"]")]
    public void Control_characters_are_not_echoed(string text)
    {
        Ran ran = Ran.With("strain", _folder.Write("c.toml", text));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        AssertTame(ran.Error);
    }

    [Fact]
    public void Control_characters_in_options_and_paths_are_not_echoed()
    {
        AssertTame(Ran.With("strain", "--set", "honey.form=\u001b[31mx").Error);
        AssertTame(Ran.With("strain", "\u001b[31mx.toml").Error);
        AssertTame(Ran.With("strain", "--\u001b[31m").Error);
        AssertTame(Ran.With("\u001b[31m").Error);
        AssertTame(Ran.With("strain", "--units", "\u001b[31m").Error);
    }

    [Fact]
    public void A_name_with_control_characters_does_not_reach_the_result()
    {
        if (OperatingSystem.IsWindows())
            return;
        string path = _folder.Write("a\u001b[31m.toml", Demo.Text);
        Ran ran = Ran.With("strain", path);
        Assert.Equal(ExitCode.Done, ran.Code);
        AssertTame(ran.Out);
    }

    private static void AssertTame(string text)
    {
        Assert.NotEmpty(text);
        Assert.DoesNotContain(text, c => (char.IsControl(c) && c != '\n') || c is '\u202E' or '\u009B');
    }

    private static void Refused(string path, string said)
    {
        Ran ran = Ran.With("strain", path);
        Assert.Equal(ExitCode.FileTrouble, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
    }
}
