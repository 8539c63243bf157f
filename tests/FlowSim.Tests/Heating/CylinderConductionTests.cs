using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Tests.Heating;

/// <summary>Public edge of the finite cylinder.</summary>
public class CylinderConductionTests
{
    /// <summary>An invented pail of stiff honey.</summary>
    private static readonly CylinderConduction s_pail = new()
    {
        Radius = Length.FromMillimeters(142),
        Height = Length.FromMillimeters(300),
        Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(0.35),
        Density = Density.FromKilogramsPerCubicMeter(1420),
        HeatCapacity = SpecificEntropy.FromJoulesPerKilogramKelvin(2250),
        Side = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(10),
        Ends = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(10),
    };

    [Fact]
    public void The_corner_leads_and_the_centre_lags()
    {
        foreach (double hours in new[] { 0.5, 6, 24, 100 })
        {
            ConductionGap gap = s_pail.GapAfter(Duration.FromHours(hours));
            Assert.True(gap.Corner < gap.Mean && gap.Mean < gap.Centre, gap.ToString());
        }
    }

    [Fact]
    public void Without_ends_it_is_an_endless_cylinder()
    {
        CylinderConduction endless = s_pail with { Ends = null };
        double fourier = 0.35 / (1420 * 2250) * 86400 / (0.142 * 0.142);
        Assert.Equal(
            TransientConduction.MeanGapLeft(ConductionShape.InfiniteCylinder, 10 * 0.142 / 0.35, fourier),
            endless.GapAfter(Duration.FromDays(1)).Mean.DecimalFractions,
            1e-12);
        Assert.True(endless.GapAfter(Duration.FromDays(1)).Centre > s_pail.GapAfter(Duration.FromDays(1)).Centre);
    }

    [Theory]
    [InlineData(0.99)]
    [InlineData(0.5)]
    [InlineData(0.01)]
    [InlineData(1e-6)]
    public void The_time_to_a_gap_is_the_time_at_which_it_is_left(double gap)
    {
        Duration time = s_pail.TimeUntilCentreHas(Ratio.FromDecimalFractions(gap));
        Assert.Equal(gap, s_pail.GapAfter(time).Centre.DecimalFractions, 1e-9 * gap);
    }

    [Fact]
    public void A_needle_is_answered_too()
    {
        CylinderConduction needle = s_pail with { Radius = Length.FromMillimeters(1), Height = Length.FromMeters(20), Side = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(1000) };
        Duration withEnds = needle.TimeUntilCentreHas(Ratio.FromPercent(10));
        Assert.Equal((needle with { Ends = null }).TimeUntilCentreHas(Ratio.FromPercent(10)).Seconds, withEnds.Seconds, 1e-6);
    }

    [Fact]
    public void At_the_start_the_whole_gap_is_left()
    {
        ConductionGap gap = s_pail.GapAfter(Duration.Zero);
        Assert.Equal((1.0, 1.0, 1.0), (gap.Centre.DecimalFractions, gap.Mean.DecimalFractions, gap.Corner.DecimalFractions));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(1e13)]
    [InlineData(1e-3)]
    public void Times_the_series_cannot_serve_are_refused(double seconds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => s_pail.GapAfter(Duration.FromSeconds(seconds)));

    [Fact]
    public void A_bad_part_is_named()
    {
        Duration hour = Duration.FromHours(1);
        Assert.Equal("Radius", Assert.Throws<ArgumentOutOfRangeException>(() => (s_pail with { Radius = Length.Zero }).GapAfter(hour)).ParamName);
        Assert.Equal("Side", Assert.Throws<ArgumentOutOfRangeException>(() => (s_pail with { Side = HeatTransferCoefficient.Zero }).GapAfter(hour)).ParamName);
        Assert.Equal("Ends", Assert.Throws<ArgumentOutOfRangeException>(() => (s_pail with { Ends = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(-1) }).GapAfter(hour)).ParamName);
        Assert.Equal("gapLeft", Assert.Throws<ArgumentOutOfRangeException>(() => s_pail.TimeUntilCentreHas(Ratio.FromPercent(100))).ParamName);
    }

    /// <summary>
    /// The pail's honey has a = 0.35/(1420 × 2250) = 1.095e-7 m²/s. Over 10 m that is a Fourier number of 1e-6 after 913 s, over 10 mm of 1 in the same time: a wide
    /// slab is held to the one by its radius, a long rod by half its height, and a rod whose ends pass no heat has none there.
    /// </summary>
    [Fact]
    public void Both_Fourier_numbers_must_be_served()
    {
        CylinderConduction slab = s_pail with { Radius = Length.FromMeters(10), Height = Length.FromMillimeters(20) };
        CylinderConduction rod = s_pail with { Radius = Length.FromMillimeters(10), Height = Length.FromMeters(20) };
        Duration early = Duration.FromSeconds(900);
        foreach (CylinderConduction body in new[] { slab, slab with { Ends = null }, rod })
            Assert.Equal("time", Assert.Throws<ArgumentOutOfRangeException>(() => body.GapAfter(early)).ParamName);
        Assert.InRange((rod with { Ends = null }).GapAfter(early).Centre.DecimalFractions, 0.2, 0.9);
    }
}
