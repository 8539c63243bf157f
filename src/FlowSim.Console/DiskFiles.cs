using System.Text;
using FlowSim.Commands;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Console;

/// <summary>The files of this machine. What is written is written whole or not at all, and never over another file without leave.</summary>
internal sealed class DiskFiles : IFiles
{
    /// <summary>Longest name of a file, bytes of UTF-8: what common file systems take.</summary>
    private const int LongestName = 255;

    /// <summary>Room that reading begins with, bytes; it grows with what comes.</summary>
    private const int FirstBytes = 65_536;

    public byte[] Read(string path, TextKind kind)
    {
        string shown = Printable.Of(path, 200);
        if (string.IsNullOrWhiteSpace(path))
            throw InputFile.NoName(shown, kind);
        try
        {
            if (Directory.Exists(path))
                throw new FileTroubleException($"{shown} is a folder; give {kind.Wanted}");

            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            return ReadAtMost(stream, shown, kind.MostBytes);
        }
        catch (FileNotFoundException)
        {
            throw new FileTroubleException($"{shown} does not exist{kind.Missing.Replace("{0}", shown, StringComparison.Ordinal)}");
        }
        catch (DirectoryNotFoundException)
        {
            throw new FileTroubleException($"{shown} does not exist: there is no such folder");
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new FileTroubleException($"{shown} cannot be read: {Printable.Of(trouble.Message, 200)}");
        }
    }

    public bool IsThere(string path) => Path.Exists(path);

    public bool AreOne(string one, string other) => string.Equals(Resolved(one), Resolved(other), StringComparison.Ordinal);

    public void RequireFree(string path, bool force)
    {
        string shown = Printable.Of(path, 200);
        if (string.IsNullOrWhiteSpace(path) || path.Contains('\0', StringComparison.Ordinal))
            throw new FileTroubleException($"\"{shown}\" is not a file name");
        if (Directory.Exists(path))
            throw new FileTroubleException($"{shown} is a folder; give a file name");
        if (Encoding.UTF8.GetByteCount(Path.GetFileName(path)) is > LongestName and int bytes)
            throw new FileTroubleException(FormattableString.Invariant($"{shown} cannot be written: the name has {bytes} bytes; allowed: 1 to {LongestName}"));
        if (!Directory.Exists(FolderOf(path)))
            throw new FileTroubleException($"{shown} cannot be written: there is no folder {Printable.Of(FolderOf(path), 200)}");
        if (IsDevice(path))
            throw new FileTroubleException($"{shown} cannot be written: it is a device or a pipe and not a file; give a file name");
        if (File.Exists(path) && !force)
            throw new FileTroubleException($"{shown} exists already; --force replaces it, or choose another name");
    }

    public void Write(string path, bool force, byte[] content) => Write(path, force, content, beforeMove: null);

    public void Replace(string path, byte[] before, string text) => Write(path, force: true, Encoding.UTF8.GetBytes(text), temporary =>
    {
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(temporary, File.GetUnixFileMode(path));

        // Last, right before it is put in place.
        if (!Read(path, InputFile.Batch).AsSpan().SequenceEqual(before))
            throw new FileTroubleException($"{Printable.Of(path, 200)} has changed while the fit was made; nothing is written: fit again, or write elsewhere with --save-as");
    });

    public IKeptFile Keep(string path, string? begin = null) => new DiskKeptFile(this, path, begin);

    /// <summary>Writes a temporary file beside the target, puts that on the disk and renames it.</summary>
    /// <remarks>Renamed before it is on the disk, a file could be empty after a power cut, and what it took the place of be lost.</remarks>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <param name="content">Content.</param>
    /// <param name="beforeMove">What is done last with the temporary file; null for nothing.</param>
    internal void Write(string path, bool force, byte[] content, Action<string>? beforeMove)
    {
        RequireFree(path, force);
        string target = Resolved(path);

        // In the target's folder: a rename from one file system to another would be a copy, which can be cut short.
        string temporary = Path.Combine(FolderOf(target), ".flowsim-" + Path.GetRandomFileName());
        try
        {
            using (FileStream stream = new(temporary, FileMode.CreateNew, FileAccess.Write))
            {
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }

            beforeMove?.Invoke(temporary);
            File.Move(temporary, target, overwrite: force);
        }

        // Beyond the largest file of a file system, or of the process, the runtime speaks of an argument.
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentOutOfRangeException)
        {
            throw new FileTroubleException($"{Printable.Of(path, 200)} cannot be written: {Printable.Of(trouble.Message, 200)}");
        }
        finally
        {
            TryDelete(temporary);
        }
    }

    private static byte[] ReadAtMost(FileStream stream, string shown, int most)
    {
        // Its length spares the reading of a huge file; a device, a pipe or a file that grows is read to the limit and no further.
        if (stream.CanSeek && stream.Length > most)
            throw InputFile.TooLarge(shown, most);
        byte[] buffer = new byte[Math.Min(most + 1, FirstBytes)];
        int count = 0;
        while (true)
        {
            count += stream.ReadAtLeast(buffer.AsSpan(count), buffer.Length - count, throwOnEndOfStream: false);
            if (count > most)
                throw InputFile.TooLarge(shown, most);
            if (count < buffer.Length)
                return buffer[..count];
            Array.Resize(ref buffer, (int)Math.Min(most + 1L, 2L * buffer.Length));
        }
    }

    private static string FolderOf(string path) => Path.GetDirectoryName(Path.GetFullPath(path)) ?? Path.GetPathRoot(Path.GetFullPath(path))!;

    /// <summary>Where a path leads in the end: what is behind a link is written, and the link stays.</summary>
    private static string Resolved(string path)
    {
        try
        {
            return File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? Path.GetFullPath(path);
        }
        catch (Exception odd) when (odd is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return Path.GetFullPath(path);
        }
    }

    /// <summary>A file is put in place by renaming, which would take the place of a device or a named pipe.</summary>
    private static bool IsDevice(string path)
    {
        if (OperatingSystem.IsWindows())
            return false;
        return FileKind.IsNotRegular(path) || new[] { Path.GetFullPath(path), Resolved(path) }.Any(full =>
            full.StartsWith("/proc/", StringComparison.Ordinal)
            || (full.StartsWith("/dev/", StringComparison.Ordinal) && !full.StartsWith("/dev/shm/", StringComparison.Ordinal)));
    }

    private static void TryDelete(string path)
    {
        try
        {
            if (File.Exists(path))
                File.Delete(path);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // The file is written or its trouble is being reported; a left-over temporary adds nothing to that.
        }
    }
}
