using System.Globalization;

namespace FlowSim.Commands.Tests;

/// <summary>Files that are written: whole or not at all, and never over another without leave.</summary>
public sealed class OutputFileTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_series_is_rfc_4180_with_units_in_the_header()
    {
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--csv", _folder["run.csv"]).Code);
        string text = File.ReadAllText(_folder["run.csv"]);
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        Assert.Equal(text.Count(c => c == '\n'), text.Split("\r\n").Length - 1);
        string[][] rows = [.. text.TrimEnd().Split("\r\n").Select(line => line.Split(','))];
        Assert.All(rows, row => Assert.Equal(rows[0].Length, row.Length));
        Assert.All(rows[0], head => Assert.Matches("_(s|m|K|kg|kg_per_s|share)$", head));
        double[] times = [.. rows.Skip(1).Select(row => double.Parse(row[0], CultureInfo.InvariantCulture))];
        Assert.True(times.Length > 100);
        Assert.Equal(times.Order(), times);
        Assert.Equal(0, times[0]);
    }

    [Theory]
    [InlineData("strain", "--csv", "out.csv")]
    [InlineData("strain", "--plot", "out.svg")]
    [InlineData("honey", "--plot", "out.svg")]
    public void A_file_that_exists_is_left_alone_without_force(string command, string option, string name)
    {
        string path = _folder.Write(name, "mine");
        Ran refused = Ran.With(command, option, path);
        Assert.Equal(ExitCode.FileTrouble, refused.Code);
        Assert.Contains("--force", refused.Error, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal(ExitCode.Done, Ran.With(command, option, path, "--force").Code);
        Assert.NotEqual(4, new FileInfo(path).Length);
        Assert.Single(Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void New_leaves_a_file_alone_without_force()
    {
        string path = _folder.Write("run.toml", "mine");
        Assert.Equal(ExitCode.FileTrouble, Ran.With("new", path).Code);
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal(ExitCode.Done, Ran.With("new", path, "--force").Code);
    }

    [Fact]
    public void A_folder_in_the_place_of_a_file() => Trouble("is a folder", "strain", "--csv", _folder.Path);

    [Fact]
    public void No_such_folder() => Trouble("there is no folder", "strain", "--csv", _folder["none/run.csv"]);

    [Fact]
    public void A_folder_that_cannot_be_written()
    {
        // Not even root writes below /proc.
        if (OperatingSystem.IsLinux())
            Trouble("cannot be written", "new", "/proc/run.toml");
    }

    [Fact]
    public void A_figure_of_another_format()
    {
        Ran ran = Ran.With("strain", "--plot", _folder["run.pdf"]);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(".png nor in .svg", ran.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("run.png", new byte[] { 0x89, (byte)'P', (byte)'N', (byte)'G' })] // PNG signature, ISO/IEC 15948
    [InlineData("run.svg", new byte[] { (byte)'<' })]
    public void Figures(string name, byte[] begin)
    {
        Ran ran = Ran.With("strain", "--plot", _folder[name]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        Assert.Equal(begin, File.ReadAllBytes(_folder[name])[..begin.Length]);
    }

    [Fact]
    public void A_bad_input_writes_nothing()
    {
        Assert.Equal(ExitCode.BadInput, Ran.With("strain", "--csv", _folder["run.csv"], "--set", "gate.bore=1 mm").Code);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    private static void Trouble(string said, params string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.Equal(ExitCode.FileTrouble, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
    }

    [Fact]
    public void Two_outputs_or_the_input_are_never_one_file()
    {
        string input = _folder.Write("run.toml", FlowSim.Commands.Input.Demo.Text);
        string figure = _folder["a.svg"];
        string roundabout = System.IO.Path.Combine(_folder.Path, ".", "a.svg");
        Assert.Equal(ExitCode.BadInput, Ran.With("strain", "--csv", figure, "--plot", roundabout, "--force").Code);
        Assert.Equal(ExitCode.BadInput, Ran.With("strain", input, "--csv", input, "--force").Code);
        Assert.False(File.Exists(figure));
        Assert.Equal(FlowSim.Commands.Input.Demo.Text, File.ReadAllText(input));
    }

    [Fact]
    public void A_named_pipe_is_refused_and_stays_one()
    {
        if (!OperatingSystem.IsLinux())
            return;
        string pipe = _folder["pipe.csv"];
        using (var make = System.Diagnostics.Process.Start("mkfifo", pipe))
            make.WaitForExit();
        File.CreateSymbolicLink(_folder["link.csv"], pipe);
        foreach (string path in new[] { pipe, _folder["link.csv"] })
        {
            Trouble("pipe and not a file", "strain", "-q", "--csv", path);
            Trouble("pipe and not a file", "strain", "-q", "--csv", path, "--force");
        }

        // By coreutils, not by the code that is tested.
        using var ask = System.Diagnostics.Process.Start("test", ["-p", pipe]);
        ask.WaitForExit();
        Assert.Equal(0, ask.ExitCode);
        Assert.Equal(2, Directory.GetFileSystemEntries(_folder.Path).Length);
    }

    [Fact]
    public void A_device_is_refused_and_a_link_is_followed()
    {
        if (!OperatingSystem.IsLinux())
            return;
        Assert.Equal(ExitCode.FileTrouble, Ran.With("strain", "-q", "--csv", "/dev/stdout", "--force").Code);
        string real = _folder.Write("real.csv", "x");
        File.CreateSymbolicLink(_folder["link.csv"], real);
        Assert.Equal(ExitCode.Done, Ran.With("strain", "-q", "--csv", _folder["link.csv"], "--force").Code);
        Assert.NotNull(new FileInfo(_folder["link.csv"]).LinkTarget);
        Assert.StartsWith("time_s,", File.ReadAllText(real), StringComparison.Ordinal);
    }
}
