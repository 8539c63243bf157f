using System.Runtime.CompilerServices;

namespace FlowSim.Numerics.Sampling;

/// <summary>Checks at the public edge of this folder.</summary>
internal static class Arguments
{
    public static ArgumentOutOfRangeException Bad(string name, double value, string rule) =>
        new(name, value, FormattableString.Invariant($"{name} is {value} but {rule}."));

    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) ? value : throw Bad(name, value, "must be a finite number");

    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) && value > 0 ? value : throw Bad(name, value, "must be finite and above 0");

    public static double Probability(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value is >= 0 and <= 1 ? value : throw Bad(name, value, "must lie within 0 to 1");

    public static double InsideUnit(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value is > 0 and < 1 ? value : throw Bad(name, value, "must lie between 0 and 1, both excluded");

    public static double NotNaN(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsNaN(value) ? throw Bad(name, value, "must be a number or ±∞") : value;

    public static int From(int lowest, int value, int highest = int.MaxValue, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= lowest && value <= highest
            ? value
            : throw Bad(name, value, highest == int.MaxValue
                ? FormattableString.Invariant($"must be at least {lowest}")
                : FormattableString.Invariant($"must lie within {lowest} to {highest}"));

    public static long From(long lowest, long value, long highest, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= lowest && value <= highest
            ? value
            : throw Bad(name, value, FormattableString.Invariant($"must lie within {lowest} to {highest}"));
}
