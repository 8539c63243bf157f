using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using MathNet.Numerics;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>The figures of a result by hand: speeds, scum, columns over time and depth, times.</summary>
public class SettlingReportTests
{
    /// <summary>Bubbles and wax slow each other: the median at the start moves at Stokes's speed times (1 − c)^4.65, c the volume of both.</summary>
    [Fact]
    public void The_median_speed_is_slowed_by_all_that_is_there()
    {
        SettlingSetup setup = Plain() with
        {
            Temperature = new TemperatureHistory([(Duration.Zero, Celsius(40)), (Duration.FromHours(20), Celsius(30))]),
            Bubbles = new Bubbles { Load = Ratio.FromPercent(8), MedianSize = Length.FromMillimeters(0.4) },
            Debris = new Debris { Load = Ratio.FromPercent(2), MedianSize = Length.FromMillimeters(0.7) },
        };
        SettlingResult result = SettlingRun.Simulate(setup, Brief);

        Assert.Equal(8, result.Bubbles!.StartVolume.Percent, 1e-12);
        double slowed = Math.Pow(1 - 0.08 - result.Debris!.StartVolume.DecimalFractions, 4.65);
        double air = slowed * FreeSpeed(setup.Honey, 40, 0.4, 1.2), bits = slowed * FreeSpeed(setup.Honey, 40, 0.7, 960);
        Assert.Equal(air, result.Bubbles.MedianSpeed.MetersPerSecond, 1e-12 * air);
        Assert.Equal(bits, result.Debris.MedianSpeed.MetersPerSecond, 1e-12 * bits);
        Assert.Equal(40, result.StartTemperature.DegreesCelsius, 1e-9);
        Assert.Equal(HoneyProperties.Of(setup.Honey).ViscosityAt(Celsius(40)).PascalSeconds, result.StartViscosity.PascalSeconds, 1e-9);
    }

    /// <summary>Wax alone: 2 g to 100 g of honey are x = 0.02 ρ/960 to 1 as volumes, and skimmed all of it weighs 2 % of the honey.</summary>
    [Fact]
    public void Wax_alone_weighs_what_its_load_says()
    {
        SettlingSetup setup = Plain() with
        {
            Bubbles = null,
            StandsFor = Duration.FromDays(30),
            Debris = new Debris { Load = Ratio.FromPercent(2), MedianSize = Length.FromMillimeters(3), SizeSpread = 0.2 },
            HoneyMass = Mass.FromKilograms(50),
        };
        SettlingResult result = SettlingRun.Simulate(setup, Brief);
        double x = 0.02 * HoneyProperties.Of(setup.Honey).DensityAt(Celsius(35)).KilogramsPerCubicMeter / 960;
        Assert.Equal(x / (1 + x), result.Debris!.StartVolume.DecimalFractions, 1e-15);
        Assert.Equal(1, result.Scum.Matter!.Value.Kilograms, 1e-10);
        Assert.Equal(50 * x, result.Scum.Honey!.Value.Kilograms, 1e-10);
        Assert.Equal(1 + (50 * x), result.Scum.Mass!.Value.Kilograms, 1e-10);
    }

