using FlowSim.Bottling;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Tests.Bottling;

/// <summary>What a filling tells: each notice present just beyond its limit and absent just within, with the figures it names worked out again.</summary>
public class FillingNoticesTests
{
    private const double G = 9.80665;
    private const double Usual = 20; // Pa·s

    /// <summary>Honey measured at 35 °C, one jar of 500 g exactly, nothing that would be worth a word.</summary>
    private static FillingSetup Quiet(double pascalSeconds = Usual) => Fillings.OneJar(pascalSeconds);

    private static Density DensityAt(double celsius) => HoneyProperties.Of(Quiet().Honey).DensityAt(Temperature.FromDegreesCelsius(celsius));

    private static Notice? Find(FillingSetup setup, string code) => FillingRun.Simulate(setup).Notices.SingleOrDefault(notice => notice.Code == code);

    private static FillingSetup InJar(double millilitres, FillingSetup? setup = null)
    {
        setup ??= Quiet();
        return setup with { Jar = setup.Jar with { Brimful = Volume.FromMilliliters(millilitres) } };
    }

    private static string Clock(double seconds) => seconds < 90
        ? Invariant($"{seconds:0.#} s")
        : Invariant($"{(int)Math.Round(seconds) / 60} min {(int)Math.Round(seconds) % 60:00} s");

    [Fact]
    public void A_plain_run_has_only_the_hand_to_speak_of()
    {
        Assert.Equal(["fill.hand"], FillingRun.Simulate(Quiet()).Notices.Select(notice => notice.Code));
        Assert.Empty(FillingRun.Simulate(InJar(450, Quiet() with { FillScatter = Mass.FromGrams(30) })).Notices);
    }

    /// <summary>Volumes are the fill over the density; a jar between the two runs over when it is warm, a smaller one is not filled.</summary>
    [Fact]
    public void A_jar_that_cannot_hold()
    {
        double cold = 500 / DensityAt(35).GramsPerMilliliter, warm = 500 / DensityAt(80).GramsPerMilliliter;
        FillingSetup setup = Quiet() with { HottestStore = Temperature.FromDegreesCelsius(80), LeastHeadspace = Ratio.FromPercent(5) };
        double between = (cold + warm) / 2, most = 0.95 * between * DensityAt(80).GramsPerMilliliter;
        Notice over = Find(InJar(between, setup), "jar.cannot-hold")!;
        Assert.Equal(Invariant($"500.0 g of honey take {cold:0} mL when filled and {warm:0} mL at 80 °C; the jar holds {between:0} mL to the brim"), over.Seen);
        Assert.Equal("it is pressed out under the lid when the jar stands warm", over.MayMean);
        Assert.Equal(Invariant($"take a larger jar, or label at most {most:0.0} g and aim lower"), over.Helps);
        Assert.Equal("it does not go in, so nothing was filled", Find(InJar(cold * 0.999, setup), "jar.cannot-hold")!.MayMean);
        Assert.Null(Find(InJar(warm * 1.0001, setup), "jar.cannot-hold"));
    }

    /// <summary>5 % asked for: a jar of the warm volume over 0.95 leaves just that; one a hair smaller says what is left and what would fit.</summary>
    [Fact]
    public void A_tight_jar()
    {
        double warm = 500 / DensityAt(40).GramsPerMilliliter, brim = warm / 0.96;
        FillingSetup setup = Quiet() with { LeastHeadspace = Ratio.FromPercent(5) };
        Assert.Null(Find(InJar(warm / 0.9499, setup), "jar.tight"));
        Notice tight = Find(InJar(brim, setup), "jar.tight")!;
        Assert.Equal("at 40 °C 4.0 % of the jar is left; 5 % is asked for", tight.Seen);
        Assert.Equal(Invariant($"fill at most {0.95 * brim * DensityAt(40).GramsPerMilliliter:0.0} g, or take a larger jar"), tight.Helps);
        Assert.NotNull(Find(InJar(warm / 0.9501, setup), "jar.tight"));
    }

    [Fact]
    public void A_jar_that_looks_short()
    {
        double filled = 500 / DensityAt(35).GramsPerMilliliter;
        Assert.Null(Find(InJar(filled / 0.801), "jar.looks-short"));
        Assert.NotNull(Find(InJar(filled / 0.799), "jar.looks-short"));
        Assert.Equal("25 % of the jar stays empty", Find(InJar(filled / 0.75), "jar.looks-short")!.Seen);
    }

