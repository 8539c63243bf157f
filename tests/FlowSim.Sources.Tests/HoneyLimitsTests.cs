using FlowSim.HeatDamage;

namespace FlowSim.Sources.Tests;

/// <summary>Limits of HMF and diastase in honey as food.</summary>
[Publication("Directive 2001/110/EC and Codex CXS 12-1981", "Annex II, point 6; Annex", Standing.Opened, Remark = "the directive in the copy kept by legislation.gov.uk, which broke off before the tropical figure; the Codex from memory")]
public class HoneyLimitsTests
{
    [Theory]
    [InlineData("eu", 40, 8, Standing.Opened)] // "in general, except baker's honey": not less than 8; not more than 40 mg/kg
    [InlineData("eu-low-enzyme", 15, 3, Standing.Opened)] // "low natural enzyme content" and "an HMF content of not more than 15 mg/kg": not less than 3
    [InlineData("eu-tropical", 80, 8, Standing.SecondaryCopy)]
    [InlineData("codex", 40, 8, Standing.FromMemory)]
    [InlineData("codex-low-enzyme", 40, 3, Standing.FromMemory)]
    [InlineData("codex-tropical", 80, 8, Standing.FromMemory)]
    public void Figures(string name, double hmf, double diastase, Standing standing)
    {
        HeatLimit limit = HeatLimits.ByName(name);
        Published.Agrees(hmf, limit.HmfAtMost!.Value.MilligramsPerKilogram, Within.Rounding(1e-9), $"HMF at most, {name}", "mg/kg");
        Published.Agrees(diastase, limit.DiastaseAtLeast!.Value, Within.Rounding(0), $"diastase at least, {name}", "Schade units");
        Assert.Equal(standing, limit.Source.Standing);
    }

    [Fact]
    public void No_other_limit_is_claimed() => Assert.Equal(6, HeatLimits.All.Select(l => l.Name).Distinct().Count());
}
