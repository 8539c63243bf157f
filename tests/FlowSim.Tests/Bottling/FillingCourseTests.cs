using FlowSim.Bottling;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>One or a few jars by hand: an upright tank 380 mm across, honey measured at 35 °C.</summary>
public class FillingCourseTests
{
    private const double G = 9.80665;
    private const double AreaM2 = Math.PI / 4 * 0.38 * 0.38;

    private static double Density(FillingSetup setup) => HoneyProperties.Of(setup.Honey).DensityAt(setup.Temperature).KilogramsPerCubicMeter;

    private static FillingCourse Run(FillingSetup setup, double targetKg = 0.5) => FillingCourse.Run(new FillingParameters(setup, targetKg), CancellationToken.None);

    [Fact]
    public void Numbers_of_a_setup()
    {
        FillingSetup setup = Fillings.OneJar(6);
        var p = new FillingParameters(setup, 0.5);
        Assert.Equal(0.019, p.RadiusM, 1e-15);
        Assert.Equal(0, p.LossWPerM2K);
        Assert.Equal(6, new FillingParameters(setup with { Tank = setup.Tank with { HeldAtTemperature = false } }, 0.5).LossWPerM2K);
        Assert.Equal(AreaM2 * 0.032, p.HeelM3, 1e-15); // 2 mm above the axis
        Assert.Equal(Density(setup) * AreaM2 * 0.44, p.StartKg, 1e-10);
        Assert.Equal(AreaM2 + Math.PI * 0.38 * 0.44, p.StartWettedM2, 1e-12);

        // A blade that uncovers half of the bore leaves half of its area open, fully open all of it.
        double full = Math.PI * 0.019 * 0.019;
        Assert.Equal(full / 2, new FillingParameters(setup with { Opening = Ratio.FromPercent(50) }, 0.5).OpenAreaM2, 1e-9);
        Assert.Equal(full, new FillingParameters(setup with { Opening = Ratio.FromPercent(100) }, 0.5).OpenAreaM2, 1e-12);
    }

    /// <summary>⅔ √(ν z/(g t)) times the wall bared, π D z, by hand; nothing before the first jar, without a film, or above the start; never more than there is.</summary>
    [Fact]
    public void Film_by_hand()
    {
        FillingSetup setup = Fillings.OneJar(6);
        setup = setup with { Tank = setup.Tank with { WallFilm = true } };
        var p = new FillingParameters(setup, 0.5);
        const double nu = 4e-3, z = 0.14;
        double byHand = 2.0 / 3 * Math.Sqrt(nu * z / (G * 600)) * Math.PI * 0.38 * z;
        Assert.Equal(byHand, p.FilmM3(AreaM2 * 0.3, nu, 600), 1e-12);
        Assert.Equal(0, p.FilmM3(AreaM2 * 0.3, nu, 0));
        Assert.Equal(0, p.FilmM3(AreaM2 * 0.3, nu, -1));
        Assert.Equal(0, p.FilmM3(AreaM2 * 0.445, nu, 600));
        Assert.Equal(0, new FillingParameters(Fillings.OneJar(6), 0.5).FilmM3(AreaM2 * 0.3, nu, 600));
        Assert.Equal(1e-4, p.FilmM3(1e-4, nu, 1), 1e-18); // the equation would have 8 L
    }

    /// <summary>A lump that loses k A (T − T_room): both ends and the wall that is wetted; exp(−k A t/(m c)).</summary>
    [Fact]
    public void Cooling_by_hand()
    {
        FillingSetup setup = Fillings.OneJar(6);
        var p = new FillingParameters(setup with { Tank = setup.Tank with { HeldAtTemperature = false } }, 0.5);
        double capacity = HoneyProperties.Of(setup.Honey).HeatCapacityAt(setup.Temperature).JoulesPerKilogramKelvin;
        double area = 2 * AreaM2 + Math.PI * 0.38 * 0.3;
        Assert.Equal(295.15 + 13 * Math.Exp(-6 * area * 7200 / (capacity * 50)), p.CooledK(308.15, 50, 0.3, 7200), 1e-9);
        Assert.Equal(308.15, new FillingParameters(setup, 0.5).CooledK(308.15, 50, 0.3, 7200), 1e-12);
    }

