using MathNet.Numerics;
using MathNet.Numerics.RootFinding;

namespace FlowSim.Heating;

/// <summary>
/// Exact series of transient conduction in a body that starts at one temperature and exchanges heat with a medium at
/// another: the gap left, (T − T∞)/(T₀ − T∞). For checks and quick answers, not for stepping loops.
/// </summary>
/// <remarks>
/// Dimensionless: half-thickness or radius is 1, Biot number h L/λ, Fourier number a t/L². Each root is bracketed between
/// neighbouring poles, where it is alone, and found with MathNet's Brent.
/// </remarks>
internal static class TransientConduction
{
    /// <summary>Biot number; infinite is a surface held at the medium's temperature.</summary>
    internal static readonly ValidityRange BiotRange = new("transient conduction series", "Bi", "", 1e-3, double.PositiveInfinity);

    /// <summary>Fourier number. Below it the series needs thousands of terms; 0 is answered too.</summary>
    internal static readonly ValidityRange FourierRange = new("transient conduction series", "Fo", "", 1e-6, double.PositiveInfinity);

    /// <summary>Terms are dropped once e^(−ζ² Fo) is below this; they fall faster than geometrically.</summary>
    private const double Tail = 1e-16;

    /// <summary>Before this Fourier number the centre has not noticed: what has arrived is below erfc(15) = 1e-99.</summary>
    private const double FourierUntilCentreNotices = 1e-3;

    private const double RootAccuracy = 1e-14;
    private const int RootIterations = 200;

    /// <summary>First root ζ₁ and coefficient A₁ at the centre: enough from Fo = 0.2 on.</summary>
    /// <param name="shape">Shape.</param>
    /// <param name="biot">Biot number.</param>
    internal static (double Zeta1, double A1) OneTerm(ConductionShape shape, double biot)
    {
        double zeta = Root(shape, biot, 1);
        return (zeta, Coefficient(shape, biot, zeta));
    }

    /// <summary>Gap left at a place.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: θ = Σ C_n e^(−ζ_n² Fo) φ(ζ_n x). Wall: ζ tan ζ = Bi, φ = cos; cylinder: ζ J₁(ζ)/J₀(ζ) = Bi,
    /// φ = J₀; sphere: 1 − ζ cot ζ = Bi, φ = sin(ζx)/(ζx). C_n: 4 sin ζ/(2ζ + sin 2ζ); 2 J₁/(ζ (J₀² + J₁²));
    /// 4 (sin ζ − ζ cos ζ)/(2ζ − sin 2ζ).</para>
    /// <para><b>Range</b>: <see cref="BiotRange"/>, <see cref="FourierRange"/>.</para>
    /// <para><b>Error</b>: 1e-10.</para>
    /// <para><b>Source</b>: Carslaw and Jaeger 1959, Conduction of Heat in Solids, as in any text on heat transfer (from memory).</para>
    /// <para><b>Checked by</b>: TransientConductionTests.cs.</para>
    /// </remarks>
    /// <param name="shape">Shape.</param>
    /// <param name="biot">Biot number.</param>
    /// <param name="position">Place, 0 the centre, 1 the surface.</param>
    /// <param name="fourier">Fourier number; 0 gives 1.</param>
    internal static double GapLeft(ConductionShape shape, double biot, double position, double fourier) =>
        position == 0 && fourier < FourierUntilCentreNotices ? 1 : Sum(shape, biot, fourier, position, mean: false);

    /// <summary>Gap left on the average over the body's volume.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: as <see cref="GapLeft"/>, φ replaced by its mean: wall sin ζ/ζ; cylinder 2 J₁(ζ)/ζ; sphere
    /// 3 (sin ζ − ζ cos ζ)/ζ³.</para>
    /// <para><b>Range</b>: <see cref="BiotRange"/>, <see cref="FourierRange"/>.</para>
    /// <para><b>Error</b>: 1e-10.</para>
    /// <para><b>Source</b>: Carslaw and Jaeger 1959, Conduction of Heat in Solids (from memory).</para>
    /// <para><b>Checked by</b>: TransientConductionTests.cs.</para>
    /// </remarks>
    /// <param name="shape">Shape.</param>
    /// <param name="biot">Biot number.</param>
    /// <param name="fourier">Fourier number; 0 gives 1.</param>
    internal static double MeanGapLeft(ConductionShape shape, double biot, double fourier) =>
        Sum(shape, biot, fourier, 0, mean: true);

