using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Quantities;
using FlowSim.Commands.Scanning;
using FlowSim.Commands.Watching;

namespace FlowSim.Commands.Tests.Hardening;

/// <summary>Every limit of what is read: just inside it passes, just outside it is refused with what is allowed, before room is made for what was asked.</summary>
public sealed class LimitTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Sections_of_a_file() => Edge(TomlLimits.Sections, count => string.Concat(Enumerable.Range(0, count).Select(i => $"[s{i}]\n")), "is section 201 of the file; allowed: at most 200");

    [Fact]
    public void Sections_of_a_list() => Edge(TomlLimits.Sections, count => string.Concat(Enumerable.Repeat("[[batch]]\n", count)), "is section 201 of the file; allowed: at most 200", Dialect.Day);

    [Fact]
    public void Keys_of_a_section() => Edge(TomlLimits.Keys, count => "[honey]\n" + string.Concat(Enumerable.Range(0, count).Select(i => $"k{i} = 1\n")), "is key 201 of its section; allowed: at most 200");

    [Fact]
    public void Keys_before_any_section() => Edge(TomlLimits.Keys, count => string.Concat(Enumerable.Range(0, count).Select(i => $"honey.k{i} = 1\n")), "is key 201 of its section");

    [Fact]
    public void Values_of_a_file() => Edge(TomlLimits.Values, count => "[honey]\na = [" + string.Join(',', Enumerable.Repeat("1", count - 1)) + "]\n", "is value 50001 of the file; allowed: at most 50000");

    [Fact]
    public void Parts_of_a_name() => Edge(TomlLimits.NameParts, count => "[honey]\n" + string.Join('.', Enumerable.Repeat("a", count)) + " = 1\n", "is a name of 5 parts; allowed: at most 4");

    [Fact]
    public void Parts_of_the_name_of_a_section() => Edge(TomlLimits.NameParts, count => "[" + string.Join('.', Enumerable.Repeat("a", count)) + "]\n", "is a name of 5 parts");

    [Fact]
    public void Length_of_a_name() => Edge(TomlLimits.NameLength, count => "[honey]\n" + new string('a', count) + " = 1\n", "is a name of 201 characters; allowed: at most 200");

    [Fact]
    public void Length_of_a_text() => Edge(TomlLimits.TextLength, count => "[honey]\na = \"" + new string('a', count) + "\"\n", "is a text of 4097 characters; allowed: at most 4096");

    [Fact]
    public void Depth_of_lists() => Edge(TomlLimits.Depth, count => "[honey]\na = " + new string('[', count) + "1" + new string(']', count) + "\n", "lies in more than 4 lists; allowed: at most 4");

    [Fact]
    public void Depth_of_tables_in_a_line() => Edge(TomlLimits.Depth, count => "[honey]\na = " + string.Concat(Enumerable.Repeat("{b = ", count)) + "1" + new string('}', count) + "\n", "lies in more than 4 lists");

    /// <summary>The largest file that is refused by its size alone costs its own size a few times over.</summary>
    [Fact]
    public void Bytes_of_a_file()
    {
        string inside = _folder.Write("in.toml", Demo.Text + new string('#', InputFile.MostBytes - System.Text.Encoding.UTF8.GetByteCount(Demo.Text)));
        Assert.Equal(ExitCode.Done, Ran.With("strain", inside, "-q").Code);
        string outside = _folder.Write("out.toml", new string('#', InputFile.MostBytes + 1));
        AllocatesLess(1_000_000, () => RefusedFile("larger than 1000 kB", "strain", outside));
    }

    [Fact]
    public void Keys_set_by_options()
    {
        string[] inside = [.. Enumerable.Range(0, TomlLimits.Settings).SelectMany(i => new[] { "--set", $"honey.k{i}=1" })];
        Assert.DoesNotContain("keys are set", Ran.With(["honey", .. inside]).Error, StringComparison.Ordinal);
        Refused("201 keys are set; allowed: at most 200", ["honey", .. inside, "--set", "honey.more=1"]);
    }

    [Fact]
    public void Length_of_a_key_set_by_an_option()
    {
        string most = "honey.form=" + new string('a', TomlLimits.SettingLength - "honey.form=".Length);
        Assert.DoesNotContain("characters; allowed", Ran.With("honey", "--set", most).Error, StringComparison.Ordinal);
        Refused("has 100001 characters; allowed: at most 100000", "honey", "--set", most + "a");
    }

    [Fact]
    public void Values_of_a_scan()
    {
        Assert.Equal(ScanReader.MostValues, ScanReader.Read([$"gate.opening=10%..60%:{ScanReader.MostValues}"])[0].Values.Count);
        AllocatesLess(1_000_000, () => Refused("allowed: a whole number, 2 to 1000, nearest 1000", "strain", "--scan", "gate.opening=10%..60%:1001"));
        AllocatesLess(1_000_000, () => Refused("2 to 1000", "strain", "--scan", "gate.opening=10%..60%:2147483647"));
    }

    [Fact]
    public void Runs_of_two_scans()
    {
        Assert.Equal(2, ScanReader.Read(["gate.opening=10%..60%:100", "honey.temperature=30 °C..40 °C:100"]).Count);
        AllocatesLess(1_000_000, () => Refused("allowed: at most 10000, so here at most 100", "strain", "--scan", "gate.opening=10%..60%:100", "--scan", "honey.temperature=30 °C..40 °C:101"));
        Refused("is given 3 times; one or two keys are scanned", "strain", "--scan", "gate.opening=10%..60%:2", "--scan", "honey.temperature=30 °C..40 °C:2", "--scan", "tank.level=200 mm..300 mm:2");
    }

    /// <summary>What the library allows of a run. Outside, nothing is made room for.</summary>
    [Theory]
    [InlineData("strain", "run.points=100000", "run.points=100001", "0 to 100000")]
    [InlineData("warm", "run.radial_cells=400", "run.radial_cells=401", "2 to 400")]
    [InlineData("warm", "run.axial_cells=400", "run.axial_cells=2000000000", "2 to 400")]
    [InlineData("risk", "risk.runs=64", "risk.runs=10000001", "64 to 10000000")]
    public void Sizes_of_a_run(string command, string inside, string outside, string said)
    {
        Loaded loaded = Loader.Load(Disk.Files, path: null, [inside]);
        Assert.NotNull(command switch
        {
            "warm" => Loader.ReadWarming(loaded),
            "risk" => Loader.ReadRisk(loaded),
            _ => (object)Loader.ReadRun(loaded),
        });
        AllocatesLess(3_000_000, () => Refused(said, command, "--set", outside));
    }

    [Fact]
    public void Tables_of_a_fit()
    {
        string batch = _folder.Write("batch.toml", Demo.Text);
        string[] most = [.. Enumerable.Repeat("none.csv", CalibrationQuestion.MostRuns)];
        Assert.Contains("does not exist", Ran.With(["fit", "--batch", batch, .. most]).Error, StringComparison.Ordinal);
        Refused("51 tables are given; allowed: at most 50", ["fit", "--batch", batch, .. most, "none.csv"]);
    }

    [Fact]
    public void Viscosities_of_a_fit()
    {
        string batch = _folder.Write("batch.toml", Demo.Text);
        string[] more = [.. Enumerable.Repeat(new[] { "--viscosity", "35 °C" }, CalibrationQuestion.MostRuns + 1).SelectMany(pair => pair)];
        Assert.DoesNotContain("are given", Ran.With(["fit", "--batch", batch, .. more[2..]]).Error, StringComparison.Ordinal);
        Refused("51 viscosities are given with --viscosity; allowed: at most 50", ["fit", "--batch", batch, .. more]);
    }

    [Fact]
    public void Readings_of_all_tables()
    {
        // Ten columns of levels in all units would say the same thing; six quantities of 100 000 rows each are the most of one table.
        string row = ",1,1,1,1,1,1\n";
        System.Text.StringBuilder table = new("time [s],tank level [mm],tank mass [kg],tank volume [L],receiver level [mm],receiver mass [kg],receiver volume [L]\n");
        for (int i = 0; i < RunLimits.Rows; i++)
            table.Append(i).Append(i % 2 == 0 ? row : row.Replace('1', '2'));
        string path = _folder.Write("large.csv", table.ToString());
        Problems problems = new();
        Assert.Equal(600_000, RunCsvReader.Read(path, InputFile.Read(Disk.Files, path, InputFile.Run), problems)!.Columns.Sum(column => column.Readings.Count));
        Refused("makes 1200000 readings with the tables before it; allowed: at most 1000000 in all", "fit", "--batch", _folder.Write("batch.toml", Demo.Text), path, path);
    }

    [Theory]
    [InlineData(RunLimits.Rows, null)]
    [InlineData(RunLimits.Rows + 1, "at most 100000 rows are read")]
    public void Rows_of_a_table(int rows, string? said) => Table("time [s],tank level [mm]\n" + string.Concat(Enumerable.Range(0, rows).Select(i => $"{i},{i % 200}\n")), said);

    [Theory]
    [InlineData(RunLimits.Columns, "has no unit")]
    [InlineData(RunLimits.Columns + 1, "has more than 64 columns")]
    public void Columns_of_a_table(int columns, string said) => Table("time [s],tank level" + new string(',', columns - 2) + "\n0,1\n", said);

    [Theory]
    [InlineData(RunLimits.RowLength, null)]
    [InlineData(RunLimits.RowLength + 1, "has a row longer than 4096 characters")]
    public void Length_of_a_row(int length, string? said) => Table("time [s],tank level [mm],note\n0,9,\n1,8,\n2,7,\n3,6," + new string(' ', length - 4) + "\n", said);

    [Theory]
    [InlineData(QuantityGrammar.Longest, false)]
    [InlineData(QuantityGrammar.Longest + 1, true)]
    public void Length_of_a_quantity(int length, bool refused)
    {
        QuantityFault? fault = QuantityGrammar.Read("1" + new string(' ', length - 3) + "mm", Dimension.Length, out _);
        Assert.Equal(refused, fault is not null);
        Assert.True(!refused || fault!.What.Contains("at most 100", StringComparison.Ordinal), fault?.What);
    }

    [Theory]
    [InlineData(SpreadGrammar.Longest, false)]
    [InlineData(SpreadGrammar.Longest + 1, true)]
    public void Length_of_a_spread(int length, bool refused)
    {
        string many = string.Concat(Enumerable.Repeat("1.0000000000000000,", 100));
        string text = $"empirical({many}{"1.".PadRight(length - many.Length - "empirical()".Length, '0')})";
        Assert.Equal(length, text.Length);
        Assert.Equal(refused, SpreadGrammar.Read(text, wanted: null, signed: false, out _) is not null);
    }

    [Theory]
    [InlineData(200, false)]
    [InlineData(201, true)]
    public void Values_of_a_spread(int count, bool refused) =>
        Assert.Equal(refused, SpreadGrammar.Read($"empirical({string.Join(',', Enumerable.Range(0, count))})", wanted: null, signed: false, out _) is not null);

    [Theory]
    [InlineData("run.longest=31 d", "d")]
    [InlineData("filling.jars=200001", "200000")]
    public void Sizes_of_other_runs(string setting, string said) =>
        AllocatesLess(3_000_000, () => Refused(said, setting.StartsWith("filling", StringComparison.Ordinal) ? "fill" : "strain", "--set", setting));

    [Fact]
    public void Batches_vessels_and_days_of_a_day()
    {
        Day("vessels = 40\n", null);
        Day("vessels = 41\n", "41 is outside what is allowed, 1 to 40");
        Refused("8 is outside what is allowed, 1 to 7", "plan", _folder.Write("d.toml", Demo.Day.Replace("# days = 1 ", "days = 8 ", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_line_without_an_end_takes_no_more_room_than_a_short_one()
    {
        AllocatesLess(100_000, () =>
        {
            using Endless endless = new(10_000_000);
            Assert.Equal(BoundedLines.Longest, BoundedLines.Read(endless)!.Length);
            Assert.Null(BoundedLines.Read(endless));
        });
    }

    [Fact]
    public void Lines_end_as_everywhere()
    {
        using StringReader three = new("a\r\n\nb");
        string?[] lines = [.. Enumerable.Range(0, 4).Select(_ => BoundedLines.Read(three))];
        Assert.Equal(["a", "", "b", null], lines.AsEnumerable());
    }

    private void Day(string line, string? said)
    {
        string path = _folder.Write("day.toml", "[day]\ndate = \"2026-03-14\"\n[[person]]\nname = \"A\"\nfrom = \"8:00\"\nto = \"9:00\"\n[[strainer]]\nname = \"s\"\n[[bottling_tank]]\nname = \"t\"\ncapacity = \"4000 L\"\n[[batch]]\nname = \"b\"\nstrain = \"1 h\"\nvolume = \"20 L\"\nfill = \"1 h\"\n" + line);
        if (said is not null)
            Refused(said, "plan", path);
        else
            Assert.Equal(40, DayReader.Read(Disk.Files, Loader.LoadDay(Disk.Files, path), path, pace: null, CancellationToken.None).Question.Batches.Count);
    }

    private static void Table(string text, string? said)
    {
        Problems problems = new();
        RunFile? run = RunCsvReader.Read("run.csv", text, problems);
        if (said is null)
            Assert.True(run is not null, string.Join('\n', problems.All));
        else
            Assert.Contains(said, string.Join('\n', problems.All), StringComparison.Ordinal);
    }

    /// <summary>A document at the limit and one beyond it.</summary>
    private static void Edge(int limit, Func<int, string> document, string said, Dialect? dialect = null)
    {
        Assert.DoesNotContain("allowed: at most", Told(limit), StringComparison.Ordinal);
        Assert.Contains(said, Told(limit + 1), StringComparison.Ordinal);

        string Told(int size)
        {
            Problems problems = new();
            TomlReader.Read(document(size), "edge.toml", problems, dialect);
            return string.Join('\n', problems.All);
        }
    }

    private static void Refused(string said, params string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
    }

    private static void RefusedFile(string said, params string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.Equal(ExitCode.FileTrouble, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    /// <summary>Bytes that this thread takes for something that it has done once already, so that what is made once for all is not counted.</summary>
    private static void AllocatesLess(long bytes, Action action)
    {
        action();
        long before = GC.GetAllocatedBytesForCurrentThread();
        action();
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, bytes);
    }

    /// <summary>One line of so many characters.</summary>
    private sealed class Endless(int length) : TextReader
    {
        private int _left = length;

        public override int Read() => _left-- > 0 ? 'a' : -1;
    }
}
