using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class FallingBallTests
{
    /// <summary>
    /// A 3 mm steel ball (7800 kg/m³) in a 50 mm jar of honey of 3 Pa·s: 100 mm in 10.9 s. Worked out for this project beforehand;
    /// here once more by hand at 1400 kg/m³: v_Stokes = 9.80665·9e-6·6400/54 = 10.460 mm/s, f(0.06) = 0.87421, 100 mm in 10.936 s.
    /// </summary>
    [Fact]
    public void Check_number()
    {
        Assert.Equal(0.010460, 9.80665 * 9e-6 * 6400 / 54, 5e-7);
        Assert.Equal(0.87421, SphereFall.WallFactorFaxen1922(0.06), 5e-6);
        double withoutInertia = SphereFall.WideVesselViscosityPaS(0.003, 6400, 0.1 / 10.936) * SphereFall.WallFactorFaxen1922(0.06);
        Assert.Equal(3, withoutInertia, 0.001);

        // Inertia, 3/16 Re = 0.24 %, is taken out besides.
        ViscosityMeasurement measured = Samples.Ball(10.936).Measure();
        Assert.Equal(3, measured.Viscosity.PascalSeconds, 0.02);
        Assert.Empty(measured.Notices);
        Assert.Equal(measured.Sample.DensityKgPerM3, measured.Density.KilogramsPerCubicMeter);
    }

    /// <summary>By hand: 2 × 0.42 s/10.9 s would be the largest error of a single timing, 3.9 %, then the ball's 2 × 0.02/3.</summary>
    [Fact]
    public void A_single_timing_is_limited_by_the_watch()
    {
        ViscosityMeasurement one = Samples.Ball(10.9).Measure();
        Assert.Equal("timing", one.Contributions[0].Name);
        Assert.Equal(0.3 * Math.Sqrt(2) / 10.9, one.Contributions[0].StandardDeviation, 1e-3);
        Assert.Equal(1, one.Contributions.Sum(share => share.Share), 1e-12);
        Assert.InRange(one.LogStandardDeviation, 0.040, 0.05);

        // Nine timings that agree: a third of it.
        ViscosityMeasurement nine = Samples.Ball([.. Enumerable.Repeat(10.9, 9)]).Measure();
        Assert.Equal(one.Contributions[0].StandardDeviation / 3, nine.Contributions.Single(share => share.Name == "timing").StandardDeviation, 1e-6);
        Assert.Equal(one.Viscosity.PascalSeconds, nine.Viscosity.PascalSeconds, 1e-9);
    }

    [Fact]
    public void Interval_holds_the_value_evenly_on_the_logarithm()
    {
        ViscosityMeasurement measured = Samples.Ball(10.9).Measure();
        (DynamicViscosity low, DynamicViscosity high) = measured.Interval95;
        Assert.Equal(measured.Viscosity.PascalSeconds, Math.Sqrt(low.PascalSeconds * high.PascalSeconds), 1e-9);
        Assert.Equal(2 * 1.96 * measured.LogStandardDeviation, Math.Log(high / low), 1e-3);
    }

    [Fact]
    public void Scatter_counts_when_it_is_larger_than_the_watch()
    {
        ViscosityMeasurement measured = Samples.Ball(9, 10.9, 12.8).Measure();
        Assert.Equal(1.9 / Math.Sqrt(3) / 10.9, measured.Contributions[0].StandardDeviation, 2e-3);
        Assert.Contains(measured.Notices, notice => notice.Code == "timings.scatter");
    }

    [Fact]
    public void A_timing_apart_is_named_and_still_counted()
    {
        ViscosityMeasurement measured = Samples.Ball(10.8, 11.0, 10.9, 14.9, 10.9).Measure();
        Notice notice = Assert.Single(measured.Notices, notice => notice.Code == "timings.outlier");
        Assert.Contains("14.9 s", notice.Seen, StringComparison.Ordinal);
        Assert.Equal(Samples.Ball(11.7).Measure().Viscosity.PascalSeconds, measured.Viscosity.PascalSeconds, 1e-9);
        Assert.DoesNotContain(Samples.Ball(10.8, 11.0, 10.9, 11.3, 10.9).Measure().Notices, n => n.Code == "timings.outlier");
    }

    /// <summary>Any honey and any ball whose time the balance of weight, buoyancy and drag predicts: the viscosity comes back.</summary>
    [Property(Arbitrary = [typeof(Generators)], MaxTest = 300)]
    public void Gives_back_the_viscosity_that_made_the_time(Share viscosity, Share ball, Share jar, Share moisture, Share temperature)
    {
        double mu = viscosity.LogBetween(0.5, 200), d = ball.Between(0.001, 0.004), ratio = jar.Between(0.02, 0.3);
        HoneySample sample = Samples.Honey(moisture.Between(15, 20), temperature.Between(15, 55));
        double speed = TerminalSpeed(d, ratio, mu, sample.DensityKgPerM3);
        if (sample.DensityKgPerM3 * speed * d / mu > 0.5 || speed > 0.9)
            return;
        var measured = new FallingBall
        {
            Sample = sample,
            BallDiameter = Length.FromMeters(d),
            JarDiameter = Length.FromMeters(d / ratio),
            Distance = Length.FromMeters(0.1),
            Times = [Duration.FromSeconds(0.1 / speed)],
            Reaction = Duration.FromSeconds(0.001),
        }.Measure();
        Assert.Equal(mu, measured.Viscosity.PascalSeconds, 1e-6 * mu);
        Assert.True(measured.LogStandardDeviation is > 0 and < 1);
    }

    /// <summary>Speed at which the drag, 3πμdv (1 + 3Re/16)/f, is weight less buoyancy: a quadratic in v.</summary>
    private static double TerminalSpeed(double d, double ratio, double mu, double density)
    {
        double weight = Math.PI / 6 * d * d * d * (7800 - density) * 9.80665;
        double f = 1 - 2.104 * ratio + 2.09 * Math.Pow(ratio, 3) - 0.95 * Math.Pow(ratio, 5);
        double viscous = 3 * Math.PI * mu * d / f, inertial = viscous * 3.0 / 16 * density * d / mu;
        return 2 * weight / (viscous + Math.Sqrt(viscous * viscous + 4 * inertial * weight));
    }

    [Fact]
    public void A_fast_ball_is_remarked_on_and_a_faster_one_refused()
    {
        FallingBall ball = Samples.Ball(3.2) with { Reaction = Duration.FromSeconds(0.1) };
        Assert.Contains(ball.Measure().Notices, notice => notice.Code == "ball.inertia");
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => (ball with { Times = Samples.Seconds(1.5) }).Measure());
        Assert.Equal("Times", refused.ParamName);
        Assert.Contains("Reynolds", refused.Reason, StringComparison.Ordinal);
        Assert.Contains("ball of at most", refused.Instead, StringComparison.Ordinal);
        Assert.Contains("faster than friction explains", Assert.Throws<MeasurementRefusedException>(() => (ball with { Times = Samples.Seconds(0.2) }).Measure()).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_narrow_jar_is_remarked_on_and_a_narrower_one_refused_with_the_nearest_choice()
    {
        FallingBall ball = Samples.Ball(15);
        Assert.Contains((ball with { JarDiameter = Length.FromMillimeters(12) }).Measure().Notices, notice => notice.Code.StartsWith("range.wall", StringComparison.Ordinal));
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => (ball with { JarDiameter = Length.FromMillimeters(9) }).Measure());
        Assert.Contains("at least 10 mm", refused.Instead, StringComparison.Ordinal);
        Assert.Contains("at most 2.8 mm", refused.Instead, StringComparison.Ordinal);
    }

    /// <summary>The abstract of Tanner 1963: from one radius of the tube on, the end does not count; at a quarter it adds one and a half times the drag.</summary>
    [Fact]
    public void Marks_near_the_ends()
    {
        FallingBall ball = Samples.Ball(10.9) with { FromSurface = Length.FromMillimeters(30), FromBottom = Length.FromMillimeters(26) };
        Assert.Empty(ball.Measure().Notices);
        Assert.Contains("surface", Assert.Single((ball with { FromSurface = Length.FromMillimeters(20) }).Measure().Notices).Seen, StringComparison.Ordinal);
        Assert.Contains("bottom", Assert.Single((ball with { FromBottom = Length.FromMillimeters(20) }).Measure().Notices).Seen, StringComparison.Ordinal);
        Assert.Equal("FromBottom", Assert.Throws<MeasurementRefusedException>(() => (ball with { FromBottom = Length.FromMillimeters(6) }).Measure()).ParamName);
        Assert.Single((ball with { FromBottom = Length.FromMillimeters(6.5) }).Measure().Notices);
    }

    /// <summary>
    /// The claim of the remarks: within the range a ball released at rest has its full speed after one diameter. It falls by
    /// m dv/dt = F − kv, so it has gone v τ (n − 1 + e⁻ⁿ) after n τ; the added mass is half the honey's. Five τ are taken for full.
    /// </summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.1)]
    public void Full_speed_within_one_diameter(double reynolds)
    {
        const double ball = 7800, honey = 1400;
        double inDiameters = reynolds / 18 * (ball + honey / 2) / honey * (5 - 1);
        Assert.InRange(inDiameters, 0, 1);
    }

    /// <summary>The density is off by what the table is (1 kg/m³ at 20 °C, where nothing is added for the slope) and by the moisture: some 6.4 kg/m³ per percent at 17.8 %.</summary>
    [Fact]
    public void The_density_is_as_uncertain_as_the_moisture()
    {
        HoneySample sample = Samples.Honey(celsius: 20) with { MoistureSpread = Ratio.FromPercent(0.2), TemperatureSpread = TemperatureDelta.Zero };
        double perPercent = 998.2 * (0.0063017 + 2 * 0.00020097 * 0.8);
        Assert.Equal(Math.Sqrt(1 + 0.04 * perPercent * perPercent), sample.DensitySpreadKgPerM3, 0.01);
        Assert.Equal(1, (sample with { MoistureSpread = Ratio.Zero }).DensitySpreadKgPerM3, 1e-9);
    }

    [Fact]
    public void A_ball_as_light_as_honey_is_refused() =>
        Assert.Contains("steel", Assert.Throws<MeasurementRefusedException>(() => (Samples.Ball(10.9) with { BallDensity = Density.FromKilogramsPerCubicMeter(1400) }).Measure()).Instead, StringComparison.Ordinal);

    [Fact]
    public void Errors_that_leave_nothing_are_refused() =>
        Assert.Contains("timing", Assert.Throws<MeasurementRefusedException>(() => (Samples.Ball(10.9) with { Reaction = Duration.FromSeconds(30) }).Measure()).Instead, StringComparison.Ordinal);

    [Fact]
    public void Hot_honey_and_glass_and_balls_are_minded()
    {
        string[] cool = [.. Samples.Ball(10.9).Measure().Cautions.Select(caution => caution.Code)];
        Assert.Equal(["glass", "foreign-body"], cool);
        Assert.Contains((Samples.Ball(10.9) with { Sample = Samples.Honey(celsius: 55) }).Measure().Cautions, caution => caution.Code == "scald");
    }

    /// <summary>0.1 % of the temperature's effect on the density is all the thermometer does to the viscosity itself.</summary>
    [Fact]
    public void The_thermometer_is_not_in_the_viscosity_but_in_the_lot_factor()
    {
        FallingBall ball = Samples.Ball(10.9);
        FallingBall wrong = ball with { Sample = ball.Sample with { TemperatureSpread = TemperatureDelta.FromKelvins(2) } };
        Assert.Equal(ball.Measure().LogStandardDeviation, wrong.Measure().LogStandardDeviation, 1e-4);
        var honey = new Honey { Moisture = Ratio.FromPercent(17.8) };
        Assert.True(wrong.Measure().LotFactor(honey).LogStandardDeviation > 2 * ball.Measure().LotFactor(honey).LogStandardDeviationAtStatedMoisture);
    }

    /// <summary>By hand: μ = g d² (ρ_s − ρ) f/(18 v) − 3/16 ρ v d, and Re = ρ v d/μ, for the 3 mm steel ball in the 50 mm jar over 100 mm.</summary>
    private static double ReynoldsByHand(double seconds)
    {
        double density = Samples.Honey().DensityKgPerM3, v = 0.1 / seconds;
        double f = 1 - 2.104 * 0.06 + 2.09 * Math.Pow(0.06, 3) - 0.95 * Math.Pow(0.06, 5);
        double mu = 9.80665 * 9e-6 * (7800 - density) * f / (18 * v) - 3.0 / 16 * density * v * 0.003;
        return density * v * 0.003 / mu;
    }

    /// <summary>Oseen's 3 Re/16 is what inertia adds to the drag; three tenths of its logarithm are taken as its error.</summary>
    [Fact]
    public void Inertia_is_stated_and_counted_by_its_size()
    {
        double reynolds = ReynoldsByHand(3.2), factor = 1 + 3 * reynolds / 16;
        Assert.InRange(reynolds, 0.11, 0.45);
        ViscosityMeasurement measured = (Samples.Ball(3.2) with { Reaction = Duration.FromSeconds(0.1) }).Measure();
        Notice notice = Assert.Single(measured.Notices, notice => notice.Code == "ball.inertia");
        Assert.Equal(FormattableString.Invariant($"the Reynolds number of the ball is {reynolds:0.00}, above 0.1"), notice.Seen);
        Assert.StartsWith(FormattableString.Invariant($"inertia adds {100 * (factor - 1):0} % to the drag;"), notice.MayMean, StringComparison.Ordinal);
        Assert.Equal(0.3 * Math.Log(factor), measured.Contributions.Single(share => share.Name == "correction for inertia").StandardDeviation, 1e-9);
    }

    /// <summary>
    /// The speed goes as the square of the diameter, so Re as its cube: the ball that just reaches 0.5 is smaller by the cube root of 0.5/Re,
    /// written to the tenth below. Where friction explains nothing, half the ball is the advice.
    /// </summary>
    [Fact]
    public void A_ball_too_fast_is_told_how_large_it_may_be()
    {
        FallingBall ball = Samples.Ball(1.5) with { Reaction = Duration.FromSeconds(0.1) };
        double reynolds = ReynoldsByHand(1.5);
        Assert.InRange(reynolds, 0.6, 5);
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => ball.Measure());
        Assert.Equal(FormattableString.Invariant($"The ball sinks too fast: its Reynolds number is {reynolds:0.00}, and the equation goes to 0.5."), refused.Reason);
        Assert.StartsWith(FormattableString.Invariant($"Take a ball of at most {Math.Floor(30 * Math.Cbrt(0.5 / reynolds)) / 10:0.0} mm, a lighter one"), refused.Instead, StringComparison.Ordinal);

        refused = Assert.Throws<MeasurementRefusedException>(() => (ball with { Times = Samples.Seconds(0.2) }).Measure());
        Assert.StartsWith("Take a ball of at most 1.5 mm, a lighter one", refused.Instead, StringComparison.Ordinal);
    }

    /// <summary>Clearly heavier is by more than three times the spread of its density: 150 kg/m³ at 50 kg/m³.</summary>
    [Theory]
    [InlineData(149, 50, false)]
    [InlineData(150, 50, false)]
    [InlineData(151, 50, true)]
    [InlineData(0.5, 0.1, true)]
    [InlineData(0, 0, false)]
    public void A_ball_must_be_clearly_heavier_than_the_honey(double heavier, double spread, bool taken)
    {
        double honey = Samples.Honey().DensityKgPerM3;
        FallingBall ball = Samples.Ball(1000) with
        {
            Sample = Samples.Honey() with { MoistureSpread = Ratio.Zero, TemperatureSpread = TemperatureDelta.Zero },
            BallDensity = Density.FromKilogramsPerCubicMeter(honey + heavier),
            BallDensitySpread = Density.FromKilogramsPerCubicMeter(spread),
        };
        MeasurementRefusedException? refused = Record.Exception(() => ball.Measure()) as MeasurementRefusedException;
        if (taken)
        {
            // Whether its errors leave anything of it is asked only afterwards.
            Assert.NotEqual("BallDensity", refused?.ParamName);
            return;
        }

        Assert.Equal("BallDensity", refused?.ParamName);
        Assert.Equal(FormattableString.Invariant($"A ball of {honey + heavier:0} ± {spread:0} kg/m3 is not clearly heavier than the honey, {honey:0} kg/m3."), refused!.Reason);
        Assert.StartsWith("Take a heavier ball, such as steel (7800 kg/m3)", refused.Instead, StringComparison.Ordinal);
    }

    /// <summary>A jar of 64 mm: a quarter of its radius is 8 mm, and that is taken; its radius is 32 mm, and from there on nothing is said.</summary>
    [Theory]
    [InlineData(7.9, "refused")]
    [InlineData(8, "remarked on")]
    [InlineData(31.9, "remarked on")]
    [InlineData(32, "taken")]
    public void Marks_are_near_an_end_within_a_radius_and_too_near_within_a_quarter(double millimetres, string answer)
    {
        FallingBall ball = Samples.Ball(10.9) with { JarDiameter = Length.FromMillimeters(64) };
        foreach ((FallingBall marked, string name, string end, string mark) in new[]
        {
            (ball with { FromSurface = Length.FromMillimeters(millimetres) }, "FromSurface", "surface", "first"),
            (ball with { FromBottom = Length.FromMillimeters(millimetres) }, "FromBottom", "bottom", "second"),
        })
        {
            if (answer == "refused")
            {
                MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => marked.Measure());
                Assert.Equal(name, refused.ParamName);
                Assert.Equal($"A mark 7.9 mm from the {end} is too near: the end slows the ball more than the wall does.", refused.Reason);
                Assert.Equal("Time it at least 32 mm away, the radius of the jar.", refused.Instead);
                continue;
            }

            IReadOnlyList<Notice> notices = marked.Measure().Notices;
            if (answer == "taken")
                Assert.Empty(notices);
            else
                Assert.Equal(FormattableString.Invariant($"the {mark} mark is {millimetres:0.#} mm from the {end}, less than the jar's radius of 32 mm"), Assert.Single(notices).Seen);
        }
    }
}
