using FlowSim.Commands.Input;

namespace FlowSim.Commands.Output;

/// <summary>Checks the names of files that are to be written.</summary>
internal static class OutputFile
{
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

    /// <summary>Refuses a figure, or a run sheet, which holds some, where nobody draws.</summary>
    /// <param name="option">Option that names it.</param>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <exception cref="BadInputException">Always.</exception>
    public static void RefuseFigure(string option, string path, Problems problems)
    {
        problems.Add(new Spot(option + " " + path, 0, 0), "no figures are drawn here; leave it out");
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
    /// <param name="files">Files.</param>
    /// <param name="option">Option that names it.</param>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="others">What the other files are, with their paths; null for one that is not used.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <exception cref="BadInputException">It is one of them.</exception>
    public static void RequireOwn(IFiles files, string option, string path, IEnumerable<(string What, string? Path)> others, Problems problems)
    {
        foreach ((string what, string? other) in others)
        {
            if (string.IsNullOrWhiteSpace(path) || string.IsNullOrWhiteSpace(other) || !files.AreOne(path, other))
                continue;
            problems.Add(new Spot(option + " " + path, 0, 0), $"names {what} too; give another file name");
            throw new BadInputException(problems);
        }
    }
}
