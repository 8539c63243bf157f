using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>Rules that every run keeps, on invented setups.</summary>
public class StrainingPropertyTests
{
    private static readonly StrainingOptions NoSeries = new() { SeriesPoints = 0 };

    /// <summary>
    /// Slack on comparisons between two runs, relative: both carry the integrator's error at its default tolerance (1e-8 a
    /// step, some tens of steps).
    /// </summary>
    private const double Slack = 1e-5;

    [Property(MaxTest = 10_000)]
    public void Mass_balances_to_1e_10_and_nothing_is_NaN_whatever_happens(DoNotSize<int> any)
    {
        int seed = any.Item;
        StrainingResult result = StrainingRun.Simulate(Any(seed), NoSeries);

        MassAccount m = result.Masses;
        double sum = (m.Strained + m.Bypassed + m.Spilled + m.Held).Kilograms;
        Assert.True(Math.Abs(m.BalanceRelative) <= 1e-10, $"seed {seed}: {result.Status}, balance {m.BalanceRelative:g3}");
        Assert.True(Math.Abs(sum - m.Start.Kilograms) <= 1e-10 * m.Start.Kilograms, $"seed {seed}: parts {sum:r} of {m.Start.Kilograms:r}");
        Assert.All(
            new[] { m.Strained, m.Bypassed, m.SpilledAtStrainer, m.SpilledAtReceiver, m.HeldInFilm, m.HeldInTank, m.HeldOnCloth },
            part => Assert.True(part.Kilograms >= -1e-9 * m.Start.Kilograms, $"seed {seed}: {part}"));
        Assert.All(result.Blinded, b => Assert.InRange(b.DecimalFractions, 0, 1));
        Assert.True(double.IsFinite(result.PeakPond.Meters) && double.IsFinite(result.Elapsed.Seconds));
        Assert.InRange(result.PeakPond.Meters, 0, result.Setup.Strainer.Shape.RimHeightM * (1 + 1e-9));
        Assert.Equal(result.Status == StrainingStatus.Overflowed, result.FirstOverflow is not null);
    }

    [Property(MaxTest = 300)]
    public void Series_are_finite_in_order_and_keep_the_mass(DoNotSize<int> any)
    {
        int seed = any.Item;
        StrainingSeries s = StrainingRun.Simulate(Any(seed)).Series;
        double start = s.TankMassKg[0];
        for (int i = 0; i < s.TimeS.Count; i++)
        {
            double sum = s.TankMassKg[i] + s.PondMassKg[i] + s.StrainedKg[i] + s.OverRimKg[i];
            Assert.True(Math.Abs(sum - start) <= 1e-9 * start, $"seed {seed}, row {i}: {sum:r} of {start:r}");
            Assert.True(i == 0 || s.TimeS[i] >= s.TimeS[i - 1], $"seed {seed}, row {i}: time runs backwards");
            Assert.True(
                double.IsFinite(s.TankLevelM[i] + s.PondDepthM[i] + s.ReceiverLevelM[i] + s.Opening[i] + s.GateFlowKgPerS[i]
                    + s.ClothFlowKgPerS[i] + s.OverRimFlowKgPerS[i] + s.TankTemperatureK[i] + s.PondTemperatureK[i] + s.ReceiverTemperatureK[i]),
                $"seed {seed}, row {i}");
        }
    }

