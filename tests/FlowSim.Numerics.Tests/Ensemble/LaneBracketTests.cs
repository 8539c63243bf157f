using FlowSim.Numerics.Ensemble;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>Brackets against zeros known in closed form.</summary>
public class LaneBracketTests
{
    /// <summary>Functions that rise through zero between 0 and 1, and where: smooth, with a triple zero, with corners, and hardly bent or much.</summary>
    private static readonly (Func<double, double> Of, double Zero)[] Functions =
    [
        (x => x - 0.25, 0.25),
        (x => Math.Exp(x) - 1.5, Math.Log(1.5)),
        (x => (x * x * x) - 0.1, Math.Cbrt(0.1)),
        (x => Math.Pow(x - 0.4, 3), 0.4),
        (x => Math.Max(x - 0.7, 50 * (x - 0.9)), 0.7),
        (x => Math.Min(x - 0.3, 1e-3 * (x - 0.3)), 0.3),
        (x => Math.Sqrt(x) - 1e-3, 1e-6),
        (x => Math.Pow(x, 20) - 0.5, Math.Pow(0.5, 1.0 / 20)),
    ];

    [Fact]
    public void Eight_zeros_are_closed_in_on_side_by_side()
    {
        (double[] past, int[] evaluations) = Close();
        for (int i = 0; i < Functions.Length; i++)
        {
            Assert.True(Functions[i].Of(past[i]) >= 0, $"{i} ended before the zero, at {past[i]:G17}");

            // 1e-10 of the rise; the cube root of it at a triple zero.
            Assert.InRange(past[i], Functions[i].Zero - 1e-15, Functions[i].Zero + (i == 3 ? 5e-4 : 2e-7));
            Assert.InRange(evaluations[i], 1, 40);
        }
    }

    [Fact]
    public void A_straight_line_takes_one_evaluation_and_a_smooth_function_six_at_most()
    {
        (_, int[] evaluations) = Close();
        Assert.Equal(1, evaluations[0]);
        Assert.InRange(evaluations[1], 2, 6);
    }

    /// <summary>A secant goes where a straight line has the value aimed at; where that is not inside the bracket, the middle is taken.</summary>
    [Theory]
    [InlineData(0.25, 0.5)]
    [InlineData(0.5, 0.75)]
    [InlineData(-0.125, 0.125)]
    [InlineData(0.75, 0.5)]
    [InlineData(1.5, 0.5)]
    [InlineData(-0.25, 0.5)]
    [InlineData(-1, 0.5)]
    public void Secants(double aim, double place) => Assert.Equal(place, First(new LaneBracket<Lanes2>(Of(0), Of(-0.25), Of(1), Of(0.75)).Between(Of(aim), bisect: false)));

    [Fact]
    public void The_middle_where_it_is_asked_for() =>
        Assert.Equal(0.625, First(new LaneBracket<Lanes2>(Of(0.25), Of(-1), Of(1), Of(7)).Between(Of(0), bisect: true)));

    /// <summary>Where the place is a quadratic of the value, three values suffice: the next place is exact, whichever end the last one took.</summary>
    [Theory]
    [InlineData(0.4, 0.05)]
    [InlineData(0.2, 0.05)]
    [InlineData(0.4, -0.1)]
    [InlineData(0.2, -0.1)]
    [InlineData(0.31, 0)]
    public void Inverse_quadratics(double c, double aim)
    {
        // x = 0.3 + 0.5 f + 0.1 f².
        static double Function(double x) => (-0.5 + Math.Sqrt(0.25 - (0.4 * (0.3 - x)))) / 0.2;
        var bracket = new LaneBracket<Lanes2>(Of(0), Of(Function(0)), Of(1), Of(Function(1)));
        bracket.Narrow(Of(c), Of(Function(c)), Lanes2.Mask(3));
        Assert.Equal(0.3 + (0.5 * aim) + (0.1 * aim * aim), First(bracket.Between(Of(aim), bisect: false)), 1e-14);
    }

