using FlowSim.Heating;
using FlowSim.HeatDamage;
using FlowSim.Warming;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>Rules that every run keeps, on invented setups.</summary>
public class WarmingPropertyTests
{
    /// <summary>Error allowed in a step of these runs, K: the default.</summary>
    private const double ToleranceK = 0.01;

    /// <summary>
    /// Slack on comparisons of temperatures, K: both runs carry an error of at most the tolerance in each step, and conduction forgets
    /// it within a few steps.
    /// </summary>
    private const double SlackK = 5 * ToleranceK;

    /// <summary>Slack on comparisons of times between two runs, relative: <see cref="SlackK"/> over what is left to the target, which is at least 0.5 K.</summary>
    private const double Slack = 0.01;

    [Property(MaxTest = 3000)]
    public void Energy_balances_to_1e_8_and_nothing_is_NaN_whatever_happens(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingResult r = WarmingRun.Simulate(Any(seed), Small with { Inside = (InsideHeat)(Math.Abs((long)seed) % 3) });

        Assert.True(Math.Abs(r.Energy.BalanceRelative) <= 1e-8, $"seed {seed}: balance {r.Energy.BalanceRelative:g3}");
        double sum = r.Energy.IntoHoney.Joules + r.Energy.IntoBody.Joules + r.Energy.ToRoom.Joules;
        double size = Math.Abs(r.Energy.IntoHoney.Joules) + Math.Abs(r.Energy.IntoBody.Joules) + Math.Abs(r.Energy.ToRoom.Joules) + Math.Abs(r.Energy.Heater.Joules);
        Assert.True(Math.Abs(r.Energy.Heater.Joules - sum) <= (1e-8 * size) + 1e-3, $"seed {seed}: heater {r.Energy.Heater} against {sum}");
        Assert.All(
            new[]
            {
                r.End.Coldest.Kelvins, r.End.Mean.Kelvins, r.End.Hottest.Kelvins, r.End.Wall.Kelvins, r.End.Probe.Kelvins, r.End.Body.Kelvins, r.HottestHoney.Kelvins,
                r.HottestWall.Temperature.Kelvins, r.WallAboveProbe.Kelvins, r.CrystalsLeft.Percent, r.Viscosity.PascalSeconds, r.Energy.Melting.Joules,
                r.Damage.HmfGainHigh.MilligramsPerKilogram, r.WorstDamage.HmfGainHigh.MilligramsPerKilogram, r.Damage.DiastaseLeftLow.Percent, r.WorstDamage.DiastaseLeftLow.Percent,
            },
            figure => Assert.True(double.IsFinite(figure), $"seed {seed}: not finite"));
        double rounding = 1e-9;
        Assert.True(r.End.Coldest.Kelvins <= r.End.Mean.Kelvins + rounding && r.End.Mean.Kelvins <= r.End.Hottest.Kelvins + rounding && r.End.Hottest.Kelvins <= r.HottestHoney.Kelvins + rounding, $"seed {seed}: {r.End}");
        Assert.True(r.End.Wall.Kelvins <= r.HottestWall.Temperature.Kelvins + 1e-9, $"seed {seed}: {r.End}");
        Assert.InRange(r.CrystalsLeft.DecimalFractions, 0, r.Setup.Crystals?.Share.DecimalFractions ?? 0);
        Assert.True(r.Energy.Melting.Joules >= 0, $"seed {seed}: melting {r.Energy.Melting}");
        Assert.True(r.Damage.HmfGain.MilligramsPerKilogram <= r.WorstDamage.HmfGain.MilligramsPerKilogram * (1 + 1e-9), $"seed {seed}: damage {r.Damage.HmfGain} {r.WorstDamage.HmfGain}");

        // What is held after the target may still get too hot.
        Assert.True(r.TimeToTarget is null ? r.Status != WarmingStatus.Reached : r.Status is WarmingStatus.Reached or WarmingStatus.Overheated, $"seed {seed}: {r.Status}");
        Assert.True(r.TimeToTarget is null || r.TargetTimes.All(at => at is { } reached && reached <= r.TimeToTarget), $"seed {seed}");
        if (r.Setup.Heating.HeaterPower is { } power)
            Assert.True(r.Energy.Heater.Joules <= (double)power.Watts * r.Elapsed.Seconds * (1 + 1e-6) + 1, $"seed {seed}: more than the heater has");
    }

