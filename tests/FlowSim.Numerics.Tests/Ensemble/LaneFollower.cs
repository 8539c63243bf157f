using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>
/// Follows a lane try by try with the parts of the integrator of single runs: from where the lane is, the plain first step, the plain step, error, extension
/// and controller, and the same rules at a stop. Since it takes the lane's own state again after each try, it sees differences of rounding, not what they grow to.
/// </summary>
internal static class LaneFollower
{
    /// <summary>Rounding of an error estimate and of what is made of it.</summary>
    private const double Rounding = 1e-6;

    internal static void Follow(string run, RunScript script, RunLog log, double tolerance, LaneMethod method)
    {
        int n = script.Start.Length;
        var system = new SingleRun(script);
        var w = new Rodas5PWorkspace(n);
        double[] absolute = [.. Enumerable.Range(0, n).Select(i => tolerance * ScriptedLanes<Lanes2>.AbsoluteShare * (script.Scales?[i] ?? 1))];
        double[] events = new double[script.EventCount];
        var controller = default(StepSizeController);
        double t = 0;
        script.Start.CopyTo(w.Y0, 0);
        double[] candidates = [];
        bool anew = true, justRejected = false;
        for (int i = 0; i < log.Tries.Count; i++)
        {
            string what = $"{run}, try {i} of {log.Tries.Count} at {t:R}";
            LaneTry tried = log.Tries[i];
            system.Derivative(t, w.Y0, w.F0);
            system.Jacobian(t, w.Y0, w.F0, w.Jacobian, w.TimeDerivative, []);

            // Explicit steps have no matrix at hand and take the bend at the start from a step ahead.
            double rounding = anew && method == LaneMethod.DormandPrince ? 0.02 : Rounding;
            if (anew)
            {
                controller.Restart();
                candidates = [InitialStep.Estimate(w, absolute, tolerance, script.End - t)];
                justRejected = false;
            }

            double limit = Math.Min(script.End, script.NextStop(t)), h = tried.End - t;
            double due = candidates.MinBy(candidate => Math.Abs(EndOfStep(t, candidate, limit) - tried.End));
            AssertNear($"{what}: end", EndOfStep(t, due, limit), tried.End, rounding * (h + (1e-9 * t)));
            bool isCut = Math.Abs(h - due) > rounding * h;
            if (!isCut)
                due = h;

            double error = Step(system, t, h, w, method) ? ErrorNorm.Rms(w.Error, w.Y0, w.Y1, absolute, tolerance) : double.NaN;
            script.Events(tried.End, w.Y1, events);
            bool isFinite = Rodas5PStep.IsFinite(w.F1) && Rodas5PStep.IsFinite(events);
            Assert.True(Math.Abs(error - 1) < Rounding || tried.Accepted == (error <= 1 && isFinite), $"{what}: error {error}, taken: {tried.Accepted}");
            if (!tried.Accepted)
            {
                candidates = [error > 1 && double.IsFinite(error) ? controller.AfterRejected(h, error) : controller.AfterNotFinite(h)];
                (anew, justRejected) = (false, true);
                continue;
            }

            AssertAllNear($"{what}: state", w.Y1, tried.Y1);
            Extend(w, h, method);
            Assert.InRange(tried.Part, 0, 1);
            var step = DenseStep.Whole(t, h, tried.End, w);
            double[] expected = new double[n];
            step.Evaluate(Math.Min(t + (tried.Part * h), tried.End), expected);
            AssertAllNear($"{what}: at {tried.Part}", expected, tried.AtPart);
            step.Evaluate(t + (0.37 * tried.Part * h), expected);
            AssertAllNear($"{what}: at 0.37 of {tried.Part}", expected, tried.Within);

            double next = controller.AfterAccepted(h, error);
            if (justRejected)
                candidates = [next];
            else
                candidates = [isCut && h < due ? Math.Max(next, due) : next];
            (anew, justRejected, t) = (tried.Anew, false, tried.Time);
            tried.Next.CopyTo(w.Y0, 0);
        }

        void AssertAllNear(string what, double[] expected, double[] actual)
        {
            for (int i = 0; i < n; i++)
                AssertNear($"{what}, unknown {i}", expected[i], actual[i], 1e-10 * Math.Max(Math.Abs(expected[i]), script.Scales?[i] ?? 1));
        }
    }

    private static void AssertNear(string what, double expected, double actual, double bound) =>
        Assert.True(Math.Abs(actual - expected) <= bound, $"{what}: {actual:R} in the lane, {expected:R} by itself");

    /// <summary>A stop that is nearer than 1.1 steps is reached at once, one nearer than 2 in two even steps.</summary>
    private static double EndOfStep(double t, double due, double limit)
    {
        double remaining = limit - t;
        return remaining <= 1.1 * due ? limit : t + (remaining < 2 * due ? remaining / 2 : due);
    }

    private static bool Step(SingleRun system, double t, double h, Rodas5PWorkspace w, LaneMethod method)
    {
        int evaluations = 0;
        bool isComputed = method == LaneMethod.Rodas5P ? Rodas5PStep.TryStep(ref system, t, h, w, ref evaluations) : ExplicitStep(system, t, h, w);
        if (isComputed)
            system.Derivative(t + h, w.Y1, w.F1);
        return isComputed;
    }

    /// <summary>Stages as slopes, and the error estimate where the linearly implicit method has it.</summary>
    private static bool ExplicitStep(SingleRun system, double t, double h, Rodas5PWorkspace w)
    {
        const int Stages = LaneDormandPrince.Stages;
        int n = w.Dimension;
        double[][] slopes = new double[Stages][];
        double[] y = [.. w.Y0];
        for (int stage = 0; stage < Stages; stage++)
        {
            for (int i = 0; i < n; i++)
                y[i] = w.Y0[i] + (h * Enumerable.Range(0, stage).Sum(j => LaneDormandPrince.A[(stage * (Stages - 1)) + j] * slopes[j][i]));
            slopes[stage] = new double[n];
            system.Derivative(t + (LaneDormandPrince.StageTime[stage] * h), y, slopes[stage]);
        }

        y.CopyTo(w.Y1, 0);
        for (int i = 0; i < n; i++)
        {
            for (int stage = 0; stage < Stages; stage++)
                w.Stages[(stage * n) + i] = slopes[stage][i];
            w.Extension[(2 * n) + i] = -h * Enumerable.Range(0, Stages).Sum(j => LaneDormandPrince.ExtensionWeights[j] * slopes[j][i]);
            w.Stages[((Rodas5PTableau.Stages - 1) * n) + i] = h * Enumerable.Range(0, Stages).Sum(j => LaneDormandPrince.ErrorWeights[j] * slopes[j][i]);
        }

        return true;
    }

    private static void Extend(Rodas5PWorkspace w, double h, LaneMethod method)
    {
        if (method == LaneMethod.Rodas5P)
        {
            Rodas5PStep.ComputeExtension(w);
            return;
        }

        // θ-form of DormandPrinceTests, in powers of θ within: first + θ (second + third) − θ² third.
        int n = w.Dimension;
        for (int i = 0; i < n; i++)
        {
            double rise = w.Y1[i] - w.Y0[i], first = (h * w.F0[i]) - rise, second = rise - (h * w.F1[i]) - first;
            (w.Extension[i], w.Extension[n + i]) = (first, second - w.Extension[(2 * n) + i]);
        }
    }
}
