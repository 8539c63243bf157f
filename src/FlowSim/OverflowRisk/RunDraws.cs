using FlowSim.Numerics.Sampling;

namespace FlowSim.OverflowRisk;

/// <summary>The draws of a seed, numbered: run i is point i / 16 of replicate i mod 16.</summary>
/// <remarks>
/// Sixteen independently scrambled Sobol' sequences, taken in turn, so that the first n runs are the beginning of the first 2 n and
/// what differs between the sequences tells the error.
/// </remarks>
internal sealed class RunDraws
{
    /// <summary>Independent replicates.</summary>
    public const int Replicates = 16;

    private readonly int _dimensions;
    private readonly ScrambledSobol[] _replicates;
    private double[] _rows = [];

    /// <summary>The draws of a seed.</summary>
    /// <param name="dimensions">Coordinates of a draw.</param>
    /// <param name="seed">Seed.</param>
    public RunDraws(int dimensions, ulong seed)
    {
        _dimensions = dimensions;
        _replicates = [.. Enumerable.Range(0, Replicates).Select(replicate => new ScrambledSobol(dimensions, seed, replicate))];
    }

    /// <summary>Rounds a number of runs up to a whole number per replicate.</summary>
    /// <param name="runs">Runs.</param>
    public static int Whole(int runs) => (runs + Replicates - 1) / Replicates * Replicates;

    /// <summary>Writes draws.</summary>
    /// <param name="firstRun">Number of the first run, a multiple of <see cref="Replicates"/>.</param>
    /// <param name="points">Takes the coordinates, run by run; as many runs as a multiple of <see cref="Replicates"/>.</param>
    public void Fill(long firstRun, Span<double> points)
    {
        int each = points.Length / _dimensions / Replicates;
        if (_rows.Length < each * _dimensions)
            _rows = new double[each * _dimensions];
        Span<double> rows = _rows.AsSpan(0, each * _dimensions);
        for (int replicate = 0; replicate < Replicates; replicate++)
        {
            _replicates[replicate].Fill(firstRun / Replicates, rows);
            for (int i = 0; i < each; i++)
                rows.Slice(i * _dimensions, _dimensions).CopyTo(points[(((i * Replicates) + replicate) * _dimensions)..]);
        }
    }
}
