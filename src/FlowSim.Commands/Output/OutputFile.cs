using FlowSim.Commands.Input;

namespace FlowSim.Commands.Output;

/// <summary>Writes a file whole or not at all, and never over another without leave.</summary>
internal static class OutputFile
{
    /// <summary>Checks early, before a long run, what would refuse the file later.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <exception cref="FileTroubleException">It is a folder, is in no folder, or exists and may not be replaced.</exception>
    public static void RequireFree(string path, bool force)
    {
        string shown = Printable.Of(path, 200);
        if (string.IsNullOrWhiteSpace(path) || path.Contains('\0', StringComparison.Ordinal))
            throw new FileTroubleException($"\"{shown}\" is not a file name");
        if (Directory.Exists(path))
            throw new FileTroubleException($"{shown} is a folder; give a file name");
        if (!Directory.Exists(FolderOf(path)))
            throw new FileTroubleException($"{shown} cannot be written: there is no folder {Printable.Of(FolderOf(path), 200)}");
        if (IsDevice(path))
            throw new FileTroubleException($"{shown} cannot be written: it is a device or a pipe and not a file; give a file name");
        if (File.Exists(path) && !force)
            throw new FileTroubleException($"{shown} exists already; --force replaces it, or choose another name");
    }

    /// <summary>Checks that a figure's file ends in a way that says its format.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <exception cref="BadInputException">It does not.</exception>
    /// <param name="option">Option that names it.</param>
    public static void RequireFigure(string path, Problems problems, string option = "--plot")
    {
        if (Path.GetExtension(path).ToLowerInvariant() is ".png" or ".svg")
            return;
        problems.Add(new Spot(option + " " + path, 0, 0), "ends neither in .png nor in .svg, which name the format");
        throw new BadInputException(problems);
    }

    /// <summary>Checks that a run sheet's file ends as a page does, so that a browser opens it.</summary>
    /// <param name="option">Option that names it.</param>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <exception cref="BadInputException">It does not.</exception>
    public static void RequirePage(string option, string path, Problems problems)
    {
        if (Path.GetExtension(path).ToLowerInvariant() is ".html" or ".htm")
            return;
        problems.Add(new Spot(option + " " + path, 0, 0), "does not end in .html; a run sheet is a page for a browser");
        throw new BadInputException(problems);
    }

    /// <summary>Checks that a file to be written is none of the other files of the run.</summary>
    /// <param name="option">Option that names it.</param>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="others">What the other files are, with their paths; null for one that is not used.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <exception cref="BadInputException">It is one of them.</exception>
    public static void RequireOwn(string option, string path, IEnumerable<(string What, string? Path)> others, Problems problems)
    {
        foreach ((string what, string? other) in others)
        {
            if (string.IsNullOrWhiteSpace(path) || string.IsNullOrWhiteSpace(other) || !string.Equals(Resolved(path), Resolved(other), StringComparison.Ordinal))
                continue;
            problems.Add(new Spot(option + " " + path, 0, 0), $"names {what} too; give another file name");
            throw new BadInputException(problems);
        }
    }

    /// <summary>Lets <paramref name="write"/> write a temporary file beside the path, then renames it.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <param name="write">Writes the file of the path it is given, which ends as <paramref name="path"/> does.</param>
    /// <exception cref="FileTroubleException">It could not be written.</exception>
    public static void Write(string path, bool force, Action<string> write)
    {
        RequireFree(path, force);
        string temporary = Path.Combine(FolderOf(path), ".flowsim-" + Path.GetRandomFileName() + Path.GetExtension(path));
        try
        {
            write(temporary);
            File.Move(temporary, Resolved(path), overwrite: force);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new FileTroubleException($"{Printable.Of(path, 200)} cannot be written: {Printable.Of(trouble.Message, 200)}");
        }
        finally
        {
            TryDelete(temporary);
        }
    }

    /// <summary>Writes text as UTF-8 without a byte-order mark.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <param name="text">Text.</param>
    public static void WriteText(string path, bool force, string text) =>
        Write(path, force, temporary => File.WriteAllText(temporary, text));

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
