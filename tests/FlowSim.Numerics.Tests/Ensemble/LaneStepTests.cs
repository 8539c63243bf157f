using FlowSim.Numerics.Ensemble;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>The extension of a step as what it is, a polynomial of the share θ, for several components and lanes at once.</summary>
public class LaneStepTests
{
    /// <summary>Coefficients of 1, θ … θ⁴ by component; each lane has them times its number plus one.</summary>
    private static readonly double[][] Polynomials =
    [
        [1, 2, -1, 0.5, -3],
        [-2, 0.3, 4, -7, 2],
        [0, 1, 0, -1, 0],
    ];

    private delegate Lanes4 Asked(in LaneStep<Lanes4> step, Lanes4 theta, int component);

    [Theory]
    [InlineData(0)]
    [InlineData(0.25)]
    [InlineData(0.7)]
    [InlineData(1)]
    public void State_and_slope(double theta)
    {
        for (int component = 0; component < Polynomials.Length; component++)
        {
            double[] p = Polynomials[component];
            double value = Value(p, theta);
            double slope = p[1] + (theta * ((2 * p[2]) + (theta * ((3 * p[3]) + (theta * 4 * p[4])))));
            AssertLanes(value, 1e-13, Ask((in step, at, i) => step.At(at, i), theta, component));
            AssertLanes(slope, 1e-13, Ask((in step, at, i) => step.Slope(at, i), theta, component));
        }
    }

    /// <summary>θ − θ³ is highest at 1/√3; 1 + 2θ − θ² + θ³/2 − 3θ⁴ where its slope, found here by bisection, is zero.</summary>
    [Fact]
    public void The_top()
    {
        Lanes4 cubic = Ask((in step, _, i) => step.Top(i), 0, 2), quartic = Ask((in step, _, i) => step.Top(i), 0, 0);
        double low = 0, high = 1;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (2 - (2 * middle) + (1.5 * middle * middle) - (12 * middle * middle * middle) > 0)
                low = middle;
            else
                high = middle;
        }

        for (int lane = 0; lane < 4; lane++)
        {
            Assert.Equal(1 / Math.Sqrt(3), Lane.At(ref cubic, lane), 1e-8);
            Assert.Equal(low, Lane.At(ref quartic, lane), 1e-8);
        }
    }

    /// <summary>θ − θ³ passes 0.3 on its way to the top, each lane its multiple; and −2 + 0.3θ + 4θ² − 7θ³ + 2θ⁴ passes −1.9.</summary>
    [Theory]
    [InlineData(2, 0.3, 0.55)]
    [InlineData(2, 0.1, 0.5)]
    [InlineData(2, 0.384, 0.577)]
    [InlineData(1, -1.9, 0.3)]
    public void Where_a_value_is_passed(int component, double sought, double part)
    {
        Lanes4 multiples = default;
        for (int lane = 0; lane < 4; lane++)
            Lane.At(ref multiples, lane) = (lane + 1) * sought;
        Lanes4 passes = Ask((in step, _, i) => step.Passes(i, multiples, Lanes4.Of(part)), 0, component);
        for (int lane = 0; lane < 4; lane++)
        {
            double theta = Lane.At(ref passes, lane);
            Assert.InRange(theta, 0, part);
            Assert.Equal(sought, Value(Polynomials[component], theta), 1e-12);
        }
    }

    [Fact]
    public void A_whole_state()
    {
        var y = new Lanes4[3];
        double[] expected = [.. Polynomials.Select(p => Value(p, 0.4))];
        Of((in LaneStep<Lanes4> step) => step.At(Lanes4.Of(0.4), y));
        for (int i = 0; i < 3; i++)
            AssertLanes(expected[i], 1e-13, y[i]);
    }

    private delegate void Use(in LaneStep<Lanes4> step);

    private static Lanes4 Ask(Asked asked, double theta, int component)
    {
        Lanes4 answer = default;
        Of((in LaneStep<Lanes4> step) => answer = asked(step, Lanes4.Of(theta), component));
        return answer;
    }

    /// <summary>y0 + θ(y1 − y0) + θ(1 − θ)(q₁ + θ(q₂ + θ q₃)): the q from the coefficients of θ⁴ downwards.</summary>
    private static void Of(Use use)
    {
        int n = Polynomials.Length;
        Lanes4[] y0 = new Lanes4[n], y1 = new Lanes4[n], extension = new Lanes4[3 * n];
        for (int i = 0; i < n; i++)
        {
            double[] p = Polynomials[i];
            double q3 = -p[4], q2 = q3 - p[3], q1 = q2 - p[2];
            for (int lane = 0; lane < 4; lane++)
            {
                int times = lane + 1;
                Lane.At(ref y0[i], lane) = times * p[0];
                Lane.At(ref y1[i], lane) = times * p.Sum();
                Lane.At(ref extension[i], lane) = times * q1;
                Lane.At(ref extension[n + i], lane) = times * q2;
                Lane.At(ref extension[(2 * n) + i], lane) = times * q3;
            }
        }

        use(new LaneStep<Lanes4>(Lanes4.Of(3), Lanes4.Of(2), y0, y1, extension));
    }

    private static double Value(double[] p, double theta) => p[0] + (theta * (p[1] + (theta * (p[2] + (theta * (p[3] + (theta * p[4])))))));

    private static void AssertLanes(double expected, double tolerance, Lanes4 actual)
    {
        for (int lane = 0; lane < 4; lane++)
            Assert.Equal((lane + 1) * expected, Lane.At(ref actual, lane), tolerance * 20);
    }
}
