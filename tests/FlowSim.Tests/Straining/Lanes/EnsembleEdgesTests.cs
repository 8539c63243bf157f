using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining.Lanes;

/// <summary>What is told of a batch, who runs it, and which options are taken.</summary>
public class EnsembleEdgesTests
{
    /// <summary>A small pail over a receiver that is full already: a run ends at once and costs nothing.</summary>
    private static StrainingSetup Full() => SmallPail.Plain() with { Receiver = new Receiver { Shape = SmallPail.Receiver, AlreadyIn = SmallPail.Receiver.Capacity } };

    private static StrainingSetup Empty() => SmallPail.Plain();

    [Theory]
    [InlineData(LaneWidth.Two)]
    [InlineData(LaneWidth.Four)]
    [InlineData(LaneWidth.Eight)]
    [InlineData(LaneWidth.Widest)]
    [InlineData(LaneWidth.OneByOne)]
    public void It_tells_each_256_runs_and_the_end(LaneWidth width)
    {
        var told = new Told();
        var samples = new StrainingSample[600];
        new StrainingEnsemble(Full(), [], new EnsembleOptions { Threads = 1, Lanes = width }).Run(default, samples, told);
        Assert.Equal([256, 512, 600], told.Done);
        Assert.All(samples, sample => Assert.True(sample is { Ending: StrainingStatus.ReceiverFull, EndSeconds: 0, ReceiverFullSeconds: 0, StrainedKg: 0, RanOver: false }));
    }

    [Fact]
    public void A_single_run_that_ends_at_once_can_be_cancelled_too()
    {
        var ensemble = new StrainingEnsemble(Full(), [], new EnsembleOptions { Threads = 1, Lanes = LaneWidth.OneByOne });
        Assert.Throws<OperationCanceledException>(() => ensemble.Run(default, new StrainingSample[3], cancellation: new CancellationToken(canceled: true)));
    }

    /// <summary>A run in lanes is another integration than a single one, so its last bits differ; which of the two was made shows in them.</summary>
    [Fact]
    public void Runs_stand_side_by_side_unless_the_viscosity_has_no_formula()
    {
        StrainingSetup setup = Empty();
        StrainingSample two = Run(setup, LaneWidth.Two);
        Assert.Equal(two, Run(setup, LaneWidth.Widest));
        Assert.Equal(two, Run(setup, LaneWidth.Four));
        Assert.Equal(two, Run(setup, LaneWidth.Eight));
        Assert.NotEqual(two, Run(setup, LaneWidth.OneByOne));

        var measured = new MeasuredViscosity(
            (Celsius(25), DynamicViscosity.FromPascalSeconds(14)),
            (Celsius(30), DynamicViscosity.FromPascalSeconds(8)),
            (Celsius(35), DynamicViscosity.FromPascalSeconds(5)),
            (Celsius(40), DynamicViscosity.FromPascalSeconds(3)));
        StrainingSetup own = setup with { Honey = setup.Honey with { Viscosity = measured } };
        Assert.Equal(measured.FormAt(18) is not null, StrainingLanes<FlowSim.Numerics.Ensemble.Lanes2>.Admits(new StrainingParameters(own)));
        Assert.True(StrainingLanes<FlowSim.Numerics.Ensemble.Lanes2>.Admits(new StrainingParameters(setup)));
        if (measured.FormAt(18) is null)
            Assert.Equal(Run(own, LaneWidth.OneByOne), Run(own, LaneWidth.Two));
    }

    private static StrainingSample Run(StrainingSetup setup, LaneWidth width)
    {
        var samples = new StrainingSample[1];
        new StrainingEnsemble(setup, [], new EnsembleOptions { Lanes = width, Threads = 1 }).Run(default, samples);
        return samples[0];
    }

    [Theory]
    [InlineData(1e-10, 1, LaneWidth.Two, null)]
    [InlineData(1e-3, 1024, LaneWidth.OneByOne, null)]
    [InlineData(1e-5, null, LaneWidth.Widest, null)]
    [InlineData(9.9e-11, 1, LaneWidth.Two, "RelativeTolerance")]
    [InlineData(1.01e-3, 1, LaneWidth.Two, "RelativeTolerance")]
    [InlineData(1e-5, 0, LaneWidth.Two, "Threads")]
    [InlineData(1e-5, 1025, LaneWidth.Two, "Threads")]
    [InlineData(1e-5, 1, (LaneWidth)5, "Lanes")]
    [InlineData(1e-5, 1, (LaneWidth)(-1), "Lanes")]
    public void Options_are_taken_up_to_their_limits(double tolerance, int? threads, LaneWidth width, string? refused)
    {
        var options = new EnsembleOptions { RelativeTolerance = tolerance, Threads = threads, Lanes = width };
        if (refused is null)
            Assert.Empty(new StrainingEnsemble(Full(), [], options).Varied);
        else
            Assert.Equal(refused, Assert.Throws<ArgumentOutOfRangeException>(() => new StrainingEnsemble(Full(), [], options)).ParamName);
    }

