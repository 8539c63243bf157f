using FlowSim.HeatDamage;
using FlowSim.Properties;
using FlowSim.Vessels;
using FlowSim.Warming;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>What a run hands out: series, maps, targets, accounts, and that the options do what they say.</summary>
public class WarmingResultTests
{
    private static readonly WarmingSetup Pail = ThermostatRunTests.Pail();

    [Property(MaxTest = 200)]
    public void The_series_is_even_in_time_and_agrees_with_the_result(DoNotSize<int> any)
    {
        WarmingSetup setup = Any(any.Item);
        WarmingResult result = WarmingRun.Simulate(setup, Small with { SeriesPoints = 61 });
        WarmingSeries s = result.Series;
        IReadOnlyList<double>[] columns =
        [
            s.TimeS, s.ColdestK, s.MeanK, s.HottestK, s.WallK, s.ProbeK, s.BodyK, s.SetpointK, s.HeaterW, s.CrystalsLeft, s.ViscosityPaS,
            s.HmfGainLow, s.HmfGain, s.HmfGainHigh, s.DiastaseLeftLow, s.DiastaseLeft, s.DiastaseLeftHigh,
        ];
        Assert.Equal(typeof(WarmingSeries).GetProperties().Count(property => property.PropertyType == typeof(IReadOnlyList<double>)), columns.Length);
        string seed = $"seed {any.Item}";
        Assert.All(columns, column => Assert.Equal(61, column.Count));
        Assert.All(columns, column => Assert.All(column, value => Assert.True(double.IsFinite(value), seed)));
        double end = result.Elapsed.Seconds;
        for (int i = 0; i < 61; i++)
        {
            Assert.Equal(end * i / 60, s.TimeS[i], 1e-9 * end);
            Assert.True(s.ColdestK[i] <= s.MeanK[i] + 1e-9 && s.MeanK[i] <= s.HottestK[i] + 1e-9, seed);
            Assert.True(s.HmfGainLow[i] <= s.HmfGain[i] && s.HmfGain[i] <= s.HmfGainHigh[i], seed);
            Assert.True(s.DiastaseLeftLow[i] <= s.DiastaseLeft[i] && s.DiastaseLeft[i] <= s.DiastaseLeftHigh[i], seed);
        }

        Assert.Equal(setup.StartTemperature.Kelvins, s.MeanK[0], 1e-9);
        Assert.Equal(result.End.Mean.Kelvins, s.MeanK[^1], 1e-9);
        Assert.Equal(result.End.Coldest.Kelvins, s.ColdestK[^1], 1e-9);
        Assert.Equal(result.End.Hottest.Kelvins, s.HottestK[^1], 1e-9);
        Assert.Equal(result.End.Wall.Kelvins, s.WallK[^1], 1e-9);
        Assert.Equal(result.End.Probe.Kelvins, s.ProbeK[^1], 1e-9);
        Assert.Equal(result.End.Body.Kelvins, s.BodyK[^1], 1e-9);
        Assert.Equal(result.CrystalsLeft.DecimalFractions, s.CrystalsLeft[^1], 1e-12);
        Assert.Equal(result.Viscosity.PascalSeconds, s.ViscosityPaS[^1], 1e-9 * s.ViscosityPaS[^1]);
        Assert.Equal(result.Damage.HmfGain.MilligramsPerKilogram, s.HmfGain[^1], 1e-9 * (1 + s.HmfGain[^1]));
        Assert.Equal(result.Damage.DiastaseLeft.DecimalFractions, s.DiastaseLeft[^1], 1e-9);
    }

