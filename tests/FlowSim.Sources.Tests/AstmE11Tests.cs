using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Test sieves of wire cloth.</summary>
[Publication("ASTM E11", "Woven wire test sieve cloth and test sieves; ISO 3310-1", Standing.FromMemory, Remark = "numbers that any sieve chart gives")]
public class AstmE11Tests
{
    [Theory]
    [Publication("ASTM E11-01", "table 1", Standing.SecondaryCopy, Remark = "as far as No. 6; it agrees with the later edition and with ISO 3310-1")]
    [InlineData(4, 4.75, 1.60)]
    [InlineData(5, 4.00, 1.40)]
    [InlineData(6, 3.35, 1.25)]
    public void Coarse_numbers_as_read_in_the_2001_edition(int number, double openingMm, double wireMm)
    {
        StandardSieve sieve = StandardSieves.ByAstmNumber(number);
        Published.Agrees(openingMm, sieve.Opening.Millimeters, Within.Rounding(1e-12), $"opening of No. {number}", "mm");
        Published.Agrees(wireMm, sieve.WireDiameter.Millimeters, Within.Rounding(1e-12), $"wire of No. {number}", "mm");
    }

    [Theory]
    [InlineData(8, 2360, 1000)]
    [InlineData(10, 2000, 900)]
    [InlineData(16, 1180, 630)]
    [InlineData(20, 850, 500)]
    [InlineData(30, 600, 400)]
    [InlineData(40, 425, 280)]
    [InlineData(50, 300, 200)]
    [InlineData(60, 250, 160)]
    [InlineData(80, 180, 125)]
    [InlineData(100, 150, 100)]
    [InlineData(140, 106, 71)]
    [InlineData(200, 75, 50)]
    [InlineData(325, 45, 32)]
    [InlineData(400, 38, 30)]
    [InlineData(635, 20, 20)]
    public void Common_numbers(int number, double openingUm, double wireUm)
    {
        Cloth cloth = Cloth.FromAstmSieve(number);
        Published.Agrees(openingUm, cloth.Opening.Micrometers, Within.Rounding(1e-9), $"opening of No. {number}", "µm");
        Published.Agrees(wireUm, cloth.WireDiameter.Micrometers, Within.Rounding(1e-9), $"wire of No. {number}", "µm");
    }

    /// <summary>The ASTM series steps by the fourth root of two, 1.19 (from memory); rounding of the sizes leaves ± 3 %, 38 to 45 µm included.</summary>
    [Fact]
    public void Numbered_openings_step_by_the_fourth_root_of_two()
    {
        double[] openings = [.. StandardSieves.All.Where(sieve => sieve.AstmNumber is not null).Select(sieve => sieve.Opening.Micrometers)];
        Assert.Equal(32, openings.Length);
        for (int i = 1; i < openings.Length; i++)
        {
            double expected = openings[i - 1] < 32 ? 1.26 : Math.Pow(2, 0.25);
            Assert.InRange(openings[i] / openings[i - 1] / expected, 0.97, 1.035);
        }
    }

    /// <summary>ISO openings come from the R20 (step 1.122) and R40/3 (step 1.189) series of ISO 565; every member must be one of their numbers.</summary>
    [Fact]
    public void Every_opening_is_a_preferred_number()
    {
        // R20 and R40/3 of one decade as printed in ISO 3 / ISO 565 (from memory).
        double[] r20 = [1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9];
        double[] r40Thirds = [1, 1.18, 1.4, 1.7, 2, 2.36, 2.8, 3.35, 4, 4.75, 5.6, 6.7, 8, 9.5, 1.06, 1.25, 1.5, 1.8, 2.12, 2.5, 3, 3.55, 4.25, 5, 6, 7.1, 8.5];
        // Below 45 µm the series are rounded to whole micrometres: 32 (31.5), 36 (35.5), 38 (37.5), 45, 53, 63, 75, 90.
        double[] rounded = [3.2, 3.6, 3.8, 4.5, 5.3, 6.3, 7.5, 9];
        double[] allowed = [.. r20, .. r40Thirds, .. rounded];
        Assert.All(StandardSieves.All, sieve =>
        {
            double um = sieve.Opening.Micrometers;
            double mantissa = um / Math.Pow(10, Math.Floor(Math.Log10(um) + 1e-9));
            Assert.Contains(allowed, number => Math.Abs(number - mantissa) < 1e-9);
        });
    }

    [Fact]
    public void Table_rises_and_wires_never_thin_as_openings_widen()
    {
        for (int i = 1; i < StandardSieves.All.Count; i++)
        {
            Assert.True(StandardSieves.All[i].Opening > StandardSieves.All[i - 1].Opening);
            Assert.True(StandardSieves.All[i].WireDiameter >= StandardSieves.All[i - 1].WireDiameter);
        }
    }

    [Fact]
    public void Opening_finds_the_same_sieve() =>
        Assert.Equal(StandardSieves.ByAstmNumber(30), StandardSieves.ByOpening(Length.FromMillimeters(0.6)));
}
