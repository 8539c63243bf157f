namespace FlowSim.Straining;

/// <summary>What is read off every run of an ensemble at given times.</summary>
internal readonly struct EnsembleTrace
{
    /// <summary>Times, s, from 0, increasing.</summary>
    public ReadOnlyMemory<double> TimesS { get; init; }

    /// <summary>Quantities to read.</summary>
    public ReadOnlyMemory<StrainingObservable> Quantities { get; init; }

    /// <summary>Takes what was read, SI: run by run, of each run quantity by quantity, of each quantity time by time.</summary>
    public Memory<double> Values { get; init; }

    /// <summary>Whether what stands at the end of a run stays so afterwards; otherwise there is nothing to read after it, and NaN is written.</summary>
    public bool HoldsLast { get; init; }

    /// <summary>Whether nothing is read.</summary>
    public bool IsEmpty => TimesS.IsEmpty;

    /// <summary>Numbers that one run gives.</summary>
    public int PerRun => TimesS.Length * Quantities.Length;

    /// <summary>Room for a quantity of a run, time by time.</summary>
    /// <param name="run">Run.</param>
    /// <param name="quantity">Place in <see cref="Quantities"/>.</param>
    public Span<double> Of(int run, int quantity) => Values.Span.Slice((run * PerRun) + (quantity * TimesS.Length), TimesS.Length);
}
