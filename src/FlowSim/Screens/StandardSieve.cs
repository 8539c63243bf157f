using UnitsNet;

namespace FlowSim.Screens;

/// <summary>A standard test-sieve cloth.</summary>
/// <param name="Opening">Nominal opening.</param>
/// <param name="WireDiameter">Preferred wire diameter.</param>
/// <param name="AstmNumber">ASTM E11 alternative number; null for openings that only the ISO series has.</param>
public sealed record StandardSieve(Length Opening, Length WireDiameter, int? AstmNumber)
{
    /// <summary>The cloth itself.</summary>
    public Cloth ToCloth() => new() { Opening = Opening, WireDiameter = WireDiameter };
}