    [Fact]
    public void A_rule_without_a_tolerance()
    {
        FillingSetup setup = Quiet() with { Rule = NetWeightRules.ByName("us") };
        Assert.Equal("the rule 'us' has no tolerable shortfall for 500.0 g here", Find(setup, "rule.no-tolerance")!.Seen);
        Assert.Null(Find(setup with { TolerableShortfall = Mass.FromGrams(15) }, "rule.no-tolerance"));
        Assert.Null(Find(Quiet(), "rule.no-tolerance"));
    }

    [Fact]
    public void An_ending_that_is_too_slow()
    {
        FillingSetup setup = Quiet(600);
        double first = FillingRun.Simulate(setup).FillTimes!.First.Seconds;
        Assert.True(first > 90);
        FillingResult result = FillingRun.Simulate(setup with { LongestFill = Duration.FromSeconds(80) });
        Notice slow = result.Notices.Single(notice => notice.Code == "run.too-slow");
        double left = DensityAt(35).KilogramsPerCubicMeter * Math.PI / 4 * 0.38 * 0.38 * 0.408;
        Assert.Equal(Invariant($"after 0 jars the next would take {Clock(first)}, more than the 80 s that are put up with; {left:0.0} kg above the heel are left"), slow.Seen);
        Assert.Null(Find(setup, "run.too-slow"));

        // 90 s are told in minutes, what is less in seconds.
        Assert.Contains("more than the 1 min 30 s that", Find(setup with { LongestFill = Duration.FromSeconds(90) }, "run.too-slow")!.Seen, StringComparison.Ordinal);
        Assert.Contains("more than the 89.9 s that", Find(setup with { LongestFill = Duration.FromSeconds(89.9) }, "run.too-slow")!.Seen, StringComparison.Ordinal);
    }

