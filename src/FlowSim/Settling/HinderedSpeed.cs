namespace FlowSim.Settling;

/// <summary>Published equations for what speeds or slows a sphere against Stokes's law.</summary>
internal static class HinderedSpeed
{
    /// <summary>Volume share of the spheres. The experiments went further; beyond the outer end they touch.</summary>
    internal static readonly ValidityRange ShareRange = new("richardson-zaki-1954", "volume share", "", 0, 0.3, 0, 0.5);

    /// <summary>Viscosity of what is in the sphere over that around it.</summary>
    internal static readonly ValidityRange ViscosityRatioRange = new("hadamard-rybczynski-1911", "viscosity ratio", "", 0, double.PositiveInfinity);

    /// <summary>Where the exponent comes from.</summary>
    internal static readonly Source Source = new(
        "Richardson and Zaki 1954, Trans. Inst. Chem. Eng. 32:35, as one of the authors gives it in a commentary of 1979 (copy read): n about 4.65 where Stokes's law holds",
        Standing.SecondaryCopy);

    /// <summary>Exponent where Stokes's law holds.</summary>
    internal const double Exponent = 4.65;

    /// <summary>Speed of spheres among others over that of one alone.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: u/u₀ = (1 − c)ⁿ, n = 4.65 where Stokes's law holds.</para>
    /// <para><b>Range</b>: <see cref="ShareRange"/>; spheres of one size, all over the vessel.</para>
    /// <para><b>Error</b>: exponents found by others for slow flow: 4.5 to 5.1 (from memory), which at 5 % by volume is ± 2 % of the speed.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: RichardsonZaki1954Tests.cs.</para>
    /// </remarks>
    /// <param name="volumeShare">Volume share c of the spheres, 0 to 1.</param>
    /// <param name="exponent">Exponent n.</param>
    internal static double FactorRichardsonZaki1954(double volumeShare, double exponent = Exponent) => Math.Pow(1 - volumeShare, exponent);

    /// <summary>Speed of a drop or bubble with a clean surface over that of a rigid sphere.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: v/v_rigid = (1 + λ)/(2/3 + λ), λ = μ inside/μ outside: 1.5 for a bubble, 1 for a rigid sphere.</para>
    /// <para><b>Range</b>: <see cref="ViscosityRatioRange"/>; creeping flow, surface free of matter that gathers there.</para>
    /// <para><b>Error</b>: exact for a clean surface. Proteins and wax on the surface of honey's bubbles hold it still, and small
    /// bubbles rise as rigid spheres even in liquids that seem clean: runs take rigid spheres, the cautious side.</para>
    /// <para><b>Source</b>: Hadamard 1911 and Rybczynski 1911 (from memory); that small drops and bubbles move as rigid spheres, and that
    /// the speed lies between the two: abstracts of Ervik and Bjørklund 2017 (arXiv 1712.01567) and of Langmuir 25:8899, 2009 (read).</para>
    /// <para><b>Checked by</b>: HadamardRybczynski1911Tests.cs.</para>
    /// </remarks>
    /// <param name="viscosityRatio">λ, at least 0.</param>
    internal static double CleanSurfaceFactorHadamardRybczynski1911(double viscosityRatio) => (1 + viscosityRatio) / (2.0 / 3 + viscosityRatio);
}
