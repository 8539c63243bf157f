using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>The halving of a bracket against the method as it is published, try by try.</summary>
public class RootBracketTests
{
    private const double Tolerance = 1e-12;

    /// <summary>Straight, bent either way, a jump, flat at the root, steep at the root, zero at places that are tried.</summary>
    private static readonly Func<double, double>[] Functions =
    [
        x => x - 0.3,
        x => Math.Exp(5 * x) - 2,
        x => Math.Pow(x, 9) - 1e-4,
        x => Math.Pow(x - 0.7, 3),
        x => Math.Cbrt(x - 0.61),
        x => x < 0.37 ? -1e-6 : 1,
        x => x < 0.37 ? -1 : 1e-6,
        x => Math.Tanh(300 * (x - 0.9)),
        x => x < 0.99 ? -1 : (x - 0.995) * 1e3,
        x => Math.Min(x - 0.2, 0),
    ];

    /// <summary>
    /// Oliveira and Takahashi 2020 (from memory): regula falsi, moved towards the middle by κ₁ w², or the middle if that is nearer; then
    /// brought to within ε 2^(n − j) − w/2 of the middle. Here κ₁ = 0.2/w₀, n the bisections needed and one, 2 ε the tolerance.
    /// </summary>
    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(0, 1, -1)]
    [InlineData(-3, 0.02, 1)]
    [InlineData(1e4, 0.7, -1)]
    public void Every_try_is_that_of_the_published_method(double from, double scale, int sign)
    {
        foreach (Func<double, double> function in Functions)
        {
            double tolerance = Tolerance * (Math.Abs(from) + 1);
            double F(double t) => sign * function((t - from) / scale);
            double a = from, b = from + scale, fa = F(a), fb = F(b), first = b - a;
            var bracket = new RootBracket(a, fa, b, fb, -sign, tolerance);
            int most = (int)Math.Ceiling(Math.Log2(first / tolerance)) + 1;
            for (int j = 0; ; j++)
            {
                double width = b - a, middle = a + (width / 2);
                Assert.Equal((a, b), (bracket.Near, bracket.Far));
                bool isDone = width <= tolerance || middle <= a || middle >= b;
                Assert.Equal(!isDone, bracket.TryNext(out double t));
                if (isDone)
                    break;

                double falsi = ((fb * a) - (fa * b)) / (fb - fa), towards = Math.Sign(middle - falsi), shift = 0.2 / first * width * width;
                double truncated = shift <= Math.Abs(middle - falsi) ? falsi + (towards * shift) : middle;
                double radius = Math.Max((tolerance / 2 * Math.Pow(2, most - j)) - (width / 2), 0);
                double expected = Math.Abs(truncated - middle) <= radius ? truncated : middle - (towards * radius);
                if (!(expected > a && expected < b))
                    expected = middle;
                Assert.InRange(t - expected, -1e-9 * width, 1e-9 * width);
                Assert.True(t > a && t < b);

                double value = F(t);
                bracket.Narrow(t, value);
                if (value * sign >= 0)
                    (b, fb) = (t, value);
                else
                    (a, fa) = (t, value);
            }

            Assert.InRange(bracket.Far - bracket.Near, 0, tolerance);
        }
    }

    /// <summary>Where the values give no secant, the middle is tried.</summary>
    [Fact]
    public void The_middle_where_there_is_no_secant()
    {
        var bracket = new RootBracket(0, double.NegativeInfinity, 1, double.PositiveInfinity, -1, Tolerance);
        Assert.True(bracket.TryNext(out double t));
        Assert.Equal(0.5, t);
    }

    /// <summary>As narrow as the tolerance is narrow enough, also from the start.</summary>
    [Fact]
    public void A_bracket_as_narrow_as_the_tolerance_is_done()
    {
        Assert.False(new RootBracket(0, -1, 0.25, 1, -1, 0.25).TryNext(out _));
        Assert.False(new RootBracket(0, -1, 0.125, 1, -1, 0.25).TryNext(out _));
        Assert.True(new RootBracket(0, -1, 0.375, 1, -1, 0.25).TryNext(out double t));
        Assert.InRange(t, 0.125, 0.25);
    }
}