    /// <summary>The n-th root ζ_n of a shape's equation, n from 1.</summary>
    internal static double Root(ConductionShape shape, double biot, int n)
    {
        double below = (n - 1) * Math.PI;
        bool held = double.IsPositiveInfinity(biot);
        switch (shape)
        {
            case ConductionShape.PlaneWall:
                return held
                    ? below + Math.PI / 2
                    : Brent.FindRoot(z => z * Math.Sin(z) - biot * Math.Cos(z), below, below + Math.PI / 2, RootAccuracy, RootIterations);
            case ConductionShape.InfiniteCylinder:
                // The n-th zero of J0 lies between (n − 1/4)π and (n − 1/8)π, the (n − 1)-th of J1 above (n − 1)π (Watson 1922).
                double above = below + 7 * Math.PI / 8;
                return held
                    ? Brent.FindRoot(J0, below + 3 * Math.PI / 4, above, RootAccuracy, RootIterations)
                    : Brent.FindRoot(z => z * J1(z) - biot * J0(z), below, above, RootAccuracy, RootIterations);
            default:
                // 0 solves the equation for n = 1 but is no root of the series.
                return held
                    ? n * Math.PI
                    : Brent.FindRoot(z => (1 - biot) * Math.Sin(z) - z * Math.Cos(z), n == 1 ? Math.Min(1, Math.Sqrt(biot)) : below, n * Math.PI, RootAccuracy, RootIterations);
        }
    }

    private static double Sum(ConductionShape shape, double biot, double fourier, double position, bool mean)
    {
        if (fourier == 0)
            return 1;

        double sum = 0;
        for (int n = 1; ; n++)
        {
            double zeta = Root(shape, biot, n);
            double decay = Math.Exp(-zeta * zeta * fourier);
            sum += Coefficient(shape, biot, zeta) * decay * (mean ? Mean(shape, zeta) : Profile(shape, zeta * position));
            if (decay < Tail)
                return sum;
        }
    }

    private static double Coefficient(ConductionShape shape, double biot, double zeta)
    {
        switch (shape)
        {
            case ConductionShape.PlaneWall:
                return 4 * Math.Sin(zeta) / (2 * zeta + Math.Sin(2 * zeta));
            case ConductionShape.InfiniteCylinder:
                double j1 = J1(zeta);
                double j0 = double.IsPositiveInfinity(biot) ? 0 : J0(zeta);
                return 2 * j1 / (zeta * (j0 * j0 + j1 * j1));
            default:
                return 4 * (Math.Sin(zeta) - zeta * Math.Cos(zeta)) / (2 * zeta - Math.Sin(2 * zeta));
        }
    }

    private static double Profile(ConductionShape shape, double x) => shape switch
    {
        ConductionShape.PlaneWall => Math.Cos(x),
        ConductionShape.InfiniteCylinder => J0(x),
        _ => x == 0 ? 1 : Math.Sin(x) / x,
    };

    private static double Mean(ConductionShape shape, double zeta) => shape switch
    {
        ConductionShape.PlaneWall => Math.Sin(zeta) / zeta,
        ConductionShape.InfiniteCylinder => 2 * J1(zeta) / zeta,
        _ => 3 * (Math.Sin(zeta) - zeta * Math.Cos(zeta)) / (zeta * zeta * zeta),
    };

    private static double J0(double x) => SpecialFunctions.BesselJ(0, x);

    private static double J1(double x) => SpecialFunctions.BesselJ(1, x);
}
