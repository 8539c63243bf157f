using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Straining;

/// <summary>Nothing leaves a range, or goes wrong, without being said.</summary>
public class NoticesTests
{
    private static readonly StrainingSetup Pail = new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.5) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank
        {
            Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)),
            Level = Length.FromMillimeters(298),
        },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(20)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(285), Length.FromMillimeters(100)),
            Cloths = [new Cloth { Opening = Length.FromMicrometers(400), WireDiameter = Length.FromMicrometers(250) }],
        },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(320), Length.FromMillimeters(320)) },
    };

    [Fact]
    public void An_ordinary_run_has_none() => Assert.Empty(Codes(Pail));

    [Theory]
    [InlineData(13.6, 35)] // supported from 14 %
    [InlineData(21.2, 35)] // to 21 %
    [InlineData(17.5, 11)] // supported from 12 °C
    [InlineData(17.5, 65)] // to 60 °C
    public void Extrapolated_viscosity_is_said(double moisturePercent, double celsius)
    {
        StrainingSetup setup = Pail with
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(moisturePercent) },
            HoneyTemperature = Temperature.FromDegreesCelsius(celsius),
        };
        Assert.Contains(Codes(setup), c => c.StartsWith("range.vogel", StringComparison.Ordinal));
    }

    [Fact]
    public void Honey_that_cools_below_the_range_during_the_run_is_said()
    {
        StrainingSetup setup = Pail with
        {
            HoneyTemperature = Temperature.FromDegreesCelsius(12.5),
            RoomTemperature = Temperature.FromDegreesCelsius(-10),
            Control = GateControl.LeaveAt(Ratio.FromPercent(8)),
        };
        Assert.Contains(Codes(setup), c => c.StartsWith("range.vogel", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(12)]
    [InlineData(22)]
    public void Moisture_beyond_the_outer_range_is_refused(double percent) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StrainingRun.Simulate(Pail with { Honey = new Honey { Moisture = Ratio.FromPercent(percent) } }));

    [Theory]
    [InlineData(HoneyForm.Gelling)]
    [InlineData(HoneyForm.Granulated)]
    public void Honey_that_is_no_simple_liquid_needs_measured_figures(HoneyForm form)
    {
        var honey = new Honey { Moisture = Ratio.FromPercent(17.5), Form = form };
        Assert.Throws<HoneyRefusedException>(() => StrainingRun.Simulate(Pail with { Honey = honey }));

        var measured = new MeasuredViscosity((Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(8)));
        StrainingResult result = StrainingRun.Simulate(Pail with { Honey = honey with { Viscosity = measured } });
        Assert.Equal(8, result.StartViscosity.PascalSeconds, 1e-9);
    }

    [Fact]
    public void Coarse_cloth_is_beyond_what_was_measured() =>
        Assert.Contains("range.armour-cannon-1968.opening", Codes(WithCloth(600, 400)));

    [Fact]
    public void Fast_flow_through_cloth_and_gate_is_said()
    {
        StrainingSetup thin = WithCloth(2000, 900) with
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(21), LotFactor = 0.05 },
            HoneyTemperature = Temperature.FromDegreesCelsius(60),
            Control = GateControl.LeaveAt(Ratio.FromPercent(100)),
        };
        string[] codes = Codes(thin);
        Assert.Contains("range.armour-cannon-1968.Re", codes);
        Assert.Contains("range.poiseuille tube flow.Re", codes);
    }

    [Fact]
    public void Overflow_receiver_stall_seal_and_soft_wax_are_said()
    {
        Assert.Contains("strainer.overflow", Codes(Pail with { Control = GateControl.LeaveAt(Ratio.FromPercent(100)) }));
        Receiver small = Pail.Receiver with { Shape = new UprightCylinder(Length.FromMillimeters(200), Length.FromMillimeters(200)) };
        Assert.Contains("receiver.full", Codes(Pail with { Receiver = small }));
        Assert.Contains("receiver.overfilled", Codes(Pail with { Receiver = small with { ShutWhenFull = false } }));
        Assert.Contains("run.stalled", Codes(Pail with { Control = GateControl.LeaveAt(Ratio.Zero) }));
        Assert.Contains("run.time-limit", Codes(Pail with { Longest = Duration.FromSeconds(60) }));
        Strainer tight = Pail.Strainer with { Venting = Venting.Sealed, Overflow = OverflowPath.Spill };
        Assert.Contains("strainer.sealed", Codes(Pail with { Strainer = tight }));
        Assert.Contains("wax.soft", Codes(Pail with { HoneyTemperature = Temperature.FromDegreesCelsius(52) }));
    }

    [Fact]
    public void A_stall_names_its_cause()
    {
        string CauseOf(StrainingSetup setup) => StrainingRun.Simulate(setup).Notices.Single(n => n.Code == "run.stalled").MayMean;

        Assert.Contains("gate is shut", CauseOf(Pail with { Control = GateControl.LeaveAt(Ratio.Zero) }), StringComparison.Ordinal);
        Strainer tight = Pail.Strainer with { Venting = Venting.Sealed, Overflow = OverflowPath.Spill };
        Assert.Contains("trapped air", CauseOf(Pail with { Strainer = tight }), StringComparison.Ordinal);
        Debris heavy = Pail.Debris with { Load = Ratio.FromPercent(2), Law = BlockingLaw.Complete, CaptureEfficiency = 1 };
        Assert.Contains("blinded", CauseOf(Pail with { Debris = heavy }), StringComparison.Ordinal);

        // Hung so low that the honey under it comes up to the cloth.
        Receiver low = Pail.Receiver with { Spacer = Length.FromMillimeters(-150) };
        Assert.Contains("receiver's honey", CauseOf(Pail with { Receiver = low }), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(47, false)]
    [InlineData(48, true)]
    [InlineData(54, true)]
    public void A_scald_is_warned_of_from_48_degrees(double celsius, bool warned)
    {
        StrainingResult result = StrainingRun.Simulate(Pail with { HoneyTemperature = Temperature.FromDegreesCelsius(celsius) });
        Assert.Equal(warned, result.Cautions.Any(c => c.Code == "scald"));
    }

    [Fact]
    public void Cautions_defer_to_local_rules_and_never_call_anything_safe()
    {
        StrainingResult result = StrainingRun.Simulate(Pail with { HoneyTemperature = Temperature.FromDegreesCelsius(60) });
        Assert.Contains(result.Cautions, c => c.Code == "local-rules");
        Assert.Contains(result.Cautions, c => c.Code == "infants");
        Assert.Contains(result.Cautions, c => c.Code == "lift");
        Assert.All(
            result.Cautions.Select(c => c.Text).Concat(result.Notices.Select(n => n.ToString())),
            text => Assert.DoesNotContain("safe", text, StringComparison.OrdinalIgnoreCase));
    }

    private static StrainingSetup WithCloth(double openingUm, double wireUm) => Pail with
    {
        Strainer = Pail.Strainer with
        {
            Cloths = [new Cloth { Opening = Length.FromMicrometers(openingUm), WireDiameter = Length.FromMicrometers(wireUm) }],
        },
    };

    private static string[] Codes(StrainingSetup setup) =>
        StrainingRun.Simulate(setup).Notices.Select(n => n.Code).ToArray();
}
