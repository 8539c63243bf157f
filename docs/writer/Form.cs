using System.Text.Json.Nodes;
using FlowSim.Commands.Quantities;

namespace FlowSim.Docs;

/// <summary>What a key takes: for people, and as a schema.</summary>
/// <param name="Text">In words.</param>
/// <param name="Schema">As JSON Schema.</param>
internal sealed record Form(string Text, JsonObject Schema)
{
    /// <summary>A quantity.</summary>
    /// <param name="dimension">What is measured.</param>
    public static Form Quantity(Dimension dimension) => new(DimensionFacts.Of(dimension).Name, Reference(NameOf(dimension)));

    /// <summary>A quantity that may have a spread.</summary>
    /// <param name="dimension">What is measured.</param>
    public static Form Spread(Dimension dimension) => new(DimensionFacts.Of(dimension).Name + ", or one with its spread", Reference(NameOf(dimension) + "-or-spread"));

    /// <summary>A number without a unit.</summary>
    public static Form Number => new("a number", new JsonObject { ["type"] = "number" });

    /// <summary>A number that may have a spread.</summary>
    public static Form NumberOrSpread => new("a number, or one with its spread", Reference("number-or-spread"));

    /// <summary>True or false.</summary>
    public static Form Flag => new("`true` or `false`", new JsonObject { ["type"] = "boolean" });

    /// <summary>Any text.</summary>
    public static Form AnyText => new("a text", new JsonObject { ["type"] = "string" });

    /// <summary>One of some words.</summary>
    /// <param name="words">Words.</param>
    public static Form Word(IReadOnlyList<string> words) => new(
        string.Join(", ", words.Select(word => $"`{word}`")),
        new JsonObject { ["anyOf"] = new JsonArray(new JsonObject { ["enum"] = Json.Array(words) }, Matching(Patterns.Words(words))) });

    /// <summary>A text of a grammar of its own.</summary>
    /// <param name="text">In words.</param>
    /// <param name="pattern">What stands in it, blanks around it apart.</param>
    public static Form Grammar(string text, string pattern) => new(text, Matching(pattern));

    /// <summary>A list.</summary>
    /// <param name="item">What each of its entries takes.</param>
    /// <param name="text">In words; null for "a list: " and the entry.</param>
    public static Form List(Form item, string? text = null) =>
        new(text ?? "a list, each " + item.Text, new JsonObject { ["type"] = "array", ["items"] = item.Schema.DeepClone() });

    /// <summary>One of several forms.</summary>
    /// <param name="forms">Forms.</param>
    public static Form Either(params IReadOnlyList<Form> forms) =>
        new(string.Join("; or ", forms.Select(form => form.Text)), new JsonObject { ["anyOf"] = new JsonArray([.. forms.Select(form => form.Schema.DeepClone())]) });

    /// <summary>The definitions that forms refer to.</summary>
    /// <param name="spreads">Whether values with a spread are among them.</param>
    public static JsonObject Definitions(bool spreads)
    {
        JsonObject all = [];
        foreach (Dimension dimension in Enum.GetValues<Dimension>())
        {
            DimensionFacts facts = DimensionFacts.Of(dimension);
            JsonObject plain = Matching(Patterns.Quantity(dimension));
            plain["maxLength"] = QuantityGrammar.Longest;
            plain["description"] = $"{facts.Name}, as in \"{facts.Example}\"; units: {Units.SymbolsOf(dimension)}";
            all[NameOf(dimension)] = plain;
            if (spreads)
                all[NameOf(dimension) + "-or-spread"] = OrSpread(Reference(NameOf(dimension)), measured: true);
        }

        if (!spreads)
            return all;
        all["quantity-with-spread"] = Spread("a quantity with its spread, as in \"17.8 ± 0.2 %\", \"0.3 g/kg x/ 3\" or \"17.6 to 18.0 %\"", measured: true);
        all["number-with-spread"] = Spread("a number with its spread, as in \"1.0 x/ 1.35\"", measured: false);
        all["number-or-spread"] = OrSpread(new JsonObject { ["type"] = "number" }, measured: false);
        return all;
    }

    /// <summary>A value that must have its spread.</summary>
    /// <param name="measured">Whether it has a unit.</param>
    public static JsonObject SpreadOnly(bool measured) => Reference(measured ? "quantity-with-spread" : "number-with-spread");

    private static JsonObject OrSpread(JsonObject plain, bool measured) => new() { ["anyOf"] = new JsonArray(plain, SpreadOnly(measured)) };

    private static JsonObject Spread(string description, bool measured)
    {
        JsonObject spread = Matching(Patterns.Spread(measured));
        spread["maxLength"] = SpreadGrammar.Longest;
        spread["description"] = description;
        return spread;
    }

    private static JsonObject Matching(string pattern) => new() { ["type"] = "string", ["pattern"] = Patterns.Whole(pattern) };

    private static JsonObject Reference(string name) => new() { ["$ref"] = "#/$defs/" + name };

    private static string NameOf(Dimension dimension) => FlowSim.Commands.Input.Words.Of(dimension);
}
