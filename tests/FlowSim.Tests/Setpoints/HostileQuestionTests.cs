using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>Every documented limit of a question is refused by name.</summary>
public class HostileQuestionTests
{
    public static TheoryData<string, SetpointQuestion> Refused
    {
        get
        {
            SetpointQuestion q = Pail();
            SetpointLimits l = q.Limits;
            return new TheoryData<string, SetpointQuestion>
            {
                { "Warming", q with { Warming = null! } },
                { "Straining", q with { Straining = null! } },
                { "Limits", q with { Limits = null! } },
                { "Heat", q with { Limits = l with { Heat = null! } } },
                { "Overflow", q with { Limits = l with { Overflow = null! } } },
                { "Confidence", q with { Limits = l with { Confidence = LimitConfidence.Broken } } },
                { "Confidence", q with { Limits = l with { Confidence = (LimitConfidence)17 } } },
                { "Ceiling", q with { Limits = l with { Ceiling = C(19) } } },
                { "Ceiling", q with { Limits = l with { Ceiling = C(96) } } },
                { "HottestWall", q with { Limits = l with { HottestWall = C(151) } } },
                { "WarmestAtStrainer", q with { Limits = l with { WarmestAtStrainer = C(10) } } },
                { "WarmestForHands", q with { Limits = l with { WarmestForHands = C(100) } } },
                { "LongestStraining", q with { Limits = l with { LongestStraining = Duration.FromSeconds(1) } } },
                { "Longest", q with { Limits = l with { Longest = Duration.FromMinutes(5) } } },
                { "Longest", q with { Limits = l with { Longest = Duration.FromDays(61) } } },
                { "Lowest", q with { Lowest = C(14) } },
                { "Lowest", q with { Lowest = C(46) } },
                { "ColdestStraining", q with { ColdestStraining = C(9) } },
                { "ColdestStraining", q with { ColdestStraining = C(91) } },
                { "StartTemperature", q with { Warming = q.Warming with { StartTemperature = C(90) } } },
                { "Bore", q with { Straining = q.Straining with { Gate = q.Straining.Gate with { Bore = Length.Zero } } } },
            };
        }
    }

    [Theory]
    [MemberData(nameof(Refused), DisableDiscoveryEnumeration = true)]
    public void A_value_out_of_its_range_is_refused_by_name(string name, SetpointQuestion question)
    {
        ArgumentException refused = Assert.ThrowsAny<ArgumentException>(() => SetpointSearch.Find(question));
        Assert.Contains(name, refused.ParamName, StringComparison.Ordinal);
    }

    [Fact]
    public void No_question_is_refused() => Assert.Throws<ArgumentNullException>(() => SetpointSearch.Find(null!));
}
