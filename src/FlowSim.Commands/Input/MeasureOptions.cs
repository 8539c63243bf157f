using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>A value of an option.</summary>
/// <param name="Si">Value, SI.</param>
/// <param name="Spread">Standard deviation that was given with it, SI; null when none was.</param>
internal readonly record struct Given(double Si, double? Spread);

/// <summary>The options of a measurement as they were given; notes what is wrong with them.</summary>
/// <param name="method">Name of the method, for messages.</param>
/// <param name="texts">What was given, by option.</param>
/// <param name="problems">Takes what is wrong.</param>
/// <param name="journal">Takes what was assumed.</param>
internal sealed class MeasureOptions(string method, IReadOnlyDictionary<string, IReadOnlyList<string>> texts, Problems problems, Journal journal)
{
    public Problems Problems { get; } = problems;

    public Journal Journal { get; } = journal;

    public bool Has(string option) => texts.TryGetValue(option, out IReadOnlyList<string>? given) && given.Count > 0;

    /// <summary>What an option says; null when it was not given.</summary>
    /// <param name="option">Option.</param>
    public string? Text(string option) => Has(option) ? texts[option][0] : null;

    /// <summary>Where an option was given.</summary>
    /// <param name="option">Option.</param>
    public Spot SpotOf(string option) => new(Has(option) ? $"{option} \"{string.Join("\" \"", texts[option])}\"" : "flowsim measure " + method, 0, 0);

    /// <summary>A quantity, perhaps with its standard deviation, as in "3 ± 0.02 mm"; null when it is missing or wrong.</summary>
    /// <param name="option">Option.</param>
    /// <param name="dimension">What it measures; null for a plain number.</param>
    public Given? Quantity(string option, Dimension? dimension) => Text(option) is { } text ? Read(option, text, dimension) : null;

    /// <summary>The same, which must be there.</summary>
    /// <param name="option">Option.</param>
    /// <param name="dimension">What it measures.</param>
    /// <param name="example">How it may be written.</param>
    public Given? Required(string option, Dimension dimension, string example)
    {
        if (!Has(option))
            Missing(option, $"{option} \"{example}\"");
        return Quantity(option, dimension);
    }

    /// <summary>Every value of an option that repeats.</summary>
    /// <param name="option">Option.</param>
    /// <param name="dimension">What it measures; null for a plain number.</param>
    public IReadOnlyList<double> All(string option, Dimension? dimension)
    {
        if (!Has(option))
            return [];
        List<double> values = [];
        foreach (string text in texts[option])
        {
            Given? read = Read(option, text, dimension);
            if (read is { Spread: not null })
                Problems.Add(SpotOf(option), "takes one value each time; how well they are known follows from their number and scatter");
            else if (read is { } value)
                values.Add(value.Si);
        }

        return values;
    }

    /// <summary>One of some words; null when it is missing or none of them.</summary>
    /// <param name="option">Option.</param>
    /// <param name="words">Words.</param>
    /// <param name="what">What they name.</param>
    public string? Word(string option, IReadOnlyList<string> words, string what)
    {
        if (Text(option) is not { } text)
            return null;
        if (words.FirstOrDefault(word => string.Equals(word, text.Trim(), StringComparison.OrdinalIgnoreCase)) is { } found)
            return found;
        Problems.Add(SpotOf(option), $"is not a {what}; nearest: {Spelling.Nearest(text, words)}; known: {string.Join(", ", words)}");
        return null;
    }

    public void Missing(string option, string write) => Problems.Add(new Spot("flowsim measure " + method, 0, 0), $"{option} is missing; write {write}");

    /// <summary>Says which options may not stand together.</summary>
    /// <param name="one">Option.</param>
    /// <param name="other">Option.</param>
    public void Clash(string one, string other)
    {
        if (Has(one) && Has(other))
            Problems.Add(SpotOf(one), $"stands beside {other}; give one of the two");
    }

    /// <summary>Notes a spread that was assumed for a value that came without.</summary>
    /// <param name="given">Value.</param>
    /// <param name="option">Option.</param>
    /// <param name="what">What is known so well, with the spread, as in "ball ± 0.02 mm".</param>
    public void Assumed(Given given, string option, string what)
    {
        if (given.Spread is null)
            Journal.Assume(option, what, Standing.EngineeringChoice);
    }

    private Given? Read(string option, string text, Dimension? dimension)
    {
        Spot spot = new($"{option} \"{Printable.Of(text.Trim())}\"", 0, 0);
        if (SpreadGrammar.IsSpread(text))
        {
            if (SpreadGrammar.Read(text, dimension, signed: false, out Spread? spread) is { } wrong)
                Problems.Add(spot, wrong.What);
            else if (spread!.Kind != SpreadKind.Normal)
                Problems.Add(spot, "is a spread of a kind that no measurement takes; write the value ± one standard deviation");
            else
                return Noted(option, text, new Given(spread.Values[0], spread.Values[1]), spread.Echo);
            return null;
        }

        QuantityFault? fault;
        double si;
        string? echo = null;
        if (dimension is { } wanted)
        {
            fault = QuantityGrammar.Read(text, wanted, out Quantity quantity);
            (si, echo) = (quantity.Si, quantity.Echo);
        }
        else
        {
            fault = QuantityGrammar.ReadNumber(text, out si);
        }

        if (fault is null)
            return Noted(option, text, new Given(si, null), echo);
        Problems.Add(spot, fault.What);
        return null;
    }

    private Given Noted(string option, string text, Given given, string? echo)
    {
        if (echo is not null)
            Journal.Echo($"{option}: \"{Printable.Of(text.Trim())}\" read as {echo}");
        return given;
    }
}
