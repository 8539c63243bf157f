using FlowSim.Gates;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>A bottling tank to be emptied into jars: everything a run needs. Change a copy with <c>with</c>.</summary>
public sealed record FillingSetup
{
    /// <summary>The honey.</summary>
    public required Honey Honey { get; init; }

    /// <summary>Temperature of the honey in the tank at the start, within the outer range of its viscosity correlation.</summary>
    public required Temperature Temperature { get; init; }

    /// <summary>Temperature of the room. −10 to 60 °C. Default 22 °C.</summary>
    public Temperature RoomTemperature { get; init; } = Temperature.FromDegreesCelsius(22);

    /// <summary>The bottling tank.</summary>
    public required Tank Tank { get; init; }

    /// <summary>Its gate. The outlet must be free.</summary>
    public required Gate Gate { get; init; }

    /// <summary>How far it is opened for each jar. 1 to 100 %. Default 100 %.</summary>
    public Ratio Opening { get; init; } = Ratio.FromPercent(100);

    /// <summary>The jar.</summary>
    public required Jar Jar { get; init; }

    /// <summary>Net weight on the label. 5 g to 45 kg. Null: what the jar is sold as.</summary>
    public Mass? LabelledMass { get; init; }

    /// <summary>Height of the fall from the gate to the honey in a jar that is nearly full. 1 mm to 3 m. Default 150 mm (engineering choice).</summary>
    public Length FallHeight { get; init; } = Length.FromMillimeters(150);

    /// <summary>Time to shut the gate. 0 to 60 s. Default 0.5 s (engineering choice: by hand, without haste).</summary>
    public Duration ClosingTime { get; init; } = Duration.FromSeconds(0.5);

    /// <summary>Time between two jars without honey: one away, capped if nobody else does, the next one under. 0 to 3600 s. Default 10 s (engineering choice).</summary>
    public Duration ChangeOver { get; init; } = Duration.FromSeconds(10);

    /// <summary>Wetted height below the blade, from which it drips. 0 to 500 mm. Default 10 mm (engineering choice).</summary>
    public Length Lip { get; init; } = Length.FromMillimeters(10);

    /// <summary>What may still hang on the gate when the jar is taken away. 0.01 g to 1 kg. Default 1 g (engineering choice).</summary>
    public Mass DripLimit { get; init; } = Mass.FromGrams(1);

    /// <summary>Longest that somebody waits for that. 0 to 600 s. Default 10 s (engineering choice).</summary>
    public Duration LongestWait { get; init; } = Duration.FromSeconds(10);

    /// <summary>Standard deviation of one fill. 0 to 20 % of the label. Default 2 g (engineering choice: by hand, on a scale).</summary>
    public Mass FillScatter { get; init; } = Mass.FromGrams(2);

    /// <summary>Jars that it was found from; null takes it as known. 3 to 10000.</summary>
    public int? ScatterFrom { get; init; }

    /// <summary>What the law asks of net weights. Default <c>eu</c>.</summary>
    public NetWeightRule Rule { get; init; } = NetWeightRules.All[0];

    /// <summary>Tolerable shortfall of one jar; null takes the rule's. 0.01 g to the label.</summary>
    public Mass? TolerableShortfall { get; init; }

    /// <summary>Chance that a lot meets every part of the rule. 50 to 99.99 %. Default 95 % (engineering choice).</summary>
    public Ratio Confidence { get; init; } = Ratio.FromPercent(95);

    /// <summary>Jars in a lot; null takes those of the run. 1 to 200000.</summary>
    public int? Lot { get; init; }

    /// <summary>Hottest place a jar will stand. 0 to 80 °C. Default 40 °C (engineering choice: a shop window, a car in summer may be hotter).</summary>
    public Temperature HottestStore { get; init; } = Temperature.FromDegreesCelsius(40);

    /// <summary>Headspace asked for then, share of the brimful volume. 0 to 50 %. Default 1 % (engineering choice).</summary>
    public Ratio LeastHeadspace { get; init; } = Ratio.FromPercent(1);

    /// <summary>Jars in a case. 1 to 1000. Default 12.</summary>
    public int JarsPerCase { get; init; } = 12;

    /// <summary>Longest time that filling one jar is put up with. 1 s to 1 day. Default 10 min (engineering choice).</summary>
    public Duration LongestFill { get; init; } = Duration.FromMinutes(10);

    /// <summary>Most jars to fill; null fills as many as there are. 1 to 200000.</summary>
    public int? MostJars { get; init; }

    /// <summary>Hours at work in a day, for what is given away in one. 0.1 to 24 h. Default 8 h.</summary>
    public Duration WorkDay { get; init; } = Duration.FromHours(8);

    /// <summary>Gap that a loose blade leaves when shut; null for a gate that closes tight. 1 µm to 5 mm.</summary>
    public Length? Clearance { get; init; }

    /// <summary>Length of that gap along the flow: the width of the seat. 0.5 to 50 mm. Default 3 mm (engineering choice).</summary>
    public Length BladeSeat { get; init; } = Length.FromMillimeters(3);

    /// <summary>How long the shut tank stands. 0 to 30 days. Default 12 h: a night.</summary>
    public Duration Night { get; init; } = Duration.FromHours(12);

    /// <summary>Net weight on the label: the one given, or what the jar is sold as.</summary>
    internal Mass Label => LabelledMass ?? Jar.SoldAs!.Value;
}