    /// <summary>
    /// Heat flows from hot to cold: no honey is hotter than the hottest it began as and the hottest thing that it touches, nor colder than the coldest; within
    /// <see cref="SlackK"/>. What it touches is the room, the body where it does, and crystals only make it colder than that by the heat they take, never below.
    /// </summary>
    [Property(MaxTest = 1500)]
    public void Honey_gets_no_hotter_than_what_heats_it_nor_colder_than_what_cools_it(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSetup setup = Any(seed);
        WarmingResult r = WarmingRun.Simulate(setup, Small with { SeriesPoints = 400 });
        double startK = setup.StartTemperature.Kelvins;

        // Honey is heated through walls only, so that a wall has always been hotter.
        Assert.True(r.HottestHoney.Kelvins <= Math.Max(startK, r.HottestWall.Temperature.Kelvins) + SlackK, $"seed {seed}: honey of {r.HottestHoney}, walls of {r.HottestWall.Temperature}");

        // The body goes up only by its heater, which stops at the setpoint, and down only by what is colder.
        double[] set = [.. setup.Heating.Thermostat.Schedule.Select(step => step.Setpoint.Kelvins)];
        double roomK = setup.RoomTemperature.Kelvins, bodyK = (setup.Heating.BodyStart ?? setup.RoomTemperature).Kelvins;
        double coldest = Math.Min(startK, Math.Min(roomK, bodyK));
        bool unlimited = setup.Heating.HeaterPower is null;
        if (unlimited)
            coldest = Math.Min(coldest, set.Min());
        double hottest = Math.Max(startK, Math.Max(roomK, bodyK));
        if (setup.Heating.Thermostat is { Sensor: SensorPlace.Body } thermostat && thermostat.Lag.Seconds == 0)
            hottest = Math.Max(hottest, set.Max() + (unlimited ? 0 : thermostat.Hysteresis.Kelvins / 2));
        else
            hottest = Math.Max(hottest, r.Series.BodyK.Max() + 5); // The series has no point at every switching.
        for (int i = 0; i < r.Series.TimeS.Count; i++)
        {
            Assert.True(r.Series.ColdestK[i] >= coldest - SlackK, $"seed {seed}: {r.Series.ColdestK[i]:r} K below {coldest:r} K");
            Assert.True(r.Series.HottestK[i] <= hottest + SlackK, $"seed {seed}: {r.Series.HottestK[i]:r} K above {hottest:r} K");
            Assert.True(r.Series.WallK[i] <= hottest + SlackK, $"seed {seed}: wall {r.Series.WallK[i]:r} K above {hottest:r} K");
            Assert.True(r.Series.BodyK[i] >= coldest - SlackK, $"seed {seed}: body {r.Series.BodyK[i]:r} K below {coldest:r} K");
        }
    }

    [Property(MaxTest = 300)]
    public void Damage_and_melting_only_ever_grow(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSeries s = WarmingRun.Simulate(Any(seed), Small with { SeriesPoints = 200 }).Series;
        for (int i = 1; i < s.TimeS.Count; i++)
        {
            Assert.True(s.TimeS[i] >= s.TimeS[i - 1], $"seed {seed}");
            Assert.True(s.HmfGainLow[i] >= s.HmfGainLow[i - 1] && s.HmfGain[i] >= s.HmfGain[i - 1] && s.HmfGainHigh[i] >= s.HmfGainHigh[i - 1], $"seed {seed}, row {i}");
            Assert.True(s.DiastaseLeftLow[i] <= s.DiastaseLeftLow[i - 1] + 1e-12 && s.DiastaseLeft[i] <= s.DiastaseLeft[i - 1] + 1e-12 && s.DiastaseLeftHigh[i] <= s.DiastaseLeftHigh[i - 1] + 1e-12, $"seed {seed}, row {i}");
            Assert.True(s.CrystalsLeft[i] <= s.CrystalsLeft[i - 1] + 1e-12, $"seed {seed}, row {i}");
        }
    }

