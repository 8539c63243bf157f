namespace FlowSim.Vessels;

/// <summary>A vessel with upright walls, as numbers: volume, surface and wetted area are straight lines in the level.</summary>
/// <param name="FloorM2">Area of the floor and of the surface, m².</param>
/// <param name="PerimeterM">Perimeter, m.</param>
internal readonly record struct Prism(double FloorM2, double PerimeterM);
