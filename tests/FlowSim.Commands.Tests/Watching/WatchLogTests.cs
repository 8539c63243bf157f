using System.Text;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Watching;

namespace FlowSim.Commands.Tests.Watching;

/// <summary>The log: what was kept is kept, whatever happens to the machine.</summary>
public sealed class WatchLogTests : IDisposable
{
    private static readonly DateTimeOffset s_opened = new(2026, 11, 29, 14, 3, 20, TimeSpan.Zero);
    private static readonly string[] s_headings = ["tank level [mm]", "pond depth [mm]", "receiver mass [kg]"];

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string Log => _folder["run.csv"];

    private static int Rows(string path, string text)
    {
        Problems problems = new();
        RunFile? file = RunCsvReader.Read(path, text, problems, goesOn: true);
        Assert.True(file is not null && !problems.Any, problems.Any ? problems.All[0].ToString() : "no table");
        return file.Columns.Sum(column => column.Readings.Count) + file.Notes.Count;
    }

    [Fact]
    public void Rows_come_back_and_so_does_the_moment_of_the_opening()
    {
        using (WatchLog log = WatchLog.Begin(Disk.Files, Log, s_opened, "my=run.toml", s_headings))
        {
            log.Append("31.2,247,,,");
            log.Append("65.0,,,,scrape");
            Assert.Equal(log.Text, Encoding.UTF8.GetString(ReadShared()));
        }

        using WatchLog again = WatchLog.Continue(Disk.Files, Log, out string? torn);
        Assert.Null(torn);
        Assert.Equal(s_opened, again.OpenedAt);
        Assert.Equal(2, Rows(Log, again.Text));
        again.Append("80.0,200,,,");
        Assert.Equal(3, Rows(Log, again.Text));
    }

    /// <summary>Power fails while a row is written: cut at every byte, and with zeros behind it.</summary>
    [Fact]
    public void A_row_that_was_cut_short_is_set_aside_and_no_other_is_lost()
    {
        using (WatchLog log = WatchLog.Begin(Disk.Files, Log, s_opened, "run.toml", s_headings))
        {
            log.Append("31.2,247,,,");
            log.Append("65.0,,,,\"gate 40 % – späť\"");
        }

        byte[] whole = File.ReadAllBytes(Log);
        int lastRow = Array.LastIndexOf(whole, (byte)'\n', whole.Length - 2) + 1;
        for (int cut = lastRow; cut < whole.Length; cut++)
        {
            foreach (int zeros in new[] { 0, 3 })
            {
                File.WriteAllBytes(Log, [.. whole[..cut], .. new byte[zeros]]);
                using (WatchLog log = WatchLog.Continue(Disk.Files, Log, out string? torn))
                {
                    Assert.Equal(cut == lastRow && zeros == 0, torn is null);
                    Assert.Equal(1, Rows(Log, log.Text));
                    log.Append("70.0,190,,,");
                    Assert.Equal(2, Rows(Log, log.Text));
                    if (cut > lastRow + 4)
                        Assert.Contains("# cut short: 65.0", log.Text, StringComparison.Ordinal);
                }

                using WatchLog again = WatchLog.Continue(Disk.Files, Log, out string? nothing);
                Assert.Null(nothing);
                Assert.Equal(2, Rows(Log, again.Text));
            }
        }
    }

    [Fact]
    public void What_is_taken_back_stays_as_a_remark()
    {
        using WatchLog log = WatchLog.Begin(Disk.Files, Log, s_opened, "run.toml", s_headings);
        Assert.Null(log.Undo());
        log.Append("31.2,247,,,");
        log.Append("65.0,,,,\"a = b, c\"");
        Assert.Equal("65.0,,,,\"a = b, c\"", log.Undo());
        Assert.Contains("# taken back: 65.0", log.Text, StringComparison.Ordinal);
        Assert.Equal(1, Rows(Log, log.Text));
        Assert.Equal("31.2,247,,,", log.Undo());
        Assert.Null(log.Undo());
        log.Append("70.0,190,,,");
        Assert.Equal(log.Text, Encoding.UTF8.GetString(ReadShared()));
        Assert.Equal(1, Rows(Log, log.Text));
    }

    [Fact]
    public void Two_cannot_keep_one_log()
    {
        using (WatchLog.Begin(Disk.Files, Log, s_opened, "run.toml", s_headings))
        {
            Assert.Contains("another flowsim watch", Assert.Throws<FileTroubleException>(() => WatchLog.Continue(Disk.Files, Log, out _)).Message, StringComparison.Ordinal);
            Assert.Contains("another flowsim watch", Assert.Throws<FileTroubleException>(() => WatchLog.Begin(Disk.Files, Log, s_opened, "run.toml", s_headings)).Message, StringComparison.Ordinal);
        }

        Assert.Empty(Directory.GetFiles(_folder.Path, ".*"));
        Assert.Contains("exists already", Assert.Throws<FileTroubleException>(() => WatchLog.Begin(Disk.Files, Log, s_opened, "run.toml", s_headings)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_log_is_refused_and_left_as_it_is()
    {
        File.WriteAllBytes(Log, [0x41, 0, 0x42, (byte)'\n']);
        Assert.Throws<FileTroubleException>(() => WatchLog.Continue(Disk.Files, Log, out _));
        Assert.Equal([0x41, 0, 0x42, (byte)'\n'], File.ReadAllBytes(Log));
        Assert.Throws<FileTroubleException>(() => WatchLog.Continue(Disk.Files, _folder.Path, out _));
        Assert.Throws<FileTroubleException>(() => WatchLog.Begin(Disk.Files, _folder["no/where.csv"], s_opened, "run.toml", s_headings));
        Assert.Null(WatchLog.MomentIn("# gate opened 2026-13-29 14:03:20 UTC\n"));
        Assert.Null(WatchLog.MomentIn("time [s],tank level [mm]\n"));
    }

    private byte[] ReadShared()
    {
        using FileStream stream = new(Log, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