    [Property(MaxTest = 500)]
    public void No_energy_is_put_in_after_a_cut_out(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSetup setup = Any(seed);
        setup = setup with { Heating = setup.Heating with { Thermostat = setup.Heating.Thermostat with { CutOut = Celsius(25 + (new Random(seed).NextDouble() * 40)) } } };
        WarmingResult r = WarmingRun.Simulate(setup, Small);
        if (r.CutOutAt is not { } cut || cut.Minutes < 1)
            return;
        WarmingResult until = WarmingRun.Simulate(setup with { Longest = cut }, Small);
        double size = Math.Abs(until.Energy.IntoHoney.Joules) + Math.Abs(until.Energy.ToRoom.Joules) + Math.Abs(until.Energy.Heater.Joules);
        Assert.True(Math.Abs(r.Energy.Heater.Joules - until.Energy.Heater.Joules) <= (1e-4 * size) + 1, $"seed {seed}: {until.Energy.Heater.Joules} J, then {r.Energy.Heater.Joules} J");
    }

    /// <summary>
    /// Holds in air that is at the setpoint at every moment, crystals or not. It need not hold for a mean where the honey has melted in part: hotter
    /// air melts more, and what has melted stirs, so that heat goes inward that would have kept the rim hot; nor with a heater of limited power and a
    /// sensor elsewhere, where a higher setpoint can mean another rhythm of the thermostat.
    /// </summary>
    [Property(MaxTest = 400)]
    public void A_higher_setpoint_is_never_later_and_never_does_less_damage_in_the_same_time(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSetup setup = InAir(seed, crystals: seed % 2 == 0);
        WarmingSetup higher = Hotter(setup, 3);
        WarmingResult low = WarmingRun.Simulate(setup, Small), high = WarmingRun.Simulate(higher, Small);
        NotLater(high.TimeToTarget, low.TimeToTarget, seed);

        Duration time = Duration.FromSeconds(Math.Clamp(low.Elapsed.Seconds, 60, 1e6));
        low = WarmingRun.Simulate(setup with { Targets = [], Longest = time }, Small);
        high = WarmingRun.Simulate(higher with { Targets = [], Longest = time }, Small);
        Assert.True(high.Damage.HmfGain.MilligramsPerKilogram >= low.Damage.HmfGain.MilligramsPerKilogram * (1 - Slack), $"seed {seed}: {high.Damage.HmfGain} at the higher, {low.Damage.HmfGain} at the lower");
        Assert.True(high.WorstDamage.HmfGain.MilligramsPerKilogram >= low.WorstDamage.HmfGain.MilligramsPerKilogram * (1 - Slack), $"seed {seed}: worst");
        Assert.True(high.Damage.DiastaseLeft.DecimalFractions <= low.Damage.DiastaseLeft.DecimalFractions * (1 + Slack), $"seed {seed}: diastase");
        Assert.True(high.CrystalsLeft.Percent <= low.CrystalsLeft.Percent + (Slack * 40), $"seed {seed}: crystals");
    }

    /// <summary>
    /// For the time to a mean, of liquid honey, in air all around. It need not hold with crystals: well mixed, all of them melt while the honey is in
    /// their range, and the mean stands; by conduction the rim is far above while the core has not begun, and the mean is not held up. Nor with heat from
    /// one side and loss on another, where stirring brings warm honey to the cold wall.
    /// </summary>
    [Property(MaxTest = 500)]
    public void The_best_estimate_lies_between_its_bounds(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingBounds bounds = WarmingBounds.Of(InAir(seed), Small);
        NotLater(bounds.WellMixed.TimeToTarget, bounds.Best.TimeToTarget, seed);
        NotLater(bounds.Best.TimeToTarget, bounds.ConductionOnly.TimeToTarget, seed);
    }

    /// <summary>Insulation all around, in air. A layer that conducts well is no insulation on a thin vessel: it adds surface.</summary>
    [Property(MaxTest = 300)]
    public void More_insulation_is_never_sooner(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSetup setup = InAir(seed);

        // Above the radius λ/h below which a layer adds more surface than resistance: 0.035/2.
        WarmingSetup wrapped = setup with
        {
            Vessel = setup.Vessel with { Wall = [.. setup.Vessel.Wall, WallMaterial.ByName("foam").Layer(Length.FromMillimeters(LogBetween(new Random(seed), 1, 100)))] },
        };
        NotLater(WarmingRun.Simulate(setup, Small).TimeToTarget, WarmingRun.Simulate(wrapped, Small).TimeToTarget, seed);
    }

