namespace FlowSim.Bottling;

/// <summary>The rules that can be named. To add one: a file beside <c>NetWeightRules.Eu.cs</c> and a word in <see cref="All"/>.</summary>
public static partial class NetWeightRules
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<NetWeightRule> All { get; } = [Eu(), Us()];

    /// <summary>The rule of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>eu</c>.</param>
    /// <exception cref="ArgumentException">No rule has that name; the message gives the nearest.</exception>
    public static NetWeightRule ByName(string name) => NamedChoice.ByName(All, rule => rule.Name, name, "net-weight rule");
}
