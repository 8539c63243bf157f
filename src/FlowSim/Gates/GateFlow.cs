namespace FlowSim.Gates;

/// <summary>Flow through a gate: entry, tube and blade in series, viscous and inertial pressure added.</summary>
internal static class GateFlow
{
    /// <summary>Shape factors of a gate at an opening: R̂ and B̂ of <c>Δp = μ R̂ Q + ρ B̂ Q²</c>.</summary>
    /// <remarks>
    /// Entry (half of Sampson's hole into a free jet, the whole of it under the pond's surface) + tube + what the blade adds
    /// to a fully open thin hole, which is nothing when fully open, times the gate's own factor. <c>B̂ = K/(2A²)</c>.
    /// </remarks>
    /// <param name="gate">Gate, already checked.</param>
    /// <param name="openingFraction">Travel of the blade as a share of the bore; below 0 is shut, above 1 fully open.</param>
    internal static GateGeometry GeometryOf(Gate gate, double openingFraction) =>
        GeometryOf(gate.Blade, gate.Outlet, gate.Bore.Meters / 2, gate.TubeLength.Meters, openingFraction, gate.Factor);

    /// <summary>The same from numbers.</summary>
    /// <param name="blade">Shape of the blade.</param>
    /// <param name="outlet">Where the outlet ends.</param>
    /// <param name="radiusM">Radius of the bore, m.</param>
    /// <param name="tubeLengthM">Length of the tube, m.</param>
    /// <param name="openingFraction">Travel of the blade as a share of the bore; below 0 is shut, above 1 fully open.</param>
    /// <param name="factor">Factor on R̂.</param>
    internal static GateGeometry GeometryOf(BladeShape blade, GateOutlet outlet, double radiusM, double tubeLengthM, double openingFraction, double factor)
    {
        if (!(openingFraction > 0))
            return GateGeometry.Shut;

        GateOpening opening = GateOpening.Of(blade, radiusM, Math.Min(openingFraction, 1));
        double entry = outlet == GateOutlet.Submerged
            ? OpeningResistance.ThinHoleSampson1891PerM3(radiusM)
            : OpeningResistance.HoleEntryPerM3(radiusM);
        double tube = OpeningResistance.TubePoiseuille1840PerM3(radiusM, tubeLengthM);
        double excess = Math.Max(0, OpeningResistance.ThinOpeningPerM3(opening.AreaM2, opening.PerimeterM) - OpeningResistance.ThinHoleSampson1891PerM3(radiusM));
        double areaRatio = opening.AreaM2 / (Math.PI * radiusM * radiusM);
        double inertial = OpeningResistance.ShortTubeLossCoefficient(areaRatio) / 2 / opening.AreaM2 / opening.AreaM2;

        // An opening so small that its factors overflow is shut; NaN (0/0) is caught by the same comparison.
        double viscous = factor * (entry + tube + excess);
        return viscous < double.PositiveInfinity && inertial < double.PositiveInfinity
            ? new GateGeometry(viscous, inertial)
            : GateGeometry.Shut;
    }

    /// <summary>Volume flow under a pressure, m³/s: the positive root of <c>B Q² + R Q = Δp</c>, without cancellation. 0 when shut or not driven.</summary>
    /// <param name="pressurePa">Pressure Δp, Pa; not positive gives 0.</param>
    /// <param name="resistancePaSPerM3">R = μ R̂, Pa·s/m³; infinite when shut.</param>
    /// <param name="inertialPaS2PerM6">B = ρ B̂, Pa·s²/m⁶.</param>
    internal static double VolumeFlowM3PerS(double pressurePa, double resistancePaSPerM3, double inertialPaS2PerM6)
    {
        if (!(pressurePa > 0) || double.IsPositiveInfinity(resistancePaSPerM3))
            return 0;

        return 2 * pressurePa / (resistancePaSPerM3 + Math.Sqrt(resistancePaSPerM3 * resistancePaSPerM3 + 4 * inertialPaS2PerM6 * pressurePa));
    }
}
