using System.Globalization;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>The numbers and words of what is said of a run, reckoned again from its figures and from the formulas of the parts.</summary>
public class NoticeNumbersTests
{
    private static readonly StrainingOptions s_quick = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };

    /// <summary>A small pail of which an ordinary run says nothing.</summary>
    private static StrainingSetup Pail() => SmallPail.Running() with
    {
        Honey = new Honey { Moisture = Percent(17.5) },
        Strainer = SmallPail.Running().Strainer with { Cloths = [new Cloth { Opening = Length.FromMicrometers(400), WireDiameter = Length.FromMicrometers(250) }] },
        Debris = new Debris { Load = Ratio.Zero },
        Longest = Duration.FromHours(12),
    };

    private static StrainingResult Run(StrainingSetup setup) => StrainingRun.Simulate(setup, s_quick);

    private static Notice Of(StrainingResult result, string code) => Assert.Single(result.Notices, notice => notice.Code == code);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>A shut gate that is to be opened after the longest time: nothing happens until then.</summary>
    [Theory]
    [InlineData(1, "1 s")]
    [InlineData(59.4, "59 s")]
    [InlineData(59.5, "1 min 00 s")]
    [InlineData(90, "1 min 30 s")]
    [InlineData(3599.4, "59 min 59 s")]
    [InlineData(3599.5, "1 h 00 min")]
    [InlineData(5429, "1 h 30 min")]
    [InlineData(5430, "1 h 31 min")]
    [InlineData(36000, "10 h 00 min")]
    public void Times_are_told_as_by_a_clock(double seconds, string clock)
    {
        StrainingResult result = Run(Pail() with
        {
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(0)), new OpeningStep(Duration.FromHours(11), Percent(20))),
            Longest = Duration.FromSeconds(seconds),
        });
        Assert.Equal(
            [new Notice("run.time-limit", $"not through after {clock}, the longest time asked for", "the figures stop there", "warm the honey, open the gate, take a coarser cloth, or ask for a longer time")],
            result.Notices);
    }

    /// <summary>Two spells of overflow: the first is named with its time, and the honey of both is counted.</summary>
    [Theory]
    [InlineData(OverflowPath.Spill, "honey is on the floor")]
    [InlineData(OverflowPath.Bypass, "unstrained honey is in the receiver")]
    public void An_overflow_is_told_with_its_time_and_all_its_honey(OverflowPath path, string mayMean)
    {
        StrainingSetup pail = Pail();
        StrainingResult result = Run(pail with
        {
            HoneyTemperature = Celsius(30),
            Strainer = pail.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(100), Length.FromMillimeters(20)), Overflow = path },
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(60)), new OpeningStep(Duration.FromSeconds(8), Percent(0)), new OpeningStep(Duration.FromSeconds(70), Percent(60)), new OpeningStep(Duration.FromSeconds(80), Percent(2))),
        });
        Assert.Equal(2, result.Overflows.Count);
        double from = Math.Round(result.FirstOverflow!.Value.Seconds);
        Mass over = path == OverflowPath.Spill ? result.Masses.SpilledAtStrainer : result.Masses.Bypassed;
        Assert.InRange(over.Kilograms, 1.2 * result.Overflows[0].Mass.Kilograms, 3);
        Assert.InRange(from, 1, 8);
        Assert.Equal(
            new Notice("strainer.overflow", Invariant($"the strainer runs over after {from} s, {over.Kilograms:0.0} kg in all"), mayMean, "open the gate less, ride it, scrape earlier, or take a larger or coarser cloth"),
            Of(result, "strainer.overflow"));
        Assert.Equal(StrainingStatus.Overflowed, result.Status);
    }

    [Fact]
    public void A_full_receiver_is_told_with_what_is_left_or_lost()
    {
        StrainingSetup pail = Pail();
        Receiver small = pail.Receiver with { Shape = new UprightCylinder(Length.FromMillimeters(140), Length.FromMillimeters(60)) };
        StrainingResult shut = Run(pail with { Receiver = small });
        MassAccount m = shut.Masses;
        Assert.Equal(StrainingStatus.ReceiverFull, shut.Status);
        Assert.True(m.HeldInTank.Kilograms > 0.3 && m.HeldOnCloth.Kilograms > 0.1 && m.Spilled.Kilograms == 0);
        string clock = Clock(shut.ReceiverFullAt!.Value.Seconds);
        Assert.Equal(shut.Elapsed, shut.ReceiverFullAt);
        Assert.Equal(
            new Notice("receiver.full", Invariant($"the receiver is full after {clock} with {m.HeldInTank.Kilograms:0.0} kg still in the tank and {m.HeldOnCloth.Kilograms:0.0} kg on the strainer"), "what stands on the strainer still wants to come through", "shut the gate earlier by that much, or have a second receiver ready"),
            Of(shut, "receiver.full"));

        StrainingResult left = Run(pail with { Receiver = small with { ShutWhenFull = false } });
        Assert.Equal((StrainingStatus.ReceiverOverfilled, StrainingStatus.Drained), (left.Status, left.Ending));
        Assert.True(left.Masses.SpilledAtReceiver.Kilograms > 0.5);
        Assert.Equal(left.Masses.SpilledAtReceiver, left.Masses.Spilled);
        Assert.Equal(
            new Notice("receiver.overfilled", Invariant($"the receiver is full after {clock} and {left.Masses.SpilledAtReceiver.Kilograms:0.0} kg run over its brim"), "honey is on the floor", "take a larger receiver, or have somebody shut the gate before that"),
            Of(left, "receiver.overfilled"));
        Assert.DoesNotContain(left.Notices, notice => notice.Code == "receiver.full");

        // What went past the cloth before counts too; an overflow is then the worst, and the receiver is told of all the same.
        StrainingResult both = Run(pail with { Receiver = small with { ShutWhenFull = false }, Strainer = pail.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(100), Length.FromMillimeters(15)), Overflow = OverflowPath.Bypass }, Control = GateControl.LeaveAt(Percent(70)) });
        Assert.Equal(StrainingStatus.Overflowed, both.Status);
        Assert.Equal(both.Masses.SpilledAtStrainer + both.Masses.SpilledAtReceiver, both.Masses.Spilled);
        Assert.Equal(both.Masses.HeldOnCloth + both.Masses.HeldInFilm + both.Masses.HeldInTank, both.Masses.Held);
        Assert.True(both.Masses.SpilledAtReceiver.Kilograms > 0.1);
        Assert.Contains(both.Notices, notice => notice.Code == "receiver.overfilled");
    }

    private static string Clock(double seconds) => seconds < 59.5 ? Invariant($"{seconds:0} s") : Invariant($"{Math.Floor(Math.Round(seconds) / 60):0} min {Math.Round(seconds) % 60:00} s");

    [Fact]
    public void A_stall_is_told_with_what_is_where_and_its_cause()
    {
        StrainingSetup pail = Pail();
        StrainingResult blinded = Run(pail with { Debris = new Debris { Load = Percent(1), Law = BlockingLaw.Complete, CaptureEfficiency = 1 }, Strainer = pail.Strainer with { Cloths = [.. pail.Strainer.Cloths, new Cloth { Opening = Length.FromMicrometers(500), WireDiameter = Length.FromMicrometers(300) }] } });
        Assert.Equal(StrainingStatus.Stalled, blinded.Ending);
        double most = blinded.Blinded.Max(share => share.Percent), least = blinded.Blinded.Min(share => share.Percent);
        Assert.True(most > least + 5, $"{most} and {least} %");
        string time = ClockOf(blinded.Elapsed);
        Notice notice = Of(blinded, "run.stalled");
        Assert.Equal(
            new Notice("run.stalled", Invariant($"the flow all but stops after {time} with {blinded.Masses.HeldInTank.Kilograms:0.0} kg in the tank and {blinded.Masses.HeldOnCloth.Kilograms:0.0} kg on the strainer; the cloth is {most:0} % blinded"), "the cloth is blinded, or the honey too thick for this gate and cloth", "scrape, settle and skim first, vent the strainer, or raise it with a spacer"),
            notice);

        string Cause(StrainingSetup setup) => Of(Run(setup), "run.stalled").MayMean;
        Assert.Equal("the gate is shut", Cause(pail with { Control = GateControl.LeaveAt(Percent(0)) }));
        StrainingSetup tight = pail with { Strainer = pail.Strainer with { Venting = Venting.Sealed } };
        Assert.Equal("trapped air holds the honey up", Cause(tight));
        StrainingSetup dipped = pail with { Gate = pail.Gate with { Outlet = GateOutlet.Submerged }, Strainer = pail.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(140)) }, Debris = new Debris { Load = Percent(2), Law = BlockingLaw.Complete, CaptureEfficiency = 1 } };
        StrainingResult level = Run(dipped);
        Assert.Null(level.DrainToHeel);
        Assert.Equal("the cloth is blinded, or the honey too thick for this gate and cloth", Of(level, "run.stalled").MayMean);
        Assert.Equal("the strainer stands in the receiver's honey", Cause(pail with { Receiver = pail.Receiver with { Spacer = Length.FromMillimeters(-150) } }));
        Assert.Equal(
            new Notice("strainer.sealed", "the strainer sits airtight on the receiver", "trapped air pushes back and the flow stops", "leave a gap for the air"),
            Of(Run(tight), "strainer.sealed"));
    }

    private static string ClockOf(Duration time)
    {
        double minutes = Math.Round(time.Minutes, MidpointRounding.AwayFromZero);
        return time.Seconds < 3599.5 ? Clock(time.Seconds) : Invariant($"{Math.Floor(minutes / 60):0} h {minutes % 60:00} min");
    }

    /// <summary>Cold honey that runs out of a wide gate leaves a thick film: ⅔ √(ν z/(g t)) over the wall that is bared (<see cref="FlowSim.Vessels.WallFilm"/>).</summary>
    [Fact]
    public void What_clings_to_the_wall_is_told_when_99_percent_are_not_reached()
    {
        StrainingSetup pail = Pail() with { HoneyTemperature = Celsius(25), Control = GateControl.LeaveAt(Percent(100)) };
        StrainingResult result = Run(pail with { Strainer = pail.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(600), Length.FromMillimeters(100)) }, Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(600), Length.FromMillimeters(600)) } });
        Assert.Equal(StrainingStatus.Drained, result.Ending);
        Assert.Null(result.Drain.To99);
        double film = result.Masses.HeldInFilm.Kilograms, canDrain = result.Masses.CanDrain.Kilograms;
        Assert.True(film > 0.005 * canDrain, $"{film} of {canDrain} kg");
        Assert.Equal(
            new Notice("tank.film", Invariant($"{film:0.00} kg ({100 * film / canDrain:0.0} % of what can drain) still clings to the tank's wall at the end"), "99 % is not reached in this run", "leave the gate open for the wall to drain, or scrape it down"),
            Of(result, "tank.film"));

        // At the heel 2 mm above the gate; kinematic viscosity at the tank's temperature, which hardly moves.
        HoneyProperties honey = HoneyProperties.Of(pail.Honey);
        double density = honey.DensityAt(result.EndTemperatures.Tank).KilogramsPerCubicMeter;
        double nu = honey.ViscosityAt(result.EndTemperatures.Tank).PascalSeconds / density;
        double level = result.Masses.HeldInTank.Kilograms / density / (Math.PI * 0.16 * 0.16 / 4);

        // The film is reckoned with the level that all of the honey would have.
        double whole = level + (film / density / (Math.PI * 0.16 * 0.16 / 4));
        double expected = density * 2.0 / 3 * Math.Sqrt(nu * (0.11 - whole) / (9.80665 * result.Elapsed.Seconds)) * Math.PI * 0.16 * (0.11 - whole);
        Assert.Equal(1, film / expected, 1e-3);

        // No word of it where 99 % are reached, or where the run did not end by itself.
        Assert.DoesNotContain(Run(Pail() with { HoneyTemperature = Celsius(45), Tank = Pail().Tank with { WallFilm = false } }).Notices, notice => notice.Code == "tank.film");
        Assert.DoesNotContain(Run(pail with { Longest = Duration.FromSeconds(20) }).Notices, notice => notice.Code == "tank.film");
    }

    [Theory]
    [InlineData(49.99, false)]
    [InlineData(50, true)]
    [InlineData(51.26, true)]
    public void Soft_wax_is_told_from_50_degrees(double celsius, bool told)
    {
        StrainingResult result = Run(Pail() with { HoneyTemperature = Celsius(celsius), Control = GateControl.LeaveAt(Percent(0)) });
        Notice? notice = result.Notices.SingleOrDefault(n => n.Code == "wax.soft");
        Assert.Equal(told ? new Notice("wax.soft", Invariant($"the honey reaches the strainer at {celsius:0.0} °C; wax softens from about 50 °C"), "soft wax smears through the cloth and blinds it", "strain below that temperature") : null, notice);
    }

    private const string ClothMayMean = "the cloth's resistance is extrapolated; other models give a third of it to all of it";
    private const string ClothHelps = "time a run of your own and set the screen factor from it";

    /// <summary>Measured openings reach to 550 µm, porosities from 0.35 to 0.76; the porosity is asked of the cloth.</summary>
    [Fact]
    public void A_cloth_beyond_what_was_measured_is_told_once()
    {
        StrainingSetup pail = Pail();
        StrainingResult With(params (double Opening, double Wire)[] cloths) => Run(pail with
        {
            Control = GateControl.LeaveAt(Percent(0)),
            Strainer = pail.Strainer with { Cloths = [.. cloths.Select(c => new Cloth { Opening = Length.FromMicrometers(c.Opening), WireDiameter = Length.FromMicrometers(c.Wire) })] },
        });
        const string Opening = "range.armour-cannon-1968.opening", Porosity = "range.armour-cannon-1968.porosity";
        Assert.DoesNotContain(With((550, 350)).Notices, n => n.Code is Opening or Porosity);
        Notice coarse = Of(With((600, 380), (700, 450)), Opening);
        Assert.Equal(new Notice(Opening, "opening = 600 µm is outside 5 to 550 µm, the range of armour-cannon-1968", ClothMayMean, ClothHelps), coarse);
        Notice thin = Of(With((500, 60), (500, 70)), Porosity);
        Assert.Equal((ClothMayMean, ClothHelps), (thin.MayMean, thin.Helps));
        Assert.StartsWith(Invariant($"porosity = {SquareCloth.Porosity(500e-6, 60e-6):0.####} "), thin.Seen, StringComparison.Ordinal);
    }

    /// <summary>Re = ρU/(μ a² D) with a the wire's surface per volume, D the opening and U = ρ g d/(μ r) at the deepest pond d on clean cloth; measured to 0.17.</summary>
    [Fact]
    public void Fast_honey_in_the_cloth_is_told_with_its_Reynolds_number()
    {
        StrainingSetup setup = Thin();
        StrainingResult result = Run(setup);
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double density = honey.DensityAt(setup.HoneyTemperature).KilogramsPerCubicMeter, viscosity = honey.ViscosityAt(setup.HoneyTemperature).PascalSeconds;
        double resistance = 0.5 * (SquareCloth.ResistancePerMArmourCannon1968(2e-3, 0.9e-3) + SquareCloth.ResistancePerMArmourCannon1968(1.5e-3, 0.7e-3));
        double velocity = density * 9.80665 * result.PeakPond.Meters / (viscosity * resistance);
        double a = SquareCloth.SpecificSurfacePerM(2e-3, 0.9e-3);
        double reynolds = density * velocity / (viscosity * a * a * 2e-3);
        Assert.True(reynolds > 0.2, $"Re {reynolds}");
        Notice notice = Of(result, "range.armour-cannon-1968.Re");
        Assert.StartsWith(Invariant($"Re = {reynolds:0.####} "), notice.Seen, StringComparison.Ordinal);
        Assert.Equal(("the honey's inertia in the cloth is left out, so the pond would stand a little deeper", "nothing, unless the rim is close"), (notice.MayMean, notice.Helps));
    }

    private static StrainingSetup Thin()
    {
        StrainingSetup pail = Pail();
        return pail with
        {
            Honey = new Honey { Moisture = Percent(20.5), LotFactor = 0.05 },
            HoneyTemperature = Celsius(58),
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(0)), new OpeningStep(Duration.FromSeconds(1), Percent(100)), new OpeningStep(Duration.FromSeconds(2), Percent(10))),
            Strainer = pail.Strainer with
            {
                ScreenFactor = 0.5,
                Cloths = [new Cloth { Opening = Length.FromMillimeters(2), WireDiameter = Length.FromMillimeters(0.9) }, new Cloth { Opening = Length.FromMillimeters(1.5), WireDiameter = Length.FromMillimeters(0.7) }],
            },
        };
    }

    /// <summary>Re = 4ρQ/(πDμ) of the widest opening under the full head ρg(h − z), with Q = 2Δp/(R + √(R² + 4BΔp)); a tube's flow is laminar to 2000.</summary>
    [Fact]
    public void Fast_honey_in_the_gate_is_told_with_its_Reynolds_number()
    {
        StrainingSetup thin = Thin();
        StrainingSetup setup = thin with
        {
            Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(300), Length.FromMillimeters(900)), Level = Length.FromMillimeters(850), GateHeight = Length.FromMillimeters(40) },
            Gate = new Gate { Bore = Length.FromMillimeters(90), TubeLength = Length.FromMillimeters(20) },
            Longest = Duration.FromSeconds(3),
        };
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double density = honey.DensityAt(setup.HoneyTemperature).KilogramsPerCubicMeter, viscosity = honey.ViscosityAt(setup.HoneyTemperature).PascalSeconds;
        GateGeometry wide = GateFlow.GeometryOf(setup.Gate, 1);
        double pressure = density * 9.80665 * (0.85 - 0.04), r = viscosity * wide.ViscousPerM3, b = density * wide.InertialPerM4;
        double flow = 2 * pressure / (r + Math.Sqrt((r * r) + (4 * b * pressure)));
        double reynolds = 4 * density * flow / (Math.PI * 0.09 * viscosity);
        Assert.True(reynolds > 2000, $"Re {reynolds}");
        Notice notice = Of(Run(setup), "range.poiseuille tube flow.Re");
        Assert.StartsWith(Invariant($"Re = {reynolds:0.####} "), notice.Seen, StringComparison.Ordinal);
        Assert.Equal(("the flow in the gate's tube may be turbulent and slower than computed", "take the drain time as a lower limit"), (notice.MayMean, notice.Helps));
        Assert.DoesNotContain(Run(setup with { Control = GateControl.LeaveAt(Percent(0)) }).Notices, n => n.Code == "range.poiseuille tube flow.Re");
    }

    /// <summary>Honey that cools leaves the range of its viscosity, 12 °C, though it began within it: in the tank or on the strainer; each range is told of once.</summary>
    [Fact]
    public void What_cools_out_of_its_range_is_told_once()
    {
        StrainingSetup pail = Pail() with
        {
            HoneyTemperature = Celsius(12.3),
            RoomTemperature = Celsius(-10),
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(5)), new OpeningStep(Duration.FromHours(11), Percent(20))),
            Longest = Duration.FromMinutes(8),
        };
        StrainingResult result = Run(pail);
        Assert.True(result.EndTemperatures.Pond < Celsius(12), $"{result.EndTemperatures}");
        Assert.Single(result.Notices, n => n.Code.StartsWith("range.vogel", StringComparison.Ordinal));
        StrainingResult held = Run(pail with { Tank = pail.Tank with { HeldAtTemperature = true } });
        Assert.True(held.EndTemperatures.Pond < Celsius(12) && held.EndTemperatures.Tank > Celsius(12.2), $"{held.EndTemperatures}");
        Assert.Single(held.Notices, n => n.Code.StartsWith("range.vogel", StringComparison.Ordinal));
        Assert.DoesNotContain(Run(pail with { RoomTemperature = Celsius(12.3) }).Notices, n => n.Code.StartsWith("range.vogel", StringComparison.Ordinal));
        Assert.Single(Run(pail with { HoneyTemperature = Celsius(11.5) }).Notices, n => n.Code.StartsWith("range.vogel", StringComparison.Ordinal));
    }

    [Fact]
    public void Cautions_name_the_pond_and_the_tank()
    {
        string[] Texts(StrainingSetup setup) => [.. StrainingCautions.For(new StrainingParameters(setup)).Select(caution => caution.Code + ": " + caution.Text)];
        StrainingSetup pail = Pail();
        Assert.Equal(["open-gate", "slip", "infants", "local-rules"], Texts(pail).Select(text => text.Split(':')[0]));
        Assert.Contains(Texts(pail with { HoneyTemperature = Celsius(50) }), text => text.StartsWith("scald", StringComparison.Ordinal) && text.EndsWith(" Keep hands out of the pond.", StringComparison.Ordinal));
        Assert.Contains(Texts(pail with { HoneyTemperature = Celsius(55) }), text => text.EndsWith(" Gloves, sleeves, no bare hands near the gate.", StringComparison.Ordinal));
        StrainingSetup heavy = pail with { Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(300), Length.FromMillimeters(400)), Level = Length.FromMillimeters(300) } };
        double kilograms = new StrainingParameters(heavy).StartTankKg;
        Assert.Contains(Texts(heavy), text => text.StartsWith(Invariant($"lift: The tank holds {kilograms:0.0} kg"), StringComparison.Ordinal));
    }
}
