using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>Lanes against the integrator of single runs, on a problem that depends on time and has events and stops.</summary>
public class EnsembleIntegratorTests
{
    private const double End = 5;

    /// <summary>More runs than lanes, not a multiple, from hardly stiff to stiff.</summary>
    private static readonly double[] Stiffness = [.. Enumerable.Range(0, 21).Select(i => 0.3 * Math.Pow(1.4, i))];

    [Theory]
    [InlineData(LaneMethod.Rodas5P)]
    [InlineData(LaneMethod.DormandPrince)]
    public void Every_lane_agrees_with_a_single_run(LaneMethod method)
    {
        RelaxingLanes<Lanes8> lanes = Run<Lanes8>(method, Stiffness, 1e-8);
        for (int run = 0; run < Stiffness.Length; run++)
        {
            (double y0, double y1, int resets) = Single(Stiffness[run]);
            Assert.Equal(LaneEnding.ReachedEnd, lanes.Endings[run]);
            Assert.Equal(resets, lanes.Resets[run]);
            Assert.InRange(lanes.Y0[run] - y0, -1e-6, 1e-6);
            Assert.InRange(lanes.Y1[run] - y1, -2e-6, 2e-6);
        }
    }

    /// <summary>The first unknown is cos t whatever the stiffness (Prothero and Robinson).</summary>
    [Fact]
    public void A_stiff_lane_beside_others_stays_on_the_solution()
    {
        double[] stiffness = [1e7, 1, 1e3, 0.1];
        RelaxingLanes<Lanes4> lanes = Run<Lanes4>(LaneMethod.Rodas5P, stiffness, 1e-8);
        foreach (double y in lanes.Y0)
            Assert.InRange(y - Math.Cos(End), -1e-7, 1e-7);
    }

    [Fact]
    public void The_error_goes_with_the_tolerance()
    {
        double Worst(double tolerance, LaneMethod method)
        {
            RelaxingLanes<Lanes8> lanes = Run<Lanes8>(method, Stiffness, tolerance);
            return Stiffness.Select((lambda, run) => Math.Abs(lanes.Y1[run] - Single(lambda).Y1)).Max();
        }

        foreach (LaneMethod method in Enum.GetValues<LaneMethod>())
            Assert.True(Worst(1e-4, method) > 20 * Worst(1e-7, method));
    }

    [Theory]
    [InlineData(LaneMethod.Rodas5P)]
    [InlineData(LaneMethod.DormandPrince)]
    public void Width_and_company_change_no_bit(LaneMethod method)
    {
        RelaxingLanes<Lanes8> eight = Run<Lanes8>(method, Stiffness, 1e-6);
        RelaxingLanes<Lanes4> four = Run<Lanes4>(method, Stiffness, 1e-6);
        RelaxingLanes<Lanes2> two = Run<Lanes2>(method, Stiffness, 1e-6);
        RelaxingLanes<Lanes8> reversed = Run<Lanes8>(method, [.. Stiffness.Reverse()], 1e-6);
        for (int run = 0; run < Stiffness.Length; run++)
        {
            RelaxingLanes<Lanes8> alone = Run<Lanes8>(method, [Stiffness[run]], 1e-6);
            double[] same = [eight.Y1[run], four.Y1[run], two.Y1[run], reversed.Y1[Stiffness.Length - 1 - run], alone.Y1[0]];
            Assert.All(same, y => Assert.Equal(BitConverter.DoubleToInt64Bits(same[0]), BitConverter.DoubleToInt64Bits(y)));
        }
    }

    [Fact]
    public void An_explicit_method_gives_up_on_a_stiff_lane_and_the_others_go_on()
    {
        double[] stiffness = [1, 1e7, 2];
        var system = new RelaxingLanes<Lanes4>(stiffness, End);
        new EnsembleIntegrator<RelaxingLanes<Lanes4>, Lanes4>(system, 1e-6, 1e-8, LaneMethod.DormandPrince, mostSteps: 300).Run(CancellationToken.None);
        Assert.Equal([LaneEnding.ReachedEnd, LaneEnding.GaveUp, LaneEnding.ReachedEnd], system.Endings);
    }

    [Fact]
    public void A_run_allocates_nothing()
    {
        var system = new RelaxingLanes<Lanes8>(Stiffness, End);
        var integrator = new EnsembleIntegrator<RelaxingLanes<Lanes8>, Lanes8>(system, 1e-6, 1e-8);
        Assert.Equal(0, Allocated.By(() =>
        {
            system.Again();
            integrator.Run(CancellationToken.None);
        }));
    }

    [Fact]
    public void It_can_be_cancelled()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var integrator = new EnsembleIntegrator<RelaxingLanes<Lanes8>, Lanes8>(new RelaxingLanes<Lanes8>(Stiffness, End), 1e-6, 1e-8);
        Assert.Throws<OperationCanceledException>(() => integrator.Run(source.Token));
    }

    [Theory]
    [InlineData(1e-13, 1e-8, 10)]
    [InlineData(1, 1e-8, 10)]
    [InlineData(double.NaN, 1e-8, 10)]
    [InlineData(1e-6, 0, 10)]
    [InlineData(1e-6, double.NaN, 10)]
    [InlineData(1e-6, 1e-8, 0)]
    public void Options_are_checked(double relative, double absolute, int mostSteps) => Assert.Throws<ArgumentOutOfRangeException>(() =>
        new EnsembleIntegrator<RelaxingLanes<Lanes8>, Lanes8>(new RelaxingLanes<Lanes8>(Stiffness, End), relative, absolute, LaneMethod.Rodas5P, mostSteps));

    private static RelaxingLanes<TLanes> Run<TLanes>(LaneMethod method, double[] stiffness, double tolerance)
        where TLanes : struct, ILanes<TLanes>
    {
        var system = new RelaxingLanes<TLanes>(stiffness, End);
        new EnsembleIntegrator<RelaxingLanes<TLanes>, TLanes>(system, tolerance, 0.01 * tolerance, method).Run(CancellationToken.None);
        return system;
    }

    private static (double Y0, double Y1, int Resets) Single(double stiffness)
    {
        var integrator = new HybridIntegrator<Relaxing>(new Relaxing(stiffness), new IntegratorOptions { RelativeTolerance = 1e-11, AbsoluteTolerance = 1e-13 });
        double[] y = [1, 0];
        Assert.True(integrator.Integrate(0, End, y).Succeeded);
        return (y[0], y[1], integrator.System.Resets);
    }

    /// <summary>The problem of <see cref="RelaxingLanes{TLanes}"/> for one run.</summary>
    private sealed class Relaxing(double stiffness) : HybridSystemBase(2)
    {
        private bool _stopped;

        public int Resets { get; private set; }

        public override int EventCount => 1;

        public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            derivative[0] = (-stiffness * (y[0] - Math.Cos(t))) - Math.Sin(t);
            derivative[1] = (t * Math.Cos(y[1])) + (y[0] / 10);
        }

        public override EventDirection DirectionOf(int index) => EventDirection.Rising;

        public override void EventValues(double t, ReadOnlySpan<double> y, Span<double> values) => values[0] = y[1] - 1;

        public override EventResponse OnEvent(int index, double t, Span<double> y)
        {
            y[1] = -1;
            Resets++;
            return EventResponse.Restart;
        }

        public override double NextStop(double t) => _stopped ? double.PositiveInfinity : 2;

        public override EventResponse OnStop(double t, Span<double> y)
        {
            y[1] = 0;
            _stopped = true;
            return EventResponse.Restart;
        }
    }
}
