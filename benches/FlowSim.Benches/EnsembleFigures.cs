using FlowSim.Straining;

namespace FlowSim.Benches;

/// <summary>What is compared of a run.</summary>
/// <param name="Drain95S">95 % drain time, s; NaN if never.</param>
/// <param name="FirstOverflowS">First overflow, s; +∞ if none.</param>
/// <param name="OverRimKg">Honey over the rim, kg.</param>
/// <param name="StrainedKg">Honey through the cloth, kg.</param>
internal readonly record struct EnsembleFigures(double Drain95S, double FirstOverflowS, double OverRimKg, double StrainedKg)
{
    public static EnsembleFigures Of(StrainingSample s) => new(s.DrainSeconds, s.FirstOverflowSeconds, s.OverRimKg, s.StrainedKg);
}

/// <summary>How far runs are from the reference.</summary>
/// <param name="Runs">Runs compared.</param>
/// <param name="MedianError">Median relative error of the 95 % drain time.</param>
/// <param name="ErrorOf99Percent">The error that 99 % of the runs stay below.</param>
/// <param name="WorstError">Largest error.</param>
/// <param name="OverflowDiffers">Runs whose overflow yes or no is another.</param>
/// <param name="WorstOverRimKg">Largest error of the honey over the rim, kg.</param>
internal sealed record EnsembleError(int Runs, double MedianError, double ErrorOf99Percent, double WorstError, int OverflowDiffers, double WorstOverRimKg)
{
    /// <summary>Compares as many runs as both have.</summary>
    public static EnsembleError Between(IReadOnlyList<EnsembleFigures> runs, IReadOnlyList<EnsembleFigures> reference)
    {
        int count = Math.Min(runs.Count, reference.Count);
        double[] errors = new double[count];
        int differs = 0;
        double worstKg = 0;
        for (int i = 0; i < count; i++)
        {
            // Both never: no error. One never: as wrong as can be.
            bool never = double.IsNaN(runs[i].Drain95S);
            errors[i] = never || double.IsNaN(reference[i].Drain95S)
                ? (never && double.IsNaN(reference[i].Drain95S) ? 0 : 1)
                : Math.Abs((runs[i].Drain95S / reference[i].Drain95S) - 1);
            differs += double.IsFinite(runs[i].FirstOverflowS) == double.IsFinite(reference[i].FirstOverflowS) ? 0 : 1;
            worstKg = Math.Max(worstKg, Math.Abs(runs[i].OverRimKg - reference[i].OverRimKg));
        }

        double median = EnsembleTiming.Median(errors);
        return new EnsembleError(count, median, EnsembleTiming.Quantile(errors, 0.99), errors[^1], differs, worstKg);
    }
}
