using FlowSim.Heating;

namespace FlowSim.Tests.Heating;

/// <summary>Combined coefficients of a vessel in a warm room.</summary>
public class OutsideCoefficientTests
{
    // Common practice, no source: 9 to 11 W/(m²·K) for a painted or plastic vessel (emissivity 0.9) in a still warm room.
    [Theory]
    [InlineData(20, 40, 0.36)]
    [InlineData(25, 45, 0.36)]
    [InlineData(30, 45, 0.9)]
    [InlineData(35, 50, 0.36)]
    public void A_painted_vessel(double surfaceC, double roomC, double heightM) =>
        Assert.InRange(OutsideCoefficient.StillAirWallWPerM2K(surfaceC + 273.15, roomC + 273.15, heightM, 0.9), 9, 11);

    // Common practice, no source: 4 to 7 W/(m²·K) for bare metal. Emissivity 0.1 to 0.3: clean to weathered (from memory).
    [Theory]
    [InlineData(20, 40, 0.36, 0.1)]
    [InlineData(30, 45, 0.9, 0.1)]
    [InlineData(30, 40, 0.9, 0.3)]
    [InlineData(25, 50, 0.36, 0.3)]
    public void Bare_metal(double surfaceC, double roomC, double heightM, double emissivity) =>
        Assert.InRange(OutsideCoefficient.StillAirWallWPerM2K(surfaceC + 273.15, roomC + 273.15, heightM, emissivity), 4, 7);

    [Fact]
    public void Moving_air_joins_still_air_and_the_wind()
    {
        double Moving(double speed) => OutsideCoefficient.MovingAirWallWPerM2K(293.15, 313.15, 0.36, 0.3, 0.9, speed);
        Assert.Equal(OutsideCoefficient.StillAirWallWPerM2K(293.15, 313.15, 0.36, 0.9), Moving(0), 1e-12);
        Assert.Equal(Moving(0), Moving(1e-6), 1e-3);
        double previous = 0;
        for (double speed = 0; speed <= 10; speed += 0.25)
        {
            double h = Moving(speed);
            Assert.True(h >= previous);
            previous = h;
        }

        // Wind alone, 5 m/s over 0.3 m at the film temperature of 30 °C, by the correlation and air of 1.6e-5 m²/s, 0.0265 W/(m·K),
        // Pr 0.71: Re 93 750, Nu 206, h 18.2; radiation 0.9 · 4 σ · 303³ = 5.7; the free part adds 1 % of h.
        Assert.Equal(23.9, Moving(5), 0.5);
    }

    [Fact]
    public void A_lid_that_air_can_leave_passes_more_than_one_it_lies_under()
    {
        double coldLidInWarmRoom = OutsideCoefficient.StillAirDiscWPerM2K(293.15, 313.15, 0.3, 0, facesUp: true);
        double coldBottomInWarmRoom = OutsideCoefficient.StillAirDiscWPerM2K(293.15, 313.15, 0.3, 0, facesUp: false);
        double warmLidInColdRoom = OutsideCoefficient.StillAirDiscWPerM2K(313.15, 293.15, 0.3, 0, facesUp: true);
        Assert.True(coldBottomInWarmRoom > 1.5 * coldLidInWarmRoom);
        Assert.Equal(coldBottomInWarmRoom, warmLidInColdRoom, 1e-12);
    }

    [Fact]
    public void Kernels_allocate_nothing_and_survive_no_difference()
    {
        static double Run(double surface) => OutsideCoefficient.StillAirWallWPerM2K(surface, 313.15, 0.36, 0.9)
            + OutsideCoefficient.StillAirDiscWPerM2K(surface, 313.15, 0.3, 0.9, true)
            + OutsideCoefficient.MovingAirWallWPerM2K(surface, 313.15, 0.36, 0.3, 0.9, 1)
            + FreeConvection.ClosedCylinderEvansStefany1966(surface);

        Assert.True(double.IsFinite(Run(313.15)));
        double sum = 0;
        Assert.Equal(0, Allocated.By(() => sum += Run(300)));
        Assert.True(sum > 0);
    }

    /// <summary>
    /// A lid of 300 mm at 40 °C in air of 20 °C, with the air of 30 °C between them as a textbook table has it (from memory): ν 1.608e-5, a 2.208e-5 m²/s,
    /// λ 0.02588 W/(m·K). Length: area over perimeter, 0.075 m. Ra = 9.807 × 20/303.15 × 0.075³/(ν a) = 7.69e5, Nu = 0.54 Ra^(1/4) = 15.99, h = 5.52; as a
    /// bottom 0.27 Ra^(1/4), h = 2.76. Radiation: 0.9 σ (313.15² + 293.15²)(313.15 + 293.15) = 5.69.
    /// </summary>
    [Theory]
    [InlineData(true, 0, 5.52)]
    [InlineData(true, 0.9, 11.21)]
    [InlineData(false, 0, 2.76)]
    [InlineData(false, 0.9, 8.45)]
    public void A_lid_and_a_bottom_by_hand(bool facesUp, double emissivity, double expected) =>
        Assert.Equal(expected, OutsideCoefficient.StillAirDiscWPerM2K(313.15, 293.15, 0.3, emissivity, facesUp), 0.02 * expected);
}
