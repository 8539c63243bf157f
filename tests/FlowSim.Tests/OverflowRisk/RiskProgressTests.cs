using FlowSim.OverflowRisk;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>How far the work is: told when it has moved on, and never backwards.</summary>
public class RiskProgressTests
{
    [Fact]
    public void Only_what_is_further_is_told()
    {
        var told = new Shares();
        var progress = new RiskProgress(told);
        foreach (double share in new[] { 0, 0.2, 0.2, 0.1, 0.3, 1 })
            progress.Reached(share);
        Assert.Equal([0.2, 0.3, 1], told.All);
    }

    [Fact]
    public void Nobody_need_be_told() => Assert.Null(Record.Exception(() => new RiskProgress(null).Reached(0.5)));
}
