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