    /// <summary>Wait: 4/9 (ν z³/g) (2πR ρ/m)², at most as long as somebody waits. Drips: what is on the rim then less what is left after the change of jars.</summary>
    [Theory]
    [InlineData(600, false)]
    [InlineData(5, true)]
    public void Waiting_and_dripping_by_hand(double longestS, bool cutShort)
    {
        FillingSetup setup = Fillings.OneJar(6) with { Lip = Length.FromMillimeters(10), DripLimit = Mass.FromGrams(0.5), LongestWait = Duration.FromSeconds(longestS), ChangeOver = Duration.FromSeconds(10) };
        double density = Density(setup), nu = 6 / density;
        double wait = 4.0 / 9 * nu * 1e-6 / G * Math.Pow(2 * Math.PI * 0.019 * density / 0.0005, 2);
        Assert.InRange(wait, 5.001, 599);
        if (cutShort)
            wait = longestS;
        double OnRim(double t) => density * Math.Min(Math.PI * 0.019 * 0.019 * 0.01, 2.0 / 3 * Math.Sqrt(nu * 0.01 / (G * t)) * 2 * Math.PI * 0.019 * 0.01);
        double drips = OnRim(wait) - OnRim(wait + 10);

        FillingCourse course = Run(setup);
        JarMoment jar = Assert.Single(course.Jars);
        Assert.Equal(wait, jar.WaitS, 1e-9);
        Assert.Equal(drips, jar.DripsKg, 1e-12);
        Assert.Equal(density * AreaM2 * 0.44 - 0.5 - drips, course.MassKg, 1e-9);
        Assert.Equal(0.44 - (0.5 + drips) / density / AreaM2, jar.LevelM, 1e-12);
        Assert.Equal(jar.FillS + wait + 10, course.EndS, 1e-9);
    }

    /// <summary>The flow when the gate begins to shut is that under the head over the gate then: between what volume over time is at the start and later.</summary>
    [Fact]
    public void Flow_at_the_end_of_a_jar()
    {
        FillingSetup setup = Fillings.OneJar(6);
        double density = Density(setup);
        GateGeometry gate = GateFlow.GeometryOf(setup.Gate, 0.4);
        JarMoment jar = Assert.Single(Run(setup).Jars);

        // p = R Q + B Q² at the head that is left.
        double head = 0.41 - 0.5 / density / AreaM2, q = jar.FlowM3PerS;
        Assert.Equal(density * G * head, 6 * gate.ViscousPerM3 * q + density * gate.InertialPerM4 * q * q, 1e-9 * density * G * head);
        Assert.InRange(0.5 / density / jar.FillS / q, 1, 1.01);
    }

    /// <summary>A jar that takes just as long as is put up with is filled; closing takes half its time on top.</summary>
    [Fact]
    public void Longest_fill_is_allowed()
    {
        FillingSetup setup = Fillings.OneJar(6);
        double seconds = Run(setup).Jars[0].FillS;
        Assert.Equal(FillingStatus.JarsDone, Run(setup with { LongestFill = Duration.FromSeconds(seconds) }).Status);
        FillingCourse slow = Run(setup with { LongestFill = Duration.FromSeconds(seconds), ClosingTime = Duration.FromSeconds(0.5) });
        Assert.Equal(FillingStatus.TooSlow, slow.Status);
        Assert.Empty(slow.Jars);
        Assert.Equal(seconds + 0.25, slow.RefusedFillS, 1e-9);
    }

