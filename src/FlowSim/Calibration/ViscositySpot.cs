using UnitsNet;

namespace FlowSim.Calibration;

/// <summary>A viscosity of this honey measured by itself, as with a falling ball.</summary>
/// <param name="Name">How it was measured, for people.</param>
/// <param name="Temperature">Temperature of the honey then, within the range of its viscosity correlation.</param>
/// <param name="Viscosity">Viscosity found.</param>
/// <param name="LogStandardDeviation">Standard deviation of its natural logarithm, that of temperature and method together. 0.001 to 2.</param>
public sealed record ViscositySpot(string Name, Temperature Temperature, DynamicViscosity Viscosity, double LogStandardDeviation);