    [Property(MaxTest = 200)]
    public void The_output_grid_does_not_change_the_run(DoNotSize<int> any)
    {
        int seed = any.Item;
        StrainingSetup setup = Any(seed);
        StrainingResult none = StrainingRun.Simulate(setup, NoSeries);
        StrainingResult many = StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 977 });

        Assert.Equal(none.Masses, many.Masses);
        Assert.Equal(none.Drain, many.Drain);
        Assert.Equal(none.Strain, many.Strain);
        Assert.Equal(none.Elapsed, many.Elapsed);
        Assert.Equal(none.PeakPond, many.PeakPond);
        Assert.Equal(none.Solver, many.Solver);
    }

    [Property(MaxTest = 300)]
    public void Warmer_or_wetter_never_drains_slower(DoNotSize<int> any)
    {
        int seed = any.Item;
        StrainingSetup setup = Plain(seed);
        StrainingResult cool = StrainingRun.Simulate(setup, NoSeries);
        StrainingResult warm = StrainingRun.Simulate(setup with { HoneyTemperature = setup.HoneyTemperature + TemperatureDelta.FromKelvins(5) }, NoSeries);
        StrainingResult wet = StrainingRun.Simulate(setup with { Honey = setup.Honey with { Moisture = setup.Honey.Moisture + Percent(0.5) } }, NoSeries);

        NotLater(warm.Drain.To95, cool.Drain.To95, seed);
        NotLater(wet.Drain.To95, cool.Drain.To95, seed);

        // Through the cloth it holds where the wetted area does not depend on the pond: thin honey stands lower in a cone, wets
        // less cloth, and can blind that little altogether. Honey over the rim never passes the cloth.
        if (setup.Strainer.Shape is not FlatDisc || cool.Overflows.Count > 0)
            return;

        // Nor where the layer that stays on the cloth decides whether 95 % is reached at all: a slow gate lets the pond sink
        // into the last millimetre, where the run ends, before the tank is at its heel (seed 1012474038).
        if (new[] { cool, warm, wet }.Any(run => run.Masses.HeldOnCloth > 0.045 * run.Masses.CanDrain))
            return;
        if (warm.Overflows.Count == 0)
            NotLater(warm.Strain.To95, cool.Strain.To95, seed);
        if (wet.Overflows.Count == 0)
            NotLater(wet.Strain.To95, cool.Strain.To95, seed);
    }

    [Property(MaxTest = 300)]
    public void A_finer_cloth_or_more_debris_never_strains_faster(DoNotSize<int> any)
    {
        int seed = any.Item;
        StrainingSetup setup = Plain(seed);
        Cloth first = setup.Strainer.Cloths[0];
        var finer = new Cloth { Opening = first.Opening * 0.8, WireDiameter = first.WireDiameter * 0.8 };
        StrainingSetup clean = setup with { Debris = setup.Debris with { Load = Ratio.Zero } };

        // The same cloth scaled down, with nothing to catch: what a finer cloth catches is another question.
        NeverAhead(clean with { Strainer = setup.Strainer with { Cloths = [finer, .. setup.Strainer.Cloths.Skip(1)] } }, clean, seed);
        NeverAhead(setup with { Debris = setup.Debris with { Load = setup.Debris.Load * 2 } }, setup, seed);
    }

    [Property(MaxTest = 300)]
    public void A_scrape_never_makes_it_worse(DoNotSize<int> any)
    {
        int seed = any.Item;
        StrainingSetup setup = Plain(seed);
        StrainingResult left = StrainingRun.Simulate(setup, NoSeries);
        if (left.Elapsed.Seconds == 0)
            return; // All but shut: nothing to scrape.
        double during = left.Elapsed.Seconds * (0.1 + (0.8 * new Random(seed).NextDouble()));
        StrainingResult scraped = StrainingRun.Simulate(
            setup with { Scraping = new Scraping { Times = [Duration.FromSeconds(during)] } },
            NoSeries);

        Assert.True(
            scraped.Masses.Bypassed + scraped.Masses.Spilled <= left.Masses.Bypassed + left.Masses.Spilled + (left.Masses.Start * Slack),
            $"seed {seed}: more went over the rim");
        Assert.True(scraped.PeakPond.Meters <= left.PeakPond.Meters * (1 + Slack), $"seed {seed}: deeper pond");
        if (left.Overflows.Count == 0)
            NotLater(scraped.Strain.To95, left.Strain.To95, seed);
    }

    /// <summary>
    /// Froude and Reynolds together: lengths × λ and viscosity × λ^1.5 leave the process the same in time units of √λ. Holds
    /// without heat exchange, which brings scales of its own.
    /// </summary>
    [Property(MaxTest = 200)]
    public void Doubling_every_size_agrees_with_dimensional_analysis(DoNotSize<int> any)
    {
        int seed = any.Item;
        // The end is cut at corresponding times, since the 2 mm of the heel do not grow with the tank.
        double scale = 2;
        StrainingSetup small = SimilarSetup(seed, 1);
        double seconds = StrainingRun.Simulate(small, NoSeries).Drain.To90!.Value.Seconds;
        StrainingSetup large = SimilarSetup(seed, scale) with { Longest = Duration.FromSeconds(seconds * Math.Sqrt(scale)) };
        StrainingResult a = StrainingRun.Simulate(small with { Longest = Duration.FromSeconds(seconds) });
        StrainingResult b = StrainingRun.Simulate(large);

        double volume = scale * scale * scale;
        Assert.Equal(1, b.Series.TankLevelM[^1] / (scale * a.Series.TankLevelM[^1]), 1e-6);
        Assert.Equal(1, b.Series.StrainedKg[^1] / (volume * a.Series.StrainedKg[^1]), 1e-6);
        Assert.Equal(1, b.Masses.HeldInFilm.Kilograms / (volume * a.Masses.HeldInFilm.Kilograms), 1e-6);
        Assert.Equal(1, b.PeakPond.Meters / (scale * a.PeakPond.Meters), 1e-6);
        Assert.Equal(a.Masses.Bypassed / a.Masses.Start, b.Masses.Bypassed / b.Masses.Start, 1e-6);
        Assert.Equal(a.Blinded[0].DecimalFractions, b.Blinded[0].DecimalFractions, 1e-6);
    }

    private static StrainingSetup SimilarSetup(int seed, double scale)
    {
        var random = new Random(seed);
        double R(double low, double high) => low + ((high - low) * random.NextDouble());
        Length Mm(double low, double high) => Length.FromMillimeters(R(low, high) * scale);
        double opening = R(0.3, 1.2);
        Length diameter = Mm(250, 600);
        return new StrainingSetup
        {
            // The thermal masses are small shares of the charge, and nothing is exchanged with the room: 35 °C throughout.
            Honey = new Honey { Moisture = Percent(17.5), LotFactor = 0.5 * Math.Pow(scale, 1.5) },
            HoneyTemperature = Celsius(35),
            RoomTemperature = Celsius(35),
            Tank = new Tank
            {
                Shape = new UprightCylinder(diameter, diameter * 1.4),
                Level = diameter * R(0.8, 1.3),
                HeldAtTemperature = true,
            },
            Gate = new Gate { Bore = Mm(25, 60), TubeLength = Mm(10, 80) },
            Control = GateControl.LeaveAt(Percent(R(20, 100))),
            Strainer = new Strainer
            {
                Shape = new ConeScreen(Mm(200, 500), Mm(60, 250)),
                Cloths = [new Cloth { Opening = Length.FromMillimeters(opening * scale), WireDiameter = Length.FromMillimeters(0.6 * opening * scale) }],
                MinimumHead = Length.FromMillimeters(2 * scale),
            },
            Debris = new Debris { MedianSize = Length.FromMillimeters(0.6 * scale), Load = Ratio.FromPartsPerMillion(R(100, 2000)) },
            Receiver = new Receiver
            {
                Shape = new UprightCylinder(Length.FromMeters(1.2 * scale), Length.FromMeters(1.2 * scale)),
            },
        };
    }

    /// <summary>At no time has the hindered run strained more, nor does it finish sooner.</summary>
    private static void NeverAhead(StrainingSetup hindered, StrainingSetup setup, int seed)
    {
        StrainingResult slow = StrainingRun.Simulate(hindered, NoSeries);
        StrainingResult fast = StrainingRun.Simulate(setup, NoSeries);
        foreach ((Duration? late, Duration? soon) in new[]
        {
            (slow.Strain.To50, fast.Strain.To50), (slow.Strain.To90, fast.Strain.To90), (slow.Strain.To95, fast.Strain.To95),
        })
        {
            NotLater(soon, late, seed);
        }
    }

    private static void NotLater(Duration? soon, Duration? late, int seed)
    {
        if (late is not { } upper)
            return;
        Assert.True(soon is not null, $"seed {seed}: never, though the other run takes {upper}");
        Assert.True(soon.Value.Seconds <= upper.Seconds * (1 + Slack), $"seed {seed}: {soon.Value.Seconds:r} s is later than {upper.Seconds:r} s");
    }
}
