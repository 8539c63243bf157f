using FsCheck;
using FsCheck.Fluent;

namespace FlowSim.Tests.Properties;

/// <summary>A number from 0 to 1, ends included, to spread over a range.</summary>
public readonly record struct Fraction(double Value)
{
    public double Between(double low, double high) => low + Value * (high - low);

    public double Within(ValidityRange range) => Between(range.OuterLow, range.OuterHigh);
}

/// <summary>Generators for FsCheck.</summary>
public static class Fractions
{
    public static Arbitrary<Fraction> Fraction() =>
        Gen.Choose(0, 1_000_000).Select(i => new Fraction(i / 1e6)).ToArbitrary();
}
