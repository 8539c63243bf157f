using FlowSim.FieldMeasurements;
using FlowSim.Gates;
using FlowSim.Vessels;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class TimedJarFillTests
{
    private static readonly UprightCylinder Pail = new(Length.FromMillimeters(285), Length.FromMillimeters(360));

    /// <summary>A 454 g jar under a 38 mm gate, a fifth open, below a steady 250 mm of honey.</summary>
    private static readonly TimedJarFill Jar = new()
    {
        Sample = Samples.Honey(),
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Opening = Ratio.FromPercent(20),
        Supply = JarSupply.Constant(Length.FromMillimeters(250)),
        NetWeight = Mass.FromGrams(454),
        Times = Samples.Seconds(10),
    };

    /// <summary>The gate's equation by hand, fully open: R̂ = 1.5/a³ + 8L/(πa⁴), B̂ = 2.3/(2A²).</summary>
    [Fact]
    public void Constant_head_by_hand()
    {
        TimedJarFill open = Jar with { Opening = Ratio.FromPercent(100), NetWeight = null, JarVolume = Volume.FromLiters(19), Times = Samples.Seconds(60) };
        const double a = 0.019;
        double density = open.Sample.DensityKgPerM3, flow = 0.019 / 60, area = Math.PI * a * a;
        double viscous = 1.5 / Math.Pow(a, 3) + 8 * 0.040 / (Math.PI * Math.Pow(a, 4));
        double expected = (density * 9.80665 * 0.250 - density * 2.3 / (2 * area * area) * flow * flow) / (viscous * flow);
        Assert.Equal(expected, open.Measure().Viscosity.PascalSeconds, 1e-9 * expected);
    }

    /// <summary>Forward and back, steady head or falling, in any tank shape.</summary>
    [Property(Arbitrary = [typeof(Generators)], MaxTest = 200)]
    public void Gives_back_the_viscosity_that_made_the_time(Share viscosity, Share opening, Share level, Share content, bool falling, bool cone)
    {
        double mu = viscosity.LogBetween(1, 100);
        VesselShape shape = cone ? new ConeBottomedTank(Length.FromMillimeters(400), Length.FromMillimeters(300), Length.FromMillimeters(200), Length.FromMillimeters(40)) : Pail;
        Length start = Length.FromMillimeters(level.Between(250, 350));
        TimedJarFill fill = Jar with
        {
            Opening = Ratio.FromPercent(opening.Between(5, 30)),
            NetWeight = Mass.FromKilograms(content.Between(0.25, 3)),
            Supply = falling ? JarSupply.Falling(shape, start, Length.FromMillimeters(60)) : JarSupply.Constant(start),
        };
        Duration time = fill.TimeFor(DynamicViscosity.FromPascalSeconds(mu));
        if (time.Seconds is < 2 or > 86000)
            return;
        TimedJarFill timed = fill with { Times = [time], OpeningSpread = Ratio.FromPercent(1) };
        try
        {
            ViscosityMeasurement measured = timed.Measure();
            Assert.Equal(mu, measured.Viscosity.PascalSeconds, 1e-8 * mu);
            Assert.InRange(measured.LogStandardDeviation, 0.05, 1);
        }
        catch (MeasurementRefusedException refused)
        {
            // Only thin honey through a wide gate: inertia has more than half of the pressure.
            Assert.Contains("Inertia", refused.Reason, StringComparison.Ordinal);
            Assert.True(mu < 5, refused.Message);
        }
    }

    /// <summary>The closed form of the library for an upright tank, which is tested against quadrature and tables, agrees with the integral over volume.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    [InlineData(100)]
    public void Falling_head_agrees_with_the_closed_drain_time(double viscosityPaS)
    {
        TimedJarFill fill = Jar with { Supply = JarSupply.Falling(Pail, Length.FromMillimeters(300), Length.FromMillimeters(50)), NetWeight = null, JarVolume = Volume.FromLiters(5) };
        double density = fill.Sample.DensityKgPerM3, area = Math.PI / 4 * 0.285 * 0.285;
        GateGeometry gate = GateFlow.GeometryOf(fill.Gate, 0.2);
        double closed = TankDrainage.PrismTimeS(0.250, 0.250 - 0.005 / area, area, viscosityPaS * gate.ViscousPerM3, density * gate.InertialPerM4, density * 9.80665);
        Assert.Equal(closed, fill.TimeFor(DynamicViscosity.FromPascalSeconds(viscosityPaS)).Seconds, 1e-9 * closed);
    }

    /// <summary>The gate's own error is the largest by far when all else is measured well, and it is 10 %.</summary>
    [Fact]
    public void The_gate_limits_it()
    {
        TimedJarFill open = Jar with { Opening = Ratio.FromPercent(100), NetWeight = Mass.FromKilograms(20), Times = Samples.Seconds(300) };
        ViscosityMeasurement measured = open.Measure();
        Assert.Equal("equation of the gate", measured.Contributions[0].Name);
        Assert.InRange(measured.LogStandardDeviation, 0.10, 0.12);
        Assert.DoesNotContain(measured.Contributions, share => share.Name == "opening of the gate");
    }

    [Fact]
    public void Where_inertia_has_the_say_it_is_remarked_on_and_then_refused()
    {
        TimedJarFill wide = Jar with { Opening = Ratio.FromPercent(100), NetWeight = Mass.FromKilograms(20) };
        double frictionless = wide.TimeFor(DynamicViscosity.FromPascalSeconds(1e-6)).Seconds;
        Assert.Contains((wide with { Times = Samples.Seconds(2.2 * frictionless) }).Measure().Notices, notice => notice.Code == "jar.inertia");
        MeasurementRefusedException near = Assert.Throws<MeasurementRefusedException>(() => (wide with { Times = Samples.Seconds(1.2 * frictionless) }).Measure());
        Assert.Contains("does not tell the viscosity", near.Reason, StringComparison.Ordinal);
        MeasurementRefusedException faster = Assert.Throws<MeasurementRefusedException>(() => (wide with { Times = Samples.Seconds(0.8 * frictionless) }).Measure());
        Assert.Contains("faster than a liquid without any friction", faster.Reason, StringComparison.Ordinal);
        Assert.Equal("Times", faster.ParamName);
    }

    [Fact]
    public void A_tank_that_runs_down_to_the_gate_is_refused()
    {
        TimedJarFill fill = Jar with { Supply = JarSupply.Falling(Pail, Length.FromMillimeters(100), Length.FromMillimeters(50)), NetWeight = Mass.FromKilograms(5) };
        Assert.Equal("Level", Assert.Throws<MeasurementRefusedException>(() => fill.Measure()).ParamName);
    }

    /// <summary>Below half the bore the gate runs as a weir: 19 mm of a 38 mm bore.</summary>
    [Fact]
    public void A_head_below_half_the_bore_is_refused()
    {
        Assert.Equal("Head", Assert.Throws<MeasurementRefusedException>(() => (Jar with { Supply = JarSupply.Constant(Length.FromMillimeters(18)) }).Measure()).ParamName);
        Assert.NotNull((Jar with { Supply = JarSupply.Constant(Length.FromMillimeters(20)), Times = Samples.Seconds(60) }).Measure());
    }

    [Fact]
    public void Volume_or_weight_one_of_them()
    {
        Assert.Equal("JarVolume", Assert.Throws<ArgumentException>(() => (Jar with { NetWeight = null }).Measure()).ParamName);
        Assert.Equal("JarVolume", Assert.Throws<ArgumentException>(() => (Jar with { JarVolume = Volume.FromLiters(1) }).Measure()).ParamName);
        Volume same = Mass.FromGrams(454) / Jar.Measure().Density;
        Assert.Equal(Jar.Measure().Viscosity.PascalSeconds, (Jar with { NetWeight = null, JarVolume = same }).Measure().Viscosity.PascalSeconds, 1e-9);
    }

    [Fact]
    public void A_dipping_outlet_is_refused() =>
        Assert.Contains("free", Assert.Throws<ArgumentException>(() => (Jar with { Gate = Jar.Gate with { Outlet = GateOutlet.Submerged } }).Measure()).Message, StringComparison.Ordinal);

    /// <summary>The share of the pressure that inertia takes, by hand for the gate fully open: ρ B̂ Q²/(ρ g H) with B̂ = 2.3/(2A²).</summary>
    private static double ShareOfInertia(double litresPerS, double headM = 0.250)
    {
        double area = Math.PI * 0.019 * 0.019, flow = litresPerS / 1000;
        return 2.3 / (2 * area * area) * flow * flow / (9.80665 * headM);
    }

    /// <summary>19 L through the open gate; without friction Q = √(g H/B̂), by which the share is 1.</summary>
    private static readonly TimedJarFill Wide = Jar with { Opening = Ratio.FromPercent(100), NetWeight = null, JarVolume = Volume.FromLiters(19) };

    [Fact]
    public void The_share_of_inertia_is_told()
    {
        double shortest = 19 * Math.Sqrt(ShareOfInertia(1));
        ViscosityMeasurement measured = (Wide with { Times = Samples.Seconds(2 * shortest) }).Measure();
        Assert.Equal("inertia takes 25 % of the pressure", Assert.Single(measured.Notices).Seen);

        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => (Wide with { Times = Samples.Seconds(1.25 * shortest) }).Measure());
        Assert.Equal(
            FormattableString.Invariant($"Inertia takes 64 % of the pressure, at most 50 % is allowed: the jar fills nearly as fast as a liquid without any friction would, in {shortest:0.##} s, so the time does not tell the viscosity."),
            refused.Reason);
        refused = Assert.Throws<MeasurementRefusedException>(() => (Wide with { Times = Samples.Seconds(0.9 * shortest) }).Measure());
        Assert.Equal(FormattableString.Invariant($"The jar fills faster than a liquid without any friction would, in {shortest:0.##} s: check opening, head, content and time."), refused.Reason);
    }

    /// <summary>Ten times the time without friction is a hundredth of the pressure, of which nothing is said.</summary>
    [Fact]
    public void A_small_share_of_inertia_is_not_remarked_on()
    {
        double shortest = 19 * Math.Sqrt(ShareOfInertia(1));
        Assert.Empty((Wide with { Times = Samples.Seconds(10 * shortest) }).Measure().Notices);
    }

    /// <summary>A falling tank without friction, Torricelli: t = 2 A √(B̂/g) (√h1 − √h2), 250 to 187.3 mm for 4 L out of the pail.</summary>
    [Fact]
    public void A_falling_tank_that_empties_faster_than_without_friction_is_refused()
    {
        double floor = Math.PI / 4 * 0.285 * 0.285, bore = Math.PI * 0.019 * 0.019;
        double shortest = 2 * floor * Math.Sqrt(2.3 / (2 * bore * bore) / 9.80665) * (Math.Sqrt(0.250) - Math.Sqrt(0.250 - 0.004 / floor));
        TimedJarFill fill = Wide with { Supply = JarSupply.Falling(Pail, Length.FromMillimeters(310), Length.FromMillimeters(60)), JarVolume = Volume.FromLiters(4) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => (fill with { Times = Samples.Seconds(0.95 * shortest) }).Measure());
        Assert.StartsWith(FormattableString.Invariant($"The jar fills faster than a liquid without any friction would, in {shortest:0.##} s:"), refused.Reason, StringComparison.Ordinal);
    }

    /// <summary>A mark on the blade only matters while the gate is not fully open.</summary>
    [Fact]
    public void The_opening_counts_unless_it_is_full()
    {
        TimedJarFill part = Jar with { Opening = Ratio.FromPercent(60), Times = Samples.Seconds(10) };
        Assert.Contains(part.Measure().Contributions, share => share.Name == "opening of the gate" && share.StandardDeviation > 0.01);
        Assert.DoesNotContain((part with { Opening = Ratio.FromPercent(100) }).Measure().Contributions, share => share.Name == "opening of the gate");
    }

    /// <summary>More than half the bore is needed, 19 mm of 38, and more than the head's own error.</summary>
    [Theory]
    [InlineData(19, 3, false)]
    [InlineData(19.1, 3, true)]
    [InlineData(25, 25, false)]
    [InlineData(25.1, 25, true)]
    public void A_head_at_half_the_bore_or_at_its_own_error_is_refused(double millimetres, double error, bool taken)
    {
        TimedJarFill fill = Jar with { Supply = JarSupply.Constant(Length.FromMillimeters(millimetres)), HeadSpread = Length.FromMillimeters(error) };
        if (taken)
        {
            Assert.True(fill.TimeFor(DynamicViscosity.FromPascalSeconds(5)).Seconds > 0);
            return;
        }

        foreach (Action ask in new Action[] { () => fill.Measure(), () => fill.TimeFor(DynamicViscosity.FromPascalSeconds(5)) })
        {
            MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(ask);
            Assert.Equal("Head", refused.ParamName);
            Assert.StartsWith(
                FormattableString.Invariant($"At the end the honey stands {millimetres:0.#} mm above the gate's axis; more than half the bore, 19 mm, and"), refused.Reason, StringComparison.Ordinal);
        }
    }

    /// <summary>The forward question is checked as the measurement is, and its viscosity is 1e-6 to 1e5 Pa·s.</summary>
    [Fact]
    public void A_time_is_only_told_for_what_can_be_measured()
    {
        DynamicViscosity five = DynamicViscosity.FromPascalSeconds(5);
        Assert.Equal("ContentSpread", Assert.Throws<ArgumentOutOfRangeException>(() => (Jar with { ContentSpread = Ratio.FromPercent(21) }).TimeFor(five)).ParamName);
        Assert.Equal("JarVolume", Assert.Throws<ArgumentException>(() => (Jar with { JarVolume = Volume.FromLiters(1) }).TimeFor(five)).ParamName);
        foreach (double beyond in new[] { 0.99e-6, 1.01e5, 0, -5 })
            Assert.Equal("viscosity", Assert.Throws<ArgumentOutOfRangeException>(() => Jar.TimeFor(DynamicViscosity.FromPascalSeconds(beyond))).ParamName);
        Assert.True(Jar.TimeFor(DynamicViscosity.FromPascalSeconds(1e-6)) < Jar.TimeFor(five));
        Assert.True(Jar.TimeFor(DynamicViscosity.FromPascalSeconds(1e5)) > Jar.TimeFor(five));
    }

    /// <summary>1 mm to 20 m above the gate.</summary>
    [Theory]
    [InlineData(0.00099, false)]
    [InlineData(20, true)]
    [InlineData(20.001, false)]
    public void A_steady_head_is_up_to_twenty_metres(double metres, bool taken)
    {
        TimedJarFill fill = Jar with { Supply = JarSupply.Constant(Length.FromMeters(metres)) };
        if (taken)
            Assert.True(fill.TimeFor(DynamicViscosity.FromPascalSeconds(5)).Seconds > 0);
        else
            Assert.Equal("Head", Assert.Throws<ArgumentOutOfRangeException>(() => fill.Measure()).ParamName);
    }

    /// <summary>A pail of 360 mm: filled to the brim at the most, and its gate no higher than the honey.</summary>
    [Theory]
    [InlineData(0.99, 0, "Level")]
    [InlineData(360, 60, null)]
    [InlineData(360.1, 60, "Level")]
    [InlineData(300, 300.1, "GateHeight")]
    [InlineData(300, -0.1, "GateHeight")]
    [InlineData(300, 0, null)]
    public void A_falling_level_lies_between_gate_and_brim(double level, double gate, string? blamed)
    {
        TimedJarFill fill = Jar with { Supply = JarSupply.Falling(Pail, Length.FromMillimeters(level), Length.FromMillimeters(gate)) };
        if (blamed is null)
            Assert.True(fill.TimeFor(DynamicViscosity.FromPascalSeconds(5)).Seconds > 0);
        else
            Assert.Equal(blamed, Assert.Throws<ArgumentOutOfRangeException>(() => fill.Measure()).ParamName);
    }
}
