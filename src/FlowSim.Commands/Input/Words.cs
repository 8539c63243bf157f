using System.Text;

namespace FlowSim.Commands.Input;

/// <summary>The words of an enumeration as files and JSON write them: lower case, hyphens.</summary>
internal static class Words
{
    public static string Of<T>(T value)
        where T : struct, Enum => Kebab(Enum.GetName(value) ?? value.ToString());

    public static string[] All<T>()
        where T : struct, Enum => [.. Enum.GetNames<T>().Select(Kebab)];

    /// <summary>The value of a word that <see cref="All{T}"/> gave.</summary>
    /// <param name="word">Word.</param>
    public static T Value<T>(string word)
        where T : struct, Enum => Enum.GetValues<T>().First(value => Of(value) == word);

    private static string Kebab(string name)
    {
        StringBuilder result = new();
        foreach (char c in name)
        {
            if (char.IsUpper(c) && result.Length > 0)
                result.Append('-');
            result.Append(char.ToLowerInvariant(c));
        }

        return result.ToString();
    }
}
