using System.Text;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;

namespace FlowSim.Commands.Tests.Input;

/// <summary>Tables with something wrong in them: each is answered with what, where and what is right, and nothing is written.</summary>
public sealed class BadRunCsvTests : IDisposable
{
    private const string Head = "time [min],tank level [mm]\n";
    private const string Rows = "0,298\n1,250\n2,200\n3,150\n";

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    // Lines and columns counted by hand: the cell's first character.
    [InlineData("time [min],tank level [kg]\n" + Rows, "line 1, column 12", "is given in kg, a mass, but a length is wanted: mm, cm, m")]
    [InlineData("time [min],tank level [mn]\n" + Rows, "line 1, column 12", "nearest: \"mm\"")]
    [InlineData("time [min],tank level\n" + Rows, "line 1, column 12", "has no unit; write it behind the name, as in \"tank level [mm]\"")]
    [InlineData("time [kg],tank level [mm]\n" + Rows, "line 1, column 1", "a time is wanted: min, s, h, d")]
    [InlineData("time [min],tank leval [mm]\n" + Rows, "line 1, column 12", "nearest: \"tank level\"")]
    [InlineData("time [min],tank level [mm],operator\n0,1,A\n", "line 1, column 28", "what is for people alone goes into \"note\"")]
    [InlineData("time [min],pond mass [kg]\n" + Rows, "line 1, column 12", "known: time, clock, pond depth")]
    [InlineData("time [min],tank level [mm],tank depth [in]\n0,1,1\n", "line 1, column 28", "which says the same; keep one column")]
    [InlineData("time [min],clock,tank level [mm]\n0,1:00,1\n", "line 1, column 12", "which says the same")]
    [InlineData("tank level [mm],receiver mass [kg]\n1,2\n", "line 1, column 1", "no column gives the time")]
    [InlineData("time [min],note\n1,scrape\n", "line 1, column 1", "no column gives readings")]
    [InlineData("time [min]\n0\n1\n2\n3\n", "line 1, column 1", "no column gives readings")]
    [InlineData("0,298\n1,250\n2,200\n3,150\n", "line 1, column 1", "is not a heading that is read")]
    [InlineData(Head, "line 1, column 12", "has no reading below it")]
    [InlineData(Head + "0,298\n1,250\n2,200\n", "line 1, column 12", "has 3 readings; at least 4 are needed")]
    [InlineData(Head + "0,298\n1,298\n2,298\n3,298\n4,298\n", "line 1, column 12", "does not change: nothing can be fitted")]
    [InlineData(Head + "0,298\n1,250\n0.5,200\n3,150\n", "line 4, column 1", "time runs backwards: \"0.5\" follows \"1\" of line 3")]
    [InlineData(Head + "0,298\n-1,250\n2,200\n3,150\n", "line 3, column 1", "below 0, which no time is")]
    [InlineData(Head + "0,298\n1,-250\n2,200\n3,150\n", "line 3, column 3", "below 0, which no reading is")]
    [InlineData(Head + "0,298\n1,\u22120.1\n2,200\n3,150\n", "line 3, column 3", "shows as much too little in every row")]
    [InlineData(Head + "0,298\n1,nan\n2,200\n3,150\n", "line 3, column 3", "is not a finite number; leave the cell empty")]
    [InlineData(Head + "0,298\n1,Infinity\n2,200\n3,150\n", "line 3, column 3", "is not a finite number")]
    [InlineData(Head + "0,298\n1,1e999\n2,200\n3,150\n", "line 3, column 3", "is not a finite number")]
    [InlineData(Head + "0,298\n1,n/a\n2,200\n3,150\n", "line 3, column 3", "leave the cell empty where nothing was read")]
    [InlineData(Head + "0,298\n1,250 mm\n2,200\n3,150\n", "line 3, column 3", "brings a unit of its own")]
    [InlineData(Head + "0,298\n1,1 000\n2,200\n3,150\n", "line 3, column 3", "digits are not grouped")]
    [InlineData(Head + "0,298\n,250\n2,200\n3,150\n", "line 3, column 1", "the row has no time")]
    [InlineData(Head + "0,298\n1,25,5\n2,200\n3,150\n", "line 3, column 6", "has 3 cells under 2 headings; is it a decimal comma?")]
    [InlineData("time [min];tank level [mm]\n0;298\n1;250,5\n2;200\n3;150\n", "line 3, column 3", "has a decimal comma; the decimal sign is a point: 250.5")]
    [InlineData("time [min];tank level [mm]\n0,5;298\n1;250\n2;200\n3;150\n", "line 2, column 1", "has a decimal comma; the decimal sign is a point: 0.5")]
    [InlineData(Head + "0,298\n1,\"250,5\"\n2,200\n3,150\n", "line 3, column 3", "decimal comma")]
    [InlineData(Head + "0,298\n1,\"250\n2,200\n3,150\n", "line 3, column 3", "begins with a quote that is not closed")]
    [InlineData(Head + "0,298\n1,\"250\"5\n2,200\n3,150\n", "line 3, column 8", "goes on after a closing quote")]
    [InlineData(Head + "0,298\n1:00,250\n2,200\n3,150\n", "line 3, column 1", "is a time with a colon, but the heading \"time [min]\" gives min")]
    [InlineData("time,tank level [mm]\n0,298\n1,250\n2,200\n3,150\n", "line 2, column 1", "or give the unit once, in the heading, as in \"time [min]\"")]
    [InlineData("clock,tank level [mm]\n14:05,298\n14:61,250\n14:07,200\n14:09,150\n", "line 3, column 1", "\"14:61\" is not a time")]
    [InlineData("clock,tank level [mm]\n14:05,298\n14:03,250\n14:07,200\n14:09,150\n", "line 3, column 1", "time runs backwards")]
    [InlineData("clock,tank level [mm]\n12:58,298\n1:03,250\n1:07,200\n1:09,150\n", "line 3, column 1", "a clock of 12 hours needs am or pm")]
    [InlineData("clock,tank level [mm]\n23:58,298\n0:03,250\n23:59,200\n0:09,150\n", "line 5, column 1", "time runs backwards")]
    [InlineData("clock,tank level [mm]\n26:00,298\n27:00,250\n28:00,200\n29:00,150\n", "line 2, column 1", "is not a time of day")]
    [InlineData("time [min],tank level [mm],note\n0,298,\n1,250,scarpe\n2,200,\n3,150,\n", "line 3, column 7", "nearest: \"scrape\"")]
    [InlineData("time [min],tank level [mm],note\n0,298,\n1,250,gate 140 %\n2,200,\n3,150,\n", "line 3, column 7", "allowed: 0 to 100 %")]
    [InlineData("time [min],tank level [mm],note\n0,298,\n1,250,gate 40\n2,200,\n3,150,\n", "line 3, column 7", "an opening is noted as \"gate 40 %\"")]
    [InlineData("time [min],tank level [mm],note\n0,298,\n1,250,open\n2,200,\n3,150,\n", "line 3, column 7", "nearest: \"gate 40 %\"")]
    [InlineData("time [min],tank level [mm],\n0,298,\n1,250,x\n2,200,\n3,150,\n", "line 3, column 7", "stands in a column without a heading")]
    [InlineData("# honey.temprature = \"33 °C\"\n" + Head + Rows, "line 1, column 1", "nearest: \"honey.temperature\"")]
    [InlineData("# calibration.use = \"none\"\n" + Head + Rows, "line 1, column 1", "is not a key that a run can set for itself")]
    [InlineData("# date = 20.11.2026\n" + Head + Rows, "line 1, column 1", "write year, month and day as 2026-11-20")]
    [InlineData("# date = 2026-11-20\n# date = 2026-11-21\n" + Head + Rows, "line 2, column 1", "a second time")]
    [InlineData("# tank.level = \"290 mm\"\n# tank.level = \"291 mm\"\n" + Head + Rows, "line 2, column 1", "sets tank.level a second time")]
    [InlineData(Head + "0,298\n# honey.temperature = \"33 °C\"\n1,250\n2,200\n3,150\n", "line 3, column 1", "write it above them")]
    [InlineData("# honey.temperature = \"33\"\n" + Head + Rows, "line 1, column 1", "has no unit")]
    [InlineData("# honey.temperature = \"200 °C\"\n" + Head + Rows, "line 1, column 1", "honey.temperature")]
    [InlineData("", "line 1, column 1", "holds no table")]
    [InlineData("\n\n# tea\n,,\n", "line 1, column 1", "holds no table")]
    // The demo's pail is 330 mm high, its rim at 100 mm; the receiver holds 25 L of honey of 1.42 kg/L.
    [InlineData("time [min],tank level [cm]\n" + Rows, "line 2, column 3", "is above the tank's brim, 33 cm; is it read in another unit than cm")]
    [InlineData("time [min],pond depth [mm]\n0,0\n1,50\n2,150\n3,20\n", "line 4, column 3", "is above the strainer's rim, 100 mm")]
    [InlineData("time [min],receiver mass [kg]\n0,0\n1,20\n2,41\n3,42\n", "line 4, column 3", "is above what the receiver holds")]
    [InlineData("time [min],receiver volume [L]\n0,0\n1,10\n2,24\n3,26\n", "line 5, column 3", "is above what the receiver holds, 25 L")]
    [InlineData("time [min],tank level [mm],note\n0,298,scrape\n1,250,\n2,200,\n3,150,\n", "line 2, column 7", "at the opening of the gate")]
    [InlineData("time [min],tank level [mm],note\n0,298,\n1,250,gate 20 %\n1,249,gate 30 %\n2,200,\n3,150,\n", "line 4, column 7", "second opening at the same time")]
    public void Mistakes(string text, string place, string said)
    {
        string path = _folder.Write("run.csv", text);
        Ran ran = Fit(path);
        Assert.True(ran.Code == ExitCode.BadInput, ran.Error);
        Assert.Empty(ran.Out);
        Assert.Contains(ran.Error.Split('\n'), line => line.StartsWith(path + ", " + place + ":", StringComparison.Ordinal) && line.Contains(said, StringComparison.Ordinal));
        AssertNothingWritten("run.csv");
    }

