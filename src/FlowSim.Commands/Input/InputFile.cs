using System.Text;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input;

/// <summary>A file could not be read or written. The message is complete and fit to print.</summary>
internal sealed class FileTroubleException(string message) : Exception(message);

/// <summary>A kind of text file that is read.</summary>
/// <param name="Wanted">What is asked for, as in "a TOML file".</param>
/// <param name="MostBytes">Largest file read.</param>
/// <param name="Missing">What to say where there is none, as a second half of the sentence; {0} is the name.</param>
internal sealed record TextKind(string Wanted, int MostBytes, string Missing);

/// <summary>Reads a text file, and refuses what cannot be one.</summary>
internal static class InputFile
{
    /// <summary>Largest input file read, bytes. A written-out run is a few thousand.</summary>
    public const int MostBytes = 1_000_000;

    private static readonly UTF8Encoding s_strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>What describes a batch.</summary>
    public static TextKind Batch { get; } = new("a TOML file", MostBytes, "; \"flowsim new {0}\" writes an example to start from");

    /// <summary>What describes a day.</summary>
    public static TextKind Day { get; } = new("a TOML file", MostBytes, "; \"flowsim new --day {0}\" writes an example to start from");

    /// <summary>A table of timed readings.</summary>
    public static TextKind Run { get; } = new("a CSV file", Timed.RunLimits.Bytes, string.Empty);

    /// <summary>The text of a file, without a byte-order mark.</summary>
    /// <param name="files">Files.</param>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="kind">What it is to be; null for a batch.</param>
    /// <exception cref="FileTroubleException">It cannot be read, is too large or is not UTF-8 text.</exception>
    public static string Read(IFiles files, string path, TextKind? kind = null)
    {
        string text = Decode(files.Read(path, kind ?? Batch), Printable.Of(path, 200));
        return text.StartsWith('\uFEFF') ? text[1..] : text;
    }

    /// <summary>The text of bytes, its byte-order mark if there is one in front.</summary>
    /// <param name="bytes">Bytes.</param>
    /// <param name="shown">Name of the file, fit to print.</param>
    /// <exception cref="FileTroubleException">It is not UTF-8 text.</exception>
    public static string Decode(byte[] bytes, string shown)
    {
        if (bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
            throw new FileTroubleException($"{shown} is UTF-16 text; save it as UTF-8");
        int zero = Array.IndexOf(bytes, (byte)0);
        if (zero is 0 or 1 && bytes.Length > zero + 2 && bytes[zero + 2] == 0)
            throw new FileTroubleException($"{shown} is not UTF-8 text but looks like UTF-16; save it as UTF-8");
        if (zero >= 0)
            throw new FileTroubleException(FormattableString.Invariant($"{shown} is not a text file: it holds a zero byte at {zero}"));
        try
        {
            return s_strict.GetString(bytes);
        }
        catch (DecoderFallbackException bad)
        {
            throw new FileTroubleException(FormattableString.Invariant($"{shown} is not UTF-8 text: the byte at {bad.Index} does not fit; save it as UTF-8"));
        }
    }

    /// <summary>What is said of a name that is none.</summary>
    /// <param name="shown">The name, fit to print.</param>
    /// <param name="kind">What it was to be.</param>
    public static FileTroubleException NoName(string shown, TextKind kind) => new($"\"{shown}\" is not a file name; give {kind.Wanted}");

    /// <summary>What is said of a file that is too large.</summary>
    /// <param name="shown">Its name, fit to print.</param>
    /// <param name="most">Most that is read, bytes.</param>
    public static FileTroubleException TooLarge(string shown, int most) =>
        new(most < 10_000_000
            ? FormattableString.Invariant($"{shown} is larger than {most / 1000} kB, the most that is read")
            : FormattableString.Invariant($"{shown} is larger than {most / 1_000_000} MB, the most that is read"));
}
