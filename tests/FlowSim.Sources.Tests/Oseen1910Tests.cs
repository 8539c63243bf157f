using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>What inertia adds to the drag of a ball: one term, against the next.</summary>
[Publication("Oseen 1910", "Ark. Mat. Astr. Fys. 6(29), held against Proudman and Pearson 1957, J. Fluid Mech. 2:237", Standing.FromMemory)]
public class Oseen1910Tests
{
    /// <summary>1 + 3Re/16 + 9/160 Re² ln(Re/2), the Reynolds number with the diameter.</summary>
    [Theory]
    [InlineData(0.01, 0.0001)]
    [InlineData(0.1, 0.002)]
    [InlineData(0.5, 0.02)]
    public void The_next_term_is_within_the_stated_error(double reynolds, double relative)
    {
        double next = 1 + 3 * reynolds / 16 + 9.0 / 160 * reynolds * reynolds * Math.Log(reynolds / 2);
        Published.Agrees(next, SphereFall.DragFactorOseen1910(reynolds), Within.Absolute(relative, "the stated error"), $"factor of the drag at Re {reynolds}");
    }

    /// <summary>The viscosity that wall and inertia leave satisfies the balance it was solved from.</summary>
    [Theory]
    [InlineData(0.003, 0.05, 0.02)]
    [InlineData(0.001, 0.01, 0.001)]
    public void Solves_its_balance(double ball, double jar, double speed)
    {
        double mu = SphereFall.ViscosityPaS(ball, jar, 7800, 1410, speed);
        double reynolds = 1410 * speed * ball / mu;
        double stokes = SphereFall.WideVesselViscosityPaS(ball, 7800 - 1410, speed) * SphereFall.WallFactorFaxen1922(ball / jar);
        Assert.Equal(stokes, mu * SphereFall.DragFactorOseen1910(reynolds), 1e-12 * stokes);
    }
}
