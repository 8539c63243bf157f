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

    /// <summary>A table or a text.</summary>
    /// <param name="option">Option.</param>
    /// <param name="path">Path; null when it was not asked for.</param>
    /// <param name="overTime">Whether it shows the run over time.</param>
    public static Asked Text(string option, string? path, bool overTime = false) => new(option, path, IsFigure: false, overTime);

    /// <summary>A figure.</summary>
    /// <param name="option">Option.</param>
    /// <param name="path">Path; null when it was not asked for.</param>
    /// <param name="overTime">Whether it shows the run over time.</param>
    public static Asked Drawing(string option, string? path, bool overTime = false) => new(option, path, IsFigure: true, overTime);

    /// <summary>A run sheet.</summary>
    /// <param name="path">Path; null when it was not asked for.</param>
    public static Asked Report(string? path) => Text(ReportOption, path);
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

    /// <summary>Gives an answer: as JSON and nothing else, or as text with the files that were written.</summary>
    /// <typeparam name="TText">Writer of the text.</typeparam>
    /// <param name="request">What was asked for.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="files">Files that were written.</param>
    /// <param name="json">Makes the JSON.</param>
    /// <param name="text">Makes the writer of the text.</param>
    /// <param name="whole">Writes the whole text.</param>
    /// <param name="outcome">Writes the outcome alone.</param>
    public static void Answer<TText>(
        BatchRequest request, Surroundings around, IReadOnlyList<Asked> files, Func<string> json, Func<Page, Display, TText> text, Action<TText> whole, Action<TText> outcome)
    {
        if (request.Json)
        {
            around.Json.Write(json());
            return;
        }

        TText writer = text(new Page(around.Output, around.Width, around.Colour), new Display(request.Units));
        (request.Quiet ? outcome : whole)(writer);
        Tell(around, files);
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
