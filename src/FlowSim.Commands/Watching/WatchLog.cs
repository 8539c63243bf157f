using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Watching;

/// <summary>
/// The log of a run that is watched: a table as <c>flowsim fit</c> reads it, with the moment of the opening in a line for people above it. A row is on the disk before anybody is told that it is
/// kept; nothing is ever deleted from it.
/// </summary>
internal sealed partial class WatchLog : IDisposable
{
    private const string Opened = "gate opened ";
    private const string MomentForm = "yyyy-MM-dd HH:mm:ss 'UTC'";
    private static readonly UTF8Encoding s_utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private readonly FileStream _alone;
    private FileStream _stream;

    private WatchLog(string path, FileStream alone, FileStream stream, string text) => (Path, _alone, _stream, Text) = (path, alone, stream, text);

    /// <summary>Path as the user gave it.</summary>
    public string Path { get; }

    /// <summary>What is in it.</summary>
    public string Text { get; private set; }

    /// <summary>When the gate was opened; null when the log does not say.</summary>
    public DateTimeOffset? OpenedAt => MomentIn(Text);

    /// <summary>Begins a log: whole or not at all.</summary>
    /// <param name="path">Path.</param>
    /// <param name="opened">When the gate was opened.</param>
    /// <param name="batch">Name of the batch, for people.</param>
    /// <param name="headings">Headings after the time.</param>
    /// <exception cref="FileTroubleException">It cannot be written, or exists.</exception>
    public static WatchLog Begin(string path, DateTimeOffset opened, string batch, IReadOnlyList<string> headings)
    {
        string text = string.Create(CultureInfo.InvariantCulture, $"# {Opened}{opened.UtcDateTime.ToString(MomentForm, CultureInfo.InvariantCulture)}; kept by flowsim watch\n# of {Printable.Of(batch, 200)}\n# date = {opened.LocalDateTime:yyyy-MM-dd}\n")
            + "time [s]," + string.Join(',', headings) + ",note\n";
        FileStream alone = BeAlone(path);
        try
        {
            OutputFile.Write(path, force: false, temporary => WriteDurably(temporary, text));
            return new WatchLog(path, alone, Open(path), text);
        }
        catch
        {
            alone.Dispose();
            throw;
        }
    }

    /// <summary>Goes on with a log. A last line that was cut short is set aside in the log itself.</summary>
    /// <param name="path">Path.</param>
    /// <param name="torn">Takes the line that was set aside; null for none.</param>
    /// <exception cref="FileTroubleException">It cannot be read, is not a text, or another watch has it open.</exception>
    public static WatchLog Continue(string path, out string? torn)
    {
        FileStream alone = BeAlone(path);
        FileStream? stream = null;
        try
        {
            stream = Open(path);
            if (stream.Length > RunLimits.Bytes)
                throw new FileTroubleException(FormattableString.Invariant($"{Printable.Of(path, 200)} is larger than {RunLimits.Bytes / 1_000_000} MB, the most that is read"));
            byte[] bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            int whole = Array.LastIndexOf(bytes, (byte)'\n') + 1;
            string text = InputFile.Decode(bytes[..whole], Printable.Of(path, 200)).TrimStart('\uFEFF');
            WatchLog log = new(path, alone, stream, text);

            // A power cut may leave zeros behind what was being written, or half a character.
            string tail = s_utf8.GetString(bytes, whole, bytes.Length - whole).TrimEnd('\0');
            torn = tail.Length == 0 && whole == bytes.Length ? null : tail;
            if (torn is not null)
                log.Replace(text + $"# cut short: {ForPeople(tail)}\n");
            return log;
        }
        catch
        {
            stream?.Dispose();
            alone.Dispose();
            throw;
        }
    }

