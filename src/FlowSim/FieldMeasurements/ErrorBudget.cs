namespace FlowSim.FieldMeasurements;

/// <summary>Adds up independent errors of a result.</summary>
/// <remarks>
/// <para><b>Source</b>: law of propagation of uncertainty, JCGM 100:2008, 5.1.2 (from memory): the variance is the sum of
/// (∂f/∂x_i σ_i)².</para>
/// <para><b>Checked by</b>: ErrorBudgetTests.cs, against Monte Carlo.</para>
/// </remarks>
internal sealed class ErrorBudget
{
    /// <summary>Step of the difference quotient, in standard deviations of the input.</summary>
    private const double Step = 0.01;

    private readonly List<(string Name, double Effect)> _effects = [];

    /// <summary>One input that is not exactly known.</summary>
    /// <param name="Name">What it is, in a few words.</param>
    /// <param name="Value">Its value.</param>
    /// <param name="Spread">Its standard deviation.</param>
    internal readonly record struct Input(string Name, double Value, double Spread);

    /// <summary>The errors that the inputs of a function put on it.</summary>
    /// <param name="result">The function.</param>
    /// <param name="inputs">Its arguments, in order.</param>
    public static ErrorBudget Of(Func<double[], double> result, params IReadOnlyList<Input> inputs)
    {
        ErrorBudget budget = new();
        double[] x = [.. inputs.Select(input => input.Value)];
        for (int i = 0; i < inputs.Count; i++)
        {
            double step = Step * inputs[i].Spread;
            if (step == 0)
                continue;
            x[i] = inputs[i].Value + step;
            double above = result(x);
            x[i] = inputs[i].Value - step;
            double below = result(x);
            x[i] = inputs[i].Value;
            budget.Add(inputs[i].Name, (above - below) / (2 * Step));
        }

        return budget;
    }

    /// <summary>Adds an error.</summary>
    /// <param name="name">Where it comes from.</param>
    /// <param name="effect">What one standard deviation of it does to the result; the sign does not matter.</param>
    public ErrorBudget Add(string name, double effect)
    {
        if (effect != 0)
            _effects.Add((name, Math.Abs(effect)));
        return this;
    }

    /// <summary>Standard deviation of the result.</summary>
    public double StandardDeviation => Math.Sqrt(_effects.Sum(effect => effect.Effect * effect.Effect));

    /// <summary>The errors, largest first.</summary>
    public IReadOnlyList<ErrorShare> Shares
    {
        get
        {
            double variance = _effects.Sum(effect => effect.Effect * effect.Effect);
            return [.. _effects.OrderByDescending(effect => effect.Effect).Select(effect => new ErrorShare(effect.Name, effect.Effect * effect.Effect / variance, effect.Effect))];
        }
    }
}
