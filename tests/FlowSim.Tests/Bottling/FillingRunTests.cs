using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>Whole filling runs against closed forms and counts, and what they tell.</summary>
public class FillingRunTests
{
    /// <summary>All jars together take as long as the tank takes to fall from the first level to the last, by the closed form of an upright tank.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1.5)]
    public void All_jars_take_what_the_closed_form_takes(double closingS)
    {
        FillingSetup setup = Fillings.Plain() with { ClosingTime = Duration.FromSeconds(closingS) };
        FillingResult result = FillingRun.Simulate(setup);
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double density = honey.DensityAt(setup.Temperature).KilogramsPerCubicMeter, viscosity = honey.ViscosityAt(setup.Temperature).PascalSeconds;
        GateGeometry gate = GateFlow.GeometryOf(setup.Gate, 0.4);
        double area = Math.PI / 4 * 0.38 * 0.38, from = 0.41, to = from - (result.Masses.InJars + result.Masses.Drips).Kilograms / density / area;
        double expected = TankDrainage.PrismTimeS(from, to, area, viscosity * gate.ViscousPerM3, density * gate.InertialPerM4, density * 9.80665);

        Assert.Equal(FillingStatus.Emptied, result.Status);
        Assert.Equal(expected, result.Series.FillS.Sum() - result.Jars * closingS / 2, 1e-9 * expected);
        Assert.Equal(result.Elapsed.Seconds, result.Series.FillS.Sum() + result.Series.WaitS.Sum() + result.Jars * 10, 1e-6);
        Assert.Equal(to + 0.03, result.Series.TankLevelM[^1], 1e-9);
        Assert.Equal(result.Series.FillS, result.Series.FillS.Order());
        Assert.Equal(result.Series.FillS[0], result.FillTimes!.First.Seconds);
        Assert.Equal(result.Series.FillS[^1], result.FillTimes.Last.Seconds);
    }

    /// <summary>A honey too thick for inertia: jar n takes (A μR̂/(ρg)) ln(h/(h − V/A)) under the head h that the jars before have left.</summary>
    [Fact]
    public void Thick_honey_jar_by_jar()
    {
        FillingSetup setup = Fillings.Plain() with { Honey = new Honey { Moisture = Ratio.FromPercent(14.5), LotFactor = 20 }, Temperature = Temperature.FromDegreesCelsius(20), ClosingTime = Duration.Zero, LongestFill = Duration.FromHours(20), Lip = Length.Zero };
        FillingResult result = FillingRun.Simulate(setup);
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double density = honey.DensityAt(setup.Temperature).KilogramsPerCubicMeter, viscosity = honey.ViscosityAt(setup.Temperature).PascalSeconds;
        double area = Math.PI / 4 * 0.38 * 0.38, slice = result.Target.Target.Kilograms / density / area;
        double factor = area * viscosity * GateFlow.GeometryOf(setup.Gate, 0.4).ViscousPerM3 / (density * 9.80665);
        for (int n = 0; n < result.Jars; n++)
        {
            double head = 0.41 - n * slice;
            Assert.Equal(factor * Math.Log(head / (head - slice)), result.Series.FillS[n], 1e-4 * result.Series.FillS[n]);
        }
    }

    [Fact]
    public void Jars_cases_and_what_is_given_away()
    {
        FillingResult result = FillingRun.Simulate(Fillings.Plain());
        Assert.Equal(result.Jars, 12 * result.Cases + result.LooseJars);
        Assert.Equal(result.Jars * result.Target.Target.Kilograms, result.Masses.InJars.Kilograms, 1e-9);
        Assert.Equal(result.Jars * (result.Target.Target.Grams - 500), result.Masses.GivenAway.Grams, 1e-6);
        Assert.Equal(result.Jars / result.Elapsed.Hours, result.JarsPerHour, 1e-9);
        Assert.True(result.Masses.Rest.Kilograms < result.Target.Target.Kilograms + 0.01, "another jar could have been filled");

        // The heel: 2 mm over the axis, 30 mm over the floor of a tank 380 mm across.
        double density = HoneyProperties.Of(result.Setup.Honey).DensityAt(result.Setup.Temperature).KilogramsPerCubicMeter;
        Assert.Equal(density * Math.PI / 4 * 0.38 * 0.38 * 0.032, result.Masses.Heel.Kilograms, 1e-9);
    }

    [Fact]
    public void As_many_jars_as_asked_for()
    {
        FillingResult result = FillingRun.Simulate(Fillings.Plain() with { MostJars = 7 });
        Assert.Equal(7, result.Jars);
        Assert.Equal(FillingStatus.JarsDone, result.Status);
        Assert.Equal(7, result.Target.Question.Lot);
    }

