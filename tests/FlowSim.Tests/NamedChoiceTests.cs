namespace FlowSim.Tests;

public class NamedChoiceTests
{
    private static string Pick(string name, params string[] choices) => NamedChoice.ByName(choices, choice => choice, name, "thing");

    private static ArgumentException Refused(string name, params string[] choices) => Assert.Throws<ArgumentException>(() => Pick(name, choices));

    [Fact]
    public void A_name_is_found_whatever_its_case()
    {
        Assert.Equal("cone", Pick("cone", "flat-disc", "cone", "Cone"));
        Assert.Equal("flat-disc", Pick("FLAT-disc", "cone", "flat-disc"));
        Assert.Equal("name", Assert.Throws<ArgumentNullException>(() => Pick(null!, "cone")).ParamName);
    }

    [Fact]
    public void An_unknown_name_is_refused_with_all_that_are_known()
    {
        ArgumentException refused = Refused("zzzzzzzz", "flat-disc", "cone");
        Assert.Equal("name", refused.ParamName);
        Assert.StartsWith("No thing is named 'zzzzzzzz'. Known: flat-disc, cone.", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>Edits: one letter other, left out or put in. Half of the longer name's letters is the most.</summary>
    [Theory]
    [InlineData("abxy", "abcd", true)]
    [InlineData("axyz", "abcd", false)]
    [InlineData("ab", "abcd", true)]
    [InlineData("abcd", "ab", true)]
    [InlineData("abcde", "ab", false)]
    [InlineData("ab", "abcde", false)]
    [InlineData("sitting", "kitten", true)] // 3 of 7.
    [InlineData("saturday", "sunday", true)] // 3 of 8.
    [InlineData("cdab", "abcd", false)] // Two out in front and two in at the end: 4.
    [InlineData("bcda", "abcd", true)] // One out and one in: 2 of 4.
    [InlineData("ABXY", "abcd", true)]
    [InlineData("", "a", false)]
    public void The_nearest_is_said_where_one_is_near(string name, string known, bool near) =>
        Assert.Equal(near, Refused(name, known).Message.Contains($"Nearest: '{known}'.", StringComparison.Ordinal));

    [Theory]
    [InlineData("honey.moistur", "honey.moisture")]
    [InlineData("hony.lot_fact", "honey.lot_factor")]
    [InlineData("gate.factr", "gate.factor")]
    [InlineData("gatefactor", "gate.factor")]
    [InlineData("gate.bores", "gate.bore")]
    public void Of_several_the_nearest_is_said(string name, string nearest) =>
        Assert.Contains($"Nearest: '{nearest}'.", Refused(name, "gate.bore", "honey.moisture", "honey.lot_factor", "gate.factor", "screen.factor").Message, StringComparison.Ordinal);

    /// <summary>Levenshtein's distance by its definition, letter by letter from the end, against which of two is said to be nearer.</summary>
    [FsCheck.Xunit.Property(Arbitrary = [typeof(Generators)])]
    public void The_distance_is_that_of_its_definition(Share a, Share b, Share c)
    {
        string one = Word(a), other = Word(b), name = Word(c) + "x";
        int first = Distance(one, name), second = Distance(other, name);
        string nearest = second < first ? other : one;
        bool near = Math.Min(first, second) <= 0.5 * Math.Max(nearest.Length, name.Length);
        if (one == other)
            return;
        Assert.Equal(near, Refused(name, one, other).Message.Contains($" Nearest: '{nearest}'.", StringComparison.Ordinal));

        // Two to seven letters of two kinds.
        static string Word(Share share)
        {
            int bits = (int)share.Between(4, 255.9);
            return Convert.ToString(bits, 2)[1..].Replace('0', 'a').Replace('1', 'b');
        }

        static int Distance(string left, string right)
        {
            if (left.Length == 0 || right.Length == 0)
                return left.Length + right.Length;
            if (left[^1] == right[^1])
                return Distance(left[..^1], right[..^1]);
            return 1 + Math.Min(Distance(left[..^1], right[..^1]), Math.Min(Distance(left[..^1], right), Distance(left, right[..^1])));
        }
    }
}
