namespace FlowSim.Properties;

/// <summary>A viscosity of honey as published.</summary>
/// <param name="Series">What was varied: moisture, floral source, temperature; "shape" when the moisture is not known.</param>
/// <param name="Floral">Floral source.</param>
/// <param name="MoisturePercent">Moisture, % by mass; null when the source gives none.</param>
/// <param name="TemperatureC">Temperature, °C.</param>
/// <param name="ViscosityPaS">Dynamic viscosity, Pa·s.</param>
/// <param name="Source">Where it stands and whether that was opened.</param>
public sealed record PublishedViscosity(
    string Series,
    string Floral,
    double? MoisturePercent,
    double TemperatureC,
    double ViscosityPaS,
    Source Source);