    [Fact]
    public void It_stops_where_a_jar_would_take_too_long()
    {
        FillingResult whole = FillingRun.Simulate(Fillings.Plain());
        double longestS = 2 * whole.FillTimes!.First.Seconds;
        FillingResult result = FillingRun.Simulate(whole.Setup with { LongestFill = Duration.FromSeconds(longestS) });
        Assert.Equal(FillingStatus.TooSlow, result.Status);
        Assert.Equal(whole.Series.FillS.Count(s => s <= longestS), result.Jars);
        Assert.Contains(result.Notices, notice => notice.Code == "run.too-slow");
    }

    /// <summary>The film holds honey back while it drains, so fewer jars come out, and the balance counts it.</summary>
    [Fact]
    public void The_film_is_counted()
    {
        FillingSetup setup = Fillings.Plain();
        FillingResult bare = FillingRun.Simulate(setup), film = FillingRun.Simulate(setup with { Tank = setup.Tank with { WallFilm = true } });
        Assert.Equal(0, bare.Masses.Film.Kilograms);
        Assert.InRange(film.Masses.Film.Kilograms, 0.05, 1);
        Assert.True(film.Jars <= bare.Jars);

        // As Jeffreys has it, over the wall that was bared and the time since the first jar.
        double fall = 0.44 - film.Setup.Tank.Shape.LevelOf(Volume.FromCubicMeters(
            (film.Masses.Film + film.Masses.Rest + film.Masses.Heel).Kilograms / HoneyProperties.Of(setup.Honey).DensityAt(setup.Temperature).KilogramsPerCubicMeter)).Meters;
        double nu = film.StartViscosity.PascalSeconds / HoneyProperties.Of(setup.Honey).DensityAt(setup.Temperature).KilogramsPerCubicMeter;
        double expected = 2.0 / 3 * Math.Sqrt(nu * fall / (9.80665 * film.Elapsed.Seconds)) * Math.PI * 0.38 * fall;
        Assert.Equal(expected * 1000 * HoneyProperties.Of(setup.Honey).DensityAt(setup.Temperature).KilogramsPerCubicMeter / 1000, film.Masses.Film.Kilograms, 1e-6);
    }

    /// <summary>An unheated tank cools toward the room by its own loss: a lump of water-like heat, to first order k A ΔT t/(m c).</summary>
    [Fact]
    public void An_unheated_tank_cools_and_slows_down()
    {
        FillingSetup setup = Fillings.Plain() with { MostJars = 3, RoomTemperature = Temperature.FromDegreesCelsius(15) };
        FillingResult held = FillingRun.Simulate(setup), cooling = FillingRun.Simulate(setup with { Tank = setup.Tank with { HeldAtTemperature = false } });
        Assert.Equal(35, held.EndTemperature.DegreesCelsius, 1e-9);
        double areaM2 = 2 * Math.PI / 4 * 0.38 * 0.38 + Math.PI * 0.38 * 0.44;
        double capacity = HoneyProperties.Of(setup.Honey).HeatCapacityAt(setup.Temperature).JoulesPerKilogramKelvin;
        double first = 6 * areaM2 * 20 * cooling.Elapsed.Seconds / (cooling.Masses.Start.Kilograms * capacity);
        Assert.Equal(first, 35 - cooling.EndTemperature.DegreesCelsius, 0.03 * first);
        Assert.True(cooling.FillTimes!.Last > held.FillTimes!.Last);
    }

    /// <summary>A leak goes with the third power of the gap; at 38 mm, 0.05 mm, 3 mm and the head of the tank it is w h³ ρ²g H/(12 μ L) by hand.</summary>
    [Fact]
    public void A_loose_blade_leaks()
    {
        FillingSetup setup = Fillings.Plain() with { Clearance = Length.FromMillimeters(0.05) };
        GateLeak leak = FillingRun.Simulate(setup).Leak!;
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double density = honey.DensityAt(setup.Temperature).KilogramsPerCubicMeter;
        double byHand = Math.PI * 0.038 * 1.25e-13 * density * density * 9.80665 * 0.41 / (12 * honey.ViscosityAt(setup.Temperature).PascalSeconds * 0.003) * 3600;
        Assert.Equal(byHand, leak.PerHour.Kilograms, 1e-9 * byHand);
        Assert.Equal(12 * byHand, leak.OverNight.Kilograms, 1e-8 * byHand);
        Assert.Equal(leak.OverNightTightened.Kilograms, FillingRun.Simulate(setup with { Clearance = Length.FromMillimeters(0.025) }).Leak!.OverNight.Kilograms, 1e-9);
        Assert.InRange(leak.OverNightWarmer!.Value / leak.OverNight, 1.3, 2.2);
        Assert.Null(FillingRun.Simulate(Fillings.Plain()).Leak);
    }

