using UnitsNet;

namespace FlowSim.Screens;

/// <summary>Plain square woven wire cloth.</summary>
public sealed record Cloth
{
    /// <summary>Clear opening between wires. 0.02 mm to 10 mm.</summary>
    public required Length Opening { get; init; }

    /// <summary>Wire diameter. 0.01 mm to 5 mm.</summary>
    public required Length WireDiameter { get; init; }

    /// <summary>Cloth of a standard test sieve by its ASTM E11 number, such as 30 for 600 µm.</summary>
    /// <param name="number">Number, 4 to 635.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such number; the message gives the nearest.</exception>
    public static Cloth FromAstmSieve(int number) => StandardSieves.ByAstmNumber(number).ToCloth();

    /// <summary>Cloth of a standard test sieve by its nominal opening.</summary>
    /// <param name="opening">Opening, 20 µm to 5.6 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such opening; the message gives the nearest.</exception>
    public static Cloth FromStandardOpening(Length opening) => StandardSieves.ByOpening(opening).ToCloth();

    /// <summary>Cloth by mesh count, the way wire cloth is sold in inches: the opening is what the wires leave of an inch.</summary>
    /// <param name="wiresPerInch">Wires per inch (25.4 mm), 2 to 500.</param>
    /// <param name="wireDiameter">Wire diameter, 0.01 mm to 5 mm and thin enough to leave an opening of 0.02 mm to 10 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its limits, or the wires leave no such opening.</exception>
    public static Cloth FromMeshCount(double wiresPerInch, Length wireDiameter)
    {
        EquipmentCheck.Within(wiresPerInch, 2, 500, "wires per inch", nameof(wiresPerInch));
        ScreenCheck.Wire(wireDiameter, nameof(wireDiameter));
        Length pitch = Length.FromMillimeters(MillimetresPerInch / wiresPerInch);
        Length opening = pitch - wireDiameter;
        return ScreenCheck.OpeningFits(opening)
            ? new Cloth { Opening = opening, WireDiameter = wireDiameter }
            : throw new ArgumentOutOfRangeException(
                nameof(wireDiameter),
                wireDiameter.Millimeters,
                FormattableString.Invariant($"{wiresPerInch:0.###} wires per inch of {wireDiameter.Millimeters:0.####} mm leave an opening of {opening.Millimeters:0.####} mm; the opening must be within {ScreenCheck.OpeningLimits}."));
    }

    /// <summary>Exact by definition of the inch.</summary>
    private const double MillimetresPerInch = 25.4;
}
