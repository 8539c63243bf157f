using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>The parts that set the length of a step, against their definitions.</summary>
public sealed class StepLengthTests
{
    [Fact]
    public void The_error_norm_weighs_by_the_larger_end()
    {
        // Hairer, Nørsett, Wanner I, II.4.10 and II.4.11 (from memory): w = Atol + Rtol max(|y0|, |y1|), √(mean (v/w)²).
        // w = 1 + 0.1·10 = 2 whichever end is the larger; 1/2 and 3/2 have the mean square 1.25.
        Assert.Equal(0.5, ErrorNorm.Rms([1], [0], [-10], [1], 0.1), 1e-15);
        Assert.Equal(0.5, ErrorNorm.Rms([1], [-10], [0], [1], 0.1), 1e-15);
        Assert.Equal(Math.Sqrt(1.25), ErrorNorm.Rms([1, 3], [10, 0], [0, 10], [1, 1], 0.1), 1e-15);
    }

    [Fact]
    public void A_straight_solution_of_a_system_that_depends_on_time_is_seen_as_straight()
    {
        // y′ = t − y with y(0) = −1 is y = t − 1: y″ = ∂f/∂t + ∂f/∂y f = 1 − 1 = 0, so nothing but the interval limits the step.
        var w = new Rodas5PWorkspace(1);
        w.Y0[0] = -1;
        w.F0[0] = 1;
        w.Jacobian[0] = -1;
        w.TimeDerivative[0] = 1;
        Assert.Equal(0.5, InitialStep.Estimate(w, [1e-10], 1e-8, 0.5));
    }
}