    /// <summary>The moment of the opening in a text; null when it does not say.</summary>
    /// <param name="text">Text of a log.</param>
    public static DateTimeOffset? MomentIn(string text)
    {
        Match match = OpenedLine().Match(text);
        return match.Success && DateTime.TryParseExact(match.Groups["moment"].Value, MomentForm, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTime moment)
            ? new DateTimeOffset(moment, TimeSpan.Zero)
            : null;
    }

    /// <summary>Adds a row; it is on the disk when this returns.</summary>
    /// <param name="row">Row without its end.</param>
    /// <exception cref="FileTroubleException">It cannot be written; the log is as it was.</exception>
    public void Append(string row)
    {
        long before = s_utf8.GetByteCount(Text);
        try
        {
            // What an earlier attempt on a full disk left is taken off first.
            if (_stream.Length != before)
                _stream.SetLength(before);
            _stream.Seek(before, SeekOrigin.Begin);
            _stream.Write(s_utf8.GetBytes(row + "\n"));
            _stream.Flush(flushToDisk: true);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new FileTroubleException($"{Printable.Of(Path, 200)} cannot be written: {Printable.Of(trouble.Message, 200)}; the entry is not kept");
        }

        Text += row + "\n";
    }

    /// <summary>Takes the last row back: it stays in the log as a line for people.</summary>
    /// <returns>The row; null when there is none.</returns>
    public string? Undo()
    {
        string[] lines = Text.Split('\n');
        int heading = Array.FindIndex(lines, line => !RunComment.IsComment(line) && line.Trim().Length > 0);
        int last = Array.FindLastIndex(lines, line => !RunComment.IsComment(line) && line.Trim().Length > 0);
        if (last <= heading)
            return null;
        string row = lines[last];
        lines[last] = $"# taken back: {ForPeople(row)}";
        Replace(string.Join('\n', lines));
        return row;
    }

    public void Dispose()
    {
        _stream.Dispose();
        _alone.Dispose();
    }

    /// <summary>Text behind a # that nothing will take for a key.</summary>
    private static string ForPeople(string text) => Printable.Of(text, 400).Replace('=', ':');

    /// <summary>Puts another text in the place of the whole file, at once.</summary>
    private void Replace(string text)
    {
        _stream.Dispose();
        try
        {
            OutputFile.Write(Path, force: true, temporary => WriteDurably(temporary, text));
            Text = text;
        }
        finally
        {
            _stream = Open(Path);
        }
    }

    private static void WriteDurably(string path, string text)
    {
        using FileStream stream = new(path, FileMode.CreateNew, FileAccess.Write);
        stream.Write(s_utf8.GetBytes(text));
        stream.Flush(flushToDisk: true);
    }

    /// <summary>
    /// Sees to it that no second watch keeps the same log, by a hidden file beside it that is held and goes with the process. The log itself stays free for others to read, as <c>flowsim fit</c> does.
    /// </summary>
    private static FileStream BeAlone(string path)
    {
        string shown = Printable.Of(path, 200);
        if (Directory.Exists(path))
            throw new FileTroubleException($"{shown} is a folder; give a file name");
        if (FileKind.IsNotRegular(path) && File.Exists(path))
            throw new FileTroubleException($"{shown} is a device or a pipe and not a file; give a file name");
        string full = System.IO.Path.GetFullPath(path);
        try
        {
            string beside = System.IO.Path.Combine(System.IO.Path.GetDirectoryName(full)!, "." + System.IO.Path.GetFileName(full) + ".watched");
            return new FileStream(beside, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new FileTroubleException($"{shown} cannot be kept: {Printable.Of(trouble.Message, 200)}; does another flowsim watch keep it?");
        }
    }

    private static FileStream Open(string path)
    {
        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new FileTroubleException($"{Printable.Of(path, 200)} cannot be opened for writing: {Printable.Of(trouble.Message, 200)}");
        }
    }

    [GeneratedRegex(@"(?m)^#\s*gate opened (?<moment>\d{4}-\d{2}-\d{2} \d{2}:\d{2}:\d{2} UTC)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex OpenedLine();
}