    [Fact]
    public void Ends_early_when_asked_to()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => FillingCourse.Run(new FillingParameters(Fillings.OneJar(6) with { MostJars = 2 }, 0.5), cancelled.Token));
    }

    /// <summary>
    /// With a film: after each jar, what the level says and the film at the moment the gate shuts are all that is left; and the time of the jar is that of the bulk's fall, drawn out in the
    /// ratio of what flows out to what the bulk loses.
    /// </summary>
    [Fact]
    public void Level_and_film_are_what_is_left()
    {
        FillingSetup setup = Fillings.OneJar(6);
        setup = setup with { Tank = setup.Tank with { WallFilm = true }, MostJars = 4, ChangeOver = Duration.FromSeconds(5) };
        double density = Density(setup), nu = 6 / density, start = AreaM2 * 0.44;
        GateGeometry gate = GateFlow.GeometryOf(setup.Gate, 0.4);
        double Film(double volume, double t)
        {
            double z = 0.44 - volume / AreaM2;
            return z > 0 && t > 0 ? 2.0 / 3 * Math.Sqrt(nu * z / (G * t)) * Math.PI * 0.38 * z : 0;
        }

        List<JarMoment> jars = Run(setup).Jars;
        Assert.Equal(4, jars.Count);
        for (int n = 0; n < 4; n++)
        {
            double before = start - n * 0.5 / density, after = start - (n + 1) * 0.5 / density, shut = jars[n].StartS + jars[n].FillS;
            double from = before - Film(before, jars[n].StartS), to = AreaM2 * jars[n].LevelM;
            Assert.Equal(after, to + Film(after, shut), 1e-10);
            double prism = TankDrainage.PrismTimeS(from / AreaM2 - 0.03, to / AreaM2 - 0.03, AreaM2, 6 * gate.ViscousPerM3, density * gate.InertialPerM4, density * G);
            Assert.Equal(0.5 / density / (from - to) * prism, jars[n].FillS, 1e-9 * prism);
        }
    }

    /// <summary>Where each kilogram is, with film and drips: in the tank what was there less jars and drips, film by its own equation, heel below 32 mm.</summary>
    [Fact]
    public void Masses_by_hand()
    {
        FillingSetup setup = Fillings.OneJar(6);
        setup = setup with { Tank = setup.Tank with { WallFilm = true }, MostJars = 4, ChangeOver = Duration.FromSeconds(5), Lip = Length.FromMillimeters(10) };
        FillingResult result = FillingRun.Simulate(setup);
        FillingMasses masses = result.Masses;
        double density = Density(setup), left = density * AreaM2 * 0.44 - 2 - masses.Drips.Kilograms, z = 0.44 - left / density / AreaM2;
        double film = density * 2.0 / 3 * Math.Sqrt(6 / density * z / (G * result.Elapsed.Seconds)) * Math.PI * 0.38 * z;
        Assert.True(masses.Drips.Grams > 0.01);
        Assert.Equal(2, masses.InJars.Kilograms, 1e-12);
        Assert.Equal(0, masses.GivenAway.Kilograms, 1e-12);
        Assert.Equal(film, masses.Film.Kilograms, 1e-9);
        Assert.Equal(density * AreaM2 * 0.032, masses.Heel.Kilograms, 1e-9);
        Assert.Equal(left - film - density * AreaM2 * 0.032, masses.Rest.Kilograms, 1e-9);
        Assert.InRange(masses.BalanceRelative, -1e-12, 1e-12);
    }

    /// <summary>Rates, cases, what is given away in a day, the lead and the series of a run of three jars.</summary>
    [Fact]
    public void What_a_run_comes_to()
    {
        FillingSetup setup = Fillings.OneJar(6) with { MostJars = 3, FillScatter = Mass.FromGrams(2), WorkDay = Duration.FromHours(7), JarsPerCase = 2, ClosingTime = Duration.FromSeconds(0.5) };
        FillingResult result = FillingRun.Simulate(setup);
        Assert.Equal(3 / result.Elapsed.Hours, result.JarsPerHour, 1e-9);
        Assert.Equal(1.5 / result.Elapsed.Hours, result.CasesPerHour, 1e-9);
        Assert.Equal(1, result.Cases);
        Assert.Equal(1, result.LooseJars);

        // Three jars of 2 g scatter: 1.644854 · 2/√3 g above the label, of which half the scatter would save half.
        double above = 1.644854 * 2 / Math.Sqrt(3);
        Assert.Equal(above, result.Target.AboveLabel.Grams, 1e-4);
        Assert.Equal(7 * result.JarsPerHour * above, result.GivenAwayPerDay.Grams, 1e-2);
        Assert.Equal(3.5 * result.JarsPerHour * above, result.SavedPerDayAtHalfScatter.Grams, 1e-2);
        double density = Density(setup);
        CutOff first = result.CutOffs!.First;
        Assert.Equal(first.Flow.KilogramsPerSecond, result.Series.FlowKgPerS[0], 1e-12);
        Assert.InRange(result.Series.FlowKgPerS[0] * (result.Series.FillS[0] - 0.25), 0.495, 0.501); // hardly less than at the start
        Assert.Equal(first.NotYetOnScale.Kilograms + first.Flow.KilogramsPerSecond * 0.25, first.LeadOnScale.Kilograms, 1e-12);

        // The stream with the kinematic viscosity, through the area that is open.
        double speed = first.Flow.KilogramsPerSecond / density / GateOpening.OfStraightBlade(0.019, 0.4).AreaM2;
        SteadyStream stream = FallingThread.SteadyTrouton1906(6 / density, speed, 0.15);
        Assert.Equal(stream.TransitS, first.Transit.Seconds, 1e-9);
        Assert.Equal(first.Flow.KilogramsPerSecond * (stream.PullMPerS - speed) / G, first.NotYetOnScale.Kilograms, 1e-9);
    }

    [Fact]
    public void Without_a_jar_there_are_no_rates()
    {
        FillingResult result = FillingRun.Simulate(Fillings.OneJar(6) with { Jar = new Jar { Brimful = Volume.FromMilliliters(300), SoldAs = Mass.FromGrams(500) } });
        Assert.Equal(FillingStatus.JarTooSmall, result.Status);
        Assert.Equal(0, result.Jars);
        Assert.Equal(0, result.JarsPerHour);
        Assert.Equal(0, result.GivenAwayPerDay.Kilograms);
        Assert.Null(result.FillTimes);
        Assert.Null(result.CutOffs);
        Assert.Empty(result.Series.FillS);
    }

    /// <summary>A jar that the honey fills to the brim as it is filled is filled.</summary>
    [Fact]
    public void Brimful_goes_in()
    {
        FillingSetup setup = Fillings.OneJar(6);
        Volume brim = Mass.FromGrams(500) / HoneyProperties.Of(setup.Honey).DensityAt(setup.Temperature);
        FillingSetup With(Volume brimful) => setup with { Jar = setup.Jar with { Brimful = brimful } };
        Assert.Equal(FillingStatus.JarsDone, FillingRun.Simulate(With(brim)).Status);
        Assert.Equal(FillingStatus.JarTooSmall, FillingRun.Simulate(With(brim * 0.999999)).Status);
    }

    /// <summary>A lot is what the tank drains, ρ A (0.44 − 0.032) over the label, unless another or fewer jars are asked for; a label of one's own wins over the jar's.</summary>
    [Fact]
    public void The_lot_that_the_target_is_for()
    {
        FillingSetup setup = Fillings.OneJar(6) with { MostJars = null, LongestFill = Duration.FromSeconds(1) }; // not one jar is filled
        double kilograms = Density(setup) * AreaM2 * 0.408;
        Assert.Equal((int)(kilograms / 0.5), FillingRun.Simulate(setup).Target.Question.Lot);
        FillingResult own = FillingRun.Simulate(setup with { LabelledMass = Mass.FromGrams(480) });
        Assert.Equal((int)(kilograms / 0.48), own.Target.Question.Lot);
        Assert.Equal(480, own.Target.Question.Label.Grams, 1e-9);
        Assert.Equal(5, FillingRun.Simulate(setup with { MostJars = 5 }).Target.Question.Lot);
        Assert.Equal(77, FillingRun.Simulate(setup with { Lot = 77, MostJars = 5 }).Target.Question.Lot);
        Assert.Equal(1, FillingRun.Simulate(setup with { LabelledMass = Mass.FromKilograms(45), Jar = new Jar { Brimful = Volume.FromLiters(30) }, Tank = setup.Tank with { Level = Length.FromMillimeters(100) } }).Target.Question.Lot);
    }

    /// <summary>w h³ ρ² g H/(12 μ L) through an even gap, as long as it stands; five kelvins warmer with the viscosity and density there; nothing beyond the viscosity's range.</summary>
    [Fact]
    public void Leaks_by_hand()
    {
        FillingSetup setup = Fillings.OneJar(6) with { Clearance = Length.FromMillimeters(0.05), Night = Duration.FromHours(10) };
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double PerHour(double celsius)
        {
            Temperature at = Temperature.FromDegreesCelsius(celsius);
            double density = honey.DensityAt(at).KilogramsPerCubicMeter;
            return 3600 * Math.PI * 0.038 * 1.25e-13 * density * density * G * 0.41 / (12 * honey.ViscosityAt(at).PascalSeconds * 0.003);
        }

        GateLeak leak = FillingRun.Simulate(setup).Leak!;
        Assert.Equal(PerHour(35), leak.PerHour.Kilograms, 1e-12);
        Assert.Equal(10 * PerHour(35), leak.OverNight.Kilograms, 1e-11);
        Assert.Equal(10 * PerHour(40), leak.OverNightWarmer!.Value.Kilograms, 1e-10);
        Assert.Equal(10 * PerHour(35) / 8, leak.OverNightTightened.Kilograms, 1e-11);

        // Measured at 35 °C the figures reach to 55 °C.
        Assert.NotNull(FillingRun.Simulate(setup with { Temperature = Temperature.FromDegreesCelsius(49.9) }).Leak!.OverNightWarmer);
        Assert.Null(FillingRun.Simulate(setup with { Temperature = Temperature.FromDegreesCelsius(50.1) }).Leak!.OverNightWarmer);
        Assert.Null(FillingRun.Simulate(Fillings.OneJar(6)).Leak);
    }

    /// <summary>Measured figures have no spread, so that all three runs are one; a lot factor at its limits cannot go beyond them.</summary>
    [Fact]
    public void Bands()
    {
        FillingBand measured = FillingBand.Of(Fillings.OneJar(6));
        Assert.Same(measured.Likely, measured.Quick);
        Assert.Same(measured.Likely, measured.Slow);
        FillingBand usual = FillingBand.Of(Fillings.OneJar(6) with { Honey = new Honey { Moisture = Ratio.FromPercent(17.8) } });
        Assert.Equal(Math.Exp(1.2815516 * 0.3), usual.Slow.StartViscosity / usual.Likely.StartViscosity, 1e-6); // 90 % of ln N(0, 0.30)
        Assert.Equal(Math.Exp(-1.2815516 * 0.3), usual.Quick.StartViscosity / usual.Likely.StartViscosity, 1e-6);
        FillingBand said = FillingBand.Of(Fillings.OneJar(6), lotLogDeviation: 0.1);
        Assert.Equal(Math.Exp(1.2815516 * 0.1), said.Slow.StartViscosity / said.Likely.StartViscosity, 1e-6);
        Assert.Equal("lotLogDeviation", Assert.Throws<ArgumentOutOfRangeException>(() => FillingBand.Of(Fillings.OneJar(6), 3.001)).ParamName);
    }

    /// <summary>At 40 °C cold glass is warned of, and a hair below not; a case of more than 23 kg is.</summary>
    [Fact]
    public void Reminders()
    {
        string[] Codes(FillingSetup setup) => [.. FillingRun.Simulate(setup).Cautions.Select(caution => caution.Code)];
        FillingSetup small = Fillings.OneJar(6) with { Tank = Fillings.Plain().Tank with { Level = Length.FromMillimeters(60) } }; // 10 kg
        Assert.Equal(["slip", "weights", "infants", "local-rules"], Codes(small));
        Assert.Equal(["glass", "slip", "weights", "infants", "local-rules"], Codes(small with { Temperature = Temperature.FromDegreesCelsius(40) }));
        Assert.DoesNotContain("glass", Codes(small with { Temperature = Temperature.FromDegreesCelsius(39.99) }));
        Assert.Equal(["scald", "glass", "slip", "weights", "infants", "local-rules"], Codes(small with { Temperature = Temperature.FromDegreesCelsius(49) }));
        Assert.DoesNotContain("lift", Codes(small with { JarsPerCase = 45 })); // 22.5 kg
        Caution lift = FillingRun.Simulate(small with { JarsPerCase = 47 }).Cautions.Single(caution => caution.Code == "lift");
        Assert.StartsWith("A case of 47 holds 23.5 kg of honey, and the jars: more than the 23 kg", lift.Text, StringComparison.Ordinal);
        Assert.Contains(FillingRun.Simulate(Fillings.OneJar(6)).Cautions, caution => caution.Code == "lift" && caution.Text.StartsWith("The tank holds ", StringComparison.Ordinal));
    }
}
