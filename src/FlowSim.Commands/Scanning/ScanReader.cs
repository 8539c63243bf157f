using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Commands.Scanning;

/// <summary>Reads <c>--scan key=from..to:n</c>.</summary>
internal static class ScanReader
{
    /// <summary>Most values of one key.</summary>
    public const int MostValues = 1000;

    /// <summary>Most runs of all scans together.</summary>
    public const int MostRuns = 10_000;

    private const string Form = "key=from..to:n, as in --scan \"honey.temperature=30 °C..45 °C:16\"";

    /// <summary>Reads the scans of one command.</summary>
    /// <param name="options">Options as given.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    public static IReadOnlyList<Scan> Read(IReadOnlyList<string> options)
    {
        Problems problems = new();
        List<Scan> scans = [];
        foreach (string option in options)
        {
            if (ReadOne(option, new Spot("--scan " + option, 0, 0), problems) is { } scan)
                scans.Add(scan);
        }

        if (options.Count > 2)
            problems.Add(new Spot("--scan", 0, 0), FormattableString.Invariant($"is given {options.Count} times; one or two keys are scanned"));
        else if (scans.Count == 2 && scans[0].Key == scans[1].Key)
            problems.Add(new Spot("--scan " + options[1], 0, 0), $"scans {scans[0].Key} a second time; give each key once");
        else if (scans.Count == 2 && scans[0].Values.Count * scans[1].Values.Count > MostRuns)
            problems.Add(new Spot("--scan " + options[1], 0, 0), FormattableString.Invariant($"makes {scans[0].Values.Count * scans[1].Values.Count} runs with the other scan; allowed: at most {MostRuns}, so here at most {MostRuns / scans[0].Values.Count}"));
        return problems.Any ? throw new BadInputException(problems) : scans;
    }

    private static Scan? ReadOne(string option, Spot spot, Problems problems)
    {
        int equals = option.IndexOf('=', StringComparison.Ordinal);
        int dots = option.IndexOf("..", Math.Max(0, equals), StringComparison.Ordinal);
        int colon = option.LastIndexOf(':');
        if (equals <= 0 || dots < 0 || colon < dots)
        {
            problems.Add(spot, "is not " + Form);
            return null;
        }

        string name = option[..equals].Trim();
        if (FindKey(name, spot, problems) is not { } key)
            return null;
        string number = option[(colon + 1)..].Trim();
        if (!int.TryParse(number, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int count) || count < 2 || count > MostValues)
        {
            string nearest = count > MostValues || (number.Length > 4 && number.All(char.IsAsciiDigit)) ? FormattableString.Invariant($"{MostValues}") : "2";
            problems.Add(spot, $"asks for \"{Printable.Of(number)}\" values; allowed: a whole number, 2 to {MostValues}, nearest {nearest}");
            return null;
        }

        (double From, double To, Dimension? Dimension, Unit? Unit)? range = ReadRange(key, option[(equals + 1)..dots], option[(dots + 2)..colon], spot, problems);
        if (range is not { } ends)
            return null;
        if (ends.From == ends.To)
        {
            problems.Add(spot, "begins and ends with the same value; a scan needs two, or set the key with --set");
            return null;
        }

        // The ends exactly as given, what is between evenly.
        double[] values = [.. Enumerable.Range(0, count).Select(i => i == count - 1 ? ends.To : ends.From + (ends.To - ends.From) * i / (count - 1))];
        return new Scan("--scan " + option, key.ToString(), ends.Dimension, ends.Unit, values);
    }

    private static Key? FindKey(string name, Spot spot, Problems problems)
    {
        Key[] numeric = [.. Numeric()];
        if (numeric.FirstOrDefault(key => key.ToString() == name) is { } found)
            return found;
        string nearest = Spelling.Nearest(name, numeric.Select(key => key.ToString()))!;
        bool exists = Keys.All.Any(key => key.ToString() == name);
        problems.Add(spot, $"{Printable.Of(name)} {(exists ? "is not a number and cannot be scanned" : "is not a key")}; nearest that can be scanned: {nearest}");
        return null;
    }

    /// <summary>Every key that is a number: of the lists of keys, and of the shapes.</summary>
    internal static IEnumerable<Key> Numeric()
    {
        foreach (Key key in Keys.All.Where(key => key.Kind is KeyKind.Quantity or KeyKind.Number or KeyKind.QuantityOrList))
            yield return key;
        foreach (string section in new[] { "tank", "receiver", "vessel" })
        {
            foreach (Key key in OfShapes(section, VesselShapes.All.SelectMany(shape => shape.Parameters)))
                yield return key;
        }

        foreach (Key key in OfShapes("screen", ScreenShapes.All.SelectMany(shape => shape.Parameters)))
            yield return key;
    }

    private static IEnumerable<Key> OfShapes(string section, IEnumerable<ShapeParameter> parameters) =>
        parameters.Where(parameter => !ShapeReader.IsList(parameter))
            .Select(parameter => new Key(section, parameter.Key, KeyKind.Quantity, parameter.Description, ShapeReader.DimensionOf(parameter)))
            .DistinctBy(key => key.Name, StringComparer.Ordinal);

    private static (double From, double To, Dimension? Dimension, Unit? Unit)? ReadRange(Key key, string from, string to, Spot spot, Problems problems)
    {
        if (key.Dimension is not { } dimension)
        {
            QuantityFault? fault = QuantityGrammar.ReadNumber(from, out double first) ?? QuantityGrammar.ReadNumber(to, out _);
            QuantityGrammar.ReadNumber(to, out double last);
            if (fault is null)
                return (first, last, null, null);
            problems.Add(spot, $"{key} from \"{Printable.Of(from.Trim())}\" to \"{Printable.Of(to.Trim())}\": {fault.What}");
            return null;
        }

        // An amount of honey may be a mass too.
        bool mass = dimension == Dimension.Volume && QuantityGrammar.Read(to, Dimension.Mass, out _) is null;
        Dimension wanted = mass ? Dimension.Mass : dimension;
        string unit = SpreadReader.UnitOf(to);
        string begin = QuantityGrammar.ReadNumber(from, out _) is null && unit.Length > 0 ? from.Trim() + " " + unit : from;
        foreach (string end in new[] { begin, to })
        {
            if (QuantityGrammar.Read(end, wanted, key.MayBeNegative, out _) is { } fault)
            {
                problems.Add(spot, $"{key}: \"{Printable.Of(end.Trim())}\" {fault.What}");
                return null;
            }
        }

        QuantityGrammar.Read(begin, wanted, key.MayBeNegative, out Quantity low);
        QuantityGrammar.Read(to, wanted, key.MayBeNegative, out Quantity high);
        return (low.Si, high.Si, wanted, Units.Find(unit, wanted));
    }
}
