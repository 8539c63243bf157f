using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using MathNet.Numerics;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>Runs against closed forms, an independent quadrature and a crowd of particles followed one by one.</summary>
public class SettlingRunTests
{
    /// <summary>At one temperature and next to nothing in the honey, a size is gone after depth over speed.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(1)]
    public void A_size_alone_is_gone_after_depth_over_speed(double millimetres)
    {
        SettlingSetup setup = Plain() with { Bubbles = Few(0.5), Debris = null, ClearTo = Clarity.OfSize(Length.FromMillimeters(millimetres)) };
        double expected = 0.298 / FreeSpeed(setup.Honey, 35, millimetres, 1.2);
        Assert.Equal(expected, SettlingRun.Simulate(setup).ClearAfter!.Value.Seconds, 1e-8 * expected);
    }

    /// <summary>
    /// Crowded bubbles of one size: until the first sizes run out, what is left falls evenly, S = 1 − a y with a = E[d²]/D50² = e^(2s²), so that
    /// y′ = k (1 − c₀ + c₀ a y)^4.65 has the closed form [(1 − c₀)^−3.65 − (1 − c₀ + c₀ a y)^−3.65]/(3.65 c₀ a) = k t.
    /// </summary>
    [Theory]
    [InlineData(10, 0.2)]
    [InlineData(10, 0.6)]
    [InlineData(2, 0.4)]
    public void Crowded_bubbles_of_one_size_against_the_closed_form(double percent, double gone)
    {
        double c = percent / 100, a = Math.Exp(2 * 0.05 * 0.05);
        SettlingSetup setup = Plain() with
        {
            Bubbles = new Bubbles { Load = Ratio.FromPercent(percent), MedianSize = Length.FromMillimeters(0.5), SizeSpread = 0.05 },
            Debris = null,
            ClearTo = Clarity.OfShare(Ratio.FromDecimalFractions(1 - gone)),
        };
        double k = FreeSpeed(setup.Honey, 35, 0.5, 1.2) / 0.298;
        double expected = (Math.Pow(1 - c, -3.65) - Math.Pow(1 - c + (c * gone), -3.65)) / (3.65 * c * a * k);
        Assert.Equal(expected, SettlingRun.Simulate(setup).ClearAfter!.Value.Seconds, 1e-7 * expected);
    }

    /// <summary>Over a course of temperatures, the progress is the integral of the speed over time: by adaptive quadrature piece by piece.</summary>
    [Fact]
    public void A_course_of_temperatures_against_quadrature()
    {
        (double Hours, double Celsius)[] points = [(0, 42), (2, 42), (3, 31), (20, 24), (20.5, 38), (30, 20)];
        SettlingSetup setup = Plain() with
        {
            Temperature = new TemperatureHistory([.. points.Select(p => (Duration.FromHours(p.Hours), Celsius(p.Celsius)))]),
            StandsFor = Duration.FromHours(48),
            Bubbles = Few(0.25),
            Debris = new Debris { Load = Ratio.FromDecimalFractions(1e-12), MedianSize = Length.FromMillimeters(0.4) },
        };
        SettlingResult result = SettlingRun.Simulate(setup);
        foreach ((SettledMatter matter, double millimetres, double density) in new[] { (result.Bubbles!, 0.25, 1.2), (result.Debris!, 0.4, 960.0) })
        {
            double metres = 18 * 3600 * FreeSpeed(setup.Honey, 20, millimetres, density);
            for (int i = 1; i < points.Length; i++)
            {
                (double fromH, double fromC) = points[i - 1];
                (double toH, double toC) = points[i];
                metres += Integrate.GaussKronrod(h => 3600 * FreeSpeed(setup.Honey, fromC + ((h - fromH) / (toH - fromH) * (toC - fromC)), millimetres, density), fromH, toH, 1e-12);
            }

            // The largest left has just travelled the depth: d = D50 √(h/way of D50).
            Assert.Equal(millimetres * Math.Sqrt(0.298 / metres), matter.LargestLeft!.Value.Millimeters, 1e-7);
        }
    }

