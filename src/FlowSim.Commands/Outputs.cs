using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>A file that an option asks for.</summary>
/// <param name="Option">Option.</param>
/// <param name="Path">Path; null when it was not asked for.</param>
/// <param name="IsFigure">Whether it is a figure.</param>
/// <param name="NeedsSeries">Whether it shows the run over time.</param>
internal sealed record Asked(string Option, string? Path, bool IsFigure, bool NeedsSeries)
{
    /// <summary>Option that asks for a run sheet.</summary>
    public const string ReportOption = "--report";

    /// <summary>A run sheet.</summary>
    /// <param name="path">Path; null when it was not asked for.</param>
    public static Asked Report(string? path) => new(ReportOption, path, IsFigure: false, NeedsSeries: false);
}

/// <summary>Checks the files that are asked for, before a long run.</summary>
internal static class Outputs
{
    /// <summary>Checks that every file can be written and that none is another.</summary>
    /// <param name="around">Surroundings.</param>
    /// <param name="loaded">Input.</param>
    /// <param name="input">Path of the input; null for the example.</param>
    /// <param name="force">Whether files may be replaced.</param>
    /// <param name="seriesPoints">Points in the series of the run; null when it has none to be asked for.</param>
    /// <param name="files">Files.</param>
    public static void Require(Surroundings around, Loaded loaded, string? input, bool force, int? seriesPoints, params IReadOnlyList<Asked> files) =>
        Require(around, loaded, [("the input", input)], force, seriesPoints, files);

    /// <summary>Checks that every file can be written and that none is another.</summary>
    /// <param name="around">Surroundings.</param>
    /// <param name="loaded">Input.</param>
    /// <param name="inputs">What the inputs are, with their paths.</param>
    /// <param name="force">Whether files may be replaced.</param>
    /// <param name="seriesPoints">Points in the series of the run; null when it has none to be asked for.</param>
    /// <param name="files">Files.</param>
    public static void Require(Surroundings around, Loaded loaded, IReadOnlyList<(string What, string? Path)> inputs, bool force, int? seriesPoints, params IReadOnlyList<Asked> files)
    {
        List<(string What, string? Path)> taken = [.. inputs];
        foreach (Asked file in files)
        {
            if (file.Path is not { } path)
                continue;
            OutputFile.RequireOwn(around.Files, file.Option, path, taken, loaded.Problems);
            if (around.Figures is null && (file.IsFigure || file.Option == Asked.ReportOption))
                OutputFile.RefuseFigure(file.Option, path, loaded.Problems);
            if (file.IsFigure)
                OutputFile.RequireFigure(path, loaded.Problems, file.Option);
            if (file.Option == Asked.ReportOption)
                OutputFile.RequirePage(file.Option, path, loaded.Problems);
            around.Files.RequireFree(path, force);
            if (file.NeedsSeries && seriesPoints == 0)
            {
                loaded.Problems.Add(new Spot(file.Option, 0, 0), $"needs a series, and {Keys.Run.Points} is 0; give 2 or more");
                throw new BadInputException(loaded.Problems);
            }

            taken.Add(("what " + file.Option, path));
        }
    }

    /// <summary>Says which files were written.</summary>
    /// <param name="around">Surroundings.</param>
    /// <param name="files">Files.</param>
    public static void Tell(Surroundings around, params IReadOnlyList<Asked> files)
    {
        around.Output.Flush();
        foreach (string path in files.Select(file => file.Path).OfType<string>())
            around.Error.Write($"wrote {Printable.Of(path, 200)}\n");
    }
}
