namespace FlowSim.Straining;

/// <summary>One number of a setup that can be varied from run to run, by its name in a file. The list is <see cref="StrainingInputs"/>.</summary>
/// <remarks>
/// Values are SI doubles: shares as fractions, temperatures in K. A varied run keeps the parts of its setup (shapes, laws, who
/// does what), so it costs no new setup.
/// </remarks>
public sealed class StrainingInput
{
    private readonly Field _field;
    private readonly double _perSi;
    private readonly Func<StrainingSetup, (double Low, double High)> _range;
    private readonly Func<StrainingSetup, double, StrainingSetup> _with;
    private readonly Func<StrainingSetup, bool> _applies;

    internal StrainingInput(
        string name,
        string words,
        string unit,
        Field field,
        Func<StrainingSetup, (double Low, double High)> range,
        Func<StrainingSetup, double, StrainingSetup> with,
        Func<StrainingSetup, bool>? applies = null,
        double perSi = 1)
    {
        (Name, Words, Unit, _field, _range, _with, _perSi) = (name, words, unit, field, range, with, perSi);
        _applies = applies ?? (_ => true);
    }

    /// <summary>Where a number stands.</summary>
    internal delegate ref double Field(ref StrainingNumbers numbers);

    /// <summary>Name, as section and key of a file: <c>honey.moisture</c>.</summary>
    public string Name { get; }

    /// <summary>What it is, for people.</summary>
    public string Words { get; }

    /// <summary>SI unit of the values; empty for shares and factors.</summary>
    public string Unit { get; }

    /// <summary>Whether it does anything in a setup: the depth to ride does not where nobody rides the gate.</summary>
    /// <param name="setup">Setup.</param>
    public bool AppliesTo(StrainingSetup setup) => _applies(setup);

    /// <summary>Its value in a setup.</summary>
    /// <param name="setup">A setup that passes its checks.</param>
    public double ValueIn(StrainingSetup setup)
    {
        StrainingNumbers numbers = StrainingNumbers.Of(setup);
        return _field(ref numbers) / _perSi;
    }

    /// <summary>The values that may stand in a setup, everything else being as it is.</summary>
    /// <param name="setup">A setup that passes its checks.</param>
    public (double Low, double High) RangeIn(StrainingSetup setup) => _range(setup);

    /// <summary>The setup with another value; the same run as a varied one with this value.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="value">Value, SI.</param>
    public StrainingSetup With(StrainingSetup setup, double value) => _with(setup, value);

    /// <inheritdoc/>
    public override string ToString() => Name;

    internal void Set(ref StrainingNumbers numbers, double value) => _field(ref numbers) = value * _perSi;
}
