using System.Collections;
using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>Shapes that a user derived and that answer with NaN: at once, high up, or in a narrow gap that no check hits.</summary>
public class OwnShapesTests
{
    /// <summary>Where a kernel answers with NaN, as shares of the height.</summary>
    /// <remarks>The last three: about the level at which the tank ends, about that of the receiver, and one that steps may jump over but a row of the series meets.</remarks>
    private static readonly (double From, double To)[] s_gaps = [(0, 1), (0.6, 1), (0, 0.1), (0.30, 0.34), (0.003, 0.02), (0.7, 0.749), (0.4, 0.41)];

    private static readonly string[] s_vesselKernels = ["height", "capacity", "volume", "level", "surface", "wetted"];

    private static readonly string[] s_screenKernels = ["rim", "volume", "depth", "surface", "wetted", "head"];

    [Fact]
    public void A_tank_or_receiver_that_answers_with_nothing_is_refused_or_the_run_says_so() => Check(
        from kernel in s_vesselKernels
        from gap in s_gaps
        from part in new[] { "tank", "receiver" }
        select ($"{part}, {kernel}, {gap}", WithVessel(part, kernel, gap)));

    [Fact]
    public void A_screen_that_answers_with_nothing_is_refused_or_the_run_says_so() => Check(
        from kernel in s_screenKernels
        from gap in s_gaps
        select ($"screen, {kernel}, {gap}", Base() with { Strainer = Base().Strainer with { Shape = new HoleyScreen(kernel, gap) } }));

    [Theory]
    [InlineData("tank")]
    [InlineData("receiver")]
    public void The_shape_is_named(string part)
    {
        ArgumentException refused = Assert.Throws<ArgumentException>(() => StrainingRun.Simulate(WithVessel(part, "wetted", (0, 1))));
        Assert.Equal("Shape", refused.ParamName);
        Assert.Contains("HoleyVessel gives NaN for its wetted area at 0 m", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gap_that_the_checks_miss_ends_the_run_with_its_time()
    {
        SimulationException ended = Assert.Throws<SimulationException>(() => StrainingRun.Simulate(WithVessel("tank", "level", (0.30, 0.34))));
        Assert.Matches("at [0-9.]+ s", ended.Message);
    }

    [Fact]
    public void A_shape_of_ones_own_that_answers_runs_like_the_library_s()
    {
        StrainingResult own = StrainingRun.Simulate(WithVessel("tank", "none", (0, 1)));
        Assert.Equal(StrainingRun.Simulate(Base()).Drain.To95, own.Drain.To95);
    }

    /// <summary>Refused by name, ended by the run, or figures that are all numbers; and some of each, or the test sees nothing.</summary>
    private static void Check(IEnumerable<(string Name, StrainingSetup Setup)> cases)
    {
        int refusals = 0, ended = 0;
        foreach ((string name, StrainingSetup setup) in cases)
        {
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(10));
            try
            {
                StrainingResult result = StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 41, RelativeTolerance = 1e-6 }, patience.Token);
                Assert.True(AllNumbers(result), name + ": a figure is not a number");
            }
            catch (ArgumentException refused) when (refused is not ArgumentNullException)
            {
                Assert.True(refused.ParamName == "Shape", $"{name}: {refused.ParamName} is blamed: {refused.Message}");
                refusals++;
            }
            catch (SimulationException)
            {
                ended++;
            }
        }

        Assert.True(refusals > 4 && ended > 0, $"{refusals} refusals and {ended} runs that ended");
    }

    private static bool AllNumbers(object? value) => value switch
    {
        null or string or Enum or bool or int or StrainingSetup => true,
        double number => double.IsFinite(number),
        IQuantity quantity => double.IsFinite((double)quantity.Value),
        IEnumerable items => items.Cast<object?>().All(AllNumbers),
        _ => value.GetType().GetProperties().Where(p => p.GetIndexParameters().Length == 0).All(p => AllNumbers(p.GetValue(value))),
    };

    /// <summary>An invented pail, held warm by nothing, so that every kernel is asked.</summary>
    private static StrainingSetup Base() => new()
    {
        Honey = new Honey { Moisture = Percent(18) },
        HoneyTemperature = Celsius(35),
        Tank = new Tank { Shape = s_pail, Level = Length.FromMillimeters(298), HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(8) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Percent(30)),
        Strainer = new Strainer { Shape = s_disc, Cloths = [Cloth.FromAstmSieve(40)] },
        Receiver = new Receiver { Shape = s_pail, HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(8) },
    };

    private static readonly UprightCylinder s_pail = new(Length.FromMillimeters(285), Length.FromMillimeters(400));

    private static readonly FlatDisc s_disc = new(Length.FromMillimeters(240), Length.FromMillimeters(100));

    private static StrainingSetup WithVessel(string part, string kernel, (double From, double To) gap) => part == "tank"
        ? Base() with { Tank = Base().Tank with { Shape = new HoleyVessel(kernel, gap) } }
        : Base() with { Receiver = Base().Receiver with { Shape = new HoleyVessel(kernel, gap) } };

    private static double Answer(string asked, string holey, double share, (double From, double To) gap, double answer) =>
        asked == holey && share >= gap.From && share <= gap.To ? double.NaN : answer;

    private sealed class HoleyVessel(string holey, (double From, double To) gap) : VesselShape
    {
        protected internal override double HeightM => Answer("height", holey, 0.5, (0, 1), s_pail.HeightM);

        protected internal override double CapacityM3 => Answer("capacity", holey, 0.5, (0, 1), s_pail.CapacityM3);

        protected internal override double VolumeM3(double levelM) => Answer("volume", holey, levelM / s_pail.HeightM, gap, s_pail.VolumeM3(levelM));

        protected internal override double LevelM(double volumeM3) => Answer("level", holey, volumeM3 / s_pail.CapacityM3, gap, s_pail.LevelM(volumeM3));

        protected internal override double SurfaceAreaM2(double levelM) => Answer("surface", holey, levelM / s_pail.HeightM, gap, s_pail.SurfaceAreaM2(levelM));

        protected internal override double WettedAreaM2(double levelM) => Answer("wetted", holey, levelM / s_pail.HeightM, gap, s_pail.WettedAreaM2(levelM));
    }

    private sealed class HoleyScreen(string holey, (double From, double To) gap) : ScreenShape
    {
        protected internal override double RimHeightM => Answer("rim", holey, 0.5, (0, 1), s_disc.RimHeightM);

        protected internal override double PondVolumeM3(double depthM) => Answer("volume", holey, depthM / s_disc.RimHeightM, gap, s_disc.PondVolumeM3(depthM));

        protected internal override double PondDepthM(double volumeM3) => Answer("depth", holey, volumeM3 / s_disc.PondVolumeM3(s_disc.RimHeightM), gap, s_disc.PondDepthM(volumeM3));

        protected internal override double SurfaceAreaM2(double depthM) => Answer("surface", holey, depthM / s_disc.RimHeightM, gap, s_disc.SurfaceAreaM2(depthM));

        protected internal override double WettedClothAreaM2(double depthM) => Answer("wetted", holey, depthM / s_disc.RimHeightM, gap, s_disc.WettedClothAreaM2(depthM));

        protected internal override double HeadIntegralM3(double depthM) => Answer("head", holey, depthM / s_disc.RimHeightM, gap, s_disc.HeadIntegralM3(depthM));
    }
}
