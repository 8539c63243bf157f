namespace FlowSim.Numerics.Sampling;

/// <summary>An endless numbered list of points strictly inside the unit cube. Point n depends on n alone, so that n points are the first n of 2n.</summary>
public interface IPointSet
{
    /// <summary>Coordinates of a point.</summary>
    int Dimensions { get; }

    /// <summary>Writes consecutive points.</summary>
    /// <param name="first">Number of the first point, from 0.</param>
    /// <param name="points">Room for a whole number of points, row by row.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is negative or beyond the set, or the room is not a whole number of points.</exception>
    void Fill(long first, Span<double> points);
}

/// <summary>Kinds of points.</summary>
public enum PointKind
{
    /// <summary><see cref="Sampling.ScrambledSobol"/>: spread evenly; errors fall faster than N^−½ where the output is smooth.</summary>
    ScrambledSobol,

    /// <summary><see cref="RandomPoints"/>: independent; errors fall as N^−½ whatever the output.</summary>
    Random,
}
