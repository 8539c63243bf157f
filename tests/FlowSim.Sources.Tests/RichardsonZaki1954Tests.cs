using FlowSim.Settling;

namespace FlowSim.Sources.Tests;

/// <summary>Hindered settling, (1 − c)ⁿ.</summary>
[Publication("Richardson and Zaki 1954", "Trans. Inst. Chem. Eng. 32:35", Standing.SecondaryCopy, Remark = "worked examples of public exam pages, which give n 4.5; that n is about 4.65 where Stokes's law holds stands in a commentary by one of the authors (This Week's Citation Classic, 12 February 1979; copy read)")]
public class RichardsonZaki1954Tests
{
    /// <summary>30 % of sand in a viscous oil settles at 4.44 µm/s; a grain alone then at 22.1 µm/s.</summary>
    [Fact]
    public void Sand_in_a_viscous_oil() =>
        Published.Agrees(22.1, 4.44 / HinderedSpeed.FactorRichardsonZaki1954(0.30, 4.5), Within.HalfDigit(0.05), "speed of a grain alone, from that of 30 %", "µm/s");

    /// <summary>Glass beads in ethylene glycol settle at 1.7 mm/s, one alone at 17 mm/s: 40 % by volume.</summary>
    [Fact]
    public void Glass_beads_in_ethylene_glycol() => Published.Agrees(
        1.7, 17 * HinderedSpeed.FactorRichardsonZaki1954(0.40, 4.5), Within.Absolute(0.02, "two digits"), "speed of 40 %, from that of a bead alone", "mm/s");

    /// <summary>Few spheres: 1 − 4.65 c, the first term of the series, by hand.</summary>
    [Fact]
    public void Few_spheres_are_slowed_by_4_65_times_their_share() => Assert.Equal(1 - 4.65e-6, HinderedSpeed.FactorRichardsonZaki1954(1e-6), 1e-11);
}
