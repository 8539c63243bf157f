using FlowSim.Straining;

namespace FlowSim.Commands.Input;

/// <summary>The keys whose value may come with a spread: the inputs that the library varies.</summary>
internal static class SpreadKeys
{
    private static readonly HashSet<string> s_names = [.. StrainingInputs.All.Select(input => input.Name)];

    /// <summary>All of them, for messages.</summary>
    public static string List => string.Join(", ", StrainingInputs.All.Select(input => input.Name));

    /// <summary>Whether a key is one of them.</summary>
    /// <param name="key">Section and name.</param>
    public static bool Take(string key) => s_names.Contains(key);

    /// <summary>What to give a spread in place of a key that takes none; empty when there is nothing to say.</summary>
    /// <param name="key">Section and name.</param>
    public static string InPlaceOf(string key) =>
        key == Keys.Tank.Fill.ToString() ? $"; measure the level and write {Keys.Tank.Level.Name} = \"298 ± 5 mm\" in place of it" : string.Empty;
}
