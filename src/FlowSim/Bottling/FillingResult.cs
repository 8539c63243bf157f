using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>What a filling run comes to.</summary>
public sealed record FillingResult
{
    /// <summary>The setup that was run.</summary>
    public required FillingSetup Setup { get; init; }

    /// <summary>Why the run ended.</summary>
    public required FillingStatus Status { get; init; }

    /// <summary>Full jars.</summary>
    public required int Jars { get; init; }

    /// <summary>Full cases.</summary>
    public int Cases => Jars / Setup.JarsPerCase;

    /// <summary>Jars over.</summary>
    public int LooseJars => Jars % Setup.JarsPerCase;

    /// <summary>Time from the first jar to the last one taken away.</summary>
    public required Duration Elapsed { get; init; }

    /// <summary>Times that jars take to fill; null when none was filled.</summary>
    public required FillTimes? FillTimes { get; init; }

    /// <summary>How far ahead to shut the gate; null when no jar was filled.</summary>
    public required CutOffs? CutOffs { get; init; }

    /// <summary>Jars in an hour, over the whole run; 0 when none was filled.</summary>
    public required double JarsPerHour { get; init; }

    /// <summary>Cases in an hour, over the whole run.</summary>
    public double CasesPerHour => JarsPerHour / Setup.JarsPerCase;

    /// <summary>Whether the jar holds the target fill.</summary>
    public required Headspace Headspace { get; init; }

    /// <summary>How much to aim for.</summary>
    public required TargetFill Target { get; init; }

    /// <summary>The label's net weight in both systems.</summary>
    public required NetWeightLabel Label { get; init; }

    /// <summary>Given away in a day at this rate.</summary>
    public required Mass GivenAwayPerDay { get; init; }

    /// <summary>Of that, what would be saved if fills scattered half as much.</summary>
    public required Mass SavedPerDayAtHalfScatter { get; init; }

    /// <summary>What the shut gate loses; null for one that closes tight.</summary>
    public required GateLeak? Leak { get; init; }

    /// <summary>Where the honey is at the end.</summary>
    public required FillingMasses Masses { get; init; }

    /// <summary>Viscosity in the tank at the start, lot factor included.</summary>
    public required DynamicViscosity StartViscosity { get; init; }

    /// <summary>Temperature of the tank at the end.</summary>
    public required Temperature EndTemperature { get; init; }

    /// <summary>The run jar by jar.</summary>
    public required FillingSeries Series { get; init; }

    /// <summary>What the user should know about the figures.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }
}

/// <summary>Times that jars take to fill: gate open to gate shut.</summary>
/// <param name="First">The first jar.</param>
/// <param name="Median">The jar in the middle of the run.</param>
/// <param name="Last">The last jar.</param>
public sealed record FillTimes(Duration First, Duration Median, Duration Last);

/// <summary>How far ahead to shut the gate as the tank empties.</summary>
/// <param name="First">For the first jar.</param>
/// <param name="Median">For the jar in the middle of the run.</param>
/// <param name="Last">For the last jar.</param>
public sealed record CutOffs(CutOff First, CutOff Median, CutOff Last);
