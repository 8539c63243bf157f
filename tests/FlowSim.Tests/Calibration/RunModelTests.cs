using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>What a run's readings should be, against single runs read at the very times.</summary>
public class RunModelTests
{
    private static readonly double[] Times = [0, 12, 40, 41, 90, 140];

    private static StrainingSetup Draining(double lot = 1, double levelM = 0.11) => StrainingInputs.TankLevel.With(StrainingInputs.LotFactor.With(SmallPail.Running(), lot), levelM);

    private static double[] Single(StrainingSetup setup, StrainingObservable quantity, double[] timesS, out double endS)
    {
        // From 0 and increasing, as a course has to be.
        double[] all = [0, .. timesS.Where(t => t > 0)], values = new double[all.Length];
        var sample = new StrainingSample[1];
        new StrainingEnsemble(setup, [], new EnsembleOptions { Lanes = LaneWidth.OneByOne, RelativeTolerance = 1e-9 }).Run(
            ReadOnlyMemory<double>.Empty, sample, new EnsembleTrace { TimesS = all, Quantities = new[] { quantity }, Values = values, HoldsLast = true });
        endS = sample[0].EndSeconds;
        return [.. timesS.Select(t => values[Math.Max(0, Array.IndexOf(all, t))])];
    }

    private static CalibrationQuestion Question(StrainingSetup setup, double clockOffsetS = 5) => new()
    {
        Setup = setup,
        Priors = [Lot, LevelOfTank],
        Runs =
        [
            Run(
                setup,
                Series(StrainingObservable.TankLevel, [.. Times.Select(t => (t, 0.1))]) with { ClockOffset = Duration.FromSeconds(clockOffsetS) },
                Series(StrainingObservable.ReceiverMass, [.. Times[1..4].Select(t => (t, 1.0))]) with { ClockOffset = Duration.FromSeconds(1) }),
        ],
    };

    private static RunModel Model(CalibrationQuestion question, double[]? atS = null, int run = 0) => new(question.Runs[run], run, new FitLayout(question), 1, atS);

    [Fact]
    public void Readings_are_the_course_at_the_clocks_time_and_the_zero()
    {
        CalibrationQuestion question = Question(Draining());
        RunModel model = Model(question);
        Assert.Equal(9, model.Readings);

        // Lot, level, clock and zero of the level, clock and zero of the weight; two rows, with room between them.
        double[] values = [1.3, 0.105, 15, 0.004, -3, 0.2, 0.8, 0.112, -2, -0.001, 0.5, -0.1];
        double[] readings = new double[22];
        Array.Fill(readings, -7);
        model.Predict(values, 2, 6, readings, 11, CancellationToken.None);
        for (int row = 0; row < 2; row++)
        {
            double[] of = values[(6 * row)..(6 * (row + 1))], mine = readings[(11 * row)..(11 * (row + 1))];
            StrainingSetup setup = Draining(of[0], of[1]);
            double[] level = Single(setup, StrainingObservable.TankLevel, [.. Times.Select(t => Math.Max(0, t + of[2]))], out double end);
            double[] mass = Single(setup, StrainingObservable.ReceiverMass, [.. Times[1..4].Select(t => t + of[4])], out _);
            for (int i = 0; i < 6; i++)
                Assert.Equal(level[i] + of[3], mine[i], 2e-6);
            for (int i = 0; i < 3; i++)
                Assert.Equal(mass[i] + of[5], mine[6 + i], 5e-5);
            Assert.Equal([-7, -7], mine[9..]);
            Assert.Equal(end, model.EndS(row), 1e-4 * end);
        }

        // Fewer rows after more, and more after fewer.
        double[] again = new double[9];
        model.Predict(values.AsSpan(6), 1, 6, again, 9, CancellationToken.None);
        Assert.Equal(readings[11..20], again);
    }

    [Fact]
    public void A_run_is_followed_to_the_last_reading_and_its_clock_whatever_its_longest()
    {
        CalibrationQuestion question = Question(Draining() with { Longest = Duration.FromSeconds(30) }, clockOffsetS: 20);
        RunModel model = Model(question);
        double[] readings = new double[9];
        model.Predict([1, 0.11, 70, 0, 0, 0], 1, 6, readings, 9, CancellationToken.None);
        double[] level = Single(Draining(), StrainingObservable.TankLevel, [.. Times.Select(t => t + 70)], out double end);
        Assert.InRange(end, 215, 260);
        for (int i = 0; i < 6; i++)
            Assert.Equal(level[i], readings[i], 2e-6);

        // The last reading, 4 standard deviations of the clock and a hundredth.
        Assert.Equal(1.01 * (140 + 80), model.EndS(0), 1e-6);
        Assert.True(end > 1.01 * 220);
    }

    [Fact]
    public void A_run_that_may_take_longer_goes_to_its_end()
    {
        RunModel model = Model(Question(Draining()), [0, 1]);
        Assert.Equal(4, model.Readings);
        model.Predict([1, 0.11, 0, 0, 0, 0], 1, 6, new double[4], 4, CancellationToken.None);
        _ = Single(Draining(), StrainingObservable.TankLevel, [0], out double end);
        Assert.Equal(end, model.EndS(0), 1e-4 * end);
    }

    [Fact]
    public void Other_times_are_read_of_every_series()
    {
        RunModel model = Model(Question(Draining()), [10, 60]);
        double[] readings = new double[4];
        model.Predict([1, 0.11, 0, 0, 0, 0], 1, 6, readings, 4, CancellationToken.None);
        double[] level = Single(Draining(), StrainingObservable.TankLevel, [10, 60], out _), mass = Single(Draining(), StrainingObservable.ReceiverMass, [10, 60], out _);
        Assert.Equal(level[0], readings[0], 2e-6);
        Assert.Equal(level[1], readings[1], 2e-6);
        Assert.Equal(mass[0], readings[2], 5e-5);
        Assert.Equal(mass[1], readings[3], 5e-5);
    }

    [Fact]
    public void Values_beyond_what_an_input_may_be_stay_at_the_limit()
    {
        RunModel model = Model(Question(Shut));
        double[] readings = new double[18];
        model.Predict([1, 0.5, 0, 0, 0, 0, 1, -3, 0, 0, 0, 0], 2, 6, readings, 9, CancellationToken.None);
        (double low, double high) = StrainingInputs.TankLevel.RangeIn(Shut);
        Assert.Equal(high, readings[0], 1e-9);
        Assert.Equal(low, readings[9], 1e-9);
    }

    [Fact]
    public void What_is_another_runs_own_does_nothing_here()
    {
        CalibrationQuestion question = Question(Shut);
        question = question with { Runs = [.. question.Runs, Run(Shut, Rule(0.11, 1, 2, 3)) with { Name = "other" }] };
        RunModel model = Model(question, run: 1);
        double[] readings = new double[3];
        model.Predict([1, 0.05, 0, 0, 0, 0, 0.107, 0, 0.001], 1, 9, readings, 3, CancellationToken.None);
        Assert.Equal(0.108, readings[2], 1e-9);
    }
}
