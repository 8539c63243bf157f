using FlowSim.Commands.Input;
using FlowSim.Console;

namespace FlowSim.Commands.Tests.Hardening;

/// <summary>Every option that writes a file, found in the tree of commands so that none is forgotten: what is there already stays, links stay links, and nothing is left behind.</summary>
public sealed class OutputOptionTests : IDisposable
{
    private const string Csv = "time [min],tank level [mm]\n0,298\n1,250\n2,200\n3,150\n";

    /// <summary>Options that name a file to be read.</summary>
    private static readonly string[] s_reads = ["--batch"];

    private static readonly byte[] s_new = "new"u8.ToArray();

    private readonly Folder _folder = new();

    private static DiskFiles Files { get; } = new();

    private static readonly (string Command, string Option)[] s_writes =
    [
        .. FlowSimCommand.Build(new Surroundings(TextWriter.Null, TextWriter.Null), CancellationToken.None).Subcommands
            .SelectMany(command => command.Options.Where(option => option.HelpName == "FILE" && !s_reads.Contains(option.Name)).Select(option => (command.Name, option.Name))),
    ];

    public static TheoryData<string, string> Options
    {
        get
        {
            TheoryData<string, string> options = [];
            foreach ((string command, string option) in s_writes)
                options.Add(command, option);
            return options;
        }
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void They_are_found()
    {
        Assert.Contains(("warm", "--damage"), s_writes);
        Assert.Contains(("fit", "--save-as"), s_writes);
    }

    [Theory]
    [MemberData(nameof(Options))]
    public void A_file_that_is_there_stays(string command, string option)
    {
        string path = _folder.Write(NameFor(option), "mine");
        Refused("--force", Line(command, option, path));
        Assert.Equal("mine", File.ReadAllText(path));
    }

    [Theory]
    [MemberData(nameof(Options))]
    public void A_file_behind_a_link_stays(string command, string option)
    {
        if (OperatingSystem.IsWindows())
            return;
        string real = _folder.Write("real" + Path.GetExtension(NameFor(option)), "mine");
        string link = _folder["link" + Path.GetExtension(NameFor(option))];
        File.CreateSymbolicLink(link, real);
        Refused("--force", Line(command, option, link));
        Assert.Equal("mine", File.ReadAllText(real));
        Assert.NotNull(new FileInfo(link).LinkTarget);
    }

    [Theory]
    [MemberData(nameof(Options))]
    public void A_folder_is_no_file(string command, string option)
    {
        string path = _folder[NameFor(option)];
        Directory.CreateDirectory(path);
        Refused("is a folder", [.. Line(command, option, path), "--force"]);
        Assert.True(Directory.Exists(path));
    }

    [Theory]
    [MemberData(nameof(Options))]
    public void A_folder_that_is_not_there_is_not_made(string command, string option) =>
        Refused("there is no folder", Line(command, option, _folder["none/" + NameFor(option)]));

    [Theory]
    [MemberData(nameof(Options))]
    public void A_name_that_no_file_can_have_is_refused_early(string command, string option)
    {
        string extension = Path.GetExtension(NameFor(option));
        Refused("allowed: 1 to 255", Line(command, option, _folder[new string('a', 256 - extension.Length) + extension]));
        Assert.InRange(Ran.With(Line(command, option, "")).Code, ExitCode.BadInput, ExitCode.FileTrouble);
    }

    [Theory]
    [MemberData(nameof(Options))]
    public void The_input_is_no_output(string command, string option)
    {
        if (command is "fit" or "plan")
            return;
        string path = _folder.Write("in" + Path.GetExtension(NameFor(option)), Demo.Text);
        Ran ran = Ran.With(command, path, option, path, "--force");
        Assert.True(ran.Code is ExitCode.BadInput or ExitCode.FileTrouble, ran.Error);
        Assert.Equal(Demo.Text, File.ReadAllText(path));
    }

    [Fact]
    public void The_longest_name_is_written()
    {
        if (!OperatingSystem.IsWindows())
            Assert.Equal(ExitCode.Done, Ran.With("new", _folder[new string('a', 250) + ".toml"]).Code);
    }

    [Fact]
    public void What_a_link_leads_to_is_put_in_place_in_its_own_folder()
    {
        if (OperatingSystem.IsWindows())
            return;
        Directory.CreateDirectory(_folder["there"]);
        string real = _folder.Write("there/run.csv", "mine");
        File.CreateSymbolicLink(_folder["run.csv"], real);
        Files.Write(_folder["run.csv"], force: true, s_new, temporary => Assert.Equal(_folder["there"], Path.GetDirectoryName(temporary)));
        Assert.Equal("new", File.ReadAllText(real));
        Assert.NotNull(new FileInfo(_folder["run.csv"]).LinkTarget);
        Assert.Equal([real], Directory.GetFileSystemEntries(_folder["there"]));
    }

    [Fact]
    public void A_folder_that_goes_meanwhile_is_told()
    {
        Directory.CreateDirectory(_folder["goes"]);
        FileTroubleException trouble = Assert.Throws<FileTroubleException>(() => Files.Write(_folder["goes/run.csv"], force: false, s_new, _ => Directory.Delete(_folder["goes"], recursive: true)));
        Assert.Contains("cannot be written", trouble.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void A_file_that_comes_meanwhile_stays()
    {
        Assert.Throws<FileTroubleException>(() => Files.Write(_folder["run.csv"], force: false, s_new, _ => File.WriteAllText(_folder["run.csv"], "mine")));
        Assert.Equal("mine", File.ReadAllText(_folder["run.csv"]));
        Assert.Single(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void Trouble_half_way_leaves_the_old_file_and_nothing_else()
    {
        _folder.Write("run.csv", "mine");
        Assert.Throws<FileTroubleException>(() => Files.Write(_folder["run.csv"], force: true, s_new, _ => throw new IOException("No space left on device")));
        Assert.Equal("mine", File.ReadAllText(_folder["run.csv"]));
        Assert.Single(Directory.GetFileSystemEntries(_folder.Path));
    }

    private static string NameFor(string option) => option switch
    {
        "--csv" => "out.csv",
        "--report" => "out.html",
        "--save-as" => "out.toml",
        _ => "out.svg",
    };

    private string[] Line(string command, string option, string path) => command == "fit"
        ? ["fit", _folder.Write("pail.csv", Csv), "--batch", _folder.Write("batch.toml", Demo.Text), "--no-sampler", option, path]
        : [command, option, path];

    private void Refused(string said, params string[] arguments)
    {
        string[] before = Directory.GetFileSystemEntries(_folder.Path, "*", SearchOption.AllDirectories);
        Ran ran = Ran.With(arguments);
        Assert.True(ran.Code == ExitCode.FileTrouble, ran.Error);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
        Assert.Equal(before.Order(), Directory.GetFileSystemEntries(_folder.Path, "*", SearchOption.AllDirectories).Order());
    }
}
