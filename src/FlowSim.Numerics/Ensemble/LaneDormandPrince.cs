namespace FlowSim.Numerics.Ensemble;

/// <summary>One step of the explicit Runge–Kutta method of Dormand and Prince in every lane: order 5 with an embedded order 4 and a continuous extension of order 4.</summary>
/// <remarks>
/// <b>Source</b>: Dormand and Prince 1980, J. Comput. Appl. Math. 6:19; extension as in Hairer, Nørsett and Wanner, Solving Ordinary Differential
/// Equations I, section II.6 (both from memory). <b>Checked by</b>: <c>Ensemble/DormandPrinceTests.cs</c> (order conditions, order measured).
/// </remarks>
internal static class LaneDormandPrince
{
    /// <summary>Stages, the last at the end of the step: the first of the next.</summary>
    internal const int Stages = 7;

    internal static readonly double[] StageTime = [0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1];

    /// <summary>Weights of the earlier stages, row by row; the last row is the solution.</summary>
    internal static readonly double[] A =
    [
        0, 0, 0, 0, 0, 0,
        1.0 / 5, 0, 0, 0, 0, 0,
        3.0 / 40, 9.0 / 40, 0, 0, 0, 0,
        44.0 / 45, -56.0 / 15, 32.0 / 9, 0, 0, 0,
        19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729, 0, 0,
        9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656, 0,
        35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84,
    ];

    /// <summary>Weights of the stages in the difference of both solutions.</summary>
    internal static readonly double[] ErrorWeights = [71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40];

    /// <summary>Weights of the stages in the highest term of the extension.</summary>
    internal static readonly double[] ExtensionWeights =
    [
        -12715105075.0 / 11282082432, 0, 87487479700.0 / 32700410799, -10690763975.0 / 1880347072, 701980252875.0 / 199316789632, -1453857185.0 / 822651844, 69997945.0 / 29380423,
    ];

    /// <summary>Computes the stages but the last, and the end of the step.</summary>
    public static void Step<TSystem, TLanes>(
        TSystem system, int n, TLanes t, TLanes h, ReadOnlySpan<TLanes> y0, Span<TLanes> y1, ReadOnlySpan<TLanes> f0, Span<TLanes> stages)
        where TSystem : ILaneSystem<TLanes>
        where TLanes : struct, ILanes<TLanes>
    {
        f0.CopyTo(stages);
        for (int stage = 1; stage < Stages; stage++)
        {
            ReadOnlySpan<double> weights = A.AsSpan(stage * (Stages - 1), stage);
            for (int i = 0; i < n; i++)
            {
                TLanes sum = TLanes.Of(weights[0]) * stages[i];
                for (int j = 1; j < weights.Length; j++)
                    sum = TLanes.MultiplyAdd(TLanes.Of(weights[j]), stages[(j * n) + i], sum);
                y1[i] = TLanes.MultiplyAdd(h, sum, y0[i]);
            }

            if (stage < Stages - 1)
                system.Derivative(TLanes.MultiplyAdd(TLanes.Of(StageTime[stage]), h, t), y1, stages.Slice(stage * n, n));
        }
    }

    /// <summary>Error estimate, from the stages and the rates at the end.</summary>
    public static void Error<TLanes>(int n, TLanes h, ReadOnlySpan<TLanes> stages, ReadOnlySpan<TLanes> f1, Span<TLanes> error)
        where TLanes : struct, ILanes<TLanes>
    {
        for (int i = 0; i < n; i++)
            error[i] = h * Weighted(ErrorWeights, n, i, stages, f1);
    }

    /// <summary>Coefficients of the continuous extension in the form of <see cref="LaneStep{TLanes}"/>.</summary>
    public static void Extension<TLanes>(
        int n, TLanes h, ReadOnlySpan<TLanes> y0, ReadOnlySpan<TLanes> y1, ReadOnlySpan<TLanes> f1, ReadOnlySpan<TLanes> stages, Span<TLanes> extension)
        where TLanes : struct, ILanes<TLanes>
    {
        for (int i = 0; i < n; i++)
        {
            TLanes rise = y1[i] - y0[i];
            TLanes first = (h * stages[i]) - rise;
            TLanes second = rise - (h * f1[i]) - first;
            TLanes third = h * Weighted(ExtensionWeights, n, i, stages, f1);
            (extension[i], extension[n + i], extension[(2 * n) + i]) = (first, second + third, -third);
        }
    }

    private static TLanes Weighted<TLanes>(double[] weights, int n, int component, ReadOnlySpan<TLanes> stages, ReadOnlySpan<TLanes> f1)
        where TLanes : struct, ILanes<TLanes>
    {
        TLanes sum = TLanes.Of(weights[Stages - 1]) * f1[component];
        for (int j = 0; j < Stages - 1; j++)
        {
            if (weights[j] != 0)
                sum = TLanes.MultiplyAdd(TLanes.Of(weights[j]), stages[(j * n) + component], sum);
        }

        return sum;
    }
}