    [Property(MaxTest = 200)]
    public void The_power_of_the_series_adds_up_to_the_account(DoNotSize<int> any)
    {
        WarmingResult result = WarmingRun.Simulate(Any(any.Item), Small with { SeriesPoints = 37 });
        double given = Enumerable.Range(1, 36).Sum(i => result.Series.HeaterW[i] * (result.Series.TimeS[i] - result.Series.TimeS[i - 1]));
        EnergyAccount e = result.Energy;
        double size = Math.Abs(e.IntoHoney.Joules) + Math.Abs(e.ToRoom.Joules) + Math.Abs(e.Heater.Joules) + 1;
        Assert.True(Math.Abs(given - e.Heater.Joules) <= 1e-9 * size, $"seed {any.Item}: {given} of {e.Heater.Joules}");
    }

    [Property(MaxTest = 100)]
    public void Series_and_maps_do_not_change_the_run(DoNotSize<int> any)
    {
        WarmingSetup setup = Any(any.Item);
        WarmingResult none = WarmingRun.Simulate(setup, Small);
        WarmingResult many = WarmingRun.Simulate(setup, Small with { SeriesPoints = 977 });
        Assert.Equal(none.Steps, many.Steps);
        Assert.Equal(none.End, many.End);
        Assert.Equal(none.Energy, many.Energy);
        Assert.Equal(none.TargetTimes, many.TargetTimes);
        Assert.Equal(none.Damage.HmfGain, many.Damage.HmfGain);
        Assert.Empty(none.Series.TimeS);
    }

    [Fact]
    public void A_run_without_end_has_a_long_series_still()
    {
        // More steps than rows are kept: the thermostat switches all day.
        WarmingSetup setup = Pail with
        {
            Heating = Pail.Heating with { Thermostat = Thermostat.At(Celsius(40)) with { Hysteresis = TemperatureDelta.FromKelvins(0.1) } },
            Longest = Duration.FromDays(3),
        };
        WarmingResult result = WarmingRun.Simulate(setup, Small with { SeriesPoints = 241 });
        Assert.True(result.Steps > 8000, $"{result.Steps} steps");
        WarmingResult coarse = WarmingRun.Simulate(setup, Small with { SeriesPoints = 2001 });
        for (int i = 0; i < 241; i += 12)
            Assert.Equal(coarse.Series.MeanK[i * 2000 / 240], result.Series.MeanK[i], 0.02);
        Assert.Equal(3 * 86400.0, result.Series.TimeS[^1], 1e-6);
    }

