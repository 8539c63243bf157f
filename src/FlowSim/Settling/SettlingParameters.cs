using FlowSim.Properties;

namespace FlowSim.Settling;

/// <summary>What follows from a setup, as SI doubles.</summary>
internal sealed class SettlingParameters
{
    /// <summary>
    /// Matter whose density is nearer to that of the honey than this somewhere in the run, or passes it, is taken to stay where it is, kg/m³ (engineering choice: what
    /// the honey's density is worth, and the cautious side).
    /// </summary>
    public const double BuoyantFromKgPerM3 = 5;

    public SettlingParameters(SettlingSetup setup)
    {
        Honey = SettlingSetupCheck.Require(setup);
        Setup = setup;
        Course = new TemperatureCourse(setup.Temperature);
        DepthM = setup.Depth.Meters;
        StandsForS = setup.StandsFor.Seconds;
        EndS = Math.Max(StandsForS, setup.Longest.Seconds);
        (ColdestK, HottestK) = Course.Extremes(0, EndS);
        StartK = Course.AtK(0);
        StartDensityKgPerM3 = Honey.DensityKgPerM3(StartK);

        List<SuspendedMatter> kinds = [];
        if (setup.Bubbles is { } bubbles)
        {
            BubbleIndex = kinds.Count;
            kinds.Add(SuspendedMatter.Of(bubbles));
        }

        if (setup.Debris is { } debris)
        {
            DebrisIndex = kinds.Count;
            kinds.Add(SuspendedMatter.Of(debris, StartDensityKgPerM3, setup.Bubbles?.Load.DecimalFractions ?? 0));
        }

        Matter = [.. kinds];
        Direction = [.. kinds.Select(DirectionOf)];
    }

    public SettlingSetup Setup { get; }

    public HoneyProperties Honey { get; }

    public TemperatureCourse Course { get; }

    public double DepthM { get; }

    /// <summary>Time it stands, s.</summary>
    public double StandsForS { get; }

    /// <summary>Time computed, s.</summary>
    public double EndS { get; }

    /// <summary>Temperature at the start, K.</summary>
    public double StartK { get; }

    public double ColdestK { get; }

    public double HottestK { get; }

    /// <summary>Extremes until it is skimmed, K; those above are of all that is computed.</summary>
    public (double ColdestK, double HottestK) WhileItStands => Course.Extremes(0, StandsForS);

    public double StartDensityKgPerM3 { get; }

    /// <summary>The kinds of matter, bubbles first.</summary>
    public SuspendedMatter[] Matter { get; }

    /// <summary>Of each kind 1 when it rises, −1 when it sinks, 0 when it stays.</summary>
    public int[] Direction { get; }

    /// <summary>Place of the bubbles among the kinds; null when there are none.</summary>
    public int? BubbleIndex { get; }

    /// <summary>Place of the debris among the kinds; null when there is none.</summary>
    public int? DebrisIndex { get; }

    /// <summary>Whether a kind has to be clear.</summary>
    public bool MustBeClear(int kind) => Setup.ClearOf switch
    {
        ClearOf.Bubbles => kind == BubbleIndex,
        ClearOf.Debris => kind == DebrisIndex,
        _ => true,
    };

    /// <summary>Speed of a sphere of a kind alone, over the square of its size, 1/(m·s); without sign.</summary>
    /// <param name="kind">Place of the kind.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    public double SpeedPerSizeSquared(int kind, double temperatureK) => Direction[kind] == 0
        ? 0
        : Math.Abs(StokesSphere.SpeedTimesViscosityStokes1851(1, Honey.DensityKgPerM3(temperatureK) - Matter[kind].DensityKgPerM3)) / Honey.ViscosityPaS(temperatureK);

    private int DirectionOf(SuspendedMatter matter)
    {
        // The density falls with temperature, so the extremes are at the ends.
        double least = Honey.DensityKgPerM3(HottestK) - matter.DensityKgPerM3;
        double most = Honey.DensityKgPerM3(ColdestK) - matter.DensityKgPerM3;
        if (least >= BuoyantFromKgPerM3)
            return 1;
        return most <= -BuoyantFromKgPerM3 ? -1 : 0;
    }
}