    /// <summary>
    /// Bubbles and wax all gone, heaped to 40 %: the scum is (c₁ + c₂)/0.4 of the depth, of it 0.6 honey, out of 1 − c₁ − c₂ of the layer; the matter's mass
    /// is volume times density over the honey's.
    /// </summary>
    [Fact]
    public void Scum_of_bubbles_and_wax_together()
    {
        SettlingSetup setup = Plain() with
        {
            Depth = Length.FromMillimeters(200),
            StandsFor = Duration.FromDays(30),
            Bubbles = new Bubbles { Load = Ratio.FromPercent(4), MedianSize = Length.FromMillimeters(3), SizeSpread = 0.2 },
            Debris = new Debris { Load = Ratio.FromPercent(1.5), MedianSize = Length.FromMillimeters(3), SizeSpread = 0.2 },
            Packing = Ratio.FromPercent(40),
            HoneyMass = Mass.FromKilograms(50),
        };
        SettlingResult result = SettlingRun.Simulate(setup, Brief);
        double honey = HoneyProperties.Of(setup.Honey).DensityAt(Celsius(35)).KilogramsPerCubicMeter, wax = result.Debris!.StartVolume.DecimalFractions, all = 0.04 + wax;
        Assert.Equal(200 * all / 0.4, result.Scum.Thickness.Millimeters, 1e-9);
        Assert.Equal(all * 0.6 / 0.4 / (1 - all), result.Scum.HoneyShare.DecimalFractions, 1e-12);
        Assert.Equal(50 * all * 0.6 / 0.4 / (1 - all), result.Scum.Honey!.Value.Kilograms, 1e-10);

        Assert.Equal(50 / (1 - all) * ((wax * 960) + (0.04 * 1.2)) / honey, result.Scum.Matter!.Value.Kilograms, 1e-10);
        Assert.Equal(result.Scum.Honey.Value.Kilograms + result.Scum.Matter.Value.Kilograms, result.Scum.Mass!.Value.Kilograms, 1e-12);
        Assert.Equal(0, result.Sediment.Thickness.Meters);
        Assert.Equal(0, result.Sediment.HoneyShare.DecimalFractions);

        Deposit massless = SettlingRun.Simulate(setup with { HoneyMass = null }, Brief).Scum;
        Assert.Equal(result.Scum.Thickness, massless.Thickness);
        Assert.Null(massless.Honey);
        Assert.Null(massless.Matter);
        Assert.Null(massless.Mass);
    }

    /// <summary>Next to nothing in honey of one temperature: a size d has cleared v(d) t of the depth, and what is left follows from v(D50) t/h.</summary>
    [Fact]
    public void The_series_by_the_closed_form()
    {
        SettlingSetup setup = Plain() with { Bubbles = Few(0.5), Debris = null, StandsFor = Duration.FromMinutes(30), ClearTo = Clarity.OfSize(Length.FromMillimeters(0.3)) };
        SettlingResult result = SettlingRun.Simulate(setup, new SettlingOptions { SeriesPoints = 9 });
        double end = result.ClearAfter!.Value.Seconds, viscosity = HoneyProperties.Of(setup.Honey).ViscosityAt(Celsius(35)).PascalSeconds;
        Assert.True(end > setup.StandsFor.Seconds);
        SettlingSeries series = result.Series;
        Assert.Equal(9, series.TimeS.Count);
        for (int i = 0; i < 9; i++)
        {
            double time = end * i / 8;
            Assert.Equal(time, series.TimeS[i], 1e-9 * end);
            Assert.Equal(308.15, series.TemperatureK[i], 1e-9);
            Assert.Equal(viscosity, series.ViscosityPaS[i], 1e-9 * viscosity);
            Assert.Equal(0.298 * i / 8, series.BubblesClearM[i], 1e-9);
            Assert.Equal(SizeShares.Left(FreeSpeed(setup.Honey, 35, 0.5, 1.2) * time / 0.298, 0.6), series.BubblesLeft[i], 1e-8);
        }

        Assert.Empty(series.DebrisLeft);
        Assert.Empty(series.DebrisClearM);
        Assert.Equal(FreeSpeed(setup.Honey, 35, 0.3, 1.2) * 1800, result.Bubbles!.ClearDepth.Meters, 1e-9);

        // Long after all of the size is gone the layer is clear to its depth and no further.
        Assert.Equal(298, SettlingRun.Simulate(setup with { StandsFor = 3 * result.ClearAfter.Value }, Brief).Bubbles!.ClearDepth.Millimeters, 1e-9);
    }

