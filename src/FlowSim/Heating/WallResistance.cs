using UnitsNet;

namespace FlowSim.Heating;

/// <summary>Walls and insulation as resistances in series.</summary>
public static class WallResistance
{
    /// <summary>Overall coefficient of a flat wall between two films.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: 1/U = 1/h_i + Σ e/λ + 1/h_o.</para>
    /// <para><b>Range</b>: steady, one-dimensional; the heat kept in the wall itself is left out.</para>
    /// <para><b>Error</b>: exact for its assumptions.</para>
    /// <para><b>Source</b>: Fourier 1822, as in any text on heat transfer.</para>
    /// <para><b>Checked by</b>: WallResistanceTests.cs.</para>
    /// </remarks>
    /// <param name="inside">Coefficient on the inside, above 0.</param>
    /// <param name="layers">Layers, in any order; none is a wall without resistance.</param>
    /// <param name="outside">Coefficient on the outside, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static HeatTransferCoefficient OverallOfPlane(HeatTransferCoefficient inside, IReadOnlyList<WallLayer> layers, HeatTransferCoefficient outside)
    {
        Check(inside, layers, outside);
        return HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(
            SeriesWPerM2K(inside.WattsPerSquareMeterKelvin, PlaneM2KPerW(layers), outside.WattsPerSquareMeterKelvin));
    }

    /// <summary>Overall coefficient of a round wall between two films, per area of its inside.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: 1/U = 1/h_i + Σ (r_i/λ) ln(r_out/r_in) + r_i/(r_o h_o), r_i the inside of the wall, r_o its outside.</para>
    /// <para><b>Range</b>: steady, long cylinder; the heat kept in the wall itself is left out.</para>
    /// <para><b>Error</b>: exact for its assumptions.</para>
    /// <para><b>Source</b>: Fourier 1822, as in any text on heat transfer.</para>
    /// <para><b>Checked by</b>: WallResistanceTests.cs.</para>
    /// </remarks>
    /// <param name="innerRadius">Radius of the inside r_i, 1 mm to 10 m.</param>
    /// <param name="inside">Coefficient on the inside, above 0.</param>
    /// <param name="layers">Layers from the inside out.</param>
    /// <param name="outside">Coefficient on the outside, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static HeatTransferCoefficient OverallOfCylinder(Length innerRadius, HeatTransferCoefficient inside, IReadOnlyList<WallLayer> layers, HeatTransferCoefficient outside)
    {
        double radiusM = EquipmentCheck.Millimetres(innerRadius, 1, 10000, nameof(innerRadius));
        Check(inside, layers, outside);
        (double resistance, double outerM) = CylinderM2KPerW(radiusM, layers);
        return HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(
            SeriesWPerM2K(inside.WattsPerSquareMeterKelvin, resistance, outside.WattsPerSquareMeterKelvin * outerM / radiusM));
    }

    /// <summary>Coefficient of two films with a resistance between them, all per the same area, W/(m²·K); 0 when either film is 0.</summary>
    /// <param name="insideWPerM2K">Inside film, W/(m²·K), at least 0; infinite for none.</param>
    /// <param name="wallM2KPerW">Resistance, m²·K/W.</param>
    /// <param name="outsideWPerM2K">Outside film, W/(m²·K), at least 0; infinite for none.</param>
    internal static double SeriesWPerM2K(double insideWPerM2K, double wallM2KPerW, double outsideWPerM2K) =>
        1 / (1 / insideWPerM2K + wallM2KPerW + 1 / outsideWPerM2K);

    /// <summary>Resistance of flat layers, m²·K/W.</summary>
    internal static double PlaneM2KPerW(IReadOnlyList<WallLayer> layers)
    {
        double sum = 0;
        foreach (WallLayer layer in layers)
            sum += layer.Thickness.Meters / layer.Conductivity.WattsPerMeterKelvin;
        return sum;
    }

    /// <summary>Resistance of round layers per area of the inside, m²·K/W, and the radius of the outside, m.</summary>
    internal static (double M2KPerW, double OuterRadiusM) CylinderM2KPerW(double innerRadiusM, IReadOnlyList<WallLayer> layers)
    {
        double sum = 0, radiusM = innerRadiusM;
        foreach (WallLayer layer in layers)
        {
            double thickness = layer.Thickness.Meters;
            sum += innerRadiusM / layer.Conductivity.WattsPerMeterKelvin * double.LogP1(thickness / radiusM);
            radiusM += thickness;
        }

        return (sum, radiusM);
    }

    private static void Check(HeatTransferCoefficient inside, IReadOnlyList<WallLayer> layers, HeatTransferCoefficient outside)
    {
        EquipmentCheck.Present(layers);
        EquipmentCheck.Within(inside.WattsPerSquareMeterKelvin, 1e-6, 1e9, "W/(m²·K)", nameof(inside));
        EquipmentCheck.Within(outside.WattsPerSquareMeterKelvin, 1e-6, 1e9, "W/(m²·K)", nameof(outside));
        foreach (WallLayer layer in layers)
        {
            EquipmentCheck.Present(layer);
            layer.Validate();
        }
    }
}