    [Fact]
    public void Values_are_taken_up_to_their_limits_and_refused_by_run_and_name()
    {
        StrainingSetup setup = Full();
        var ensemble = new StrainingEnsemble(setup, [StrainingInputs.LotFactor, StrainingInputs.Spacer], new EnsembleOptions { Threads = 1 });
        Assert.Equal(["honey.lot_factor", "receiver.spacer"], ensemble.Varied.Select(input => input.Name));
        (double low, double high) = StrainingInputs.Spacer.RangeIn(setup);
        Assert.Equal((-0.17, 5), (low, high)); // not below the receiver's floor
        ensemble.Run(new[] { 1, low, 1, high }, new StrainingSample[2]);
        ensemble.Run(default, default);
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => ensemble.Run(new[] { 1, low, 1, 0, 1, 5.01 }, new StrainingSample[3]));
        Assert.StartsWith("receiver.spacer of run 2 is 5.01 m; it must be within -0.17 to 5.", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<ArgumentOutOfRangeException>(() => ensemble.Run(new[] { 1, low, double.NaN, 0 }, new StrainingSample[2]));
        Assert.StartsWith("honey.lot_factor of run 1 is NaN", error.Message, StringComparison.Ordinal);
        Assert.Equal("values", error.ParamName);

        ArgumentException wrong = Assert.Throws<ArgumentException>(() => ensemble.Run(new[] { 1, low, 1 }, new StrainingSample[2]));
        Assert.StartsWith("2 runs of 2 inputs take 4 values; there are 3.", wrong.Message, StringComparison.Ordinal);
        wrong = Assert.Throws<ArgumentException>(() => ensemble.Run(new[] { 1, low, 1, 0 }, new StrainingSample[2], new double[] { 0, 1, 2 }, new double[5]));
        Assert.StartsWith("2 runs read at 3 times give 6 depths; there is room for 5.", wrong.Message, StringComparison.Ordinal);
        Assert.Equal("depthsM", wrong.ParamName);
        wrong = Assert.Throws<ArgumentException>(() => new StrainingEnsemble(setup, [StrainingInputs.Spacer, StrainingInputs.Bore, StrainingInputs.Spacer]));
        Assert.StartsWith("The input receiver.spacer is named twice.", wrong.Message, StringComparison.Ordinal);
        Assert.Equal("varied", Assert.Throws<ArgumentNullException>(() => new StrainingEnsemble(setup, null!)).ParamName);
    }

    /// <summary>Several threads take from one batch, and a failure comes out as it is, not wrapped.</summary>
    [Fact]
    public void Threads_share_a_batch_and_a_failure_is_the_run_s_own()
    {
        var samples = new StrainingSample[40];
        new StrainingEnsemble(Full(), [], new EnsembleOptions { Threads = 3 }).Run(default, samples);
        Assert.All(samples, sample => Assert.Equal(StrainingStatus.ReceiverFull, sample.Ending));

        // The screen answers with nothing while a run goes on.
        StrainingSetup setup = Empty();
        StrainingSetup holey = setup with { Strainer = setup.Strainer with { Shape = new Holey() } };
        foreach (int threads in (int[])[1, 3])
        {
            var ensemble = new StrainingEnsemble(holey, [], new EnsembleOptions { Threads = threads, Lanes = LaneWidth.OneByOne });
            Assert.Throws<SimulationException>(() => ensemble.Run(default, new StrainingSample[24]));
        }
    }

    private sealed class Told : IProgress<long>
    {
        public List<long> Done { get; } = [];

        public void Report(long value) => Done.Add(value);
    }

    /// <summary>A disc that answers with NaN for what stands above a fifth of its rim, but at the rim and at the places where it is checked.</summary>
    private sealed class Holey : ScreenShape
    {
        private static readonly FlatDisc s_disc = new(Length.FromMillimeters(150), Length.FromMillimeters(60));

        protected internal override double RimHeightM => s_disc.RimHeightM;

        protected internal override double PondVolumeM3(double depthM) => s_disc.PondVolumeM3(depthM);

        protected internal override double PondDepthM(double volumeM3) =>
            volumeM3 / s_disc.PondVolumeM3(s_disc.RimHeightM) is > 0.303 and < 0.332 ? double.NaN : s_disc.PondDepthM(volumeM3);

        protected internal override double SurfaceAreaM2(double depthM) => s_disc.SurfaceAreaM2(depthM);

        protected internal override double WettedClothAreaM2(double depthM) => s_disc.WettedClothAreaM2(depthM);

        protected internal override double HeadIntegralM3(double depthM) => s_disc.HeadIntegralM3(depthM);
    }
}
