namespace FlowSim.Numerics.Fitting;

/// <summary>
/// Levenberg–Marquardt descent within bounds: steps of the linear model, damped in units of the Jacobian's columns. A step that would cross a bound ends there,
/// and the parameters that are still free take the rest. Steps are bent along curved valleys, which takes a fifth of the iterations where it matters.
/// <para>MathNet's own LevenbergMarquardtMinimizer was tried on NIST's 54 fits: 5 of them it called converged at wrong answers (MGH10, Misra1c, Misra1d,
/// Lanczos1 twice), and it knows neither failed evaluations nor singular directions. Its orthogonal decompositions do the algebra here.</para>
/// <para>Source: J. J. Moré, The Levenberg–Marquardt algorithm: implementation and theory (1978); damping after K. Madsen, H. B. Nielsen and O. Tingleff,
/// Methods for non-linear least squares problems, 2nd ed. (2004), algorithm 3.16; bounds by projection, C. Kanzow, N. Yamashita and M. Fukushima, J. Comput. Appl.
/// Math. 172 (2004) 375; acceleration M. K. Transtrum and J. P. Sethna, arXiv:1201.5885 (2012); all from memory.</para>
/// </summary>
internal sealed class Descent(FitFunction function, FitJacobian jacobians)
{
    // Share of the gain promised that is enough to go there.
    private const double Enough = 1e-4;

    // Share of a column's length that the next iteration remembers. Scales that never fall, as Moré's, crawl along the valley of NIST's MGH10; without
    // memory BoxBOD is lost to a plateau. Anything from 0.3 to 0.8 does for all of NIST's problems.
    private const double Memory = 0.5;
    private const double StrongestDamping = 1e40;
    private const int MostIterations = 2000;
    private const int PatienceWithRounding = 6;

    private readonly double[] _scale = new double[function.Parameters];

    /// <summary>Goes down from a point until nothing more is gained.</summary>
    public FitPoint Run(FitPoint start, double damping)
    {
        FitPoint point = start;
        double growth = 2;
        int withinRounding = 0;
        Array.Clear(_scale);
        for (int iteration = 0; iteration < MostIterations && !function.Exhausted; iteration++)
        {
            if (jacobians.At(point, fine: false) is not { } raw) return point;
            (double[] jacobian, double[] residuals) = Weighing.ForSteps(function, point, raw);
            for (int j = 0; j < _scale.Length; j++)
            {
                _scale[j] = Math.Max(Memory * _scale[j], FitJacobian.Norm(jacobian, j, _scale.Length));
            }
            BoundedStep steps = new(function, point, jacobian, residuals, _scale);

            bool moved = false;
            while (!moved)
            {
                if (steps.At(damping, bent: true) is not var (x, gain)) return point;
                // Neither the model nor the cost itself can tell points so near apart.
                if (gain <= 1e-14 * point.Cost && ++withinRounding > PatienceWithRounding) return point;
                FitPoint? trial = gain > 0 ? function.Evaluate(x) : null;
                double ratio = trial is null ? -1 : (point.Cost - trial.Cost) / gain;
                if (ratio > Enough)
                {
                    point = trial!;
                    damping = Math.Max(1e-20, damping * Math.Max(1.0 / 3, 1 - Math.Pow(2 * Math.Min(ratio, 1) - 1, 3)));
                    growth = 2;
                    moved = true;
                }
                else
                {
                    damping *= growth;
                    growth *= 2;
                    if (damping > StrongestDamping || function.Exhausted) return point;
                }
            }
        }
        return point;
    }
}