    /// <summary>Thick honey hangs on the gate, so the scale does not show it; thin honey pushes on the jar, so the scale shows it. Either way it is in the air.</summary>
    [Fact]
    public void The_lead_by_the_scale_is_less_than_what_is_in_the_air()
    {
        CutOff thin = FillingRun.Simulate(Fillings.Plain() with { Temperature = Temperature.FromDegreesCelsius(50), Opening = Ratio.FromPercent(15), MostJars = 1 }).CutOffs!.First;
        CutOff thick = FillingRun.Simulate(Fillings.Plain() with { Honey = new Honey { Moisture = Ratio.FromPercent(15) }, Temperature = Temperature.FromDegreesCelsius(20), Opening = Ratio.FromPercent(15), MostJars = 1 }).CutOffs!.First;
        foreach (CutOff cut in new[] { thin, thick })
        {
            Assert.Equal(cut.Flow.KilogramsPerSecond * cut.Transit.Seconds, cut.InTheAir.Kilograms, 1e-12);
            Assert.Equal(cut.Flow.KilogramsPerSecond * 0.25, cut.WhileClosing.Kilograms, 1e-12);
            Assert.True(cut.LeadOnScale < cut.Lead);
            Assert.Equal(cut.Lead.Kilograms, cut.LeadTime.Seconds * cut.Flow.KilogramsPerSecond, 1e-12);
        }

        Assert.True(thin.NotYetOnScale < 0.5 * thin.InTheAir);
        Assert.InRange(thick.NotYetOnScale / thick.InTheAir, 0.5, 1);
        Assert.True(thick.Transit > thin.Transit);
    }

    [Fact]
    public void A_jar_that_cannot_hold_the_fill_stays_empty_and_says_so()
    {
        FillingResult result = FillingRun.Simulate(Fillings.Plain() with { Jar = CommonJars.ByName("volume-quart").Item, LabelledMass = Mass.FromPounds(3) });
        Assert.Equal(FillingStatus.JarTooSmall, result.Status);
        Assert.Equal(0, result.Jars);
        Assert.Null(result.FillTimes);
        Assert.Equal(HeadspaceVerdict.CannotBeHeld, result.Headspace.Verdict);
        Assert.Contains(result.Notices, notice => notice.Code == "jar.cannot-hold");
    }

    [Fact]
    public void A_jar_without_a_weight_of_its_own_asks_for_the_label() => Assert.Equal(
        "LabelledMass",
        Assert.Throws<ArgumentException>(() => FillingRun.Simulate(Fillings.Plain() with { Jar = CommonJars.ByName("volume-pint").Item })).ParamName);

    [Fact]
    public void What_the_user_should_know()
    {
        FillingSetup setup = Fillings.Plain();
        Assert.Contains(FillingRun.Simulate(setup with { Opening = Ratio.FromPercent(100), Temperature = Temperature.FromDegreesCelsius(50) }).Notices, n => n.Code == "fill.quick");
        Assert.Contains(FillingRun.Simulate(setup with { Opening = Ratio.FromPercent(100), FillScatter = Mass.FromGrams(0.5) }).Notices, n => n.Code == "fill.hand");
        Assert.Contains(FillingRun.Simulate(setup).Notices, n => n.Code == "fill.slow-tail" && n.Helps.Contains("times the flow", StringComparison.Ordinal));
        Assert.Contains(FillingRun.Simulate(setup with { Rule = NetWeightRules.ByName("us") }).Notices, n => n.Code == "rule.no-tolerance");
        Assert.Contains(FillingRun.Simulate(setup with { LabelledMass = Mass.FromGrams(380) }).Notices, n => n.Code == "jar.looks-short");
        Assert.Contains(FillingRun.Simulate(setup with { LeastHeadspace = Ratio.FromPercent(10) }).Notices, n => n.Code == "jar.tight");
        Assert.Contains(FillingRun.Simulate(setup with { Temperature = Temperature.FromDegreesCelsius(28), LongestWait = Duration.FromSeconds(1) }).Notices, n => n.Code == "gate.drips");
        Assert.Contains(FillingRun.Simulate(setup with { Temperature = Temperature.FromDegreesCelsius(50) }).Cautions, c => c.Code == "scald");
        Assert.Contains(FillingRun.Simulate(setup).Cautions, c => c.Code == "weights");
    }

    /// <summary>Thinner honey is quicker and thicker slower; a measured viscosity has no such spread.</summary>
    [Fact]
    public void The_band_is_in_order()
    {
        FillingBand band = FillingBand.Of(Fillings.Plain());
        Assert.True(band.Quick.Elapsed < band.Likely.Elapsed && band.Likely.Elapsed < band.Slow.Elapsed);
        Assert.Equal(Math.Exp(2 * 0.3 * 1.2815516), band.Slow.StartViscosity / band.Quick.StartViscosity, 1e-6); // quantiles of ln N(0, 0.30)

        FillingBand exact = FillingBand.Of(Fillings.Plain(), lotLogDeviation: 0);
        Assert.Equal(exact.Likely.Elapsed, exact.Slow.Elapsed);
    }
}