    /// <summary>
    /// The whole run against a crowd: 100 000 parcels of equal volume of each kind, each with a size and a place of its own, moved in short steps at Stokes's speed slowed by what is
    /// left of the crowd at that moment. Nothing of the run's algebra is used. Allowed: four standard deviations of the sampling, and 2e-4 for the steps.
    /// </summary>
    [Fact]
    public void A_crowd_of_particles_followed_one_by_one()
    {
        const int Count = 100_000;
        const double Depth = 0.4;
        SettlingSetup setup = Plain() with
        {
            Depth = Length.FromMeters(Depth),
            Temperature = new TemperatureHistory([(Duration.Zero, Celsius(40)), (Duration.FromHours(10), Celsius(28))]),
            StandsFor = Duration.FromHours(12),
            Bubbles = new Bubbles { Load = Ratio.FromPercent(6), MedianSize = Length.FromMillimeters(0.4), SizeSpread = 0.7 },
            Debris = new Debris { Load = Ratio.FromPercent(2), MedianSize = Length.FromMillimeters(0.7), SizeSpread = 0.5, Density = Density.FromKilogramsPerCubicMeter(960) },
            ClearOf = ClearOf.Bubbles,
        };
        SettlingResult result = SettlingRun.Simulate(setup, new SettlingOptions { ProfileTimes = [setup.StandsFor], ProfilePoints = 5 });

        var random = new Random(7);
        (double[] Size, double[] Height)[] crowds = [Crowd(0.4e-3, 0.7), Crowd(0.7e-3, 0.5)];
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double startDensity = honey.DensityAt(Celsius(40)).KilogramsPerCubicMeter, wax = 0.02 * startDensity / 960;
        double[] volume = [0.06, wax / (1 + wax)], density = [1.2, 960];
        double[] left = [1, 1];
        const double StepS = 60;
        for (double t = 0; t < 12 * 3600 - 1; t += StepS)
        {
            double celsius = Math.Max(28, 40 - (12 * (t + (StepS / 2)) / 36000));
            double slowed = Math.Pow(1 - (volume[0] * left[0]) - (volume[1] * left[1]), 4.65);
            double viscosity = honey.ViscosityAt(Celsius(celsius)).PascalSeconds, honeyDensity = honey.DensityAt(Celsius(celsius)).KilogramsPerCubicMeter;
            for (int kind = 0; kind < 2; kind++)
            {
                (double[] size, double[] height) = crowds[kind];
                int still = 0;
                for (int i = 0; i < Count; i++)
                {
                    height[i] += StepS * Gravity * (honeyDensity - density[kind]) * size[i] * size[i] / (18 * viscosity) * slowed;
                    if (height[i] < Depth)
                        still++;
                }

                left[kind] = (double)still / Count;
            }
        }

        Near(left[0], result.Bubbles!.Left.DecimalFractions);
        Near(left[1], result.Debris!.Left.DecimalFractions);

        // A quarter, half and three quarters up: those within 1 % of the depth around it, against those there at the start.
        SettlingProfile profile = Assert.Single(result.Profiles);
        for (int j = 1; j <= 3; j++)
        {
            double around = profile.HeightM[j];
            double there = crowds[0].Height.Count(height => Math.Abs(height - around) < 0.05 * Depth) / (0.1 * Count);
            double expected = profile.BubblesLeft[j];
            Assert.Equal(expected, there, 4 * Math.Sqrt(expected / (0.1 * Count)) + 0.01);
        }

        // What a strainer gets: the mean size left, which the log-normal stand-in keeps.
        double meanSize = crowds[1].Size.Zip(crowds[1].Height).Where(p => p.Second < Depth).Average(p => p.First);
        Debris debris = result.DebrisLeft!;
        Assert.Equal(meanSize, debris.MedianSize.Meters * Math.Exp(debris.SizeSpread * debris.SizeSpread / 2), 0.005 * meanSize);

        (double[] Size, double[] Height) Crowd(double medianM, double spread)
        {
            double[] sizes = new double[Count], heights = new double[Count];
            for (int i = 0; i < Count; i++)
            {
                sizes[i] = medianM * Math.Exp(spread * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
                heights[i] = Depth * random.NextDouble();
            }

            return (sizes, heights);
        }

        static void Near(double counted, double computed) => Assert.Equal(computed, counted, 4 * Math.Sqrt(computed * (1 - computed) / Count) + 2e-4);
    }

    /// <summary>Sand goes down: the surface is clear first, and what has gone is on the floor.</summary>
    [Fact]
    public void What_is_heavier_sinks()
    {
        SettlingResult result = SettlingRun.Simulate(Plain() with
        {
            Bubbles = null,
            Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(2650), MedianSize = Length.FromMillimeters(0.2) },
            StandsFor = Duration.FromHours(6),
            HoneyMass = Mass.FromKilograms(26),
        });
        SettlingProfile last = result.Profiles[^1];
        Assert.Equal(SettlingDirection.Sinks, result.Debris!.Direction);
        Assert.Equal(0, last.DebrisLeft[^1]);
        Assert.Equal(MathNet.Numerics.Distributions.Normal.CDF(0, 0.6, Math.Log(result.Debris.LargestLeft!.Value.Millimeters / 0.2)), last.DebrisLeft[0], 1e-9);
        Assert.Equal(Length.Zero, result.Scum.Thickness);
        Assert.Equal(0.0003 * 26 * result.Debris.Gone.DecimalFractions, result.Sediment.Matter!.Value.Kilograms, 1e-12);
        Assert.Empty(last.BubblesLeft);
    }

