namespace FlowSim.Sources.Tests;

/// <summary>How near ours has to come to a published figure, and where that bound comes from.</summary>
/// <param name="Why">The reason for the bound, as the report gives it.</param>
internal abstract record Within(string Why)
{
    /// <summary>A share of the published figure.</summary>
    public static Within Relative(double share, string why) => new RelativeBound(share, why);

    /// <summary>An amount in the figure's unit.</summary>
    public static Within Absolute(double amount, string why) => new AbsoluteBound(amount, why);

    /// <summary>Half of the last digit printed.</summary>
    public static Within HalfDigit(double amount) => new AbsoluteBound(amount, "half of the last digit printed");

    /// <summary>A stored figure or plain arithmetic: nothing but the rounding of doubles and of conversions of units.</summary>
    public static Within Rounding(double amount) => new RoundingBound(amount);

    /// <summary>A factor either way, by its logarithm.</summary>
    public static Within Logarithm(double amount, string why) => new RatioBound(-amount, amount, $"×/÷ {Digits.Of(Math.Exp(amount), 3)}", why);

    /// <summary>Ours over the published figure between two bounds.</summary>
    public static Within Ratio(double low, double high, string why) =>
        new RatioBound(Math.Log(low), Math.Log(high), $"× {Digits.Of(low, 3)} to {Digits.Of(high, 3)}", why);

    /// <summary>Fails unless ours is near enough.</summary>
    public abstract void Check(double published, double ours);

    /// <summary>The bound in words.</summary>
    public abstract string Allowed(string unit);

    /// <summary>Ours against the published figure, in the bound's own terms: two digits, or that it is too small to matter.</summary>
    public abstract string Error(double published, double ours, string unit);

    /// <summary>Errors below a millionth are not told apart: their digits differ between machines.</summary>
    private static string Signed(double error, double bound, double millionth, string unit)
    {
        double least = Math.Min(bound, millionth);
        return Math.Abs(error) < least
            ? $"< {Digits.Of(least, 2)}{unit}"
            : $"{(error < 0 ? "−" : "+")}{Digits.Of(Math.Abs(error), 2, zeros: true)}{unit}";
    }

    private sealed record RelativeBound(double Share, string Why) : Within(Why)
    {
        public override void Check(double published, double ours) => Assert.Equal(published, ours, Share * Math.Abs(published));

        public override string Allowed(string unit) => $"± {Digits.Of(100 * Share, 3)} %";

        public override string Error(double published, double ours, string unit) =>
            Signed(100 * (ours - published) / Math.Abs(published), 100 * Share, 1e-4, " %");
    }

    private sealed record AbsoluteBound(double Amount, string Why) : Within(Why)
    {
        /// <summary>An error of 0.02 in a moisture of 17 % is 0.02 points, lest it be taken for a share of it.</summary>
        private static string Unit(string unit) => unit == " %" ? " points" : unit;

        public override void Check(double published, double ours) => Assert.Equal(published, ours, Amount);

        public override string Allowed(string unit) => $"± {Digits.Of(Amount, 3)}{Unit(unit)}";

        public override string Error(double published, double ours, string unit) =>
            Signed(ours - published, Amount, Math.Max(1e-6 * Math.Abs(published), 1e-3 * Amount), Unit(unit));
    }

    private sealed record RoundingBound(double Amount) : Within("a stored figure or plain arithmetic")
    {
        public override void Check(double published, double ours) => Assert.Equal(published, ours, Amount);

        public override string Allowed(string unit) => "rounding";

        public override string Error(double published, double ours, string unit) => "none";
    }

    private sealed record RatioBound(double LowLogarithm, double HighLogarithm, string Text, string Why) : Within(Why)
    {
        public override void Check(double published, double ours) => Assert.InRange(Math.Log(ours / published), LowLogarithm, HighLogarithm);

        public override string Allowed(string unit) => Text;

        public override string Error(double published, double ours, string unit) => $"× {Digits.Of(ours / published, 3, zeros: true)}";
    }
}
