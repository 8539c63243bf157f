using System.Globalization;
using UnitsNet;

namespace FlowSim.Screens;

/// <summary>Standard test sieves by number or opening.</summary>
public static partial class StandardSieves
{
    /// <summary>Two openings this near each other, as a share, are the same sieve.</summary>
    private const double SameOpening = 1e-6;

    /// <summary>All of them, finest first: ISO 3310-1 from 20 µm to 5.6 mm, with the ASTM E11 numbers.</summary>
    public static IReadOnlyList<StandardSieve> All { get; } =
    [
        .. Table.Select(row => new StandardSieve(
            Length.FromMicrometers(row.OpeningUm),
            Length.FromMicrometers(row.WireUm),
            row.AstmNumber == 0 ? null : row.AstmNumber)),
    ];

    /// <summary>Where the table comes from.</summary>
    public static Source Source { get; } = new(
        "ISO 3310-1 and ASTM E11-17, as given in the tables of the open-source library fluids (particle_size_distribution)",
        Standing.SecondaryCopy);

    /// <summary>The sieve of an ASTM E11 number, such as 30 for 600 µm.</summary>
    /// <param name="number">Number, 4 to 635.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such number; the message gives the nearest.</exception>
    public static StandardSieve ByAstmNumber(int number)
    {
        StandardSieve nearest = All.Where(sieve => sieve.AstmNumber is not null).MinBy(sieve => Math.Abs((long)sieve.AstmNumber!.Value - number))!;
        return nearest.AstmNumber == number
            ? nearest
            : throw new ArgumentOutOfRangeException(
                nameof(number),
                number,
                string.Create(CultureInfo.InvariantCulture, $"There is no ASTM E11 sieve No. {number}. Nearest: No. {nearest.AstmNumber} ({nearest.Opening.Micrometers:0.###} µm)."));
    }

    /// <summary>The sieve of a nominal opening.</summary>
    /// <param name="opening">Opening, 20 µm to 5.6 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such opening; the message gives the nearest.</exception>
    public static StandardSieve ByOpening(Length opening)
    {
        double um = opening.Micrometers;
        StandardSieve nearest = All.MinBy(sieve => Math.Abs(sieve.Opening.Micrometers - um))!;
        return Math.Abs(nearest.Opening.Micrometers - um) <= SameOpening * um
            ? nearest
            : throw new ArgumentOutOfRangeException(
                nameof(opening),
                um,
                string.Create(CultureInfo.InvariantCulture, $"There is no standard sieve of {um:0.###} µm. Nearest: {nearest.Opening.Micrometers:0.###} µm with {nearest.WireDiameter.Micrometers:0.###} µm wire."));
    }
}
