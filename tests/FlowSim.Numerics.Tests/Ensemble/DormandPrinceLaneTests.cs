using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>Explicit lanes against the method written out plainly, try by try, with the controller and first step of single runs.</summary>
public class DormandPrinceLaneTests
{
    private const double Tolerance = 1e-5;

    [Fact]
    public void Every_try_is_the_plain_step()
    {
        RunScript[] scripts = [Swing(1, 7, 1), Swing(1, 5, 1e-8), Swing(30, 0.2, 1), Swing(1e-6, 5e6, 1), Swing(1, 1e-3, 100), Swing(1e8, 6e-8, 1)];
        (RunLog[] logs, long steps, long rejected) = ScriptedLanes<Lanes4>.Run(Tolerance, LaneMethod.DormandPrince, 10_000, scripts);
        for (int i = 0; i < scripts.Length; i++)
        {
            Assert.Equal(LaneEnding.ReachedEnd, logs[i].Ending);
            LaneFollower.Follow($"run {i}", scripts[i], logs[i], Tolerance, LaneMethod.DormandPrince);
        }

        Assert.True(rejected > 0);
        Assert.Equal(logs.Sum(log => log.Tries.Count), steps + rejected);
    }

    /// <summary>
    /// A first step takes the bend from a look ahead: a hundredth of the state's own time, but a thousandth of what is left at most. Runs in which only one of the two is short
    /// beside the time in which the rates change: at the start, and at a stop shortly before the end.
    /// </summary>
    [Fact]
    public void First_steps()
    {
        RunScript[] scripts =
        [
            Swing(1, 1e6, 1) with { Stops = [1], OnStop = (_, _, _) => EventResponse.Stop },
            Pushed(1e4, 0, 1e-3),
            Pushed(2e3, 1.999, 2) with { OnStop = (_, _, y) =>
            {
                (y[0], y[1]) = (1e3, 0);
                return EventResponse.Restart;
            } },
        ];
        RunLog[] logs = ScriptedLanes<Lanes4>.Run(Tolerance, LaneMethod.DormandPrince, 100_000, scripts).Logs;
        for (int i = 0; i < scripts.Length; i++)
            LaneFollower.Follow($"run {i}", scripts[i], logs[i], Tolerance, LaneMethod.DormandPrince);
        Assert.Contains(logs[2].Tries, made => made.Anew);
    }

    /// <summary>A large state that is pushed to and fro from some time on, so that it hardly changes by itself.</summary>
    private static RunScript Pushed(double frequency, double from, double end) => new([1e3, 0], end)
    {
        Rates = (t, y, derivative) => (derivative[0], derivative[1]) = (1 + Math.Sin((frequency * Math.Max(t - from, 0)) + 0.5), 0),
        Slopes = (t, y, jacobian, timeDerivative) =>
        {
            jacobian.Clear();
            (timeDerivative[0], timeDerivative[1]) = (t < from ? 0 : frequency * Math.Cos((frequency * Math.Max(t - from, 0)) + 0.5), 0);
        },
        Scales = [1, 1],
        Stops = [from],
    };

    /// <summary>Duffing's hard spring with a push: rates that bend in the state and in time. A large start makes the state's own time short.</summary>
    private static RunScript Swing(double rate, double end, double size) => new([size, 0], end)
    {
        Rates = (t, y, derivative) =>
        {
            double u = y[0] / size, v = y[1] / size;
            derivative[0] = rate * size * v;
            derivative[1] = rate * size * (-u - (u * u * u) + (0.3 * Math.Cos(1.3 * rate * t)));
        },
        Slopes = (t, y, jacobian, timeDerivative) =>
        {
            double u = y[0] / size;
            ReadOnlySpan<double> rows = [0, rate, rate * (-1 - (3 * u * u)), 0];
            rows.CopyTo(jacobian);
            (timeDerivative[0], timeDerivative[1]) = (0, -0.39 * rate * rate * size * Math.Sin(1.3 * rate * t));
        },
        Scales = [size, size],
    };
}
