using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>An assumption in the place of a key that was not given.</summary>
/// <param name="Key">The key that would replace it, section and name.</param>
/// <param name="Text">What was assumed.</param>
/// <param name="Standing">How far it can be trusted.</param>
internal sealed record Assumption(string Key, string Text, Standing Standing);

/// <summary>A value that came with a spread.</summary>
/// <param name="Key">Key, section and name.</param>
/// <param name="Spread">The spread.</param>
/// <param name="Written">As it was written, fit to print.</param>
/// <param name="Middle">Its median for people, metric.</param>
/// <param name="Calibrated">Said of it if it was learnt; null when somebody wrote it.</param>
internal sealed record SpreadRead(string Key, Spread Spread, string Written, string Middle, CalibrationMark? Calibrated);

/// <summary>What was read into the input and what was assumed, to be shown with the result.</summary>
/// <param name="fileSpot">Spot that stands for the whole input.</param>
internal sealed class Journal(Spot fileSpot)
{
    private readonly List<Assumption> _assumptions = [];
    private readonly List<string> _echoes = [];
    private readonly List<SpreadRead> _spreads = [];
    private readonly List<(string Key, double Si)> _values = [];
    private readonly HashSet<string> _sections = new(StringComparer.Ordinal);

    public Spot FileSpot { get; } = fileSpot;

    public IReadOnlyList<Assumption> Assumptions => _assumptions;

    /// <summary>How the input was read where that is not plain.</summary>
    public IReadOnlyList<string> Echoes => UsesSpreads ? _echoes
        : [.. _echoes, .. _spreads.Where(read => !read.Spread.IsExact && read.Calibrated is null).Select(read => $"{read.Key}: taken at {read.Middle}; \"flowsim risk\" uses the spread \"{read.Written}\"")];

    /// <summary>Values that came with a spread, those that are said to be exact among them.</summary>
    public IReadOnlyList<SpreadRead> Spreads => _spreads;

    /// <summary>What is used of a calibration; null for none.</summary>
    public CalibrationTable? Calibration { get; set; }

    /// <summary>Whether the spreads are used and not their medians alone.</summary>
    public bool UsesSpreads { get; set; }

    /// <summary>Notes a value as it was read, SI.</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="si">Value.</param>
    public void Read(string section, string key, double si) => _values.Add((section + "." + key, si));

    /// <summary>Values that were read for a key, SI.</summary>
    /// <param name="key">Key.</param>
    public IEnumerable<double> ValuesOf(Key key) => _values.Where(v => v.Key == key.ToString()).Select(v => v.Si);

    /// <summary>Notes a spread, once however often it is read.</summary>
    /// <param name="spread">Spread.</param>
    public void Spread(SpreadRead spread)
    {
        if (_spreads.Exists(before => before.Key == spread.Key))
            return;
        _spreads.Add(spread);
        if (spread.Calibrated is { } mark)
            Assume(spread.Key, $"{Output.DriverText.NameOf(spread.Key)} {spread.Middle} by the {mark.By}, in place of {(mark.Replaces is { } said ? $"{said} in [{spread.Key.Split('.')[0]}]" : "what is common")}; the spread is {spread.Written}", Standing.GivenByUser);
    }

    /// <summary>Turns the spread of a key, if it has one, into another measure.</summary>
    /// <param name="key">Key.</param>
    /// <param name="factor">What one of the old measure is in the new one.</param>
    public void Rescale(Key key, double factor)
    {
        int at = _spreads.FindIndex(read => read.Key == key.ToString());
        if (at >= 0)
            _spreads[at] = _spreads[at] with { Spread = _spreads[at].Spread.Times(factor) };
    }

    /// <summary>Notes that a section is being read.</summary>
    /// <param name="name">Section.</param>
    public void Section(string name) => _sections.Add(name);

    /// <summary>Whether a section was read; one that was not cannot be to blame.</summary>
    /// <param name="name">Section.</param>
    public bool HasRead(string name) => _sections.Contains(name);

    /// <summary>Notes an assumption, once however often it is made.</summary>
    /// <param name="key">The key that would replace it, section and name.</param>
    /// <param name="text">What was assumed.</param>
    /// <param name="standing">How far it can be trusted.</param>
    public void Assume(string key, string text, Standing standing)
    {
        if (!_assumptions.Contains(new Assumption(key, text, standing)))
            _assumptions.Add(new Assumption(key, text, standing));
    }

    /// <summary>Takes back what was assumed in the place of a key that plays no part after all.</summary>
    /// <param name="key">Key.</param>
    public void Withdraw(Key key) => Withdraw(key.ToString());

    /// <summary>Takes back what was assumed in the place of a key, because more is said of it.</summary>
    /// <param name="key">Key, section and name.</param>
    public void Withdraw(string key) => _assumptions.RemoveAll(assumption => assumption.Key == key);

    public void Echo(string text)
    {
        if (!_echoes.Contains(text, StringComparer.Ordinal))
            _echoes.Add(text);
    }
}
