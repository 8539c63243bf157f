using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Every cell of a map is a count of its own.</summary>
public class RiskMapByHandTests
{
    private static readonly Ratio[] Openings = [Ratio.FromPercent(40), Ratio.FromPercent(50), Ratio.FromPercent(60)];
    private static readonly Temperature[] Temperatures = [Temperature.FromDegreesCelsius(34), Temperature.FromDegreesCelsius(40)];

    private static RiskQuestion Asked(int? runs) => new()
    {
        Setup = Pail(30) with { Longest = Seconds(100) },
        Inputs = [ScreenOf(Pail(30), 1.2).Given[0], Normal(StrainingInputs.Opening, 0.3, 0.01), Normal(StrainingInputs.HoneyTemperature, 309.15, 0.5)],
        Runs = runs,
        Seed = 3,
        Threads = 1,
    };

    /// <summary>The spreads of opening and temperature are carried to the cell: written down there they give the same runs, with the same draws.</summary>
    [Fact]
    public void A_cell_is_the_count_at_its_opening_and_temperature()
    {
        var told = new Shares();
        RiskQuestion question = Asked(65);
        RiskMap map = RiskAnalysis.Map(question, Openings, Temperatures, told);
        Assert.Equal(80, map.RunsPerCell);
        Assert.Same(question, map.Question);
        Assert.Equal(Openings, map.Openings);
        Assert.Equal(Temperatures, map.Temperatures);
        Assert.Equal(2, map.Cells.Count);
        for (int t = 0; t < 2; t++)
        {
            Assert.Equal(3, map.Cells[t].Count);
            for (int o = 0; o < 3; o++)
            {
                StrainingSetup there = question.Setup with { HoneyTemperature = Temperatures[t], Control = GateControl.LeaveAt(Openings[o]) };
                SpreadInputs inputs = Alone(question.Inputs![0], Normal(StrainingInputs.Opening, Openings[o].DecimalFractions, 0.01), Normal(StrainingInputs.HoneyTemperature, Temperatures[t].Kelvins, 0.5));
                RunTally tally = new CountingPass(inputs, OneThread, 3, 0.1).Run(there, 80, default);
                Assert.Equal(tally.ChanceOf(tally.Overflow), map.Cells[t][o].Overflow);
                Assert.Equal(tally.Strain.Spread(), map.Cells[t][o].Strain);
                Assert.Equal(tally.Drain.Spread(), map.Cells[t][o].Drain);
            }
        }

        double[] row = [.. map.Cells[0].Select(cell => cell.Overflow.Value)];
        Assert.True(row[0] < row[1] && row[1] < row[2]); // Else it would prove little.
        double[] sixths = [.. Enumerable.Range(1, 6).Select(i => i / 6.0)];
        Assert.Equal(sixths, told.All);
    }

    [Fact]
    public void Without_a_number_a_cell_has_1024_runs()
    {
        RiskMap map = RiskAnalysis.Map(Asked(null), [Openings[1]], [Temperatures[0]]);
        Assert.Equal((1024, 1024L), (map.RunsPerCell, map.Cells[0][0].Overflow.Runs));
    }

    [Fact]
    public void Axes_are_held_to_their_limits_by_name()
    {
        string? Refused(Ratio[] openings, Temperature[] temperatures) => Assert.Throws<ArgumentOutOfRangeException>(() => RiskAnalysis.Map(Asked(64), openings, temperatures)).ParamName;

        Assert.Equal("openings", Refused([Openings[1], Openings[0]], Temperatures));
        Assert.Equal("openings", Refused([Ratio.FromPercent(100.1)], Temperatures));
        Assert.Equal("temperatures", Refused(Openings, [Temperatures[1], Temperatures[0]]));
        Assert.Equal("Tolerance", Assert.Throws<ArgumentOutOfRangeException>(() => RiskAnalysis.Map(Asked(64) with { Tolerance = Ratio.Zero }, Openings, Temperatures)).ParamName);
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => RiskAnalysis.Map(Asked(64), Openings, Temperatures, null, cancelled.Token));
    }
}
