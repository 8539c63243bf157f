using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

public class FitLayoutTests
{
    private static readonly UncertainInput Opening = Prior(StrainingInputs.Opening, new NormalDistribution(0.3, 0.03));
    private static readonly UncertainInput Ride = Prior(StrainingInputs.RideDepth, new NormalDistribution(0.03, 0.001));

    private static StrainingSetup AtLevel(double levelM) => StrainingInputs.TankLevel.With(Shut, levelM);

    private static CalibrationQuestion Two(params UncertainInput[] priors) => new()
    {
        Setup = Shut,
        Priors = priors,
        Runs =
        [
            Run(AtLevel(0.10), Rule(0.1, 1, 2, 1, 2) with { ClockOffset = Duration.FromSeconds(3), ZeroOffset = 0.007 }),
            Run(AtLevel(0.12), Rule(0.12, 1, 2, 1, 2), Series(StrainingObservable.TankMass, (0, 3), (1, 3.1), (2, 3), (3, 3.2))) with { Name = "other" },
        ],
    };

    [Fact]
    public void Honey_and_kit_come_first_then_each_run_with_its_clocks_and_zeros()
    {
        var layout = new FitLayout(Two(LevelOfTank, Lot, Ride, Moisture));
        Assert.Equal(2, layout.Shared);
        Assert.Equal(10, layout.Count);
        Assert.Equal(
            [
                ("honey.lot_factor", -1), ("honey.moisture", -1),
                ("tank.level", 0), ("Clock", 0), ("Zero", 0),
                ("tank.level", 1), ("Clock", 1), ("Zero", 1), ("Clock", 1), ("Zero", 1),
            ],
            layout.Numbers.Select(number => (number.Input?.Name ?? number.Kind.ToString(), number.Run)));
        Assert.Equal([[3], [6, 8]], layout.Clocks);
        Assert.All(layout.Numbers, number => Assert.Equal(number.Kind == FitNumberKind.Input, number.Prior is not null));
    }

    [Fact]
    public void What_is_each_runs_own_lies_about_that_runs_value()
    {
        var layout = new FitLayout(Two(Lot, LevelOfTank));
        Assert.Equal(0.10, layout.Numbers[1].Scale.ValueAt(0), 1e-12);
        Assert.Equal(0.105, layout.Numbers[1].Scale.ValueAt(1), 1e-12);
        Assert.Equal(0.12, layout.Numbers[4].Scale.ValueAt(0), 1e-12);
        Assert.Equal(0.12, layout.Numbers[4].Prior!.Spread.Median, 1e-12);
    }

    [Fact]
    public void Clocks_and_zeros_lie_about_none_with_what_the_series_says()
    {
        var layout = new FitLayout(Two(Lot));
        Assert.Equal([3, 0.007, 5, 0.002, 5, 0.1], layout.Numbers.Skip(1).Select(number => Math.Round(number.Scale.ValueAt(1), 9)));
        Assert.All(layout.Numbers.Skip(1), number => Assert.Equal(0, number.Scale.ValueAt(0)));
    }

    [Fact]
    public void An_opening_of_a_run_is_log_normal_about_its_own()
    {
        StrainingSetup left = Shut with { Control = GateControl.LeaveAt(Ratio.FromPercent(60)) };
        var layout = new FitLayout(new CalibrationQuestion { Setup = left, Priors = [Opening], Runs = [Run(left, Rule(0.11, 1, 2))] });
        Assert.Equal(0.6, layout.Numbers[0].Scale.ValueAt(0), 1e-9);
        Assert.Equal(0.6 * Math.Exp(0.1), layout.Numbers[0].Scale.ValueAt(1), 1e-9);
    }

    /// <summary>Where runs allow different values, a shared input may be what all allow.</summary>
    [Fact]
    public void A_shared_input_keeps_within_what_every_run_allows()
    {
        // The rim may be half to twice its 60 mm, but 1 mm above a pond that is ridden at 45 mm; the gate no higher than leaves honey above it, less at the lower level.
        StrainingSetup ridden = Shut with { Control = GateControl.RideAt(Length.FromMillimeters(45), Ratio.FromPercent(50)) };
        CalibrationQuestion question = Two(Prior(StrainingInputs.RimHeight, new UniformDistribution(0.001, 0.5)), Prior(StrainingInputs.GateHeight, new UniformDistribution(-1, 1)));
        question = question with { Runs = [.. question.Runs, Run(ridden, Rule(0.11, 1, 2)) with { Name = "ridden" }] };
        var layout = new FitLayout(question);
        Assert.Equal(0.046, layout.Numbers[0].Scale.ValueAt(-6), 1e-9);
        Assert.Equal(0.12, layout.Numbers[0].Scale.ValueAt(6), 1e-9);
        Assert.Equal(0, layout.Numbers[1].Scale.ValueAt(-6), 1e-8);
        Assert.Equal(StrainingInputs.GateHeight.RangeIn(AtLevel(0.10)).High, layout.Numbers[1].Scale.ValueAt(6), 1e-8);
        Assert.True(StrainingInputs.GateHeight.RangeIn(Shut).High > 0.001 + StrainingInputs.GateHeight.RangeIn(AtLevel(0.10)).High);
    }

