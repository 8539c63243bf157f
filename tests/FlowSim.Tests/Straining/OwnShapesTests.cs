using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Tests.Vessels;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>Shapes that a user derived and that answer with NaN: at once, high up, or in a narrow gap that no check hits.</summary>
public class OwnShapesTests
{
    private static readonly string[] s_screenKernels = ["rim", "volume", "depth", "surface", "wetted", "head"];

    [Fact]
    public void A_tank_or_receiver_that_answers_with_nothing_is_refused_or_the_run_says_so() => Check(
        from kernel in HoleyVessel.Kernels
        from gap in HoleyVessel.Gaps
        from part in new[] { "tank", "receiver" }
        select ($"{part}, {kernel}, {gap}", WithVessel(part, kernel, gap)));

    [Fact]
    public void A_screen_that_answers_with_nothing_is_refused_or_the_run_says_so() => Check(
        from kernel in s_screenKernels
        from gap in HoleyVessel.Gaps
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

    /// <summary>The volume of a receiver is asked for only when the honey is counted at the end.</summary>
    [Fact]
    public void A_gap_just_where_the_run_ends_is_said()
    {
        double share = StrainingRun.Simulate(Base()).Series.ReceiverLevelM[^1] / 0.4;
        SimulationException ended = Assert.Throws<SimulationException>(() => StrainingRun.Simulate(WithVessel("receiver", "volume", (share - 0.003, share + 0.003))));
        Assert.Matches("ended after [0-9.]+ s with a figure that is not a number", ended.Message);
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
                Assert.True(Figures.AreNumbers(result, typeof(StrainingSetup)), name + ": a figure is not a number");
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
        ? Base() with { Tank = Base().Tank with { Shape = new HoleyVessel(s_pail, kernel, gap) } }
        : Base() with { Receiver = Base().Receiver with { Shape = new HoleyVessel(s_pail, kernel, gap) } };

    private sealed class HoleyScreen(string holey, (double From, double To) gap) : ScreenShape
    {
        protected internal override double RimHeightM => holey == "rim" ? double.NaN : s_disc.RimHeightM;

        protected internal override double PondVolumeM3(double depthM) => HoleyVessel.Answer("volume", holey, depthM / s_disc.RimHeightM, gap, s_disc.PondVolumeM3(depthM));

        protected internal override double PondDepthM(double volumeM3) => HoleyVessel.Answer("depth", holey, volumeM3 / s_disc.PondVolumeM3(s_disc.RimHeightM), gap, s_disc.PondDepthM(volumeM3));

        protected internal override double SurfaceAreaM2(double depthM) => HoleyVessel.Answer("surface", holey, depthM / s_disc.RimHeightM, gap, s_disc.SurfaceAreaM2(depthM));

        protected internal override double WettedClothAreaM2(double depthM) => HoleyVessel.Answer("wetted", holey, depthM / s_disc.RimHeightM, gap, s_disc.WettedClothAreaM2(depthM));

        protected internal override double HeadIntegralM3(double depthM) => HoleyVessel.Answer("head", holey, depthM / s_disc.RimHeightM, gap, s_disc.HeadIntegralM3(depthM));
    }
}
