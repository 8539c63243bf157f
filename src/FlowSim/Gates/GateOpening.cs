namespace FlowSim.Gates;

/// <summary>Area and perimeter of what a blade leaves open of a round bore.</summary>
/// <param name="AreaM2">Area A, m².</param>
/// <param name="PerimeterM">Perimeter P, m.</param>
internal readonly record struct GateOpening(double AreaM2, double PerimeterM)
{
    /// <summary>A straight blade: the opening is a segment of the bore.</summary>
    /// <remarks>With α = acos(1 − 2s): A = a²(α − sin α cos α), P = 2a(α + sin α). Plane geometry, exact.</remarks>
    /// <param name="radiusM">Radius of the bore a, m.</param>
    /// <param name="openingFraction">Travel of the blade as a share of the bore s, 0 to 1.</param>
    public static GateOpening OfStraightBlade(double radiusM, double openingFraction)
    {
        double halfAngle = 2 * Math.Asin(Math.Sqrt(openingFraction));
        return new GateOpening(
            radiusM * radiusM / 2 * CircleSegment.AngleMinusSine(2 * halfAngle),
            2 * radiusM * (halfAngle + Math.Sin(halfAngle)));
    }

    /// <summary>A blade with a round hole of the bore's size: the opening is the lens that the two circles share.</summary>
    /// <remarks>
    /// With the centres 2a(1 − s) apart and β = acos(1 − s): A = 2a²(β − sin β cos β), P = 4aβ. Plane geometry, exact.
    /// </remarks>
    /// <param name="radiusM">Radius of the bore a, m.</param>
    /// <param name="openingFraction">Travel of the blade as a share of the bore s, 0 to 1.</param>
    public static GateOpening OfRoundHoledBlade(double radiusM, double openingFraction)
    {
        double halfAngle = 2 * Math.Asin(Math.Sqrt(openingFraction / 2));
        return new GateOpening(
            radiusM * radiusM * CircleSegment.AngleMinusSine(2 * halfAngle),
            4 * radiusM * halfAngle);
    }

    /// <summary>The opening of a blade.</summary>
    /// <param name="blade">Shape of the blade.</param>
    /// <param name="radiusM">Radius of the bore, m.</param>
    /// <param name="openingFraction">Travel of the blade as a share of the bore, 0 to 1.</param>
    public static GateOpening Of(BladeShape blade, double radiusM, double openingFraction) => blade == BladeShape.RoundHoled
        ? OfRoundHoledBlade(radiusM, openingFraction)
        : OfStraightBlade(radiusM, openingFraction);
}
