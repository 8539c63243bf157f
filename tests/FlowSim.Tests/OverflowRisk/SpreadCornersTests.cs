using FlowSim.Gates;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The corners of what-ifs where more is known of honey and kit than what is common.</summary>
public class SpreadCornersTests
{
    /// <summary>90 % quantile of the standard normal distribution, as in any table of it (from memory).</summary>
    private const double Z90 = 1.2815515655446004;

    private static readonly StrainingSetup Setup = new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)), Level = Length.FromMillimeters(298) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(20)),
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)), Cloths = [Cloth.FromAstmSieve(40)] },
        Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Length.FromMillimeters(300)), Spacer = Length.FromMillimeters(30) },
    };

    [Fact]
    public void Without_more_than_what_is_common_nothing_changes()
    {
        StrainingSpread plain = StrainingSpread.Of(Setup);
        StrainingSpread none = StrainingSpread.Of(Setup, [], []);
        Assert.Equal(plain, none);
    }

    [Fact]
    public void Inputs_alone_lie_at_their_own_quantiles()
    {
        var corners = new SpreadCorners(Setup, [Known(StrainingInputs.LotFactor, new LogNormalDistribution(1.5, 0.05)), Known(StrainingInputs.Spacer, new NormalDistribution(0.03, 0.001))], []);
        StrainingSetup thick = corners.At(1, -1, -1);
        Assert.Equal(1.5 * Math.Exp(0.05 * Z90), thick.Honey.LotFactor, 1e-9);
        Assert.Equal(1.5 * Math.Exp(-0.05 * Z90), corners.At(-1, 1, 1).Honey.LotFactor, 1e-9);

        // What is not known keeps the common corners: 0.62 of the published resistance, a third of the load.
        Assert.Equal(0.62 * Setup.Strainer.ScreenFactor, thick.Strainer.ScreenFactor, 1e-12);
        Assert.Equal(Setup.Debris.Load.Percent / 3, thick.Debris.Load.Percent, 1e-12);
        Assert.Equal(30, thick.Receiver.Spacer.Millimeters, 1e-9);
    }

    [Fact]
    public void What_goes_together_moves_together()
    {
        // Normal scores with correlation r: given one at z the other's median is r z, and what is left of it is √(1 − r²).
        const double r = -0.9;
        UncertainInput[] known =
        [
            Known(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3)), Known(StrainingInputs.ScreenFactor, new LogNormalDistribution(0.8, 0.2)),
            Known(StrainingInputs.GateFactor, new LogNormalDistribution(1.1, 0.1)),
        ];
        var corners = new SpreadCorners(Setup, known, [new("honey.lot_factor", "screen.factor", r), new("gate.factor", "honey.lot_factor", 0.3)]);
        foreach (int viscosity in new[] { -1, 1 })
        {
            foreach (int screen in new[] { -1, 1 })
            {
                StrainingSetup corner = corners.At(viscosity, screen, 1);
                double one = viscosity * Z90;
                double other = (r * viscosity * Z90) + (Math.Sqrt(1 - (r * r)) * screen * Z90);
                Assert.Equal(Math.Exp(0.3 * one), corner.Honey.LotFactor, 1e-9);
                Assert.Equal(0.8 * Math.Exp(0.2 * other), corner.Strainer.ScreenFactor, 1e-9);

                // Median of the third given both, from the inverse of the two's correlation matrix: (0.3, 0) · [1 r; r 1]⁻¹ · z.
                double third = 0.3 * (one - (r * other)) / (1 - (r * r));
                Assert.Equal(1.1 * Math.Exp(0.1 * third), corner.Gate.Factor, 1e-9);
            }
        }
    }

    [Fact]
    public void A_corner_beyond_what_may_be_is_taken_at_the_limit()
    {
        var corners = new SpreadCorners(Setup, [Known(StrainingInputs.LotFactor, new LogNormalDistribution(10, 5))], []);
        Assert.Equal(20, corners.At(1, 1, 1).Honey.LotFactor, 1e-9);
        Assert.NotNull(StrainingSpread.Of(Setup, [Known(StrainingInputs.ScreenFactor, new UniformDistribution(0.01, 50))], []));
    }

    [Fact]
    public void Correlations_that_contradict_each_other_are_refused()
    {
        UncertainInput[] known = [Known(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3)), Known(StrainingInputs.ScreenFactor, new LogNormalDistribution(0.8, 0.2)), Known(StrainingInputs.Moisture, new NormalDistribution(0.178, 0.001))];
        Assert.ThrowsAny<ArgumentException>(() => StrainingSpread.Of(Setup, known, [new("honey.lot_factor", "screen.factor", 0.9), new("honey.moisture", "screen.factor", 0.9), new("honey.moisture", "honey.lot_factor", -0.9)]));
    }

    private static UncertainInput Known(StrainingInput input, Distribution spread) => new(input, spread, new Source("invented", Standing.GivenByUser));
}
