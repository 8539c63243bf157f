using FlowSim.Calibration;
using FlowSim.Gates;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using MathNet.Numerics.Distributions;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>What a measurement leaves open, by sorting the runs a second time.</summary>
public class MeasurementChoiceTests
{
    private const int Count = 4096;

    /// <summary>Half open: many runs run over and many do not.</summary>
    private static StrainingSetup Full { get; } = SmallPail.Running() with { Control = GateControl.LeaveAt(Ratio.FromPercent(48)) };

    private static PredictionDraws Draws(StrainingSetup setup, params UncertainInput[] inputs) => new(setup, inputs, [], new CalibrationQuestion { Setup = setup }, CancellationToken.None);

    /// <summary>Sorted by the answer, blurred by the normal quantiles in the order of the golden section: the mean of the variances of 32 classes of 128 over the variance of all.</summary>
    private static double Left(double[] values, Func<int, double> reading, double sd)
    {
        double golden = (Math.Sqrt(5) - 1) / 2;
        double[] sorted = [.. Enumerable.Range(0, Count)
            .OrderBy(run => reading(run) + (sd * Normal.InvCDF(0, 1, ((run + 0.5) * golden) - Math.Floor((run + 0.5) * golden))))
            .Select(run => values[run])];
        double within = sorted.Chunk(128).Average(one => one.Sum(v => Math.Pow(v - one.Average(), 2)) / 127);
        double all = values.Average(v => Math.Pow(v - values.Average(), 2));
        return Math.Sqrt(Math.Clamp(within / all, 0, 1));
    }

    [Fact]
    public void Each_measurement_leaves_what_sorting_by_it_leaves()
    {
        UncertainInput[] inputs =
        [
            Lot, Moisture, LevelOfTank,
            Prior(StrainingInputs.GateFactor, new LogNormalDistribution(1, 0.1)), Prior(StrainingInputs.ScreenFactor, new LogNormalDistribution(0.8, 0.25)),
            Prior(StrainingInputs.HoneyTemperature, new NormalDistribution(309.15, 1)), Prior(StrainingInputs.Opening, new NormalDistribution(0.48, 0.02)),
            Prior(StrainingInputs.DebrisSize, new LogNormalDistribution(0.0005, 0.3)), Prior(StrainingInputs.RoomTemperature, new NormalDistribution(293.15, 2)),
            Prior(StrainingInputs.DebrisLoad, new LogNormalDistribution(0.002, 0.8)),
        ];
        PredictionDraws draws = Draws(Full, inputs);
        double[] times = draws.LogTimes, overflows = draws.Overflows;
        Assert.InRange(overflows.Sum(), 200, 3900);
        double kelvins = Full.HoneyTemperature.Kelvins;
        GateGeometry unit = GateFlow.GeometryOf(Full.Gate with { Factor = 1 }, 1);

        (string What, Func<int, double> Reading, double Sd)[] expected =
        [
            ("the viscosity of this honey", LogViscosity, 0.06),
            ("the flow through this gate", LogFlow, 0.04),
            ("the flow through this cloth", run => LogViscosity(run) + Math.Log(draws.Value(run, StrainingInputs.ScreenFactor)), 0.05),
            ("the moisture", Of(StrainingInputs.Moisture), 0.001),
            ("the honey's temperature", Of(StrainingInputs.HoneyTemperature), 0.3),
            ("the opening of the gate", Of(StrainingInputs.Opening), 0.005),
            ("the level in the tank", Of(StrainingInputs.TankLevel), 0.001),
            ("the size of the debris", Of(StrainingInputs.DebrisSize), 0.00005),
            ("the room's temperature", Of(StrainingInputs.RoomTemperature), 0.5),
            ("the debris", run => Math.Log(draws.Value(run, StrainingInputs.DebrisLoad)), 0.3),
        ];
        IReadOnlyList<NextMeasurement> ranked = MeasurementChoice.Rank(draws);
        Assert.Equal(ranked.Select(next => next.TimeLeft).Order(), ranked.Select(next => next.TimeLeft));
        Assert.Equal(expected.Select(one => one.What).Order(StringComparer.Ordinal), ranked.Select(next => next.What).Order(StringComparer.Ordinal));
        foreach ((string what, Func<int, double> reading, double sd) in expected)
        {
            NextMeasurement next = ranked.Single(one => one.What == what);
            Assert.Equal(Left(times, reading, sd), next.TimeLeft, 1e-3);
            Assert.Equal(Left(overflows, reading, sd), next.OverflowLeft!.Value, 2e-3);
        }

        Func<int, double> Of(StrainingInput input) => run => draws.Value(run, input);

        double LogViscosity(int run) => Math.Log(draws.Value(run, StrainingInputs.LotFactor) * ViscosityCorrelations.Default.ViscosityPaS(100 * draws.Value(run, StrainingInputs.Moisture), kelvins));

        // 4000 Pa = factor · viscous μ Q + inertial ρ Q², whichever of the two the factor is on.
        double LogFlow(int run)
        {
            GateGeometry open = GateFlow.GeometryOf(Full.Gate with { Factor = draws.Value(run, StrainingInputs.GateFactor) }, 1);
            double a = open.ViscousPerM3 * Math.Exp(LogViscosity(run)), b = open.InertialPerM4 * HoneyDensity.DensityKgPerM3(100 * draws.Value(run, StrainingInputs.Moisture), kelvins);
            Assert.True(open.ViscousPerM3 != unit.ViscousPerM3);
            return Math.Log((Math.Sqrt((a * a) + (4 * b * 4000)) - a) / (2 * b));
        }
    }

    /// <summary>One number that spreads by s, measured to e: √(e²/(s² + e²)) of it is left, for the time goes as the viscosity.</summary>
    [Fact]
    public void Of_one_factor_the_error_over_the_spread_is_left()
    {
        NextMeasurement next = Assert.Single(MeasurementChoice.Rank(Draws(SmallPail.Running(), Lot)));
        Assert.Equal("the viscosity of this honey", next.What);
        Assert.Equal(0.06 / Math.Sqrt((0.3 * 0.3) + (0.06 * 0.06)), next.TimeLeft, 0.03); // A little more, as runs of one class differ too.
        Assert.Null(next.OverflowLeft);
    }

    [Fact]
    public void Only_what_varies_is_measured()
    {
        IReadOnlyList<NextMeasurement> ranked = MeasurementChoice.Rank(Draws(Shut, LevelOfTank, Prior(StrainingInputs.GateFactor, new LogNormalDistribution(1, 0.1))));
        Assert.Equal(["the flow through this gate", "the level in the tank"], ranked.Select(next => next.What));
        Assert.All(ranked, next => Assert.Null(next.OverflowLeft));
    }

    /// <summary>Behind a shut gate every run takes the same time, which no measurement makes surer; rounding of their mean is no spread.</summary>
    [Fact]
    public void Where_all_runs_take_the_same_time_nothing_is_settled_by_a_measurement() => Assert.All(
        MeasurementChoice.Rank(Draws(Shut, LevelOfTank, Prior(StrainingInputs.GateFactor, new LogNormalDistribution(1, 0.1)))),
        next => Assert.Equal(1, next.TimeLeft));
}