    [Property(MaxTest = 200)]
    public void More_vessels_on_one_heater_are_never_sooner_nor_is_a_weaker_heater(DoNotSize<int> any)
    {
        int seed = any.Item;
        var random = new Random(seed);
        WarmingSetup setup = InAir(seed);
        double watts = LogBetween(random, 100, 5000);
        setup = setup with
        {
            // Hysteresis 0: with a band it can be ahead or behind by where in the band the body happens to be.
            Heating = setup.Heating with
            {
                HeaterPower = Power.FromWatts(watts),
                Thermostat = setup.Heating.Thermostat with { Hysteresis = TemperatureDelta.Zero },
                LossArea = Area.FromSquareMeters(random.Next(2) * 2),
            },
            RoomTemperature = setup.StartTemperature,
            Vessels = random.Next(1, 5),
        };
        WarmingResult few = WarmingRun.Simulate(setup, Small);
        NotLater(few.TimeToTarget, WarmingRun.Simulate(setup with { Vessels = setup.Vessels + random.Next(1, 5) }, Small).TimeToTarget, seed);
        NotLater(few.TimeToTarget, WarmingRun.Simulate(setup with { Heating = setup.Heating with { HeaterPower = Power.FromWatts(watts / 2) } }, Small).TimeToTarget, seed);
    }

    [Property(MaxTest = 80)]
    public void A_finer_tolerance_converges(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSetup setup = Any(seed) with { Targets = [] };

        // A thermostat that switches at another time at the very end is ahead by up to its band.
        setup = setup with { Heating = setup.Heating with { HeaterPower = null, Thermostat = setup.Heating.Thermostat with { Sensor = SensorPlace.Body } } };
        double Mean(double tolerance) => WarmingRun.Simulate(setup, Small with { Tolerance = TemperatureDelta.FromKelvins(tolerance) }).End.Mean.Kelvins;
        double reference = Mean(1e-5);
        double loose = Math.Abs(Mean(0.01) - reference), tight = Math.Abs(Mean(3e-4) - reference);
        Assert.True(loose <= SlackK, $"seed {seed}: off by {loose:g3} K");
        Assert.True(tight <= SlackK / 10, $"seed {seed}: off by {tight:g3} K");
    }

    /// <summary>The room and every temperature moved by the same amount leaves nothing as it was but this: the honey that starts, stands and is heated at one temperature stays there.</summary>
    [Property(MaxTest = 200)]
    public void Where_all_is_equally_warm_nothing_happens(DoNotSize<int> any)
    {
        int seed = any.Item;
        WarmingSetup setup = Any(seed);
        Temperature all = Celsius(-5 + (new Random(seed).NextDouble() * 60));
        setup = setup with
        {
            StartTemperature = all,
            RoomTemperature = all,
            Targets = [],
            Crystals = null,

            // A thermostat just at its setpoint may as well be on: it is put well below.
            Heating = setup.Heating with { BodyStart = all, Thermostat = Thermostat.At(setup.Heating.HeaterPower is null ? all : all - TemperatureDelta.FromKelvins(5)) },
        };
        WarmingResult r = WarmingRun.Simulate(setup, Small);
        Assert.Equal(all.Kelvins, r.End.Coldest.Kelvins, 1e-9);
        Assert.Equal(all.Kelvins, r.HottestHoney.Kelvins, 1e-9);
        Assert.Equal(0, r.Energy.Heater.Joules, 1e-3);
        Assert.Equal(0, r.Switchings);
    }

    private static WarmingSetup Hotter(WarmingSetup setup, double kelvins) =>
        setup with { Heating = setup.Heating with { Thermostat = Thermostat.At(setup.Heating.Thermostat.Schedule[0].Setpoint + TemperatureDelta.FromKelvins(kelvins)) } };

    private static void NotLater(Duration? sooner, Duration? later, int seed)
    {
        if (later is not { } limit)
            return;
        Assert.True(sooner is not null, $"seed {seed}: never, though the other is there after {limit.Seconds:0} s");
        Assert.True(sooner.Value.Seconds <= (limit.Seconds * (1 + Slack)) + 1, $"seed {seed}: {sooner.Value.Seconds:0.0} s, not before {limit.Seconds:0.0} s");
    }
}