    /// <summary>
    /// With ξ the place and Φ the value of the newest between the other two, a quadratic is sure to be monotone for Φ² below ξ and (1 − Φ)² below 1 − ξ. Here one of both
    /// fails, or is met just not: the middle is taken.
    /// </summary>
    [Theory]
    [InlineData(0.5, 0.8)]
    [InlineData(0.5, 0.25)]
    [InlineData(0.25, 0.5)]
    [InlineData(0.75, 0.5)]
    public void The_middle_where_the_quadratic_may_turn(double c, double share)
    {
        const double Before = -0.5, Past = 3.5;
        var bracket = new LaneBracket<Lanes2>(Of(0), Of(Before), Of(1), Of(Past));
        bracket.Narrow(Of(c), Of(Before + (share * (Past - Before))), Lanes2.Mask(3));
        Assert.Equal(c / 2, First(bracket.Between(Of(0.1), bisect: false)));
    }

    /// <summary>Zero is past the crossing; the other end stays. A lane that does not take part keeps its bracket.</summary>
    [Fact]
    public void A_value_of_zero_is_past()
    {
        var bracket = new LaneBracket<Lanes2>(Of(0), Of(-1), Of(1), Of(1));
        bracket.Narrow(Of(0.25), Of(0), Lanes2.Mask(1));
        Lanes2 past = bracket.Past;
        Assert.Equal((0.25, 1), (Lane.At(ref past, 0), Lane.At(ref past, 1)));
        Assert.Equal(3u, Lanes2.Bits(bracket.IsWiderThan(Of(-1), Of(0.2))));
    }

    /// <summary>Done is a bracket whose end is as near to zero, or which is as narrow, as is asked for.</summary>
    [Theory]
    [InlineData(0.5, 0.1, false)]
    [InlineData(0.499, 0.1, true)]
    [InlineData(0.1, 0.25, false)]
    [InlineData(0.1, 0.249, true)]
    [InlineData(0.1, 1, false)]
    public void When_a_bracket_is_done(double near, double narrow, bool isOpen) =>
        Assert.Equal(isOpen ? 3u : 0, Lanes2.Bits(new LaneBracket<Lanes2>(Of(0.75), Of(-1), Of(1), Of(0.5)).IsWiderThan(Of(near), Of(narrow))));

    private static Lanes2 Of(double value) => Lanes2.Of(value);

    private static double First(Lanes2 value) => Lane.At(ref value, 0);

    private static (double[] Past, int[] Evaluations) Close()
    {
        Lanes8 before = Lanes8.Of(0), past = Lanes8.Of(1), fBefore = default, fPast = default;
        for (int i = 0; i < 8; i++)
        {
            Lane.At(ref fBefore, i) = Functions[i].Of(0);
            Lane.At(ref fPast, i) = Functions[i].Of(1);
        }

        var bracket = new LaneBracket<Lanes8>(before, fBefore, past, fPast);
        Lanes8 near = Lanes8.Of(1e-10) * (fPast - fBefore);
        Lanes8 open = Lanes8.Mask(0xFF);
        int[] evaluations = new int[8];
        for (int round = 0; round < 60; round++)
        {
            open &= bracket.IsWiderThan(near, Lanes8.Of(1e-15));
            if (Lanes8.Bits(open) == 0)
                break;
            Lanes8 c = bracket.Between(near * Lanes8.Of(0.5), bisect: round % 6 == 5), fc = default;
            for (int i = 0; i < 8; i++)
            {
                Lane.At(ref fc, i) = Functions[i].Of(Lane.At(ref c, i));
                evaluations[i] += (int)(Lanes8.Bits(open) >> i & 1);
            }

            bracket.Narrow(c, fc, open);
        }

        Lanes8 end = bracket.Past;
        return ([.. Enumerable.Range(0, 8).Select(i => Lane.At(ref end, i))], evaluations);
    }
}
