using FlowSim.Commands.Input;
using FlowSim.Commands.Output.Sheets;
using FlowSim.RunSheets;

namespace FlowSim.Commands;

/// <summary>The files that a command was asked for: checked before a long run, written after it.</summary>
internal sealed class AskedFiles
{
    private readonly FilesRequest _request;
    private readonly Surroundings _around;
    private readonly string _name;

    /// <summary>Checks that every file can be written and that none is another.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="loaded">Input.</param>
    /// <param name="seriesPoints">Points in the series of the run; null when it has none to be asked for.</param>
    /// <param name="files">Files besides the run sheet.</param>
    public AskedFiles(FilesRequest request, Surroundings around, Loaded loaded, int? seriesPoints, params IReadOnlyList<Asked> files)
        : this(request, around, loaded, [("the input", request.File)], seriesPoints, files)
    {
    }

    /// <summary>Checks that every file can be written and that none is another.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="loaded">Input.</param>
    /// <param name="inputs">What the inputs are, with their paths.</param>
    /// <param name="seriesPoints">Points in the series of the run; null when it has none to be asked for.</param>
    /// <param name="files">Files besides the run sheet.</param>
    public AskedFiles(FilesRequest request, Surroundings around, Loaded loaded, IReadOnlyList<(string What, string? Path)> inputs, int? seriesPoints, params IReadOnlyList<Asked> files)
    {
        (_request, _around, _name) = (request, around, loaded.Name);
        All = [.. files, Asked.Report(request.Report)];
        Outputs.Require(around, loaded, inputs, request.Force, seriesPoints, All);
    }

    /// <summary>The files.</summary>
    public IReadOnlyList<Asked> All { get; }

    /// <summary>Writes a table.</summary>
    /// <param name="path">Path; null when it was not asked for.</param>
    /// <param name="table">Makes it.</param>
    public void Write(string? path, Func<string> table)
    {
        if (path is not null)
            _around.Files.Write(path, _request.Force, table());
    }

    /// <summary>Draws a figure.</summary>
    /// <param name="path">Path; null when it was not asked for.</param>
    /// <param name="figure">Makes it.</param>
    public void Draw(string? path, Func<Figure> figure)
    {
        if (path is not null)
            _around.Files.Write(path, _request.Force, _around.Drawing.Draw(figure(), _request.Units, _name, path));
    }

    /// <summary>Writes the run sheet if it was asked for.</summary>
    /// <param name="sheet">Makes it, given the name of the input without its folder.</param>
    public void WriteSheet(Func<string, RunSheet> sheet)
    {
        if (_request.Report is { } path)
            _around.Files.Write(path, _request.Force, RunSheetHtml.Of(sheet(Provenance.NameOf(_request.File))));
    }
}
