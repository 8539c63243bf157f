using FlowSim.Properties;
using FlowSim.Setpoints;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;
using static FlowSim.Tests.Setpoints.SmallBatch;

namespace FlowSim.Tests.Setpoints;

/// <summary>Straining by temperature: each tenth of a degree once, by the run that it stands for.</summary>
public class StrainingTableTests
{
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };
    private static readonly StrainingResult Run = StrainingRun.Simulate(SmallBatch.Plain().Straining with { Control = GateControl.LeaveAt(Ratio.FromPercent(20)) }, Quick);

    private static StrainingTable Of(Opened opened, Func<StrainingSetup, StrainingSetup>? change = null)
    {
        SetpointQuestion plain = SmallBatch.Plain();
        return new StrainingTable(plain with { Limits = plain.Limits with { Overflow = opened }, Straining = change is null ? plain.Straining : change(plain.Straining) }, default);
    }

    [Fact]
    public void It_is_the_run_at_the_nearest_tenth_of_a_degree()
    {
        var opened = new Opened(Ratio.FromPercent(20));
        StrainingTable table = Of(opened);
        StrainingResult run = StrainingRun.Simulate(table.Setup(C(35.1)) with { Control = GateControl.LeaveAt(Ratio.FromPercent(20)) }, Quick);
        foreach (double celsius in new[] { 35.06, 35.1, 35.14 })
        {
            StrainingAtATemperature there = table.At(celsius);
            Assert.Equal((0.2, run.Strain.To95!.Value.Seconds), (there.Opening, there.Seconds!.Value));
            Assert.True(there.Works);
        }

        Assert.Equal(1, opened.Asked);
        Assert.True(table.At(34.9).Seconds > run.Strain.To95!.Value.Seconds);
        Assert.Equal(2, opened.Asked);
    }

    [Fact]
    public void Honey_and_temperature_are_those_of_the_warming()
    {
        SetpointQuestion plain = SmallBatch.Plain();
        var other = new Honey { Moisture = Ratio.FromPercent(19) };
        var table = new StrainingTable(plain with { Warming = plain.Warming with { Honey = other } }, default);
        StrainingSetup setup = table.Setup(C(33));
        Assert.Equal((other, 33.0), (setup.Honey, Math.Round(setup.HoneyTemperature.DegreesCelsius, 9)));
        Assert.Equal(plain.Straining.Tank, setup.Tank);
    }

    /// <summary>Known up to the outer end of the viscosity's range, and there it can still be asked.</summary>
    [Fact]
    public void Beyond_what_is_known_of_the_honey_nothing_is_strained()
    {
        StrainingTable table = Of(new Opened(Ratio.FromPercent(20)));
        ValidityRange range = ViscosityCorrelations.Default.TemperatureRange;
        Assert.Equal(range.OuterHigh, table.WarmestC);
        Assert.True(table.At(range.OuterHigh).Works);
        Assert.Equal(default, table.At(range.OuterHigh + 0.1));
        Assert.Equal(default, table.At(range.OuterLow - 0.1));
        Assert.False(default(StrainingAtATemperature).Works);
    }

    [Fact]
    public void Without_an_opening_nothing_is_strained() => Assert.Equal(default, Of(new Opened(Ratio.Zero)).At(35));

    /// <summary>In ten seconds nobody strains 95 %: open, but without a time.</summary>
    [Fact]
    public void What_never_gets_there_has_no_time()
    {
        StrainingAtATemperature never = Of(new Opened(Ratio.FromPercent(20)), setup => setup with { Longest = Duration.FromSeconds(10) }).At(35);
        Assert.Equal((0.2, (double?)null), (never.Opening, never.Seconds));
        Assert.False(never.Works);
        Assert.False(new StrainingAtATemperature(0, 100).Works);
    }

    /// <summary>To 95 % strained; where the receiver is full before, until then; else never.</summary>
    [Fact]
    public void The_time_is_that_to_95_percent_or_to_a_full_receiver()
    {
        StrainingResult Result(double? strained, double? full, StrainingStatus ending) => Run with
        {
            Strain = Run.Strain with { To95 = strained is { } s ? Duration.FromSeconds(s) : null },
            ReceiverFullAt = full is { } f ? Duration.FromSeconds(f) : null,
            Ending = ending,
        };

        Assert.Equal(100, StrainingTable.SecondsOf(Result(100, null, StrainingStatus.Drained)));
        Assert.Equal(100, StrainingTable.SecondsOf(Result(100, 150, StrainingStatus.ReceiverFull)));
        Assert.Equal(150, StrainingTable.SecondsOf(Result(null, 150, StrainingStatus.ReceiverFull)));
        Assert.Null(StrainingTable.SecondsOf(Result(null, 150, StrainingStatus.TimeLimit)));
        Assert.Null(StrainingTable.SecondsOf(Result(null, null, StrainingStatus.Drained)));
    }
}