    /// <summary>The columns go on until it has stood and is clear, whichever is later; both ends are met exactly, from two points on.</summary>
    [Theory]
    [InlineData(1, 2)]
    [InlineData(2, 2)]
    [InlineData(3, 3)]
    [InlineData(10, 10)]
    [InlineData(0, 0)]
    public void The_series_ends_when_it_has_stood_and_is_clear(int points, int rows)
    {
        SettlingOptions options = new() { SeriesPoints = points, ProfileTimes = [] };
        SettlingSetup later = Plain() with { StandsFor = Duration.FromHours(2) }, sooner = Plain() with { StandsFor = Duration.FromDays(50) };
        SettlingSetup never = Plain() with { Bubbles = Few(0.01), StandsFor = Duration.FromHours(7) };
        SettlingResult first = SettlingRun.Simulate(later, options), second = SettlingRun.Simulate(sooner, options), third = SettlingRun.Simulate(never, options);
        Assert.True(first.ClearAfter > later.StandsFor && second.ClearAfter < sooner.StandsFor && third.ClearAfter is null);
        foreach ((SettlingResult result, double end) in new[] { (first, first.ClearAfter!.Value.Seconds), (second, 50 * 86400.0), (third, 7 * 3600.0) })
        {
            SettlingSeries series = result.Series;
            IReadOnlyList<double>[] columns = [series.TimeS, series.TemperatureK, series.ViscosityPaS, series.BubblesLeft, series.BubblesClearM, series.DebrisLeft, series.DebrisClearM];
            Assert.All(columns, column => Assert.Equal(rows, column.Count));
            if (rows == 0)
                continue;
            Assert.Equal(0, series.TimeS[0]);
            Assert.Equal(end, series.TimeS[^1]);
            Assert.Equal(1, series.DebrisLeft[0], 1e-15);
            for (int i = 1; i < rows; i++)
                Assert.Equal(end / (rows - 1), series.TimeS[i] - series.TimeS[i - 1], 1e-9 * end);
        }
    }

    /// <summary>The last row is the end to the last digit, however many rows there are; a plain product of steps would miss it at some counts.</summary>
    [Fact]
    public void Both_ends_are_met_exactly()
    {
        SettlingSetup setup = Plain() with { StandsFor = Duration.FromSeconds(26280.1), Bubbles = Few(0.01), Depth = Length.FromMeters(0.317) };
        for (int rows = 2; rows <= 60; rows++)
        {
            SettlingResult result = SettlingRun.Simulate(setup, new SettlingOptions { SeriesPoints = rows, ProfilePoints = rows, ProfileTimes = [Duration.Zero], RelativeTolerance = 1e-3 });
            Assert.Equal((0.0, setup.StandsFor.Seconds, rows), (result.Series.TimeS[0], result.Series.TimeS[^1], result.Series.TimeS.Count));
            SettlingProfile start = Assert.Single(result.Profiles);
            Assert.Equal((0.0, 0.317, rows), (start.HeightM[0], start.HeightM[^1], start.HeightM.Count));

            // At the start everything is everywhere, on the floor too.
            Assert.All(start.BubblesLeft, share => Assert.Equal(1, share));
        }
    }