    [Fact]
    public void A_run_that_is_over_before_it_begins_has_a_series_still()
    {
        WarmingResult result = WarmingRun.Simulate(Pail with { Targets = [WarmingTarget.Mean(Celsius(10)), WarmingTarget.NoCrystals] }, Small with { SeriesPoints = 5, MapTimes = [Duration.Zero] });
        Assert.Equal(WarmingStatus.Reached, result.Status);
        Assert.Equal(Duration.Zero, result.TimeToTarget);
        Assert.Equal(Duration.Zero, result.Elapsed);
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-12);
        Assert.Single(result.Maps);
        Assert.All(result.Series.MeanK, kelvins => Assert.Equal(291.15, kelvins, 1e-9));
        Assert.Equal(0, result.Damage.HmfGain.MilligramsPerKilogram);
    }

    [Fact]
    public void Maps_are_taken_at_their_times_in_rows_from_floor_to_surface()
    {
        // Warm from below alone: colder with every row, the same along a row but for the little that the side loses.
        WarmingSetup setup = Pail with
        {
            Heating = new HeatedJacket { Thermostat = Thermostat.At(Celsius(45)), To = Length.Zero },
            Vessel = Pail.Vessel with { Lid = VesselLid.Insulated },
        };
        Duration[] times = [Duration.FromHours(1), Duration.FromHours(5.5), Duration.FromHours(24), Duration.FromHours(30)];
        WarmingResult result = WarmingRun.Simulate(setup, Small with { MapTimes = times, Inside = InsideHeat.ConductionOnly });
        Assert.Equal([1.0, 5.5, 24], result.Maps.Select(map => map.At.Hours).Select(h => Math.Round(h, 9)));
        foreach (VesselMap map in result.Maps)
        {
            Assert.Equal((4, 6, 24), (map.RadialCells, map.AxialCells, map.TemperatureK.Count));
            Assert.Equal((0.1425, 0.298), (Math.Round(map.Radius.Meters, 9), Math.Round(map.Level.Meters, 9)));
            for (int row = 1; row < 6; row++)
            {
                for (int i = 0; i < 4; i++)
                    Assert.True(map.TemperatureK[(row * 4) + i] < map.TemperatureK[((row - 1) * 4) + i]);
            }
        }

        Assert.Equal(result.End.Coldest.Kelvins, result.Maps[^1].TemperatureK.Min(), 1e-12);
        Assert.Equal(result.End.Hottest.Kelvins, result.Maps[^1].TemperatureK.Max(), 1e-12);
        Assert.True(result.ColdestPlace.Height.Millimeters > 200);
        Assert.All(result.Maps[0].CrystalsLeft, left => Assert.Equal(0, left));
    }

    [Fact]
    public void Every_target_is_reached_when_its_figure_is()
    {
        WarmingSetup setup = Pail with
        {
            Crystals = Crystals.Fine(),
            Heating = Pail.Heating with { HeaterPower = null, Thermostat = Thermostat.At(Celsius(50)) },
            Targets = [WarmingTarget.Mean(Celsius(44)), WarmingTarget.Coldest(Celsius(44)), WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(2)), WarmingTarget.NoCrystals],
            Longest = Duration.FromDays(6),
        };
        WarmingResult all = WarmingRun.Simulate(setup, Small);
        Assert.Equal(WarmingStatus.Reached, all.Status);
        double At(int target, Func<WarmingResult, double> figure)
        {
            WarmingResult there = WarmingRun.Simulate(setup with { Targets = [setup.Targets[target]] }, Small);
            Assert.Equal(all.TargetTimes[target]!.Value.Seconds, there.Elapsed.Seconds, 0.01 * there.Elapsed.Seconds);
            return figure(there);
        }

        Assert.Equal(44, At(0, r => r.End.Mean.DegreesCelsius), 1e-5);
        Assert.Equal(44, At(1, r => r.End.Coldest.DegreesCelsius), 1e-5);
        Assert.Equal(0.01 * 0.15, At(3, r => r.CrystalsLeft.DecimalFractions), 1e-6);
        WarmingResult thin = WarmingRun.Simulate(setup with { Targets = [setup.Targets[2]] }, Small);
        Assert.True(thin.Viscosity.PascalSeconds <= 2 + 1e-6 && thin.CrystalsLeft.Percent <= 0.15 + 1e-6);
        Assert.True(Math.Abs(thin.Viscosity.PascalSeconds - 2) < 1e-5 || Math.Abs(thin.CrystalsLeft.Percent - 0.15) < 1e-3, "reached without a reason");
    }

    [Fact]
    public void Cooling_ends_when_the_honey_is_no_longer_workable()
    {
        WarmingSetup setup = Pail with
        {
            StartTemperature = Celsius(45),
            Heating = new WarmAir { Thermostat = Thermostat.At(Celsius(8)) },
            Targets = [WarmingTarget.CooledTo(Celsius(30)), WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(20))],
            Longest = Duration.FromDays(6),
        };
        WarmingResult result = WarmingRun.Simulate(setup, Small);
        Assert.Equal(WarmingStatus.Reached, result.Status);
        Assert.Equal(20, result.Viscosity.PascalSeconds, 1e-4);
        Assert.True(result.Energy.Heater.Joules < 0 && result.Energy.IntoHoney.Joules < 0);
        Assert.Equal(30, WarmingRun.Simulate(setup with { Targets = [setup.Targets[0]] }, Small).End.Mean.DegreesCelsius, 1e-5);
    }

    [Fact]
    public void A_run_can_be_cancelled_before_and_on_its_way()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.Throws<OperationCanceledException>(() => WarmingRun.Simulate(Pail, Small, source.Token));
        Assert.Throws<OperationCanceledException>(() => WarmingBounds.Of(Pail, Small, source.Token));

        // From a thread of its own: a timer waits for one of the pool, which other tests may hold.
        using var soon = new CancellationTokenSource();
        var cancels = new Thread(() =>
        {
            Thread.Sleep(50);
            soon.Cancel();
        });
        WarmingSetup endless = Pail with
        {
            Heating = Pail.Heating with { Thermostat = Thermostat.At(Celsius(40)) with { Hysteresis = TemperatureDelta.FromKelvins(0.1) }, BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(0.1) },
            Longest = Duration.FromDays(60),
        };
        cancels.Start();
        Assert.Throws<OperationCanceledException>(() => WarmingRun.Simulate(endless, Small, soon.Token));
        cancels.Join();
    }

    [Fact]
    public void What_a_run_allocates_does_not_depend_on_its_steps()
    {
        WarmingSetup setup = Pail with { Targets = [WarmingTarget.Mean(Celsius(30)), WarmingTarget.Coldest(Celsius(39))], Longest = Duration.FromDays(2), Crystals = Crystals.Fine() };
        (long Bytes, int Steps) Measure(double tolerance)
        {
            int steps = 0;
            long bytes = Allocated.By(() =>
            {
                WarmingParameters p = WarmingParameters.Of(setup, Small, HeatFactors.None);
                var integration = new WarmingIntegration(p, setup, tolerance, []);
                integration.Run(new WarmingRecorder(p, setup, 0), CancellationToken.None);
                steps = integration.Steps;
            });
            return (bytes, steps);
        }

        (long Bytes, int Steps) loose = Measure(0.01), tight = Measure(1e-4);
        Assert.True(tight.Steps > 1.5 * loose.Steps, $"{tight.Steps} and {loose.Steps} steps: too alike to tell");
        Assert.Equal(loose.Bytes, tight.Bytes);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(8)]
    public void Threads_do_not_change_a_bit(int threads)
    {
        // Every kit, schedule and mishap, each first computed alone.
        WarmingSetup[] setups = [.. Enumerable.Range(1, 24).Select(Any)];
        string[] alone = [.. setups.Select(Fingerprint)], together = new string[setups.Length * 2];
        Parallel.For(0, together.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, i => together[i] = Fingerprint(setups[i % setups.Length]));
        for (int i = 0; i < together.Length; i++)
            Assert.Equal(alone[i % setups.Length], together[i]);
        Assert.Equal(setups.Length, alone.Distinct(StringComparer.Ordinal).Count());
    }

    /// <summary>All bits of the series.</summary>
    private static string Fingerprint(WarmingSetup setup)
    {
        WarmingSeries s = WarmingRun.Simulate(setup, Small with { SeriesPoints = 21 }).Series;
        double[] figures = [.. s.TimeS, .. s.ColdestK, .. s.MeanK, .. s.HottestK, .. s.WallK, .. s.ProbeK, .. s.BodyK, .. s.HeaterW, .. s.CrystalsLeft, .. s.HmfGainHigh, .. s.DiastaseLeftLow];
        return string.Join(' ', figures.Select(BitConverter.DoubleToInt64Bits));
    }

    [Fact]
    public void More_cells_converge()
    {
        WarmingSetup setup = Pail with { Heating = Pail.Heating with { HeaterPower = null }, Longest = Duration.FromHours(10), Crystals = Crystals.Fine() };
        double Mean(int cells) => WarmingRun.Simulate(setup, new WarmingOptions { RadialCells = cells, AxialCells = cells, SeriesPoints = 0, Inside = InsideHeat.ConductionOnly, Tolerance = TemperatureDelta.FromKelvins(1e-3) }).End.Mean.Kelvins;
        double[] means = [.. new[] { 5, 10, 20, 40 }.Select(Mean)];

        // Order 2 in space: each difference a quarter of the one before.
        Assert.InRange((means[1] - means[0]) / (means[2] - means[1]), 2.5, 7);
        Assert.InRange((means[2] - means[1]) / (means[3] - means[2]), 2.5, 7);
    }

    [Fact]
    public void The_bounds_are_the_three_runs()
    {
        WarmingSetup setup = Pail with { Targets = [WarmingTarget.Mean(Celsius(32))], Longest = Duration.FromDays(6) };
        WarmingBounds bounds = WarmingBounds.Of(setup, Small with { SeriesPoints = 11 });
        Assert.Equal((InsideHeat.BestEstimate, InsideHeat.WellMixed, InsideHeat.ConductionOnly), (bounds.Best.Inside, bounds.WellMixed.Inside, bounds.ConductionOnly.Inside));
        Assert.Equal(bounds.WellMixed.TimeToTarget, bounds.TimeToTargetLow);
        Assert.Equal(bounds.ConductionOnly.TimeToTarget, bounds.TimeToTargetHigh);
        Assert.Equal(11, bounds.Best.Series.TimeS.Count);
        Assert.Empty(bounds.WellMixed.Series.TimeS);
        Assert.Equal(WarmingRun.Simulate(setup, Small).TimeToTarget, bounds.Best.TimeToTarget);

        // One that never gets there has no latest time, and all three none at all.
        WarmingBounds between = WarmingBounds.Of(setup with { Longest = bounds.Best.TimeToTarget!.Value + Duration.FromMinutes(1) }, Small);
        Assert.NotNull(between.TimeToTargetLow);
        Assert.Null(between.TimeToTargetHigh);
        Assert.Null(WarmingBounds.Of(setup with { Longest = Duration.FromMinutes(2) }, Small).TimeToTargetLow);
    }

    /// <summary>Two vessels in air that holds its temperature take no more time than one, and twice the energy.</summary>
    [Fact]
    public void Vessels_alike_take_as_much_each()
    {
        WarmingSetup one = Pail with { Heating = new WarmAir { Thermostat = Thermostat.At(Celsius(40)) } };
        WarmingResult single = WarmingRun.Simulate(one, Small), seven = WarmingRun.Simulate(one with { Vessels = 7 }, Small);
        Assert.Equal(single.End, seven.End);
        Assert.Equal(7 * single.Energy.Heater.Joules, seven.Energy.Heater.Joules, 1e-9 * seven.Energy.Heater.Joules);
        Assert.Equal(single.HoneyPerVessel, seven.HoneyPerVessel);
        Assert.Equal(HoneyProperties.Of(one.Honey).DensityAt(one.StartTemperature).KilogramsPerCubicMeter * Math.PI * 0.1425 * 0.1425 * 0.298, single.HoneyPerVessel.Kilograms, 1e-9);
    }

    /// <summary>Well-mixed honey that is held: damage as of a history at one temperature.</summary>
    [Fact]
    public void Held_honey_takes_the_damage_of_its_temperature()
    {
        WarmingSetup setup = Pail with { StartTemperature = Celsius(45), RoomTemperature = Celsius(45), Heating = new WarmAir { Thermostat = Thermostat.At(Celsius(45)) }, Longest = Duration.FromDays(2) };
        WarmingResult result = WarmingRun.Simulate(setup, Small);
        HoneyHeatDamage expected = HoneyHeatDamage.Of(new TemperatureHistory([(Duration.Zero, Celsius(45)), (Duration.FromDays(2), Celsius(45))]));
        Assert.Equal(expected.HmfGain.MilligramsPerKilogram, result.Damage.HmfGain.MilligramsPerKilogram, 1e-9);
        Assert.Equal(expected.DiastaseLeft.Percent, result.WorstDamage.DiastaseLeft.Percent, 1e-9);
        Assert.Equal(0, result.Energy.Heater.Joules, 1e-3);
    }
}
