using System.Text;
using FlowSim.Console.Output;

namespace FlowSim.Console.Input;

/// <summary>A file could not be read or written. The message is complete and fit to print.</summary>
internal sealed class FileTroubleException(string message) : Exception(message);

/// <summary>Reads a text file, and refuses what cannot be one.</summary>
internal static class InputFile
{
    /// <summary>Largest file read, bytes. A written-out run is a few thousand.</summary>
    public const int MostBytes = 1_000_000;

    private static readonly UTF8Encoding s_strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text of a file, without a byte-order mark.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <exception cref="FileTroubleException">It cannot be read, is too large or is not UTF-8 text.</exception>
    public static string Read(string path)
    {
        string shown = Printable.Of(path, 200);
        byte[] bytes;
        if (string.IsNullOrWhiteSpace(path))
            throw new FileTroubleException($"\"{shown}\" is not a file name; give a TOML file");
        try
        {
            if (Directory.Exists(path))
                throw new FileTroubleException($"{shown} is a folder; give a TOML file");

            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            bytes = ReadAtMost(stream, shown);
        }
        catch (FileNotFoundException)
        {
            throw new FileTroubleException($"{shown} does not exist; \"flowsim new {shown}\" writes an example to start from");
        }
        catch (DirectoryNotFoundException)
        {
            throw new FileTroubleException($"{shown} does not exist: there is no such folder");
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new FileTroubleException($"{shown} cannot be read: {Printable.Of(trouble.Message, 200)}");
        }

        return Decode(bytes, shown);
    }

    private static byte[] ReadAtMost(FileStream stream, string shown)
    {
        // Read to a limit and not by length: a device or a pipe has none.
        byte[] buffer = new byte[MostBytes + 1];
        int count = stream.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false);
        if (count > MostBytes)
            throw new FileTroubleException(FormattableString.Invariant($"{shown} is larger than {MostBytes / 1000} kB, the most that is read"));
        return buffer[..count];
    }

    private static string Decode(byte[] bytes, string shown)
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
            string text = s_strict.GetString(bytes);
            return text.StartsWith('\uFEFF') ? text[1..] : text;
        }
        catch (DecoderFallbackException bad)
        {
            throw new FileTroubleException(FormattableString.Invariant($"{shown} is not UTF-8 text: the byte at {bad.Index} does not fit; save it as UTF-8"));
        }
    }
}
