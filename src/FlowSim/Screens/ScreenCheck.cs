using UnitsNet;

namespace FlowSim.Screens;

/// <summary>Checks strainers, cloths and debris once, before a run.</summary>
internal static class ScreenCheck
{
    private const double FinestOpeningMm = 0.02;
    private const double CoarsestOpeningMm = 10;
    private const int MostCloths = 8;

    /// <summary>Limits of the screen factor.</summary>
    internal const double LeastScreenFactor = 0.05;
    internal const double MostScreenFactor = 20;

    /// <summary>Most debris that a run takes, % of the honey's mass.</summary>
    internal const double MostDebrisPercent = 2;

    /// <summary>Limits of the debris' median size, m.</summary>
    internal const double FinestDebrisM = 1e-6;
    internal const double CoarsestDebrisM = 0.02;

    /// <summary>The limits of an opening, for messages.</summary>
    internal static string OpeningLimits => FormattableString.Invariant($"{FinestOpeningMm} to {CoarsestOpeningMm} mm");

    /// <summary>Whether an opening is within its limits.</summary>
    internal static bool OpeningFits(Length opening) => EquipmentCheck.IsWithin(opening.Millimeters, FinestOpeningMm, CoarsestOpeningMm);

    /// <summary>Checks a wire diameter.</summary>
    internal static void Wire(Length wireDiameter, string name) => EquipmentCheck.Millimetres(wireDiameter, 0.01, 5, name);

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal static void Validate(this Cloth cloth)
    {
        EquipmentCheck.Present(cloth);
        EquipmentCheck.Millimetres(cloth.Opening, FinestOpeningMm, CoarsestOpeningMm, nameof(Cloth.Opening));
        Wire(cloth.WireDiameter, nameof(Cloth.WireDiameter));

        // Thick wire on a small opening would leave no void in the model's cell: geometry, not a limit of ours.
        double porosity = SquareCloth.Porosity(cloth.Opening.Meters, cloth.WireDiameter.Meters);
        if (!SquareCloth.PorosityRange.Admits(porosity))
            throw EquipmentCheck.OutOfRange(nameof(Cloth.WireDiameter), cloth.WireDiameter.Millimeters, FormattableString.Invariant($"Wire of {cloth.WireDiameter.Millimeters:0.####} mm with an opening of {cloth.Opening.Millimeters:0.####} mm has a porosity of {porosity:0.###}; it must be within {SquareCloth.PorosityRange.OuterLow} to {SquareCloth.PorosityRange.OuterHigh}."));
    }

    /// <summary>Throws when a value is outside the range its documentation gives, or when settings do not go together.</summary>
    /// <exception cref="ArgumentNullException">Shape, cloths or a cloth is missing.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="ArgumentException">The shape does not answer with numbers, there is no cloth or too many, or a sealed strainer whose overflow would go past the cloth.</exception>
    internal static void Validate(this Strainer strainer)
    {
        EquipmentCheck.Present(strainer);
        EquipmentCheck.Present(strainer.Shape, nameof(Strainer.Shape)).RequireNumbers(nameof(Strainer.Shape));
        EquipmentCheck.Present(strainer.Cloths, nameof(Strainer.Cloths));
        if (strainer.Cloths.Count is < 1 or > MostCloths)
            throw EquipmentCheck.OutOfRange(nameof(Strainer.Cloths), strainer.Cloths.Count, $"A strainer has 1 to {MostCloths} cloths.");

        foreach (Cloth cloth in strainer.Cloths)
            cloth.Validate();

        EquipmentCheck.Within(strainer.ScreenFactor, LeastScreenFactor, MostScreenFactor, "", nameof(Strainer.ScreenFactor));
        EquipmentCheck.Within(strainer.MinimumHead.Millimeters, 0, 50, "mm", nameof(Strainer.MinimumHead));
        EquipmentCheck.Defined(strainer.Venting, nameof(Strainer.Venting));
        EquipmentCheck.Defined(strainer.Overflow, nameof(Strainer.Overflow));
        if (strainer is { Venting: Venting.Sealed, Overflow: OverflowPath.Bypass })
            throw EquipmentCheck.Refused(nameof(Strainer.Overflow), "A strainer sealed onto its receiver leaves honey no way past the cloth: with Venting Sealed the overflow must be Spill. If honey can run past the rim into the receiver, air can leave there too: choose Vented.");
    }

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal static void Validate(this Debris debris)
    {
        EquipmentCheck.Present(debris);
        EquipmentCheck.Within(debris.Load.Percent, 0, MostDebrisPercent, "%", nameof(Debris.Load));
        EquipmentCheck.Millimetres(debris.MedianSize, 1000 * FinestDebrisM, 1000 * CoarsestDebrisM, nameof(Debris.MedianSize));
        EquipmentCheck.Within(debris.SizeSpread, LogNormalMoments.SpreadRange.OuterLow, LogNormalMoments.SpreadRange.OuterHigh, "", nameof(Debris.SizeSpread));
        EquipmentCheck.Within(debris.CaptureEfficiency, 0, 1, "", nameof(Debris.CaptureEfficiency));
        EquipmentCheck.Within(debris.Density.KilogramsPerCubicMeter, 500, 3000, "kg/m³", nameof(Debris.Density));
        EquipmentCheck.Defined(debris.Law, nameof(Debris.Law));
    }
}
