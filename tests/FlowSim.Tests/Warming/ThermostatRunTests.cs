using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>What thermostat, power limit, cut-out and schedule do in whole runs.</summary>
public class ThermostatRunTests
{
    private static readonly WarmingOptions Fine = Small with { SeriesPoints = 2001, Tolerance = TemperatureDelta.FromKelvins(1e-3) };

    /// <summary>An invented pail of 19 L in a cabinet that has the power for it.</summary>
    internal static WarmingSetup Pail(double setC = 40, double? watts = 200) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        StartTemperature = Celsius(18),
        Vessel = new WarmedVessel
        {
            Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)),
            Level = Length.FromMillimeters(298),
            Wall = [WallMaterial.ByName("polyethylene").Layer(Length.FromMillimeters(2))],
        },
        Heating = new WarmAir
        {
            Thermostat = Thermostat.At(Celsius(setC)),
            HeaterPower = watts is { } w ? Power.FromWatts(w) : null,
            LossArea = Area.FromSquareMeters(2),
        },
        Longest = Duration.FromHours(24),
    };

    private static WarmingSetup With(WarmingSetup setup, Func<Thermostat, Thermostat> change) =>
        setup with { Heating = setup.Heating with { Thermostat = change(setup.Heating.Thermostat) } };

    private static Thermostat Follow(params (double Hours, double Celsius, bool Ramp)[] steps) =>
        new() { Schedule = [.. steps.Select(step => new SetpointStep(Duration.FromHours(step.Hours), RandomWarmings.Celsius(step.Celsius), step.Ramp))] };

    [Theory]
    [InlineData(0.5)]
    [InlineData(2)]
    [InlineData(8)]
    public void The_body_stays_in_the_band_once_it_is_there(double hysteresis)
    {
        WarmingResult result = WarmingRun.Simulate(With(Pail(), t => t with { Hysteresis = TemperatureDelta.FromKelvins(hysteresis) }), Fine);
        int there = Enumerable.Range(0, 2001).First(i => result.Series.BodyK[i] >= 313.15 - (hysteresis / 2));
        Assert.All(result.Series.BodyK.Skip(there), kelvins => Assert.InRange(kelvins, 313.15 - (hysteresis / 2) - 1e-6, 313.15 + (hysteresis / 2) + 1e-6));
        Assert.True(result.Switchings > 2, $"{result.Switchings} switchings");
    }

    /// <summary>A probe with lag τ in a body that moves at a rate r is behind by at most rτ: that much the body leaves the band.</summary>
    [Theory]
    [InlineData(60)]
    [InlineData(600)]
    public void A_lagging_probe_lets_the_body_overshoot_by_no_more_than_rate_times_lag(double lagS)
    {
        WarmingSetup setup = With(Pail(), t => t with { Lag = Duration.FromSeconds(lagS) });
        WarmingResult result = WarmingRun.Simulate(setup, Fine);
        double fastest = 200 / 30_000.0; // All power into the body alone.
        double most = result.Series.BodyK.Max();
        Assert.InRange(most, 314.15 + (0.05 * fastest * lagS), 314.15 + (fastest * lagS));
        Assert.True(result.Series.ProbeK.Max() < most && result.Series.ProbeK.Max() >= 314.15 - 0.1, "A probe that lags sees less of it.");
    }

    [Fact]
    public void A_larger_hysteresis_switches_less_often()
    {
        int[] switchings = [.. new[] { 0.5, 1, 2, 4, 8 }.Select(k => WarmingRun.Simulate(With(Pail(), t => t with { Hysteresis = TemperatureDelta.FromKelvins(k) }), Small).Switchings)];
        for (int i = 1; i < switchings.Length; i++)
            Assert.True(switchings[i] < switchings[i - 1], string.Join(", ", switchings));
    }

    [Fact]
    public void No_hysteresis_ends_where_a_small_one_does()
    {
        WarmingResult none = WarmingRun.Simulate(With(Pail(), t => t with { Hysteresis = TemperatureDelta.Zero }), Fine);
        double[] off = [.. new[] { 0.8, 0.2 }.Select(k =>
        {
            WarmingResult small = WarmingRun.Simulate(With(Pail(), t => t with { Hysteresis = TemperatureDelta.FromKelvins(k) }), Fine);
            double given = none.Energy.Heater.KilowattHours, band = (30 * k / 3600) + (0.002 * given); // The body may be anywhere in the band.
            Assert.InRange(small.Energy.Heater.KilowattHours, given - band, given + band);
            return small.End.Mean.Kelvins - none.End.Mean.Kelvins;
        })];
        Assert.Equal(0, off[1], 0.02);
        Assert.All(none.Series.BodyK, kelvins => Assert.True(kelvins <= 313.15 + 1e-6));
    }

    [Fact]
    public void The_heater_never_gives_more_than_it_has()
    {
        foreach (double hysteresis in new[] { 0, 2.0 })
        {
            // Jumps and ramps that it cannot follow, up and down, with many vessels in a small body.
            WarmingSetup setup = Pail(watts: 300) with
            {
                Vessels = 4,
                Heating = Pail(watts: 300).Heating with
                {
                    Thermostat = Follow((0, 30, false), (3, 60, false), (5, 25, false), (7, 25, false), (8, 60, true), (12, 60, false), (13, 20, true), (20, 35, false)) with
                    {
                        Hysteresis = TemperatureDelta.FromKelvins(hysteresis),
                    },
                },
            };
            WarmingResult result = WarmingRun.Simulate(setup, Fine);
            Assert.All(result.Series.HeaterW, watts => Assert.InRange(watts, -1e-6, 300 * (1 + 1e-6)));
            Assert.Equal(0, result.Energy.BalanceRelative, 1e-8);
            Assert.True(result.Energy.Heater.Joules <= 300 * 24 * 3600);
            for (int i = 1; i < 2001; i++)
            {
                // What moves the body at most: all the power one way, four cold vessels the other (about 3 W/K each, over 60 K).
                double seconds = result.Series.TimeS[i] - result.Series.TimeS[i - 1], rate = (result.Series.BodyK[i] - result.Series.BodyK[i - 1]) / seconds;
                Assert.True(Math.Abs(rate) < 1100.0 / 30_000, $"hysteresis {hysteresis}: {rate:g3} K/s at {result.Series.TimeS[i]:0} s");
            }
        }
    }

    /// <summary>With no hysteresis the heater holds the body where it is, and does not carry it anywhere.</summary>
    [Theory]
    [InlineData(25)]
    [InlineData(50)]
    public void A_jump_of_the_setpoint_does_not_carry_the_body_along(double thenC)
    {
        // 10 min after a jump from 40 °C the body of 30 kJ/K can be nowhere near either; and before it, it was heating up.
        foreach (double hours in new[] { 0.2, 6 })
        {
            WarmingSetup setup = With(Pail(), _ => Follow((0, 40, false), (hours, thenC, false)) with { Hysteresis = TemperatureDelta.Zero });
            WarmingResult before = WarmingRun.Simulate(setup with { Longest = Duration.FromHours(hours) }, Fine);
            WarmingResult after = WarmingRun.Simulate(setup with { Longest = Duration.FromHours(hours) + Duration.FromSeconds(30) }, Fine);
            double moved = after.End.Body.Kelvins - before.End.Body.Kelvins;
            Assert.InRange(Math.Abs(moved), 0, 30 * 250 / 30_000.0);
            Assert.Equal(0, after.Energy.BalanceRelative, 1e-8);
        }
    }

    [Fact]
    public void A_body_that_starts_at_the_setpoint_is_held_there()
    {
        WarmingSetup setup = With(Pail(), t => t with { Hysteresis = TemperatureDelta.Zero });
        WarmingResult result = WarmingRun.Simulate(setup with { Heating = setup.Heating with { BodyStart = Celsius(40) } }, Fine);
        Assert.All(result.Series.BodyK, kelvins => Assert.Equal(313.15, kelvins, 0.05));
        Assert.InRange(result.Energy.IntoBody.Joules, -2000, 2000); // 0.05 K of it.
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-8);
    }

    [Fact]
    public void A_ramp_is_followed()
    {
        WarmingSetup setup = With(Pail(watts: 1000), _ => Follow((0, 25, false), (10, 45, true), (20, 45, false), (24, 20, true)) with { Hysteresis = TemperatureDelta.Zero });
        WarmingResult result = WarmingRun.Simulate(setup, Fine);
        for (int i = 0; i < 2001; i++)
        {
            double hours = result.Series.TimeS[i] / 3600, expected = 273.15 + (hours < 10 ? 25 + (2 * hours) : hours < 20 ? 45 : 45 - (25 * (hours - 20) / 4));
            Assert.Equal(expected, result.Series.SetpointK[i], 1e-6);
            if (hours is > 1 and < 20)
                Assert.Equal(expected, result.Series.BodyK[i], 1e-3);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_heater_without_a_limit_follows_jumps_and_ramps_and_its_body_plays_no_part(bool ramp)
    {
        WarmingSetup setup = With(Pail(watts: null), _ => Follow((0, 35, false), (8, 40, ramp), (16, 30, ramp)));
        WarmingResult light = WarmingRun.Simulate(setup, Fine);
        WarmingResult heavy = WarmingRun.Simulate(setup with { Heating = setup.Heating with { BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(5000) } }, Fine);
        Assert.Equal(0, light.Energy.BalanceRelative, 1e-8);
        Assert.Equal(0, heavy.Energy.BalanceRelative, 1e-8);
        Assert.Equal(light.Energy.Heater.Joules, heavy.Energy.Heater.Joules, 1e-3);
        Assert.Equal(0, heavy.Energy.IntoBody.Joules, 1e-3);
        for (int i = 0; i < 2001; i++)
            Assert.Equal(light.Series.SetpointK[i], light.Series.BodyK[i], 1e-9);
    }

    [Theory]
    [InlineData(200.0)]
    [InlineData(null)]
    public void No_energy_is_put_in_after_a_cut_out(double? watts)
    {
        WarmingSetup setup = With(Pail(60, watts), t => t with
        {
            CutOut = Celsius(45),
            Schedule = [new SetpointStep(Duration.Zero, Celsius(30)), new SetpointStep(Duration.FromHours(6), Celsius(60), true)],
        }) with { Targets = [WarmingTarget.Mean(Celsius(44))] };
        WarmingResult result = WarmingRun.Simulate(setup, Fine);
        double cut = result.CutOutAt!.Value.Seconds;
        Assert.Equal(WarmingStatus.CutOut, result.Status);
        Assert.InRange(cut, 60, 24 * 3600);
        Assert.InRange(result.Series.BodyK.Max(), 318.15 - 0.1, 318.15 + 1e-4);
        for (int i = 1; i < 2001; i++)
        {
            if (result.Series.TimeS[i - 1] >= cut)
                Assert.Equal(0, result.Series.HeaterW[i], 1e-9);
        }

        WarmingResult until = WarmingRun.Simulate(setup with { Longest = result.CutOutAt.Value }, Fine);
        Assert.Equal(until.Energy.Heater.Joules, result.Energy.Heater.Joules, 1e-6 * until.Energy.Heater.Joules);
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-8);
    }

    [Fact]
    public void A_jump_past_the_cut_out_stops_at_it()
    {
        WarmingSetup setup = With(Pail(watts: null), _ => Follow((0, 35, false), (2, 80, false)) with { CutOut = Celsius(50) });
        WarmingResult result = WarmingRun.Simulate(setup, Fine);
        Assert.Equal(2, result.CutOutAt!.Value.Hours, 1e-9);
        Assert.True(result.Series.BodyK.Max() <= 323.15 + 1e-6, $"{result.Series.BodyK.Max() - 273.15} °C");
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-8);
    }

    [Fact]
    public void A_body_hotter_than_the_cut_out_at_the_start_is_cut_out_at_once()
    {
        WarmingSetup setup = With(Pail(), t => t with { CutOut = Celsius(30) });
        WarmingResult result = WarmingRun.Simulate(setup with { Heating = setup.Heating with { BodyStart = Celsius(35) } }, Fine);
        Assert.Equal(Duration.Zero, result.CutOutAt);
        Assert.Equal(0, result.Energy.Heater.Joules);
        Assert.True(result.Energy.IntoBody.Joules < 0);
    }

    /// <summary>The honey keeps the heater on until the probe in it is warm, so that the wall is hotter than the probe.</summary>
    [Fact]
    public void A_probe_in_the_honey_lets_the_wall_get_hotter_than_it()
    {
        WarmingSetup jacket = Pail() with
        {
            Heating = new HeatedJacket { Thermostat = Thermostat.At(Celsius(40)) with { Sensor = SensorPlace.Honey }, To = Length.FromMillimeters(250), HeaterPower = Power.FromWatts(300) },
        };
        WarmingResult honey = WarmingRun.Simulate(jacket, Fine);
        WarmingResult wall = WarmingRun.Simulate(With(jacket, t => t with { Sensor = SensorPlace.Wall }), Fine);
        WarmingResult water = WarmingRun.Simulate(With(jacket, t => t with { Sensor = SensorPlace.Body }), Fine);
        Assert.True(honey.WallAboveProbe.Kelvins > 10, $"{honey.WallAboveProbe.Kelvins} K");
        Assert.True(honey.HottestWall.Temperature > wall.HottestWall.Temperature);
        Assert.InRange(wall.HottestWall.Temperature.DegreesCelsius, 41, 43); // The floor of the jacket is hotter than the side.
        Assert.True(water.HottestWall.Temperature.DegreesCelsius <= 41 + 1e-3);
        Assert.Equal(honey.WallAboveProbe.Kelvins, Enumerable.Range(0, 2001).Max(i => honey.Series.WallK[i] - honey.Series.ProbeK[i]), 0.2);
        Assert.Equal(honey.HottestWall.Temperature.Kelvins, honey.Series.WallK.Max(), 0.2);
    }

    [Fact]
    public void It_is_held_after_the_target_and_as_long_as_asked()
    {
        WarmingSetup setup = Pail() with { Targets = [WarmingTarget.Mean(Celsius(30)), WarmingTarget.Coldest(Celsius(30))], HoldAfter = Duration.FromHours(3) };
        WarmingResult result = WarmingRun.Simulate(setup, Fine);
        Assert.Equal(WarmingStatus.Reached, result.Status);
        Assert.Equal(result.TargetTimes[1], result.TimeToTarget);
        Assert.True(result.TargetTimes[0] < result.TargetTimes[1]);
        Assert.Equal(result.TimeToTarget!.Value.Seconds + (3 * 3600), result.Elapsed.Seconds, 1e-6);
        Assert.Equal(result.TimeToTarget, WarmingRun.Simulate(setup with { HoldAfter = Duration.Zero }, Fine).Elapsed);
    }

    /// <summary>A heater too weak for the loss of its cabinet: P/K is all it gets to.</summary>
    [Fact]
    public void A_weak_heater_gets_as_far_as_its_loss_lets_it()
    {
        WarmingSetup setup = Pail(60, 60) with { Longest = Duration.FromDays(40) };
        WarmingResult result = WarmingRun.Simulate(setup, Small);
        Assert.Equal(20 + (60 / 4.0), result.End.Body.DegreesCelsius, 0.01);
        Assert.Equal(0, result.Switchings);
    }
}
