namespace FlowSim.Sources.Tests;

/// <summary>
/// Holds a number of ours against a published one: fails like any assertion, and puts down what was compared, from which
/// <see cref="ValidationReport"/> writes its tables. What is no published figure (a limit, an inequality) stays an assertion of xunit.
/// </summary>
internal static class Published
{
    [ThreadStatic]
    private static List<Comparison>? s_comparisons;

    /// <summary>What one test compares; its failure is passed on.</summary>
    public static IReadOnlyList<Comparison> ComparisonsOf(Action test)
    {
        List<Comparison> comparisons = [];
        s_comparisons = comparisons;
        try
        {
            test();
        }
        finally
        {
            s_comparisons = null;
        }

        return comparisons;
    }

    /// <summary>A number.</summary>
    public static void Agrees(double published, double ours, Within within, string what, string unit = "")
    {
        within.Check(published, ours);
        Add(Beside(published, ours, within, what, unit));
    }

    /// <summary>A class, a verdict, a standing: something that is the same or not.</summary>
    public static void Agrees<T>(T published, T ours, string what)
        where T : struct, Enum
    {
        Assert.Equal(published, ours);
        Add(new Comparison(what, Words(published), Words(ours), "none", "the same", "", null));
    }

    /// <summary>A range that is printed, and ours, which has the same ends.</summary>
    public static void Agrees((double Low, double High) published, (double Low, double High) ours, string what, string unit = "")
    {
        Assert.Equal(published, ours);
        Add(new Comparison(what, Range(published.Low, published.High, unit), Range(ours.Low, ours.High, unit), "none", "the same", "", null));
    }

    /// <summary>Ours lies in a published range, widened by the factors given.</summary>
    public static void Holds(double low, double high, double ours, string why, string what, string unit = "", double lowFactor = 1, double highFactor = 1)
    {
        Assert.InRange(ours, low * lowFactor, high * highFactor);
        double outside = ours < low ? ours / low - 1 : ours > high ? ours / high - 1 : 0;
        Add(new Comparison(
            what,
            Range(low, high, unit),
            Digits.Of(ours, 4) + Spaced(unit),
            outside == 0 ? "inside" : Within.Relative(Math.Abs(outside), "").Error(1, 1 + outside, unit) + " beyond",
            lowFactor == 1 && highFactor == 1 ? "inside" : $"from × {Digits.Of(lowFactor, 3)} of the low end to × {Digits.Of(highFactor, 3)} of the high",
            why,
            outside == 0 ? null : outside));
    }

    /// <summary>Our band, from quick to slow or from low to high, holds a published figure.</summary>
    public static void IsHeldBy((double Low, double High) ours, double published, string why, string what, string unit = "")
    {
        Assert.InRange(published, ours.Low, ours.High);
        Add(new Comparison(
            what, Digits.Printed(published) + Spaced(unit), $"{Digits.Of(ours.Low, 3)} to {Digits.Of(ours.High, 3)}{Spaced(unit)}", "inside", "inside our band", why, null));
    }

    /// <summary>
    /// A published figure that ours does not meet: by how much is known and asserted (<paramref name="by"/>), and why is explained.
    /// </summary>
    public static void Deviates(double published, double ours, Within by, string what, string unit = "")
    {
        by.Check(published, ours);
        Add(Beside(published, ours, by, what, unit) with { Deviation = by.Why });
    }

    private static Comparison Beside(double published, double ours, Within within, string what, string unit) => new(
        what,
        Digits.Printed(published) + Spaced(unit),
        Digits.Beside(published, ours) + Spaced(unit),
        within.Error(published, ours, Spaced(unit)),
        within.Allowed(Spaced(unit)),
        within.Why,
        published == 0 ? null : ours / published - 1);

    private static void Add(Comparison comparison) => s_comparisons?.Add(comparison);

    private static string Range(double low, double high, string unit) => $"{Digits.Printed(low)} to {Digits.Printed(high)}{Spaced(unit)}";

    private static string Spaced(string unit) => unit.Length == 0 ? "" : " " + unit;

    /// <summary>NotExpected becomes "not expected".</summary>
    private static string Words<T>(T value)
        where T : struct, Enum => string.Concat(value.ToString().Select((c, i) => char.IsUpper(c) ? (i > 0 ? " " : "") + char.ToLowerInvariant(c) : c.ToString()));
}
