using FsCheck;
using FsCheck.Fluent;

namespace FlowSim.Tests;

/// <summary>A number spread evenly over [0, 1], both ends possible.</summary>
public readonly record struct Share(double Value)
{
    /// <summary>The number between two limits that lies at this share of the way.</summary>
    public double Between(double low, double high) => low + (high - low) * Value;

    /// <summary>As <see cref="Between"/> on a logarithmic scale.</summary>
    public double LogBetween(double low, double high) => low * Math.Pow(high / low, Value);
}

/// <summary>Teaches FsCheck about <see cref="Share"/>.</summary>
public static class Generators
{
    private const int Steps = 1 << 30;

    public static Arbitrary<Share> Shares() => Gen.Choose(0, Steps).Select(n => new Share((double)n / Steps)).ToArbitrary();
}