    /// <summary>A change of jars long enough for 2 K: T falls as exp(−k A t/(m c)) from 35 °C towards 22 °C.</summary>
    [Fact]
    public void A_tank_that_cools()
    {
        FillingSetup setup = Quiet();
        setup = setup with { Tank = setup.Tank with { HeldAtTemperature = false } };
        FillingResult bare = FillingRun.Simulate(setup);
        double density = DensityAt(35).KilogramsPerCubicMeter, area = Math.PI / 4 * 0.38 * 0.38, mass = density * area * 0.44 - 0.5, level = 0.44 - 0.5 / density / area;
        double loss = 6 * (2 * area + Math.PI * 0.38 * level), capacity = mass * HoneyProperties.Of(setup.Honey).HeatCapacityAt(setup.Temperature).JoulesPerKilogramKelvin;

        // Two kelvins take more than the hour that a change of jars may take, so the loss is ten times as large and the time a tenth.
        FillingSetup Quick(double kelvins) => setup with
        {
            Tank = setup.Tank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(60) },
            ChangeOver = Duration.FromSeconds(capacity / loss / 10 * Math.Log(13 / (13 - kelvins)) - bare.Elapsed.Seconds),
        };
        Assert.Null(Find(Quick(1.99), "tank.cools"));
        Assert.NotNull(Find(Quick(2.01), "tank.cools"));
        Assert.Equal("the tank cools by 2.5 K before the end", Find(Quick(2.5), "tank.cools")!.Seen);
        Assert.Null(Find(Quiet(), "tank.cools"));
    }

    /// <summary>A tank that warms is not one that cools.</summary>
    [Fact]
    public void A_tank_that_warms()
    {
        FillingSetup setup = Quiet();
        FillingSetup warms = setup with { RoomTemperature = Temperature.FromDegreesCelsius(60), ChangeOver = Duration.FromHours(1), Tank = setup.Tank with { HeldAtTemperature = false, HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(100) } };
        Assert.True(FillingRun.Simulate(warms).EndTemperature.DegreesCelsius > 37.5);
        Assert.Null(Find(warms, "tank.cools"));
    }

    /// <summary>Measured at 35 °C, figures hold to 5 K either way. A tank that ends below is told of once, whether it began there or not.</summary>
    [Theory]
    [InlineData(31, 22, 0)]
    [InlineData(31, -10, 1)]
    [InlineData(29, -10, 1)]
    public void A_range_that_is_left_on_the_way(double startC, double roomC, int notices)
    {
        FillingSetup setup = Quiet();
        setup = setup with
        {
            Temperature = Temperature.FromDegreesCelsius(startC),
            RoomTemperature = Temperature.FromDegreesCelsius(roomC),
            ChangeOver = roomC > 0 ? Duration.Zero : Duration.FromHours(1),
            Tank = setup.Tank with { HeldAtTemperature = false, HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(100) },
        };
        FillingResult result = FillingRun.Simulate(setup);
        Assert.Equal(notices == 0, result.EndTemperature.DegreesCelsius > 30);
        Assert.Equal(notices, result.Notices.Count(notice => notice.Code == "range.measured viscosity.temperature"));
    }

    [Fact]
    public void Not_one_jar()
    {
        FillingSetup setup = Quiet();
        FillingSetup Level(double millimetres) => setup with { Tank = setup.Tank with { Level = Length.FromMillimeters(millimetres) } };
        Assert.NotNull(Find(Level(34.5), "run.no-jar")); // 2.5 mm of 380 mm: 0.4 kg
        Assert.Null(Find(Level(36), "run.no-jar"));
        Assert.Null(Find(setup with { LongestFill = Duration.FromSeconds(1) }, "run.no-jar")); // too slow, not too little
        FillingResult emptied = FillingRun.Simulate(Level(36) with { MostJars = null });
        Assert.Equal(FillingStatus.Emptied, emptied.Status);
        Assert.True(emptied.Jars > 0);
        Assert.DoesNotContain(emptied.Notices, notice => notice.Code == "run.no-jar");
    }

    /// <summary>A jar as slow as 3 s and one as quick; the opening is chosen so by halving.</summary>
    [Fact]
    public void A_quick_fill_and_a_hand()
    {
        FillingSetup setup = Quiet(6);
        double Fill(double percent) => FillingCourse.Run(new FillingParameters(setup with { Opening = Ratio.FromPercent(percent) }, 0.5), CancellationToken.None).Jars[0].FillS;
        double low = 10, high = 100;
        Assert.True(Fill(low) > 3 && Fill(high) < 3);
        for (int i = 0; i < 20; i++)
            (low, high) = Fill((low + high) / 2) > 3 ? ((low + high) / 2, high) : (low, (low + high) / 2);
        Assert.Null(Find(setup with { Opening = Ratio.FromPercent(low) }, "fill.quick"));
        Assert.Equal("the first jar fills in 3.0 s", Find(setup with { Opening = Ratio.FromPercent(high) }, "fill.quick")!.Seen);

        // A hand that is 0.15 s late lets so much run. The jar is large, for wide scatter aims high.
        setup = InJar(600);
        double grams = 0.15 * FillingRun.Simulate(setup).CutOffs!.First.Flow.KilogramsPerSecond * 1000;
        Assert.InRange(grams, 5, 50);
        Assert.Null(Find(setup with { FillScatter = Mass.FromGrams(grams * 1.001) }, "fill.hand"));
        FillingSetup under = setup with { FillScatter = Mass.FromGrams(grams * 0.99) };
        FillingResult result = FillingRun.Simulate(under);
        double hand = 150 * result.CutOffs!.First.Flow.KilogramsPerSecond;
        Assert.Equal(
            Invariant($"at the first jar 0.15 s of a hand are {hand:0.0} g, more than the scatter of {grams * 0.99:0.0} g"),
            result.Notices.Single(notice => notice.Code == "fill.hand").Seen);
    }

    /// <summary>
    /// From a level of 60 mm the head is soon gone. The first jar more than three times as slow as the first is named, counted from one; and what opening the gate fully gives, as the
    /// flow that solves p = R Q + B Q² under the last jar's head over the flow there is.
    /// </summary>
    [Fact]
    public void A_slow_tail()
    {
        FillingSetup setup = Quiet();
        setup = setup with { MostJars = null, Tank = setup.Tank with { Level = Length.FromMillimeters(60) } };
        FillingResult result = FillingRun.Simulate(setup);
        IReadOnlyList<double> seconds = result.Series.FillS;
        int slow = Enumerable.Range(1, seconds.Count).First(n => seconds[n - 1] > 3 * seconds[0]);
        Assert.InRange(slow, 3, seconds.Count);
        Notice tail = result.Notices.Single(notice => notice.Code == "fill.slow-tail");
        Assert.Equal(Invariant($"the first jar takes {Clock(seconds[0])}, from jar {slow} on more than 3 times that, the last {Clock(seconds[^1])}"), tail.Seen);

        double density = DensityAt(35).KilogramsPerCubicMeter, pressure = density * G * (result.Series.TankLevelM[^1] - 0.03);
        GateGeometry open = GateFlow.GeometryOf(setup.Gate, 1);
        double r = Usual * open.ViscousPerM3, b = density * open.InertialPerM4;
        double flow = (-r + Math.Sqrt(r * r + 4 * b * pressure)) / (2 * b);
        Assert.StartsWith(
            Invariant($"open the gate fully for the last ones: {flow / (result.Series.FlowKgPerS[^1] / density):0.#} times the flow; warm the honey"),
            tail.Helps,
            StringComparison.Ordinal);

        // An open gate cannot be opened further; and a run that ends before the head is gone has no tail.
        Assert.StartsWith("warm the honey", Find(setup with { Opening = Ratio.FromPercent(100) }, "fill.slow-tail")!.Helps, StringComparison.Ordinal);
        Assert.Null(Find(setup with { MostJars = slow - 1 }, "fill.slow-tail"));
        Assert.NotNull(Find(setup with { MostJars = slow }, "fill.slow-tail"));
    }

    /// <summary>Somebody who waits long enough takes the jar away with what may hang; one who does not is told what still hangs: ⅔ √(ν z/(g t)) 2πR z ρ.</summary>
    [Fact]
    public void A_gate_that_drips()
    {
        FillingSetup setup = Quiet() with { Lip = Length.FromMillimeters(10), DripLimit = Mass.FromGrams(0.5), LongestWait = Duration.FromSeconds(600), ChangeOver = Duration.FromSeconds(10) };
        double density = DensityAt(35).KilogramsPerCubicMeter;
        double Hangs(double t) => density * 2.0 / 3 * Math.Sqrt(Usual / density * 0.01 / (G * t)) * 2 * Math.PI * 0.019 * 0.01 * 1000;
        Assert.Null(Find(setup, "gate.drips"));
        double wait = FillingRun.Simulate(setup).CutOffs!.First.Wait.Seconds;
        Assert.Equal(0.5, Hangs(wait), 1e-9);

        // 0.1 % over are not told, half a per cent are: what hangs goes as one over the root of the time.
        Assert.Null(Find(setup with { LongestWait = Duration.FromSeconds(wait / 1.0015) }, "gate.drips"));
        Assert.NotNull(Find(setup with { LongestWait = Duration.FromSeconds(wait / 1.01) }, "gate.drips"));
        FillingSetup hasty = setup with { LongestWait = Duration.FromSeconds(wait / 4), MostJars = 3 };
        FillingResult result = FillingRun.Simulate(hasty);
        Notice drips = result.Notices.Single(notice => notice.Code == "gate.drips");
        Assert.Equal(Invariant($"after waiting {wait / 4:0} s about 1.0 g still hang on the gate's rim"), drips.Seen);
        Assert.Equal(Invariant($"{3 * (Hangs(wait / 4) - Hangs(wait / 4 + 10)) / 1000:0.00} kg drip beside the jars in this run, if nothing catches them"), drips.MayMean);
    }

    [Fact]
    public void Ranges_of_what_is_computed()
    {
        Assert.Null(Find(Quiet() with { FallHeight = Length.FromMeters(1) }, "range.falling thread.fall"));
        Assert.Equal("what is in the air is a rough figure", Find(Quiet() with { FallHeight = Length.FromMeters(1.01) }, "range.falling thread.fall")!.MayMean);

        // A gap a tenth as wide as the seat is long is still a slit.
        FillingSetup loose = Quiet() with { BladeSeat = Length.FromMillimeters(3) };
        Assert.Null(Find(loose with { Clearance = Length.FromMillimeters(0.299) }, "range.slit flow.h/L"));
        Assert.NotNull(Find(loose with { Clearance = Length.FromMillimeters(0.301) }, "range.slit flow.h/L"));
    }

    /// <summary>Re = 4 ṁ/(π D μ), up to 2000.</summary>
    [Fact]
    public void Flow_in_the_tube_that_may_be_turbulent()
    {
        List<bool> told = [];
        foreach (double viscosity in new[] { 0.04, 0.06, 0.2 })
        {
            FillingResult result = FillingRun.Simulate(Quiet(viscosity) with { Opening = Ratio.FromPercent(100), FallHeight = Length.FromMillimeters(5) });
            double reynolds = 4 * result.CutOffs!.First.Flow.KilogramsPerSecond / (Math.PI * 0.038 * viscosity);
            Notice? turbulent = result.Notices.SingleOrDefault(notice => notice.Code == "range.poiseuille tube flow.Re");
            told.Add(turbulent is not null);
            Assert.Equal(reynolds > 2000, turbulent is not null);
            if (turbulent is not null)
                Assert.StartsWith(Invariant($"Re = {reynolds:0.##}"), turbulent.Seen, StringComparison.Ordinal);
        }

        Assert.True(told[0]);
        Assert.False(told[^1]);
    }
}
