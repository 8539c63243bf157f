using System.Collections.Concurrent;
using System.Globalization;
using FlowSim.Numerics.Sampling;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Culture.Tests;

/// <summary>What the machine is set to changes nothing: every command writes the same bytes in every culture. Cultures are real in this process.</summary>
public class CultureTests
{
    private static readonly ConcurrentDictionary<string, SortedDictionary<string, string>> s_invariant = new(StringComparer.Ordinal);

    /// <summary>What is odd about all of the others, at once.</summary>
    private const string All = "all at once";

    private static readonly string[] s_cultures = ["de-DE", "fr-FR", "tr-TR", "sv-SE", "ar-SA", All];

    public static TheoryData<string> Cultures => [.. s_cultures];

    /// <summary>Every command in the culture that has all oddities, the quick ones in each of the others too.</summary>
    public static TheoryData<string, string> Matrix
    {
        get
        {
            TheoryData<string, string> matrix = [];
            foreach (string culture in s_cultures)
            {
                foreach (string command in Everything.Names.Where(command => culture == All || !Everything.IsLong(command)))
                    matrix.Add(culture, command);
            }

            return matrix;
        }
    }

    /// <summary>If these did not differ, the tests below would prove nothing.</summary>
    [Fact]
    public void Cultures_differ_in_this_process()
    {
        Assert.Equal("1,5", In("de-DE", () => 1.5.ToString(CultureInfo.CurrentCulture)));
        Assert.Equal("1\u202F234,5", In("fr-FR", () => 1234.5.ToString("N1", CultureInfo.CurrentCulture)));
        Assert.Equal("ı", In("tr-TR", () => "I".ToLower(CultureInfo.CurrentCulture)));
        Assert.Equal("\u22121", In("sv-SE", () => (-1).ToString(CultureInfo.CurrentCulture)));
        Assert.NotEqual("2026", In("ar-SA", () => new DateTime(2026, 11, 29).ToString("yyyy", CultureInfo.CurrentCulture)));
        Assert.Equal("\u22121,5", In(All, () => (-1.5).ToString(CultureInfo.CurrentCulture)));
        Assert.Equal("ı", In(All, () => "I".ToLower(CultureInfo.CurrentCulture)));
        Assert.NotEqual("2026", In(All, () => new DateTime(2026, 11, 29).ToString("yyyy", CultureInfo.CurrentCulture)));
        Assert.Equal("1,5 m", In("de-DE", () => Length.FromMeters(1.5).ToString(CultureInfo.CurrentCulture)));
    }

    [Theory]
    [MemberData(nameof(Matrix))]
    public void A_command_writes_the_same(string culture, string command)
    {
        SortedDictionary<string, string> expected = s_invariant.GetOrAdd(command, one => In("", () => Everything.Of(one)));
        SortedDictionary<string, string> written = In(culture, () => Everything.Of(command));
        Assert.Equal(expected.Keys, written.Keys);
        Assert.All(expected, pair => Assert.Equal(pair.Value, written[pair.Key]));
    }

    /// <summary>What the library itself says, to a program that has no part in the commands.</summary>
    [Theory]
    [MemberData(nameof(Cultures))]
    public void The_library_says_the_same(string culture) => Assert.Equal(In("", Said), In(culture, Said));

    private static string[] Said() =>
    [
        Message(() => new UprightCylinder(Length.FromMillimeters(-1.5), Length.FromMillimeters(360.25))),
        Message(() => new NormalDistribution(0.5, -1234.5)),
        Message(() => UprightCylinder.OfCapacity(Volume.FromLiters(25.5), Length.FromMeters(-0.25))),
        Message(() => Straining.StrainingRun.Simulate(null!)),
        new Source("mine", Standing.GivenByUser).ToString(),
    ];

    /// <summary>Casing of Turkish, numbers of Swedish, the calendar of Saudi Arabia.</summary>
    private static CultureInfo AllAtOnce() => new("tr-TR", useUserOverride: false)
    {
        NumberFormat = new CultureInfo("sv-SE", useUserOverride: false).NumberFormat,
        DateTimeFormat = new CultureInfo("ar-SA", useUserOverride: false).DateTimeFormat,
    };

    /// <summary>What we say; the runtime's second line, with the actual value, is in the reader's culture.</summary>
    private static string Message(Func<object> make)
    {
        ArgumentException refused = Assert.ThrowsAny<ArgumentException>(make);
        return refused.Message.Split('\n')[0];
    }

    private static T In<T>(string culture, Func<T> run)
    {
        (CultureInfo culture, CultureInfo ui, CultureInfo? threads, CultureInfo? uiThreads) before = (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture, CultureInfo.DefaultThreadCurrentCulture, CultureInfo.DefaultThreadCurrentUICulture);
        try
        {
            CultureInfo wanted = culture == All ? AllAtOnce() : new CultureInfo(culture, useUserOverride: false);
            (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture, CultureInfo.DefaultThreadCurrentCulture, CultureInfo.DefaultThreadCurrentUICulture) = (wanted, wanted, wanted, wanted);
            return run();
        }
        finally
        {
            (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture, CultureInfo.DefaultThreadCurrentCulture, CultureInfo.DefaultThreadCurrentUICulture) = before;
        }
    }
}
