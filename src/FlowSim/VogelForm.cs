namespace FlowSim;

/// <summary>A viscosity of the form <c>ln μ = A + B/(T − T₀)</c> at one moisture; with T₀ = 0 an Arrhenius law. μ in Pa·s, T in K.</summary>
/// <param name="A">A.</param>
/// <param name="BKelvin">B, K.</param>
/// <param name="T0Kelvin">T₀, K.</param>
internal readonly record struct VogelForm(double A, double BKelvin, double T0Kelvin);
