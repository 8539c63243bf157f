using System.Globalization;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input;

/// <summary>Where something was written: a line and column of a file, or an option.</summary>
/// <param name="Source">File as the user named it, or the option.</param>
/// <param name="Line">Line from 1; 0 when it is not in a file.</param>
/// <param name="Column">Column from 1.</param>
internal readonly record struct Spot(string Source, int Line, int Column)
{
    /// <summary>This spot some characters further on.</summary>
    /// <param name="characters">Characters.</param>
    public Spot After(int characters) => Line == 0 ? this : this with { Column = Column + characters };

    public override string ToString() => Line == 0
        ? Printable.Of(Source, 120)
        : string.Create(CultureInfo.InvariantCulture, $"{Printable.Of(Source, 120)}, line {Line}, column {Column}");
}

/// <summary>Something wrong with the input.</summary>
/// <param name="Spot">Where.</param>
/// <param name="What">What is wrong and what would be right.</param>
internal sealed record Problem(Spot Spot, string What)
{
    public override string ToString() => $"{Spot}: {What}";
}

/// <summary>Problems found so far, so that several are reported together.</summary>
internal sealed class Problems
{
    /// <summary>Most that are kept; a hostile file cannot flood the terminal.</summary>
    public const int Most = 20;

    private readonly List<Problem> _all = [];

    public bool Any => _all.Count > 0;

    /// <summary>Number of problems so far, those that are not kept among them.</summary>
    public int Count => _all.Count + Unlisted;

    public int Unlisted { get; private set; }

    /// <summary>File by file in the order of their first problem, each from its top; what options did wrong comes last.</summary>
    public IReadOnlyList<Problem> All
    {
        get
        {
            List<string> files = [.. _all.Select(p => p.Spot.Source).Distinct(StringComparer.Ordinal)];
            return [.. _all.OrderBy(p => p.Spot.Line == 0).ThenBy(p => p.Spot.Line == 0 ? 0 : files.IndexOf(p.Spot.Source)).ThenBy(p => p.Spot.Line).ThenBy(p => p.Spot.Column)];
        }
    }

    public void Add(Spot spot, string what)
    {
        if (_all.Contains(new Problem(spot, what)))
            return;
        if (_all.Count < Most)
            _all.Add(new Problem(spot, what));
        else
            Unlisted++;
    }
}
