namespace FlowSim.Screens;

/// <summary>A screen whose pond has upright walls, as numbers: <c>V = A d</c>, wetted cloth <c>W₀ + W₁ d</c>, head integral <c>(W₀ + ½ W₁ d) d</c>.</summary>
/// <param name="SurfaceM2">Surface of the pond A, m².</param>
/// <param name="FloorClothM2">Cloth at the bottom W₀, m².</param>
/// <param name="WallClothM">Cloth per depth W₁, m.</param>
internal readonly record struct PrismScreen(double SurfaceM2, double FloorClothM2, double WallClothM);
