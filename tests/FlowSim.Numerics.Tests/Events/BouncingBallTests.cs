using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>
/// A ball dropped from rest at 1 m that keeps a fraction e of its speed at each bounce. Closed form (elementary mechanics):
/// the first bounce is at T = √(2/g), and bounce k+1 follows bounce k after 2·T·eᵏ.
/// </summary>
public sealed class BouncingBallTests(ITestOutputHelper output)
{
    private const double Gravity = 9.81;

    private static readonly double s_fall = Math.Sqrt(2 / Gravity);

    [Fact]
    public void Bounces_at_the_times_of_the_closed_form_and_stops_at_the_last()
    {
        const double Kept = 0.8;
        ScriptedSystem ball = Ball(Kept, bounces: 12);
        double[] y = [1, 0];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(ball).Integrate(0, 100, y);

        Assert.Equal(IntegrationStatus.StoppedByEvent, result.Status);
        Assert.Equal(12, result.Events);
        Assert.Equal(11, result.Restarts);
        double expected = s_fall, speed = Gravity * s_fall, worst = 0;
        for (int k = 1; k <= 12; k++)
        {
            (_, double time, double[] state) = ball.EventLog[k - 1];
            worst = Math.Max(worst, Math.Abs(time - expected));
            Assert.Equal(expected, time, 1e-9);
            Assert.Equal(-speed, state[1], 1e-8);

            // Past the crossing, not short of it.
            Assert.InRange(state[0], -1e-11, 0);
            expected += 2 * s_fall * Math.Pow(Kept, k);
            speed *= Kept;
        }

        Assert.Equal(ball.EventLog[^1].Time, result.Time);
        output.WriteLine($"worst time error {worst:E2}, {result}");
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    public void Bounces_that_pile_up_end_with_a_status(double kept)
    {
        ScriptedSystem ball = Ball(kept, bounces: int.MaxValue);
        double[] y = [1, 0];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(ball).Integrate(0, 100, y);

        // The bounces pile up at T + 2T·(e + e² + …) = T·(1 + e)/(1 − e).
        output.WriteLine(result.ToString());
        Assert.Equal(IntegrationStatus.TooManyEvents, result.Status);
        Assert.Equal(s_fall * (1 + kept) / (1 - kept), result.Time, 1e-6);
        Assert.InRange(y[0], -1e-9, 1e-9);

        // Noticed where time stands still, long before the limit of 10 000 events: the speed has then fallen by some 12 decades.
        Assert.InRange(result.Events, 5, 2 * 12 / -Math.Log10(kept));
    }

    private static ScriptedSystem Ball(double kept, int bounces)
    {
        int left = bounces;
        return new ScriptedSystem(2)
        {
            Rhs = (_, y, f) => (f[0], f[1]) = (y[1], -Gravity),
            Events = (_, y, g) => g[0] = y[0],
            Directions = [EventDirection.Falling],
            Respond = (_, _, y) =>
            {
                (y[0], y[1]) = (0, -kept * y[1]);
                return --left == 0 ? EventResponse.Stop : EventResponse.Restart;
            },
        };
    }
}