    [Fact]
    public void What_went_together_before_does_so_in_the_scores()
    {
        var layout = new FitLayout(Two(Lot, Moisture, LevelOfTank) with
        {
            Correlations = [new("HONEY.moisture", "honey.lot_factor", 0.6), new("honey.lot_factor", "gate.factor", 0.9), new("tank.level", "honey.moisture", 0.5), new("honey.moisture", "honey.moisture", 0.3)],
        });
        double[] u = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10], z = new double[10], values = new double[10];
        layout.Scores(u, z);
        Assert.Equal(1, z[0], 1e-12);
        Assert.Equal(0.6 + (0.8 * 2), z[1], 1e-12);
        Assert.Equal(u[2..], z[2..]);
        layout.Values(u, values);
        Assert.Equal(Math.Exp(0.3), values[0], 1e-12);
        Assert.Equal(0.18 + (0.005 * 2.2), values[1], 1e-12);
        Assert.Equal(0.10 + (0.005 * 3), values[2], 1e-12);

        Matrix<double> covariance = Matrix<double>.Build.DenseDiagonal(10, 10, i => i == 0 ? 4 : 0.25);
        (double[] mean, Matrix<double> turned) = layout.Scores(u, covariance);
        Assert.Equal(z, mean);
        Assert.Equal(4, turned[0, 0], 1e-12);
        Assert.Equal(0.6 * 4, turned[0, 1], 1e-12);
        Assert.Equal(0.6 * 4, turned[1, 0], 1e-12);
        Assert.Equal((0.36 * 4) + (0.64 * 0.25), turned[1, 1], 1e-12);
        Assert.Equal(0.25, turned[2, 2], 1e-12);
        Assert.Equal(0, turned[1, 2], 1e-12);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Where_nothing_went_together_scores_are_the_numbers(bool named)
    {
        var layout = new FitLayout(Two(Lot, Moisture) with { Correlations = named ? [new("honey.moisture", "honey.lot_factor", 0)] : [] });
        double[] u = [1, 2, 3, 4, 5, 6, 7, 8], z = new double[8];
        layout.Scores(u, z);
        Assert.Equal(u, z);
        Matrix<double> covariance = Matrix<double>.Build.DenseIdentity(8);
        (double[] mean, Matrix<double> same) = layout.Scores(u, covariance);
        Assert.Same(u, mean);
        Assert.Same(covariance, same);
    }

    [Fact]
    public void An_earlier_calibration_takes_the_place_of_the_priors()
    {
        UncertainInput learnt = Prior(StrainingInputs.LotFactor, new LogNormalDistribution(1.4, 0.05)), bore = Prior(StrainingInputs.Bore, new NormalDistribution(0.025, 0.0005));
        CalibrationQuestion question = Two(Lot, Moisture, LevelOfTank, Opening, Ride) with
        {
            Earlier = new CalibratedInputs { Inputs = [bore, learnt, Ride], Correlations = [new("gate.bore", "honey.lot_factor", 0.5)], Runs = [] },
            Correlations = [new("honey.moisture", "honey.lot_factor", 0.3)],
        };
        UncertainInput[] priors = FitLayout.Priors(question);
        Assert.Equal(["gate.bore", "honey.lot_factor", "honey.moisture", "tank.level", "gate.opening"], priors.Select(prior => prior.Input.Name));
        Assert.Same(learnt, priors[1]);
        Assert.Equal(0.02, Assert.IsType<LogNormalDistribution>(priors[0].Spread).LogStandardDeviation, 1e-12);
        Assert.IsType<LogNormalDistribution>(priors[4].Spread);

        double[] z = new double[new FitLayout(question).Count];
        double[] u = [.. z];
        (u[0], u[1], u[2]) = (1, 0, 0);
        new FitLayout(question).Scores(u, z);
        Assert.Equal(0.5, z[1], 1e-12);
        (u[0], u[1], u[2]) = (0, 1, 0);
        new FitLayout(question).Scores(u, z);
        Assert.Equal(0.3 / Math.Sqrt(0.75), z[2], 1e-12); // 0.3 = L₂₁ L₁₁, L₁₁ = √(1 − 0.5²), as L₂₀ = 0.
    }

    [Fact]
    public void An_input_that_plays_a_part_in_a_run_alone_is_fitted_there()
    {
        StrainingSetup ridden = Shut with { Control = GateControl.RideAt(Length.FromMillimeters(30), Ratio.FromPercent(50)) };
        CalibrationQuestion question = Two(Ride) with { Runs = [Run(Shut, Rule(0.11, 1, 2)), Run(ridden, Rule(0.11, 1, 2)) with { Name = "ridden" }] };
        Assert.Equal([StrainingInputs.RideDepth], FitLayout.Priors(question).Select(prior => prior.Input));
        FitNumber own = Assert.Single(new FitLayout(question).Numbers, number => number.Kind == FitNumberKind.Input);
        Assert.Equal(1, own.Run);
        Assert.Empty(FitLayout.Priors(Two(Ride)));
        Assert.NotEmpty(FitLayout.Priors(Two(Ride) with { Setup = ridden }));
    }

    [Fact]
    public void Without_priors_the_common_ones_are_taken() =>
        Assert.Equal(CalibrationPriors.For(Shut).Select(prior => prior.Input), FitLayout.Priors(Two() with { Priors = null }).Select(prior => prior.Input));
}
