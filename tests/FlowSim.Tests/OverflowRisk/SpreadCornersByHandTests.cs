using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The common corners, their limits, and the band that the runs at them make.</summary>
public class SpreadCornersByHandTests
{
    /// <summary>90 % quantile of the standard normal distribution, as in any table of it (from memory).</summary>
    private const double Z90 = 1.2815515655446004;

    private static readonly (int Viscosity, int Screen, int Debris)[] Eight =
        [(-1, -1, -1), (-1, -1, 1), (-1, 1, -1), (-1, 1, 1), (1, -1, -1), (1, -1, 1), (1, 1, -1), (1, 1, 1)];

    private static readonly StrainingOptions Quick = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };

    private static SpreadCorners Corners(StrainingSetup setup, params UncertainInput[] known) => new(setup, known, []);

    [Fact]
    public void Common_corners_are_at_the_ends_of_what_is_common()
    {
        StrainingSetup setup = Pail(30);
        foreach ((int viscosity, int screen, int debris) in Eight)
        {
            StrainingSetup corner = Corners(setup).At(viscosity, screen, debris);
            Assert.Equal(Math.Exp(0.30 * Z90 * viscosity), corner.Honey.LotFactor, 1e-9);
            Assert.Equal(screen < 0 ? 0.62 : 1, corner.Strainer.ScreenFactor, 1e-12);
            Assert.Equal(debris < 0 ? 0.01 : 0.09, corner.Debris.Load.Percent, 1e-12);
            Assert.Equal((setup.Tank, setup.Control, setup.HoneyTemperature), (corner.Tank, corner.Control, corner.HoneyTemperature));
        }
    }

    /// <summary>A lot factor within 0.05 to 20, a cloth's from 0.05 on, debris up to 2 %.</summary>
    [Fact]
    public void Common_corners_stay_within_what_a_setup_allows()
    {
        StrainingSetup setup = Pail(30);
        StrainingSetup Of(double lot, double screen, double percent) => setup with
        {
            Honey = setup.Honey with { LotFactor = lot },
            Strainer = setup.Strainer with { ScreenFactor = screen },
            Debris = setup.Debris with { Load = Ratio.FromPercent(percent) },
        };

        StrainingSetup high = Corners(Of(19, 1, 1.5)).At(1, 1, 1), low = Corners(Of(0.06, 0.06, 0)).At(-1, -1, -1);
        Assert.Equal((20.0, 2.0), (high.Honey.LotFactor, high.Debris.Load.Percent));
        Assert.Equal((0.05, 0.05, 0.0), (low.Honey.LotFactor, low.Strainer.ScreenFactor, low.Debris.Load.Percent));
    }

    /// <summary>What is known of the three lies at its own 10 % and 90 %, of another at its median; one beyond what the setup allows at the limit.</summary>
    [Fact]
    public void What_is_known_takes_the_place_of_what_is_common()
    {
        StrainingSetup setup = Pail(30);
        SpreadCorners corners = Corners(
            setup,
            Given(StrainingInputs.DebrisLoad, new UniformDistribution(0.001, 0.002)),
            Given(StrainingInputs.ScreenFactor, new UniformDistribution(1, 2)),
            Given(StrainingInputs.TankLevel, new UniformDistribution(0.10, 0.40)),
            Given(StrainingInputs.GateFactor, new UniformDistribution(1, 3)));
        foreach ((int viscosity, int screen, int debris) in Eight)
        {
            StrainingSetup corner = corners.At(viscosity, screen, debris);
            Assert.Equal(0.0015 + (0.0004 * debris), corner.Debris.Load.DecimalFractions, 1e-9);
            Assert.Equal(1.5 + (0.4 * screen), corner.Strainer.ScreenFactor, 1e-9);
            Assert.Equal(Math.Exp(0.30 * Z90 * viscosity), corner.Honey.LotFactor, 1e-9);
            Assert.Equal((0.15, 2.0), (corner.Tank.Level.Meters, corner.Gate.Factor));
        }
    }

    /// <summary>One that does nothing in the setup is passed over, with what it goes together with.</summary>
    [Fact]
    public void An_input_that_does_nothing_makes_no_corner()
    {
        StrainingSetup setup = Pail(30);
        UncertainInput pause = Normal(StrainingInputs.ScrapePause, 60, 5), lot = Given(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.1));
        StrainingSetup corner = new SpreadCorners(setup, [pause, lot], [new InputCorrelation("scraping.pause", "honey.lot_factor", 0.9)]).At(1, 1, 1);
        Assert.Equal(Math.Exp(0.1 * Z90), corner.Honey.LotFactor, 1e-9);
        Assert.Equal(setup.Scraping, corner.Scraping);
    }

    /// <summary>Ties are found whichever of the two is named first; a tie to what is not known is passed over.</summary>
    [Fact]
    public void A_tie_counts_either_way_round()
    {
        StrainingSetup setup = Pail(30);
        UncertainInput[] known = [Normal(StrainingInputs.GateFactor, 2, 0.1), Given(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.1))];
        foreach (InputCorrelation tie in new[] { new InputCorrelation("gate.factor", "honey.lot_factor", 0.6), new InputCorrelation("honey.lot_factor", "gate.factor", 0.6) })
        {
            StrainingSetup corner = new SpreadCorners(setup, known, [tie, new InputCorrelation("gate.factor", "tank.level", 0.9)]).At(-1, 1, 1);
            Assert.Equal(2 - (0.1 * 0.6 * Z90), corner.Gate.Factor, 1e-9);
            Assert.Equal(Math.Exp(-0.1 * Z90), corner.Honey.LotFactor, 1e-9);
        }
    }

    [Fact]
    public void What_is_not_there_is_refused_by_name()
    {
        Assert.Equal("known", Assert.Throws<ArgumentNullException>(() => new SpreadCorners(Pail(30), null!, [])).ParamName);
        Assert.Equal("correlations", Assert.Throws<ArgumentNullException>(() => new SpreadCorners(Pail(30), [], null!)).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => StrainingSpread.Of(null!)).ParamName);
        UncertainInput lot = Given(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.1));
        Assert.Equal("Inputs", Assert.Throws<ArgumentException>(() => Corners(Pail(30), lot, lot)).ParamName);
    }

    /// <summary>The pail at 58 %, somewhat beyond its limit: the eight corners and the setup itself, run one by one.</summary>
    [Fact]
    public void The_band_is_of_the_setup_and_its_eight_corners()
    {
        StrainingSetup setup = Pail(58);
        StrainingResult[] runs = [StrainingRun.Simulate(setup, Quick), .. Eight.Select(c => StrainingRun.Simulate(Corners(setup).At(c.Viscosity, c.Screen, c.Debris), Quick))];
        StrainingSpread spread = StrainingSpread.Of(setup);
        int over = runs.Count(run => run.FirstOverflow is not null);
        Assert.InRange(over, 1, 8); // Else it would prove little.
        Assert.Equal((9, over), (spread.Runs, spread.RunsThatRunOver));
        Assert.Equal(runs.Where(run => run.FirstOverflow is not null).Min(run => run.FirstOverflow!.Value.Seconds), spread.EarliestOverflow!.Value.Seconds, 1e-9);
        Assert.Equal((runs.Min(run => run.PeakPond), runs.Max(run => run.PeakPond)), spread.PeakPond);
        Assert.Equal(runs.Min(run => run.Drain.To95!.Value.Seconds), spread.Drain95.Low!.Value.Seconds, 1e-9);
        Assert.Equal(runs.Max(run => run.Drain.To95!.Value.Seconds), spread.Drain95.High!.Value.Seconds, 1e-9);

        // What falls to the floor is never strained: one that does so has no time.
        Assert.NotEqual(0, runs.Count(run => run.Strain.To95 is null));
        Assert.Equal(runs.Where(run => run.Strain.To95 is not null).Min(run => run.Strain.To95!.Value.Seconds), spread.Strain95.Low!.Value.Seconds, 1e-9);
        Assert.Null(spread.Strain95.High);
    }

    [Fact]
    public void Where_all_get_there_and_none_runs_over_it_says_so()
    {
        StrainingSpread spread = StrainingSpread.Of(Pail(20));
        Assert.Equal((9, 0), (spread.Runs, spread.RunsThatRunOver));
        Assert.Null(spread.EarliestOverflow);
        Assert.True(spread.Strain95.Low < spread.Strain95.High);

        // Of a run of a minute none gets there.
        Assert.Equal((null, null), StrainingSpread.Of(Pail(20) with { Longest = Seconds(60) }).Drain95);
    }
}
