namespace FlowSim.Numerics.Ode;

/// <summary>Coefficients of the Rosenbrock method Rodas5P, as numbers and nothing else.</summary>
/// <remarks>
/// <para>
/// Eight stages, order 5 with an embedded order 4, L-stable and stiffly accurate, with a continuous extension of order 4.
/// </para>
/// <para>
/// <b>Source</b>: G. Steinebach, "Construction of Rosenbrock–Wanner method Rodas5P and numerical benchmarks within the
/// Julia Differential Equations package", BIT Numerical Mathematics 63:27 (2023). The numbers were read in the source of
/// OrdinaryDiffEq.jl (<c>lib/OrdinaryDiffEqRosenbrock/src/rosenbrock_tableaus.jl</c>, function <c>Rodas5PTableau</c>,
/// commit 0054db2), where they stand in the form that needs no product with the Jacobian: with
/// <c>W = I/(γh) − ∂f/∂y</c>, stage i solves
/// <c>W·uᵢ = f(t + cᵢh, y + Σⱼ aᵢⱼuⱼ) + h·dᵢ·∂f/∂t + Σⱼ (Cᵢⱼ/h)·uⱼ</c>.
/// </para>
/// <para>
/// Arrays, not spans over constants: unoptimized code allocates at every look at the latter.
/// </para>
/// <para><b>Checked by</b>: <c>Ode/Rodas5PTableauTests.cs</c> (order conditions, stability at infinity, extension).</para>
/// </remarks>
internal static class Rodas5PTableau
{
    internal const int Stages = 8;

    /// <summary>Order of the solution that is kept.</summary>
    internal const int Order = 5;

    /// <summary>Order of the embedded solution; the error estimate behaves like h to this power plus one.</summary>
    internal const int EmbeddedOrder = 4;

    /// <summary>Number of coefficient vectors of the continuous extension besides both ends.</summary>
    internal const int ExtensionTerms = 3;

    internal const double Gamma = 0.21193756319429014;

    /// <summary>Stage weights aᵢⱼ, row-major. The rows of stages 7 and 8 repeat that of stage 6 and add the later stages with weight 1; so does the solution.</summary>
    internal static readonly double[] A =
    [
        0, 0, 0, 0, 0, 0, 0, 0,
        3.0, 0, 0, 0, 0, 0, 0, 0,
        2.849394379747939, 0.45842242204463923, 0, 0, 0, 0, 0, 0,
        -6.954028509809101, 2.489845061869568, -10.358996098473584, 0, 0, 0, 0, 0,
        2.8029986275628964, 0.5072464736228206, -0.3988312541770524, -0.04721187230404641, 0, 0, 0, 0,
        -7.502846399306121, 2.561846144803919, -11.627539656261098, -0.18268767659942256, 0.030198172008377946, 0, 0, 0,
        -7.502846399306121, 2.561846144803919, -11.627539656261098, -0.18268767659942256, 0.030198172008377946, 1, 0, 0,
        -7.502846399306121, 2.561846144803919, -11.627539656261098, -0.18268767659942256, 0.030198172008377946, 1, 1, 0,
    ];

    /// <summary>Weights Cᵢⱼ of the earlier stages on the right-hand side, row-major.</summary>
    internal static readonly double[] C =
    [
        0, 0, 0, 0, 0, 0, 0, 0,
        -14.155112264123755, 0, 0, 0, 0, 0, 0, 0,
        -17.97296035885952, -2.859693295451294, 0, 0, 0, 0, 0, 0,
        147.12150275711716, -1.41221402718213, 71.68940251302358, 0, 0, 0, 0, 0,
        165.43517024871676, -0.4592823456491126, 42.90938336958603, -5.961986721573306, 0, 0, 0, 0,
        24.854864614690072, -3.0009227002832186, 47.4931110020768, 5.5814197821558125, -0.6610691825249471, 0, 0, 0,
        30.91273214028599, -3.1208243349937974, 77.79954646070892, 34.28646028294783, -19.097331116725623, -28.087943162872662, 0, 0,
        37.80277123390563, -3.2571969029072276, 112.26918849496327, 66.9347231244047, -40.06618937091002, -54.66780262877968, -9.48861652309627, 0,
    ];

    /// <summary>Stage times cᵢ as fractions of the step.</summary>
    internal static readonly double[] StageTime =
        [0, 0.6358126895828704, 0.4095798393397535, 0.9769306725060716, 0.4288403609558664, 1, 1, 1];

    /// <summary>Weights dᵢ of ∂f/∂t.</summary>
    internal static readonly double[] TimeDerivativeWeight =
        [0.21193756319429014, -0.42387512638858027, -0.3384627126235924, 1.8046452872882734, 2.325825639765069, 0, 0, 0];

    /// <summary>Weights of the stages in the three coefficient vectors of the continuous extension, row-major.</summary>
    internal static readonly double[] Extension =
    [
        25.948786856663858, -2.5579724845846235, 10.433815404888879, -2.3679251022685204, 0.524948541321073, 1.1241088310450404, 0.4272876194431874, -0.17202221070155493,
        -9.91568850695171, -0.9689944594115154, 3.0438037242978453, -24.495224566215796, 20.176138334709044, 15.98066361424651, -6.789040303419874, -6.710236069923372,
        11.419903575922262, 2.8879645146136994, 72.92137995996029, 80.12511834622643, -52.072871366152654, -59.78993625266729, -0.15582684282751913, 4.883087185713722,
    ];
}