    /// <summary>Without a word on times, the profiles are those after a sixteenth, a quarter and all of the time; each says how much of it is left at each height.</summary>
    [Fact]
    public void Profiles_by_default_and_on_request()
    {
        SettlingSetup setup = Plain() with { Debris = new Debris { Load = Ratio.FromDecimalFractions(1e-12), Density = Density.FromKilogramsPerCubicMeter(2600), MedianSize = Length.FromMillimeters(0.2) }, Bubbles = Few(0.4) };
        Assert.Equal([1.5, 6, 24], SettlingRun.Simulate(setup).Profiles.Select(profile => Math.Round(profile.At.Hours, 9)));
        Assert.Empty(SettlingRun.Simulate(setup, Brief).Profiles);

        SettlingProfile profile = Assert.Single(SettlingRun.Simulate(setup, new SettlingOptions { ProfileTimes = [Duration.FromHours(10)], ProfilePoints = 5 }).Profiles);
        Assert.Equal([0, 0.0745, 0.149, 0.2235, 0.298], profile.HeightM.Select(height => Math.Round(height, 12)));
        for (int i = 0; i < 5; i++)
        {
            // Of bubbles, those are left at a height that have not come past it from the floor: d² below height over d⁻² v t.
            Assert.Equal(Below(FreeSpeed(setup.Honey, 35, 0.4, 1.2), 0.0745 * i), profile.BubblesLeft[i], 1e-8);
            Assert.Equal(Below(FreeSpeed(setup.Honey, 35, 0.2, 2600), 0.298 - (0.0745 * i)), profile.DebrisLeft[i], 1e-8);
        }

        static double Below(double medianSpeed, double wayM) => wayM == 0
            ? 0
            : MathNet.Numerics.Distributions.Normal.CDF(0, 0.6, Math.Log(wayM / (medianSpeed * 36000)) / 2);
    }

    /// <summary>
    /// While the temperature runs from 42 to 27 °C, the way of a size is the integral of its speed, at any time between the steps and right at the bends of the
    /// course, and at the very end of what was computed.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(1.7)]
    [InlineData(1.9)]
    [InlineData(2)]
    [InlineData(4.7)]
    [InlineData(8.2)]
    [InlineData(8.7)]
    [InlineData(9)]
    [InlineData(11.3)]
    [InlineData(14)]
    public void A_time_within_a_course_against_quadrature(double hours)
    {
        (double Hours, double Celsius)[] points = [(0, 42), (2, 31), (9, 38), (14, 27)];
        SettlingSetup setup = Plain() with
        {
            Temperature = new TemperatureHistory([.. points.Select(p => (Duration.FromHours(p.Hours), Celsius(p.Celsius)))]),
            StandsFor = Duration.FromHours(hours),
            Longest = Duration.FromHours(14),
            Bubbles = Few(0.25),
            Debris = null,
        };
        double metres = 0;
        for (int i = 1; i < points.Length; i++)
        {
            (double fromH, double fromC) = points[i - 1];
            (double toH, double toC) = points[i];
            if (hours > fromH)
                metres += Integrate.GaussKronrod(h => 3600 * FreeSpeed(setup.Honey, fromC + ((h - fromH) / (toH - fromH) * (toC - fromC)), 0.25, 1.2), fromH, Math.Min(hours, toH), 1e-12);
        }

        foreach (Duration longest in new[] { Duration.FromHours(14), Duration.FromMinutes(1), Duration.FromDays(20) })
        {
            SettlingResult result = SettlingRun.Simulate(setup with { Longest = longest }, Brief);
            Assert.Equal(0.25 * Math.Sqrt(0.298 / metres), result.Bubbles!.LargestLeft!.Value.Millimeters, 1e-9);
        }
    }

    /// <summary>It is clear when it has stood exactly as long as it takes.</summary>
    [Fact]
    public void Standing_just_as_long_as_it_takes_is_enough()
    {
        SettlingSetup setup = Plain();
        Duration clear = SettlingRun.Simulate(setup, Brief).ClearAfter!.Value;
        SettlingResult just = SettlingRun.Simulate(setup with { StandsFor = clear }, Brief);
        Assert.Equal(clear, just.ClearAfter);
        Assert.Equal(SettlingStatus.Clear, just.Status);
    }

