using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Ensemble;

/// <summary>The arithmetic of one Rodas5P step in every lane: that of <see cref="Rodas5PStep"/>.</summary>
internal static class LaneRodas5P
{
    private const int Stages = Rodas5PTableau.Stages;

    /// <summary>Computes the end of the step; the last stage is the error estimate. What cannot be computed comes out as NaN.</summary>
    public static void Step<TSystem, TLanes>(
        TSystem system,
        int n,
        TLanes t,
        TLanes h,
        ReadOnlySpan<TLanes> y0,
        Span<TLanes> y1,
        ReadOnlySpan<TLanes> f0,
        ReadOnlySpan<TLanes> jacobian,
        ReadOnlySpan<TLanes> timeDerivative,
        Span<TLanes> factors,
        Span<TLanes> stages,
        Span<TLanes> state,
        Span<TLanes> rates)
        where TSystem : ILaneSystem<TLanes>
        where TLanes : struct, ILanes<TLanes>
    {
        Factorize(n, h, jacobian, factors);
        TLanes inverseH = TLanes.Of(1) / h;
        for (int stage = 0; stage < Stages; stage++)
        {
            Span<TLanes> u = stages.Slice(stage * n, n);
            if (stage == 0)
            {
                f0.CopyTo(u);
            }
            else
            {
                State(stage, n, y0, stages, state);
                system.Derivative(TLanes.MultiplyAdd(TLanes.Of(Rodas5PTableau.StageTime[stage]), h, t), state, rates);
                Combine(stage, n, inverseH, stages, rates, u);
            }

            if (Rodas5PTableau.TimeDerivativeWeight[stage] != 0)
            {
                TLanes weight = TLanes.Of(Rodas5PTableau.TimeDerivativeWeight[stage]) * h;
                for (int i = 0; i < n; i++)
                    u[i] = TLanes.MultiplyAdd(weight, timeDerivative[i], u[i]);
            }

            Solve(n, factors, u);
        }

        // Stiffly accurate: the solution is the last stage's state plus the last stage.
        for (int i = 0; i < n; i++)
            y1[i] = state[i] + stages[((Stages - 1) * n) + i];
    }

    /// <summary>Coefficients of the continuous extension.</summary>
    public static void Extension<TLanes>(int n, ReadOnlySpan<TLanes> stages, Span<TLanes> extension)
        where TLanes : struct, ILanes<TLanes>
    {
        double[] weights = Rodas5PTableau.Extension;
        for (int i = 0; i < n; i++)
        {
            TLanes first = TLanes.Of(0), second = first, third = first;
            for (int j = 0; j < Stages; j++)
            {
                TLanes stage = stages[(j * n) + i];
                first = TLanes.MultiplyAdd(TLanes.Of(weights[j]), stage, first);
                second = TLanes.MultiplyAdd(TLanes.Of(weights[Stages + j]), stage, second);
                third = TLanes.MultiplyAdd(TLanes.Of(weights[(2 * Stages) + j]), stage, third);
            }

            (extension[i], extension[n + i], extension[(2 * n) + i]) = (first, second, third);
        }
    }

    private static void State<TLanes>(int stage, int n, ReadOnlySpan<TLanes> y0, ReadOnlySpan<TLanes> stages, Span<TLanes> state)
        where TLanes : struct, ILanes<TLanes>
    {
        const int FirstThatAddsToItsPredecessor = 6;
        if (stage >= FirstThatAddsToItsPredecessor)
        {
            for (int i = 0; i < n; i++)
                state[i] += stages[((stage - 1) * n) + i];
            return;
        }

        ReadOnlySpan<double> weights = Rodas5PTableau.A.AsSpan(stage * Stages, stage);
        for (int i = 0; i < n; i++)
        {
            TLanes sum = y0[i];
            for (int j = 0; j < weights.Length; j++)
                sum = TLanes.MultiplyAdd(TLanes.Of(weights[j]), stages[(j * n) + i], sum);
            state[i] = sum;
        }
    }

    private static void Combine<TLanes>(int stage, int n, TLanes inverseH, ReadOnlySpan<TLanes> stages, ReadOnlySpan<TLanes> rates, Span<TLanes> u)
        where TLanes : struct, ILanes<TLanes>
    {
        ReadOnlySpan<double> weights = Rodas5PTableau.C.AsSpan(stage * Stages, stage);
        for (int i = 0; i < n; i++)
        {
            TLanes sum = TLanes.Of(0);
            for (int j = 0; j < weights.Length; j++)
                sum = TLanes.MultiplyAdd(TLanes.Of(weights[j]), stages[(j * n) + i], sum);
            u[i] = TLanes.MultiplyAdd(sum, inverseH, rates[i]);
        }
    }

    /// <summary>LU of I/(γh) − J without pivots; the diagonal holds its inverse.</summary>
    private static void Factorize<TLanes>(int n, TLanes h, ReadOnlySpan<TLanes> jacobian, Span<TLanes> factors)
        where TLanes : struct, ILanes<TLanes>
    {
        TLanes diagonal = TLanes.Of(1) / (TLanes.Of(Rodas5PTableau.Gamma) * h);
        for (int i = 0; i < n * n; i++)
            factors[i] = -jacobian[i];
        for (int i = 0; i < n; i++)
            factors[(i * n) + i] += diagonal;

        ref TLanes m = ref MemoryMarshal.GetReference(factors);
        for (int k = 0; k < n; k++)
        {
            TLanes inverse = TLanes.Of(1) / Unsafe.Add(ref m, (k * n) + k);
            Unsafe.Add(ref m, (k * n) + k) = inverse;
            for (int i = k + 1; i < n; i++)
            {
                TLanes factor = Unsafe.Add(ref m, (i * n) + k) * inverse;
                Unsafe.Add(ref m, (i * n) + k) = factor;
                TLanes minus = -factor;
                for (int j = k + 1; j < n; j++)
                    Unsafe.Add(ref m, (i * n) + j) = TLanes.MultiplyAdd(minus, Unsafe.Add(ref m, (k * n) + j), Unsafe.Add(ref m, (i * n) + j));
            }
        }
    }

    private static void Solve<TLanes>(int n, ReadOnlySpan<TLanes> factors, Span<TLanes> x)
        where TLanes : struct, ILanes<TLanes>
    {
        ref TLanes m = ref MemoryMarshal.GetReference(factors);
        ref TLanes v = ref MemoryMarshal.GetReference(x);

        // Column by column: what one column changes does not wait for each other.
        for (int j = 0; j < n - 1; j++)
        {
            TLanes known = -Unsafe.Add(ref v, j);
            for (int i = j + 1; i < n; i++)
                Unsafe.Add(ref v, i) = TLanes.MultiplyAdd(Unsafe.Add(ref m, (i * n) + j), known, Unsafe.Add(ref v, i));
        }

        for (int j = n - 1; j >= 0; j--)
        {
            TLanes known = Unsafe.Add(ref v, j) * Unsafe.Add(ref m, (j * n) + j);
            Unsafe.Add(ref v, j) = known;
            known = -known;
            for (int i = 0; i < j; i++)
                Unsafe.Add(ref v, i) = TLanes.MultiplyAdd(Unsafe.Add(ref m, (i * n) + j), known, Unsafe.Add(ref v, i));
        }
    }
}
