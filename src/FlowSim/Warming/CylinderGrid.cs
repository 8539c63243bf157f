namespace FlowSim.Warming;

/// <summary>An upright cylinder cut into rings, evenly in radius and height. Cell (i, k) is at <c>i · AxialCells + k</c>: i from the axis, k from the floor.</summary>
internal sealed class CylinderGrid
{
    public CylinderGrid(double radiusM, double heightM, int radialCells, int axialCells)
    {
        RadiusM = radiusM;
        HeightM = heightM;
        RadialCells = radialCells;
        AxialCells = axialCells;
        RadialStepM = radiusM / radialCells;
        AxialStepM = heightM / axialCells;
        RingAreaM2 = new double[radialCells];
        for (int i = 0; i < radialCells; i++)
            RingAreaM2[i] = Math.PI * RadialStepM * RadialStepM * (2 * i + 1);
    }

    public double RadiusM { get; }

    public double HeightM { get; }

    public int RadialCells { get; }

    public int AxialCells { get; }

    /// <summary>Cells altogether.</summary>
    public int Count => RadialCells * AxialCells;

    public double RadialStepM { get; }

    public double AxialStepM { get; }

    /// <summary>Area of each ring seen from above, m².</summary>
    public double[] RingAreaM2 { get; }

    /// <summary>Area of the side that a cell of the outermost column has, m².</summary>
    public double SideCellAreaM2 => 2 * Math.PI * RadiusM * AxialStepM;

    /// <summary>Area of floor or surface, m².</summary>
    public double EndAreaM2 => Math.PI * RadiusM * RadiusM;

    /// <summary>Area over distance of the face outside ring i, m: its conductance by conductivity.</summary>
    public double RadialFaceM(int i) => 2 * Math.PI * (i + 1) * AxialStepM;

    /// <summary>Area over distance of the faces above and below a ring, m.</summary>
    public double AxialFaceM(int i) => RingAreaM2[i] / AxialStepM;

    /// <summary>Volume of a cell, m³.</summary>
    public double CellVolumeM3(int i) => RingAreaM2[i] * AxialStepM;

    /// <summary>Share of cell k's height that lies between two heights, 0 to 1.</summary>
    public double ShareBetween(int k, double fromM, double toM)
    {
        double low = Math.Max(fromM, k * AxialStepM), high = Math.Min(toM, (k + 1) * AxialStepM);
        double share = (high - low) / AxialStepM;
        return share > 1 - 1e-12 ? 1 : share > 1e-12 ? share : 0;
    }
}
