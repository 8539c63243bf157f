using System.Text;
using FlowSim.Warming;
namespace FlowSim.Tests.Warming;
public class Scratch(Xunit.Abstractions.ITestOutputHelper o)
{
    [Theory]
    [InlineData(20419463)]
    [InlineData(270891508)]
    public void Look(int seed)
    {
        var s = RandomWarmings.Any(seed);
        o.WriteLine(s.ToString());
        o.WriteLine(string.Join(", ", s.Heating.Thermostat.Schedule));
        var r = WarmingRun.Simulate(s, RandomWarmings.Small with { SeriesPoints = 40, Inside = (InsideHeat)(Math.Abs((long)seed) % 3) });
        o.WriteLine(r.End.ToString() + r.Energy + r.Damage.HmfGain + r.WorstDamage.HmfGain + r.Status + " steps " + r.Steps + " sw " + r.Switchings + " cut " + r.CutOutAt);
        for (int i = 0; i < 40; i++) o.WriteLine(FormattableString.Invariant($"{r.Series.TimeS[i]:0.0} body {r.Series.BodyK[i]:0.000} set {r.Series.SetpointK[i]:0.000} mean {r.Series.MeanK[i]:0.000} cold {r.Series.ColdestK[i]:0.000} wall {r.Series.WallK[i]:0.000} probe {r.Series.ProbeK[i]:0.000} W {r.Series.HeaterW[i]:0.0}"));
    }
}
