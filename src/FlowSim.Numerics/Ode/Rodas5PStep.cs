using System.Numerics;

namespace FlowSim.Numerics.Ode;

/// <summary>The arithmetic of one Rodas5P step: no policy, no decisions beyond "this cannot be computed".</summary>
internal static class Rodas5PStep
{
    /// <summary>
    /// Computes <see cref="Rodas5PWorkspace.Y1"/> and <see cref="Rodas5PWorkspace.Error"/> for a step of length
    /// <paramref name="h"/> from (<paramref name="t"/>, Y0), given F0, Jacobian and TimeDerivative there.
    /// </summary>
    /// <returns>False when the matrix is singular or anything computed is not finite; then a shorter step is needed.</returns>
    internal static bool TryStep<TSystem>(ref TSystem system, double t, double h, Rodas5PWorkspace w, ref int evaluations)
        where TSystem : IOdeSystem
    {
        if (!TryFactorize(h, w))
            return false;

        int n = w.Dimension;
        ReadOnlySpan<double> y0 = w.Y0;
        Span<double> y = w.StageState;
        Span<double> f = w.StageDerivative;
        double inverseH = 1 / h;

        for (int stage = 0; stage < Rodas5PTableau.Stages; stage++)
        {
            // Stages are solved where they are kept, so the right-hand side is built there.
            Span<double> u = w.Stages.AsSpan(stage * n, n);
            if (stage == 0)
            {
                w.F0.CopyTo(u);
            }
            else
            {
                StageState(stage, y0, w.Stages, y);
                evaluations++;
                system.Derivative(t + Rodas5PTableau.StageTime[stage] * h, y, f);
                f.CopyTo(u);
                AddWeighted(Rodas5PTableau.C.AsSpan(stage * Rodas5PTableau.Stages, stage), inverseH, w.Stages, u);
            }

            double timeWeight = Rodas5PTableau.TimeDerivativeWeight[stage] * h;
            if (timeWeight != 0)
                AddScaled(timeWeight, w.TimeDerivative, u);

            LuFactorization.Solve(w.Factors, w.Pivots, u);

            // Checked here, so that the system never sees a state that is not finite.
            if (!IsFinite(u))
                return false;
        }

        // Stiffly accurate: the solution is the last stage's state plus the last stage.
        Sum(y, w.Error, w.Y1);
        return IsFinite(w.Y1);
    }

    /// <summary>Computes <see cref="Rodas5PWorkspace.Extension"/> from the stages of the step just made.</summary>
    internal static void ComputeExtension(Rodas5PWorkspace w)
    {
        int n = w.Dimension;
        Array.Clear(w.Extension);
        for (int term = 0; term < Rodas5PTableau.ExtensionTerms; term++)
        {
            AddWeighted(
                Rodas5PTableau.Extension.AsSpan(term * Rodas5PTableau.Stages, Rodas5PTableau.Stages),
                1,
                w.Stages,
                w.Extension.AsSpan(term * n, n));
        }
    }

    /// <summary>False when any element is infinite or NaN.</summary>
    internal static bool IsFinite(ReadOnlySpan<double> values)
    {
        // x·0 is 0 for finite x and NaN otherwise.
        double sum = 0;
        foreach (double value in values)
            sum += value * 0;
        return sum == 0;
    }

    private static bool TryFactorize(double h, Rodas5PWorkspace w)
    {
        int n = w.Dimension;
        double diagonal = 1 / (Rodas5PTableau.Gamma * h);
        ReadOnlySpan<double> jacobian = w.Jacobian;
        Span<double> matrix = w.Factors;
        for (int i = 0; i < matrix.Length; i++)
            matrix[i] = -jacobian[i];
        for (int i = 0; i < matrix.Length; i += n + 1)
            matrix[i] += diagonal;
        return LuFactorization.TryFactorize(matrix, w.Pivots);
    }

    private static void StageState(int stage, ReadOnlySpan<double> y0, ReadOnlySpan<double> stages, Span<double> y)
    {
        const int FirstThatAddsToItsPredecessor = 6;
        if (stage >= FirstThatAddsToItsPredecessor)
        {
            Sum(y, stages.Slice((stage - 1) * y.Length, y.Length), y);
            return;
        }

        y0.CopyTo(y);
        AddWeighted(Rodas5PTableau.A.AsSpan(stage * Rodas5PTableau.Stages, stage), 1, stages, y);
    }

    /// <summary>target += scale · Σⱼ weightsⱼ · (row j of rows).</summary>
    private static void AddWeighted(ReadOnlySpan<double> weights, double scale, ReadOnlySpan<double> rows, Span<double> target)
    {
        for (int j = 0; j < weights.Length; j++)
            AddScaled(scale * weights[j], rows.Slice(j * target.Length, target.Length), target);
    }

    private static void AddScaled(double factor, ReadOnlySpan<double> source, Span<double> target)
    {
        int i = 0;
        if (Vector.IsHardwareAccelerated)
        {
            var factors = new Vector<double>(factor);
            for (; i <= target.Length - Vector<double>.Count; i += Vector<double>.Count)
            {
                Span<double> part = target[i..];
                (new Vector<double>(part) + factors * new Vector<double>(source[i..])).CopyTo(part);
            }
        }

        for (; i < target.Length; i++)
            target[i] += factor * source[i];
    }

    private static void Sum(ReadOnlySpan<double> a, ReadOnlySpan<double> b, Span<double> target)
    {
        for (int i = 0; i < target.Length; i++)
            target[i] = a[i] + b[i];
    }
}