    /// <summary>Each choice of what has to be clear waits for that kind; everything waits for the slower.</summary>
    [Fact]
    public void Each_kind_may_be_waited_for_alone()
    {
        foreach (SettlingSetup setup in new[] { Plain(), Plain() with { Bubbles = Few(0.1) } })
        {
            SettlingResult all = SettlingRun.Simulate(setup, Brief);
            Duration air = all.Bubbles!.ClearAfter!.Value, bits = all.Debris!.ClearAfter!.Value;
            Assert.NotEqual(air, bits);
            Assert.Equal(Duration.FromSeconds(Math.Max(air.Seconds, bits.Seconds)), all.ClearAfter);
            Assert.Equal(air, SettlingRun.Simulate(setup with { ClearOf = ClearOf.Bubbles }, Brief).ClearAfter);
            Assert.Equal(bits, SettlingRun.Simulate(setup with { ClearOf = ClearOf.Debris }, Brief).ClearAfter);
        }
    }

    /// <summary>When all but a billionth is gone, its load is still told; its sizes, of which rounding alone would speak, stay those of the start.</summary>
    [Theory]
    [InlineData(1e-11, true)]
    [InlineData(1e-6, false)]
    public void Next_to_nothing_left_for_the_strainer(double left, bool keepsSizes)
    {
        Debris bits = new() { Load = Ratio.FromPercent(1e-9), SizeSpread = 0.2 };
        SettlingSetup setup = Plain() with { Bubbles = null, Debris = bits };
        double seconds = SizeShares.ProgressFor(left, 0.2) * 0.298 / FreeSpeed(setup.Honey, 35, 0.5, 960);
        Debris rest = SettlingRun.Simulate(setup with { StandsFor = Duration.FromSeconds(seconds) }, Brief).DebrisLeft!;
        Assert.Equal(left * 1e-11, rest.Load.DecimalFractions, 1e-3 * left * 1e-11);
        Assert.Equal(keepsSizes, Math.Abs(rest.MedianSize.Millimeters - 0.5) < 1e-12);
        Assert.Equal(keepsSizes, Math.Abs(rest.SizeSpread - 0.2) < 1e-12);

        // With everything gone, to rounding, nothing is left, and never less than nothing.
        Debris none = SettlingRun.Simulate(setup with { StandsFor = Duration.FromSeconds(30 * seconds) }, Brief).DebrisLeft!;
        Assert.InRange(none.Load.DecimalFractions, 0, 1e-26);
    }

    /// <summary>A looser tolerance takes fewer steps, and errs by no more than it says on the way.</summary>
    [Fact]
    public void A_looser_tolerance_takes_fewer_steps()
    {
        SettlingSetup setup = Plain() with
        {
            Temperature = new TemperatureHistory([(Duration.Zero, Celsius(42)), (Duration.FromHours(40), Celsius(22))]),
            Bubbles = new Bubbles { Load = Ratio.FromPercent(10) },
        };
        SettlingResult loose = SettlingRun.Simulate(setup, Brief with { RelativeTolerance = 1e-3 }), tight = SettlingRun.Simulate(setup, Brief with { RelativeTolerance = 1e-12 });
        Assert.True(loose.Steps > 0 && 2 * loose.Steps < tight.Steps, $"{loose.Steps} and {tight.Steps} steps");
        Assert.Equal(tight.ClearAfter!.Value.Seconds, loose.ClearAfter!.Value.Seconds, 0.01 * tight.ClearAfter.Value.Seconds);
    }

    /// <summary>The result hands on the temperatures of the time it stood, no more.</summary>
    [Fact]
    public void The_temperatures_of_the_time_it_stood_are_handed_on()
    {
        SettlingSetup setup = Plain() with
        {
            Temperature = new TemperatureHistory([(Duration.FromHours(-2), Celsius(40)), (Duration.FromHours(2), Celsius(30)), (Duration.FromHours(10), Celsius(34)), (Duration.FromHours(20), Celsius(24))]),
            StandsFor = Duration.FromHours(15),
        };
        TemperatureHistory stood = SettlingRun.Simulate(setup, Brief).Temperature;
        Assert.Equal([0, 7200, 36000, 54000], stood.TimesS.ToArray());
        Assert.Equal([35, 30, 34, 29], stood.TemperaturesK.ToArray().Select(kelvins => Math.Round(kelvins - 273.15, 9)));
    }
}