    [Fact]
    public void Several_mistakes_of_several_files_come_together_file_by_file()
    {
        string one = _folder.Write("b.csv", Head + "0,298\n1,x\n2,-200\n3,150\n4,100\n5,90\n");
        string two = _folder.Write("a.csv", "time [min],tank lvel [mm]\n" + Rows);
        string[] lines = Fit(one, two).Error.TrimEnd().Split('\n');
        Assert.Equal(3, lines.Length);
        Assert.StartsWith(one + ", line 3, ", lines[0], StringComparison.Ordinal);
        Assert.StartsWith(one + ", line 4, ", lines[1], StringComparison.Ordinal);
        Assert.StartsWith(two + ", line 1, ", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_wrong_in_every_row_is_said_three_times()
    {
        string path = _folder.Write("run.csv", "time [min];tank level [mm]\n" + string.Concat(Enumerable.Range(0, 500).Select(i => FormattableString.Invariant($"{i};{500 - i},5\n"))));
        Assert.Equal(3, Fit(path).Error.TrimEnd().Split('\n').Length);
    }

    [Fact]
    public void Too_many_rows_columns_and_characters()
    {
        Refused(_folder.Write("r.csv", Head + string.Concat(Enumerable.Range(0, RunLimits.Rows + 1).Select(i => FormattableString.Invariant($"{i},{i}\n")))), ExitCode.BadInput, "at most 100000 rows are read");
        Refused(_folder.Write("c.csv", Head + string.Join(',', Enumerable.Repeat("1", RunLimits.Columns + 1))), ExitCode.BadInput, "more than 64 columns");
        Refused(_folder.Write("l.csv", Head + "0," + new string('1', RunLimits.RowLength) + "\n"), ExitCode.BadInput, "longer than 4096 characters");
        Refused(_folder.Write("q.csv", Head + "0,\"" + new string('\n', 1_000_000)), ExitCode.BadInput, "not closed within 4096 characters");
    }

    [Fact]
    public void No_text_is_no_table()
    {
        Refused(_folder.Write("z.csv", [.. Encoding.ASCII.GetBytes(Head), 0]), ExitCode.FileTrouble, "zero byte");
        Refused(_folder.Write("u.csv", [.. Encoding.ASCII.GetBytes(Head), 0xB0]), ExitCode.FileTrouble, "not UTF-8 text");
        Refused(_folder.Write("w.csv", [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(Head)]), ExitCode.FileTrouble, "UTF-16");
        Refused(_folder["none.csv"], ExitCode.FileTrouble, "does not exist");
        Refused(_folder.Path, ExitCode.FileTrouble, "is a folder; give a CSV file");
    }

    [Fact]
    public void A_file_of_a_gigabyte_is_refused_by_its_length_and_an_endless_one_at_the_limit()
    {
        using (FileStream stream = File.Create(_folder["huge.csv"]))
            stream.SetLength(1L << 30);
        long before = GC.GetAllocatedBytesForCurrentThread();
        Refused(_folder["huge.csv"], ExitCode.FileTrouble, "is larger than 16 MB");
        long taken = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.True(taken < RunLimits.Bytes, FormattableString.Invariant($"{taken} bytes"));
        if (OperatingSystem.IsLinux())
            Refused("/dev/zero", ExitCode.FileTrouble, "is larger than 16 MB");
    }

    [Fact]
    public void Nothing_in_a_table_steers_a_terminal()
    {
        string path = _folder.Write("run.csv", "time [min],tank level [mm],\u001b[31m\u202Enote\n0,\u001b]0;x\u0007,\n# \u001b[2J = 1\n");
        string error = Fit(path).Error;
        Assert.NotEmpty(error);
        Assert.DoesNotContain(error, c => (char.IsControl(c) && c != '\n') || c is '\u202E');
    }

    private Ran Fit(params string[] runs)
    {
        _folder.Write("batch.toml", Demo.Text);
        return Ran.With(["fit", .. runs, "--batch", _folder["batch.toml"], "--save", "--csv", _folder["residuals.csv"]]);
    }

    private void Refused(string path, int code, string said)
    {
        Ran ran = Fit(path);
        Assert.True(ran.Code == code, ran.Error);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
        Assert.Equal(Demo.Text, File.ReadAllText(_folder["batch.toml"]));
        Assert.False(File.Exists(_folder["residuals.csv"]));
    }

    private void AssertNothingWritten(params string[] there)
    {
        Assert.Equal(Demo.Text, File.ReadAllText(_folder["batch.toml"]));
        Assert.Equal([.. there, "batch.toml"], Directory.GetFiles(_folder.Path).Select(file => Path.GetFileName(file)!).ToHashSet(StringComparer.Ordinal));
    }
}
