using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>Checks a question once, at the edge.</summary>
internal static class RiskQuestionCheck
{
    /// <summary>Fewest runs that a chance is asked from.</summary>
    public const int FewestRuns = 64;

    private const int MostRuns = 10_000_000;

    /// <summary>Throws when something is out of its range.</summary>
    /// <param name="question">Question.</param>
    public static void Require(RiskQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        StrainingSetupCheck.Require(EquipmentCheck.Present(question.Setup));
        EquipmentCheck.Present(question.Correlations);
        Tolerance(question.Tolerance.DecimalFractions, nameof(RiskQuestion.Tolerance));
        EquipmentCheck.Within(question.MassThatMatters.Kilograms, 0, 1000, "kg", nameof(RiskQuestion.MassThatMatters));
        EquipmentCheck.Within(question.LookEvery.Seconds, 1, 30 * 86400, "s", nameof(RiskQuestion.LookEvery));
        EquipmentCheck.Within(question.Runs ?? FewestRuns, FewestRuns, MostRuns, "", nameof(RiskQuestion.Runs));
        EquipmentCheck.Within(question.Threads ?? 1, 1, 1024, "", nameof(RiskQuestion.Threads));
    }

    /// <summary>Checks a tolerance.</summary>
    /// <param name="tolerance">Share.</param>
    /// <param name="name">Name of the argument.</param>
    public static void Tolerance(double tolerance, string name) => EquipmentCheck.Within(100 * tolerance, 1e-4, 50, "%", name);

    /// <summary>Checks an axis of a map: 1 to 100 values that increase from 0 on.</summary>
    /// <typeparam name="T">Quantity.</typeparam>
    /// <param name="values">Values.</param>
    /// <param name="number">A value as a number.</param>
    /// <param name="most">Largest.</param>
    /// <param name="unit">Unit.</param>
    /// <param name="name">Name of the argument.</param>
    public static void Axis<T>(IReadOnlyList<T> values, Func<T, double> number, double most, string unit, string name)
    {
        EquipmentCheck.Present(values, name);
        EquipmentCheck.Within(values.Count, 1, 100, "", name);
        double before = double.NegativeInfinity;
        foreach (double value in values.Select(number))
        {
            EquipmentCheck.Within(value, 0, most, unit, name);
            if (!(value > before))
                throw EquipmentCheck.OutOfRange(name, value, FormattableString.Invariant($"{name} must increase: {value:g6} {unit} follows {before:g6} {unit}."));
            before = value;
        }
    }

    /// <summary>The inputs that vary: those given, or the common ones.</summary>
    /// <param name="given">Inputs; null for the common ones.</param>
    /// <param name="setup">Setup, already checked.</param>
    /// <exception cref="ArgumentException">An input does nothing in the setup.</exception>
    public static IReadOnlyList<UncertainInput> Inputs(IReadOnlyList<UncertainInput>? given, StrainingSetup setup)
    {
        if (given is null)
            return DefaultSpreads.For(setup);
        if (given.FirstOrDefault(input => input?.Input is { } known && !known.AppliesTo(setup)) is { } idle)
            throw EquipmentCheck.Refused(nameof(RiskQuestion.Inputs), $"{idle.Input.Name} ({idle.Input.Words}) does nothing in this setup, so it cannot have a spread.");
        return given;
    }
}
