using System.Globalization;
using FlowSim.Numerics.Ode;
using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>
/// The steps that a run takes, counted against the rule done by hand for one unknown: the first is 1 s; the next is 0.9/√(error) times as long, between a
/// fifth and three times; one that errs by more than 1 is taken again, shorter; a stop cuts a step short and is not held against the next.
/// </summary>
public class WarmingStepControlTests
{
    [Theory]
    [InlineData(1000, 1e-2)]
    [InlineData(1000, 1e-4)]
    [InlineData(1000, 1e-6)]
    [InlineData(20, 1e-5)]
    [InlineData(20, 1)]
    public void Honey_in_a_bath_takes_the_steps_of_its_one_equation(double film, double toleranceK)
    {
        WarmingParameters p = PlainStuff.Mixed(45, film);
        double rate = 1 / PlainStuff.MixedTimeS(film), end = 1.5 / rate;
        foreach (double[] stops in new double[][] { [], [0.4 * end], [0, 3, 3.5, 0.4 * end, end] })
        {
            (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, PlainStuff.Setup(p, end), toleranceK, 0, stops);
            (int steps, double kelvins) = ByHand((_, y) => rate * (318.15 - y), -rate, 293.15, 1 / toleranceK, [.. stops.Append(end).Where(at => at > 0).Distinct()]);
            Assert.Equal(steps, run.Steps);
            Assert.Equal(kelvins, run.Now.MeanK, 1e-9);
            Assert.Equal(end, run.EndS);
            Assert.Equal(stops, recorder.Maps.Select(map => map.At.Seconds));
        }
    }

    /// <summary>The body may err five times as much.</summary>
    [Theory]
    [InlineData(1e-2)]
    [InlineData(1e-5)]
    public void A_body_alone_takes_the_steps_of_its_equation(double toleranceK)
    {
        // Loses 5 W/K of 100 W: to 40 °C at most, with a time constant of 200 s.
        WarmingParameters p = PlainStuff.Climbing(2, HeatNets.Step(0, 90)) with { BodyJPerK = 1000, BodyLossWPerK = 5 };
        (WarmingIntegration run, _) = PlainStuff.Integrate(p, PlainStuff.Setup(p, 700), toleranceK);
        (int steps, double kelvins) = ByHand((_, y) => (100 - (5 * (y - 293.15))) / 1000, -5 / 1000.0, 293.15, 1 / (5 * toleranceK), [700]);
        Assert.Equal(steps, run.Steps);
        Assert.Equal(kelvins, run.Now.BodyK, 1e-9);
    }

    /// <summary>So may the probe, here on a ramp of the setpoint that it lags.</summary>
    [Theory]
    [InlineData(1e-2)]
    [InlineData(1e-5)]
    public void A_probe_takes_the_steps_of_its_equation(double toleranceK)
    {
        WarmingParameters p = PlainStuff.Climbing(2, HeatNets.Step(0, 20), HeatNets.Step(900, 65, true)) with { HeaterW = double.PositiveInfinity, LagS = 40 };
        (WarmingIntegration run, _) = PlainStuff.Integrate(p, PlainStuff.Setup(p, 900), toleranceK);
        (int steps, double kelvins) = ByHand((t, y) => (293.15 + (0.05 * t) - y) / 40, -1 / 40.0, 293.15, 1 / (5 * toleranceK), [900]);
        Assert.Equal(steps, run.Steps);
        Assert.Equal(kelvins, run.Now.ProbeK, 1e-9);
    }

    [Fact]
    public void A_state_that_cannot_be_stepped_into_ends_the_run_and_says_when()
    {
        // One cell behind half its radius of honey and a film, whose conductivity is no number from 300 K on, which an exponential reaches.
        double passes = 1 / ((1 / 200.0) + (0.05 / 2 / PlainStuff.Conductivity)), there = -PlainStuff.MixedTimeS(passes) * Math.Log((318.15 - 300) / 25);
        WarmingParameters p = PlainStuff.Mixed(45, 200) with { Honey = new PlainStuff { UnknownFromK = 300 }, Inside = InsideHeat.ConductionOnly };
        string message = Assert.Throws<SimulationException>(() => PlainStuff.Integrate(p, PlainStuff.Setup(p, 1e5), 1e-6)).Message;
        string number = Assert.Single(message.Split(' '), word => double.TryParse(word, CultureInfo.InvariantCulture, out _));
        Assert.Equal(there, double.Parse(number, CultureInfo.InvariantCulture), 0.05);
    }

    /// <summary>Steps of the linearly implicit method of second order for y′ = f(t, y) with the slope ∂f/∂y.</summary>
    private static (int Steps, double Y) ByHand(Func<double, double, double> f, double slope, double y, double perError, double[] stops)
    {
        double t = 0, step = 1;
        int steps = 0, next = 0;
        while (next < stops.Length)
        {
            double stop = stops[next], h = Math.Min(step, stop - t), m = 1 - (FactoredRosenbrock.Gamma * h * slope);
            bool cut = h == stop - t;
            double k1 = f(t, y) / m, k2 = (f(t + h, y + (h * k1)) - (2 * k1)) / m;
            double error = Math.Abs(h / 2 * (k1 + k2)) * perError, longer = 0.9 / Math.Sqrt(error);
            steps++;
            if (error > 1)
            {
                step = h * Math.Max(0.2, longer);
                continue;
            }

            if (!cut || longer < 1)
                step = h * Math.Clamp(longer, 0.2, 3);
            y += (1.5 * h * k1) + (0.5 * h * k2);
            t = cut ? stop : t + h;
            next += cut ? 1 : 0;
        }

        return (steps, y);
    }
}
