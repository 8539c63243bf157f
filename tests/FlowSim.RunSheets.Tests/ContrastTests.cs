using System.Globalization;
using System.Text.RegularExpressions;

namespace FlowSim.RunSheets.Tests;

/// <summary>
/// Colours on their ground, by the contrast ratio of the Web Content Accessibility Guidelines 2.2 (W3C), success criterion 1.4.3: 4.5 : 1
/// for text; from memory. The browser's check of the whole page is in tests/pages.
/// </summary>
public partial class ContrastTests
{
    private const double Least = 4.5;

    private static readonly string[] s_schemes = [.. Root().Matches(RunSheetHtml.Of(InventedSheet.Plain())).Select(match => match.Value)];

    public static TheoryData<int> Schemes => [0, 1, 2];

    [Fact]
    public void Light_dark_and_paper_have_their_colours() => Assert.Equal(3, s_schemes.Length);

    [Theory]
    [MemberData(nameof(Schemes))]
    public void Text_keeps_its_distance_from_its_ground(int scheme)
    {
        foreach (string ground in new[] { "ground", "card" })
        {
            foreach (string ink in new[] { "ink", "soft", "mark", "bad", "good" })
            {
                double ratio = Ratio(Colour(scheme, ink), Colour(scheme, ground));
                Assert.True(ratio >= Least, FormattableString.Invariant($"{ink} on {ground}, scheme {scheme}: {ratio:0.00}"));
            }
        }
    }

    /// <summary>Black on white is 21 : 1, a colour on itself 1 : 1, by the definition.</summary>
    [Fact]
    public void The_ratio_is_the_one_of_the_definition()
    {
        Assert.Equal(21, Ratio("000000", "ffffff"), 9);
        Assert.Equal(1, Ratio("7a4a00", "7a4a00"), 9);
    }

    private static string Colour(int scheme, string name) => Regex.Match(s_schemes[scheme], $"--{name}: #([0-9a-f]{{6}});", RegexOptions.None, TimeSpan.FromSeconds(1)).Groups[1].Value;

    private static double Ratio(string one, string other)
    {
        double a = Luminance(one);
        double b = Luminance(other);
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance(string colour)
    {
        double[] linear = [.. Enumerable.Range(0, 3)
            .Select(i => int.Parse(colour.AsSpan(2 * i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0)
            .Select(c => c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4))];
        return (0.2126 * linear[0]) + (0.7152 * linear[1]) + (0.0722 * linear[2]);
    }

    [GeneratedRegex(@":root \{.*?\}", RegexOptions.Singleline, 1000)]
    private static partial Regex Root();
}