    /// <summary>Matter as dense as the honey stays, and the run says so.</summary>
    [Fact]
    public void What_is_as_dense_as_the_honey_stays()
    {
        SettlingResult result = SettlingRun.Simulate(Plain() with { Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(1405) } });
        Assert.Equal(SettlingDirection.Stays, result.Debris!.Direction);
        Assert.Equal(100, result.Debris.Left.Percent);
        Assert.Null(result.ClearAfter);
        Assert.Contains(result.Notices, notice => notice.Code == "settling.buoyant");
        Assert.Contains(result.Notices, notice => notice.Code == "settling.not-clear");
    }

    /// <summary>Scum by hand: 1 % of bubbles all gone and heaped to one half take 2 % of 300 mm, half of it honey: 1/99 of the honey.</summary>
    [Fact]
    public void Scum_by_hand()
    {
        SettlingResult result = SettlingRun.Simulate(Plain() with
        {
            Depth = Length.FromMillimeters(300),
            Bubbles = new Bubbles { Load = Ratio.FromPercent(1), MedianSize = Length.FromMillimeters(3), SizeSpread = 0.2 },
            Debris = null,
            HoneyMass = Mass.FromKilograms(99),
        });
        Assert.Equal(6, result.Scum.Thickness.Millimeters, 1e-9);
        Assert.Equal(1, result.Scum.Honey!.Value.Kilograms, 1e-9);
        Assert.Equal(SettlingStatus.Clear, result.Status);
        Assert.True(result.Scum.Mass > result.Scum.Honey);
    }

    /// <summary>What is left for the strainer keeps the mean size and the mean of 1/size of what is left, by quadrature.</summary>
    [Fact]
    public void What_is_left_for_the_strainer_keeps_mean_size_and_mean_inverse_size()
    {
        SettlingResult result = SettlingRun.Simulate(Plain() with { StandsFor = Duration.FromHours(8) });
        double largest = result.Debris!.LargestLeft!.Value.Meters;
        MathNet.Numerics.Distributions.LogNormal sizes = new(Math.Log(0.5e-3), 0.6);
        double Left(int order) => Integrate.GaussLegendre(
            x => Math.Exp((order + 1) * x) * sizes.Density(Math.Exp(x)) * (1 - Math.Pow(Math.Exp(x) / largest, 2)), Math.Log(0.5e-3) - 6, Math.Log(largest), 256);
        Debris debris = result.DebrisLeft!;
        double median = debris.MedianSize.Meters, half = debris.SizeSpread * debris.SizeSpread / 2;
        Assert.Equal(1e-3 * Left(0), debris.Load.DecimalFractions, 1e-12);
        Assert.Equal(Left(1) / Left(0), median * Math.Exp(half), 1e-9);
        Assert.Equal(Left(-1) / Left(0), Math.Exp(half) / median, 1e-4);
        Assert.Equal(result.Debris.Left.DecimalFractions, debris.Load.DecimalFractions / 1e-3, 1e-12);
    }

    /// <summary>A result's times come from the course between steps: the status agrees with a run that stands just as long.</summary>
    [Fact]
    public void It_is_clear_when_it_says_it_will_be()
    {
        SettlingSetup setup = Plain() with { Temperature = new TemperatureHistory([(Duration.Zero, Celsius(38)), (Duration.FromHours(30), Celsius(25))]) };
        Duration clear = SettlingRun.Simulate(setup).ClearAfter!.Value;
        Assert.Equal(SettlingStatus.Clear, SettlingRun.Simulate(setup with { StandsFor = clear * (1 + 1e-9) }, Brief).Status);
        Assert.Equal(SettlingStatus.NotClear, SettlingRun.Simulate(setup with { StandsFor = clear * (1 - 1e-6) }, Brief).Status);
        SettlingResult then = SettlingRun.Simulate(setup with { StandsFor = clear }, Brief);
        Assert.Equal(5, Math.Max(then.Bubbles!.Left.Percent, then.Debris!.Left.Percent), 1e-6);
    }

    [Fact]
    public void Bubbles_alone_are_clear_before_wax()
    {
        SettlingSetup setup = Plain();
        SettlingResult both = SettlingRun.Simulate(setup), bubbles = SettlingRun.Simulate(setup with { ClearOf = ClearOf.Bubbles });
        Assert.Equal(both.Bubbles!.ClearAfter, bubbles.ClearAfter);
        Assert.Equal(both.Debris!.ClearAfter, both.ClearAfter);
        Assert.True(bubbles.ClearAfter < both.ClearAfter);
    }

    [Fact]
    public void The_coolest_temperature_is_just_warm_enough()
    {
        SettlingSetup setup = Plain();
        Duration within = Duration.FromHours(24);
        Temperature coolest = SettlingSearch.CoolestFor(setup, within)!.Value;
        SettlingSetup At(double celsius) => setup with { Temperature = Hold(celsius), StandsFor = within };
        Assert.Equal(SettlingStatus.Clear, SettlingRun.Simulate(At(coolest.DegreesCelsius), Brief).Status);
        Assert.Equal(SettlingStatus.NotClear, SettlingRun.Simulate(At(coolest.DegreesCelsius - 0.02), Brief).Status);
        Assert.Null(SettlingSearch.CoolestFor(setup, Duration.FromMinutes(1)));
        Assert.Equal(12, SettlingSearch.CoolestFor(setup, Duration.FromDays(3000))!.Value.DegreesCelsius, 1e-9);
    }

    /// <summary>Viscosity by the lot's e^±0.3 and, on the square, sizes by 1.5: at one temperature the times go by e^0.3 · 2.25.</summary>
    [Fact]
    public void The_band_is_viscosity_times_the_square_of_size()
    {
        SettlingSetup setup = Plain() with { Bubbles = Few(0.5), Debris = null };
        SettlingBand band = SettlingBand.Of(setup);
        double factor = Math.Exp(0.3) * 2.25;
        Assert.Equal(factor, band.Likely!.Value / band.Quick!.Value, 1e-6);
        Assert.Equal(factor, band.Slow!.Value / band.Likely.Value, 1e-6);
        Assert.Equal([Standing.EngineeringChoice, Standing.EngineeringChoice], band.Inputs.Select(input => input.Source.Standing));

        SettlingBand bySize = SettlingBand.Of(setup with { ClearTo = Clarity.OfSize(Length.FromMillimeters(0.3)) });
        Assert.Equal(Math.Exp(0.3), bySize.Slow!.Value / bySize.Likely!.Value, 1e-6);
        Assert.Single(bySize.Inputs);
    }
}
