using FlowSim.Numerics.Events;

namespace FlowSim.Settling;

/// <summary>Rates of the progress of each kind: <c>y′ = g |Δρ| D50²/(18 μ h) · (1 − c)^4.65</c>, c what is left of all kinds.</summary>
internal readonly struct SettlingSystem(SettlingParameters parameters, SettlingCourse course) : IHybridSystem
{
    /// <summary>Half the difference of temperature over which the rate's change with it is taken, K: the error is its square over 10⁴.</summary>
    private const double HalfDifferenceK = 0.01;

    public int Dimension => parameters.Matter.Length;

    public int EventCount => 0;

    public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        double temperatureK = parameters.Course.AtK(t);
        double slowed = HinderedSpeed.FactorRichardsonZaki1954(ShareLeft(y));
        for (int k = 0; k < y.Length; k++)
            derivative[k] = FreeRate(k, temperatureK) * slowed;
    }

    public void Jacobian(
        double t,
        ReadOnlySpan<double> y,
        ReadOnlySpan<double> derivative,
        Span<double> jacobian,
        Span<double> timeDerivative,
        Span<double> scratch)
    {
        double temperatureK = parameters.Course.AtK(t);
        double slope = parameters.Course.SlopeKPerS(t);
        double share = ShareLeft(y);
        double slowed = HinderedSpeed.FactorRichardsonZaki1954(share);
        double slowedPerShare = -HinderedSpeed.Exponent * slowed / (1 - share);
        for (int k = 0; k < y.Length; k++)
        {
            double change = FreeRate(k, temperatureK + HalfDifferenceK) - FreeRate(k, temperatureK - HalfDifferenceK);
            timeDerivative[k] = change / (2 * HalfDifferenceK) * slope * slowed;
            for (int j = 0; j < y.Length; j++)
            {
                SuspendedMatter other = parameters.Matter[j];
                jacobian[k * y.Length + j] = FreeRate(k, temperatureK) * slowedPerShare * other.VolumeShare * SizeShares.LeftSlope(Math.Max(0, y[j]), other.SizeSpread);
            }
        }
    }

    public void EventValues(double t, ReadOnlySpan<double> y, Span<double> values)
    {
    }

    public EventDirection DirectionOf(int index) => EventDirection.Either;

    public EventResponse OnEvent(int index, double t, Span<double> y) => EventResponse.Continue;

    public double NextStop(double t) => parameters.Course.NextBendS(t);

    public EventResponse OnStop(double t, Span<double> y) => EventResponse.Restart;

    public void OnStep(in DenseStep step) => course.Add(step);

    /// <summary>Volume share of all that is left, mean over the layer.</summary>
    private double ShareLeft(ReadOnlySpan<double> y)
    {
        double share = 0;
        for (int k = 0; k < y.Length; k++)
            share += parameters.Matter[k].VolumeShare * SizeShares.Left(Math.Max(0, y[k]), parameters.Matter[k].SizeSpread);
        return share;
    }

    private double FreeRate(int kind, double temperatureK)
    {
        double medianM = parameters.Matter[kind].MedianM;
        return parameters.SpeedPerSizeSquared(kind, temperatureK) * medianM * medianM / parameters.DepthM;
    }
}
