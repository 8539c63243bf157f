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

    private readonly IKeptFile _file;

    private WatchLog(IKeptFile file, string text) => (_file, Text) = (file, text);

    /// <summary>What is in it.</summary>
    public string Text { get; private set; }

    /// <summary>When the gate was opened; null when the log does not say.</summary>
    public DateTimeOffset? OpenedAt => MomentIn(Text);

    /// <summary>Begins a log: whole or not at all.</summary>
    /// <param name="files">Files.</param>
    /// <param name="path">Path.</param>
    /// <param name="opened">When the gate was opened.</param>
    /// <param name="batch">Name of the batch, for people.</param>
    /// <param name="headings">Headings after the time.</param>
    /// <exception cref="FileTroubleException">It cannot be written, or exists.</exception>
    public static WatchLog Begin(IFiles files, string path, DateTimeOffset opened, string batch, IReadOnlyList<string> headings)
    {
        string text = string.Create(CultureInfo.InvariantCulture, $"# {Opened}{opened.UtcDateTime.ToString(MomentForm, CultureInfo.InvariantCulture)}; kept by flowsim watch\n# of {Printable.Of(batch, 200)}\n# date = {opened.LocalDateTime:yyyy-MM-dd}\n")
            + "time [s]," + string.Join(',', headings) + ",note\n";
        return new WatchLog(files.Keep(path, text), text);
    }

    /// <summary>Goes on with a log. A last line that was cut short is set aside in the log itself.</summary>
    /// <param name="files">Files.</param>
    /// <param name="path">Path.</param>
    /// <param name="torn">Takes the line that was set aside; null for none.</param>
    /// <exception cref="FileTroubleException">It cannot be read, is not a text, or another watch has it open.</exception>
    public static WatchLog Continue(IFiles files, string path, out string? torn)
    {
        IKeptFile file = files.Keep(path);
        try
        {
            byte[] bytes = file.Read(RunLimits.Bytes);
            int whole = Array.LastIndexOf(bytes, (byte)'\n') + 1;
            string text = InputFile.Decode(bytes[..whole], Printable.Of(path, 200)).TrimStart('\uFEFF');
            WatchLog log = new(file, text);

            // A power cut may leave zeros behind what was being written, or half a character.
            string tail = s_utf8.GetString(bytes, whole, bytes.Length - whole).TrimEnd('\0');
            torn = tail.Length == 0 && whole == bytes.Length ? null : tail;
            if (torn is not null)
                log.Replace(text + $"# cut short: {ForPeople(tail)}\n");
            return log;
        }
        catch
        {
            file.Dispose();
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
        _file.Append(s_utf8.GetByteCount(Text), s_utf8.GetBytes(row + "\n"));
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

    public void Dispose() => _file.Dispose();

    /// <summary>Text behind a # that nothing will take for a key.</summary>
    private static string ForPeople(string text) => Printable.Of(text, 400).Replace('=', ':');

    private void Replace(string text)
    {
        _file.Replace(text);
        Text = text;
    }

    [GeneratedRegex(@"(?m)^#\s*gate opened (?<moment>[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2}:[0-9]{2} UTC)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex OpenedLine();
}
