using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>What a question may hold: at each limit it is accepted, beyond it refused, and the refusal names what is wrong.</summary>
public class CalibrationCheckTests
{
    private static readonly CalibrationQuestion Good = new() { Setup = Shut, Priors = [Lot, LevelOfTank], Runs = [Run(Shut, Rule(0.11, 1, 2, 1, 2))], Viscosities = [Spot("ball", 35, 9, 0.2)] };

    private static ArgumentException Refused(CalibrationQuestion question) => Assert.ThrowsAny<ArgumentException>(() => CalibrationCheck.Require(question));

    private static ArgumentException RefusedGoingOn(CalibrationQuestion question) => Assert.ThrowsAny<ArgumentException>(() => CalibrationCheck.RequireGoingOn(question));

    private static CalibrationQuestion With(TimedRun run) => Good with { Runs = [run] };

    private static CalibrationQuestion With(TimedSeries series) => With(Run(Shut, series));

    private static CalibrationQuestion With(params (double T, double V)[] readings) => With(Series(StrainingObservable.TankLevel, readings));

    private static CalibrationQuestion With(ViscositySpot spot) => Good with { Viscosities = [spot] };

    [Fact]
    public void What_is_as_it_should_be_is_accepted()
    {
        CalibrationCheck.Require(Good);
        CalibrationCheck.Require(Good with { Runs = [] });
        CalibrationCheck.Require(Good with { Viscosities = [] });
        CalibrationCheck.Require(Good with { Priors = null });
        CalibrationCheck.RequireGoingOn(Good);
    }

    [Fact]
    public void What_is_not_there_is_named()
    {
        Assert.Equal("question", Refused(null!).ParamName);
        Assert.Contains("Setup", Refused(Good with { Setup = null! }).ParamName, StringComparison.Ordinal);
        Assert.Contains("Setup", RefusedGoingOn(Good with { Setup = null! }).ParamName, StringComparison.Ordinal);
        Assert.Contains("Runs", Refused(Good with { Runs = null! }).ParamName, StringComparison.Ordinal);
        Assert.Contains("Viscosities", Refused(Good with { Viscosities = null! }).ParamName, StringComparison.Ordinal);
        Assert.Contains("Correlations", Refused(Good with { Correlations = null! }).ParamName, StringComparison.Ordinal);
        Assert.IsType<ArgumentNullException>(Refused(Good with { Priors = [null!] }));
        Assert.IsType<ArgumentNullException>(Refused(Good with { Priors = [new UncertainInput(null!, Lot.Spread, MadeUp)] }));
        Assert.IsType<ArgumentNullException>(Refused(Good with { Runs = [null!] }));
        Assert.IsType<ArgumentNullException>(Refused(Good with { Viscosities = [null!] }));
        Assert.Contains("Setup", Refused(With(Good.Runs[0] with { Setup = null! })).ParamName, StringComparison.Ordinal);
        Assert.Contains("Series", Refused(With(Good.Runs[0] with { Series = null! })).ParamName, StringComparison.Ordinal);
        Assert.IsType<ArgumentNullException>(Refused(With(Good.Runs[0] with { Series = [null!] })));
        Assert.Contains("Readings", Refused(With(Good.Runs[0].Series[0] with { Readings = null! })).ParamName, StringComparison.Ordinal);
    }

    [Fact]
    public void There_is_something_to_learn_from_and_not_too_much()
    {
        Assert.Equal("Runs", Refused(Good with { Runs = [], Viscosities = [] }).ParamName);
        TimedRun[] runs = [.. Enumerable.Range(0, 51).Select(i => Run(Shut, Rule(0.11, 1, 2, 1, 2 + (0.01 * i))))];
        ViscositySpot[] spots = [.. Enumerable.Range(0, 51).Select(i => Spot(FormattableString.Invariant($"{i}"), 35, 9, 0.2))];
        CalibrationCheck.Require(Good with { Runs = runs[..50], Viscosities = spots[..50] });
        Assert.Equal("Runs", Refused(Good with { Runs = runs }).ParamName);
        Assert.Equal("Viscosities", Refused(Good with { Viscosities = spots }).ParamName);
    }

    [Fact]
    public void Setups_are_checked_themselves()
    {
        StrainingSetup bad = Shut with { RoomTemperature = Temperature.FromDegreesCelsius(90) };
        Assert.Equal("RoomTemperature", Refused(Good with { Setup = bad }).ParamName);
        Assert.Equal("RoomTemperature", Refused(With(Good.Runs[0] with { Setup = bad })).ParamName);
        Assert.Equal("RoomTemperature", RefusedGoingOn(Good with { Setup = bad }).ParamName);
    }

    [Fact]
    public void Priors_are_one_for_each_input_and_at_least_one_that_does_something()
    {
        Assert.Equal("Priors", Refused(Good with { Priors = [Lot, LevelOfTank, Lot] }).ParamName);
        Assert.Equal("Priors", Refused(Good with { Priors = [] }).ParamName);
        Assert.Equal("Priors", Refused(Good with { Priors = [Prior(StrainingInputs.RideDepth, LevelOfTank.Spread)] }).ParamName);
        Assert.Equal("Priors", RefusedGoingOn(Good with { Priors = [] }).ParamName);
    }

    [Fact]
    public void Correlations_are_of_two_shared_inputs_with_a_spread()
    {
        CalibrationQuestion three = Good with { Priors = [Lot, Moisture, LevelOfTank] };
        CalibrationCheck.Require(three with { Correlations = [new("honey.lot_factor", "honey.moisture", 0.5)] });
        Assert.Equal("Correlations", Refused(three with { Correlations = [new("honey.lot_factor", "tank.level", 0.5)] }).ParamName);
        Assert.Equal("Correlations", Refused(three with { Correlations = [new("tank.level", "honey.lot_factor", 0.5)] }).ParamName);
        Assert.Equal("Correlations", Refused(three with { Correlations = [new("honey.lot_factor", "gate.factor", 0.5)] }).ParamName);
        Assert.Equal("Strength", Refused(three with { Correlations = [new("honey.lot_factor", "honey.moisture", 1)] }).ParamName);

        // Of an earlier calibration only those that are still of two inputs here.
        CalibratedInputs earlier = new() { Inputs = [Lot], Correlations = [new("honey.lot_factor", "gate.factor", 0.5), new("gate.factor", "honey.lot_factor", 0.5), new("HONEY.lot_factor", "Honey.Moisture", 0.5)], Runs = [] };
        CalibrationCheck.Require(three with { Earlier = earlier });
        Assert.Equal("Strength", Refused(three with { Earlier = earlier with { Correlations = [new("HONEY.lot_factor", "Honey.Moisture", 1)] } }).ParamName);
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(100, true)]
    [InlineData(101, false)]
    [InlineData(0, false)]
    public void Names_have_up_to_a_hundred_characters(int length, bool accepted)
    {
        string name = new('x', length);
        foreach (CalibrationQuestion question in (CalibrationQuestion[])[With(Good.Runs[0] with { Name = name }), With(Good.Viscosities[0] with { Name = name })])
        {
            if (accepted)
                CalibrationCheck.Require(question);
            else
                Assert.Equal("Name", Refused(question).ParamName);
        }

        Assert.Equal("Name", Refused(With(Good.Runs[0] with { Name = "  " })).ParamName);
        Assert.Equal("Name", RefusedGoingOn(With(Good.Runs[0] with { Name = "" })).ParamName);
    }

    [Fact]
    public void A_run_has_one_to_eight_series_of_four_readings_and_more()
    {
        TimedSeries[] nine = [.. Enumerable.Range(0, 9).Select(i => Rule(0.11, 1, 2, 1, 2 + (0.01 * i)))];
        CalibrationCheck.Require(With(Run(Shut, nine[..8])));
        Assert.Equal("Series", Refused(With(Run(Shut, nine))).ParamName);
        Assert.Equal("Series", Refused(With(Run(Shut))).ParamName);
        Assert.Equal("Readings", Refused(With(Rule(0.11, 1, 2, 1))).ParamName);
        Assert.Equal("Quantity", Refused(With(nine[0] with { Quantity = (StrainingObservable)99 })).ParamName);

        // One that goes on may have none, or few readings that have not changed yet.
        CalibrationCheck.RequireGoingOn(With(Run(Shut)));
        CalibrationCheck.RequireGoingOn(With(Rule(0.11, 1)));
        CalibrationCheck.RequireGoingOn(With(Rule(0.11, 1, 1, 1, 1)));
        Assert.Equal("Series", RefusedGoingOn(With(Run(Shut, nine))).ParamName);
        Assert.Equal("Readings", RefusedGoingOn(With(Rule(0.11))).ParamName);
        Assert.Equal("Readings", Refused(With(Rule(0.11, 1, 1, 1, 1))).ParamName);
    }

    [Fact]
    public void Clock_zero_and_resolution_have_their_limits()
    {
        TimedSeries series = Good.Runs[0].Series[0];
        CalibrationCheck.Require(With(series with { ClockOffset = Duration.Zero, ZeroOffset = 0, Resolution = 0 }));
        CalibrationCheck.Require(With(series with { ClockOffset = Duration.FromSeconds(3600), ZeroOffset = 1e4, Resolution = 1e3 }));
        Assert.Equal("ClockOffset", Refused(With(series with { ClockOffset = Duration.FromSeconds(-1) })).ParamName);
        Assert.Equal("ClockOffset", Refused(With(series with { ClockOffset = Duration.FromSeconds(3601) })).ParamName);
        Assert.Equal("ZeroOffset", Refused(With(series with { ZeroOffset = -1 })).ParamName);
        Assert.Equal("ZeroOffset", Refused(With(series with { ZeroOffset = 10_001 })).ParamName);
        Assert.Equal("Resolution", Refused(With(series with { Resolution = -1 })).ParamName);
        Assert.Equal("Resolution", Refused(With(series with { Resolution = 1001 })).ParamName);
    }

    [Fact]
    public void Times_go_forward_from_an_hour_before_to_thirty_days_after()
    {
        CalibrationCheck.Require(With((-3600, 0.11), (0, 0.1), (0, 0.11), (30 * 86400, 0.09)));
        ArgumentException early = Refused(With((-3601, 0.11), (0, 0.1), (1, 0.11), (2, 0.09))), late = Refused(With((0, 0.11), (1, 0.1), (2, 0.11), ((30 * 86400) + 1, 0.09)));
        Assert.Equal(("At", "At"), (early.ParamName, late.ParamName));
        Assert.Contains("Reading 1 of TankLevel in run is at -3601 s", early.Message, StringComparison.Ordinal);
        Assert.Contains("Reading 4", late.Message, StringComparison.Ordinal);
        ArgumentException back = Refused(With((0, 0.11), (60, 0.1), (59, 0.11), (70, 0.09)));
        Assert.Equal("At", back.ParamName);
        Assert.Contains("Reading 3 of TankLevel in run, at 59 s, comes after one at 60 s", back.Message, StringComparison.Ordinal);
    }

    /// <summary>What a vessel holds and a tenth; four standard deviations of the zero more where one is given; a twentieth of it below none. Honey counts as 1.5 kg/L.</summary>
    [Theory]
    [InlineData(StrainingObservable.TankLevel, 0.15)]
    [InlineData(StrainingObservable.PondDepth, 0.06)]
    [InlineData(StrainingObservable.ReceiverLevel, 0.17)]
    [InlineData(StrainingObservable.TankVolume, 0.003015928947446201)]
    [InlineData(StrainingObservable.TankMass, 4.523893421169302)]
    [InlineData(StrainingObservable.ReceiverVolume, 0.004325971584)]
    [InlineData(StrainingObservable.ReceiverMass, 6.488957376)]
    public void A_reading_is_no_more_than_its_vessel_holds(StrainingObservable quantity, double holds)
    {
        double most = 1.1 * holds;
        CalibrationCheck.Require(Of(0.999 * most));
        CalibrationCheck.Require(Of(-0.0499 * most));
        Assert.Equal("Value", Refused(Of(1.001 * most)).ParamName);
        Assert.Equal("Value", Refused(Of(-0.0501 * most)).ParamName);
        Assert.Equal("Value", Refused(Of(double.NaN)).ParamName);
        Assert.Contains(most.ToString("g6", CultureInfo.InvariantCulture)[..5], Refused(Of(2 * most)).Message, StringComparison.Ordinal);
        CalibrationCheck.Require(Of((0.999 * most) + 0.4, 0.1));
        Assert.Equal("Value", Refused(Of((1.001 * most) + 0.4, 0.1)).ParamName);

        CalibrationQuestion Of(double value, double? zero = null) => With(Series(quantity, (0, 0), (1, 0), (2, value), (3, 0)) with { ZeroOffset = zero });
    }

    [Fact]
    public void The_most_and_the_least_that_may_be_read_are_accepted()
    {
        const double Most = 1.1 * 0.15;
        CalibrationCheck.Require(With((0, 0.1), (1, Most), (2, -0.05 * Most), (3, 0.1)));
        Assert.Contains("Reading 2 of TankLevel", Refused(With((0, 0.1), (1, 0.166), (2, 0), (3, 0.1))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Runs_are_of_one_honey_and_one_kit()
    {
        CalibrationQuestion common = Good with { Priors = [Lot, Moisture, LevelOfTank] };
        TimedRun run = Good.Runs[0];
        CalibrationCheck.Require(common with { Runs = [run with { Setup = StrainingInputs.TankLevel.With(Shut, 0.1) }] });
        CalibrationCheck.Require(common with { Runs = [run with { Setup = StrainingInputs.LotFactor.With(Shut, 1 + 1e-12) }] });
        CalibrationCheck.Require(common with { Runs = [run with { Setup = StrainingInputs.GateFactor.With(Shut, 1.2) }] }); // Without a spread nobody looks at it.
        ArgumentException lot = Refused(common with { Runs = [run with { Setup = StrainingInputs.LotFactor.With(Shut, 1.001) }] });
        Assert.Equal("Runs", lot.ParamName);
        Assert.Contains("honey.lot_factor is 1.001 in the run run and 1 in the setup", lot.Message, StringComparison.Ordinal);
        Assert.Equal("Runs", Refused(common with { Runs = [run with { Setup = StrainingInputs.LotFactor.With(Shut, 0.999) }] }).ParamName);
        Assert.Equal("Runs", Refused(common with { Runs = [run with { Setup = Shut with { Honey = Shut.Honey with { Viscosity = new StraightHoney() } } }] }).ParamName);
        CalibrationQuestion debris = common with { Priors = [Lot, Prior(StrainingInputs.DebrisLoad, new LogNormalDistribution(0.002, 0.5))] };
        Assert.Equal("Runs", Refused(debris with { Runs = [run with { Setup = StrainingInputs.DebrisLoad.With(Shut, StrainingInputs.DebrisLoad.ValueIn(Shut) + 1e-8) }] }).ParamName);
        Assert.Equal("Runs", RefusedGoingOn(common with { Runs = [run with { Setup = StrainingInputs.LotFactor.With(Shut, 1.1) }] }).ParamName);
    }

    [Fact]
    public void A_spread_that_plays_a_part_in_one_of_two_setups_may_differ()
    {
        StrainingSetup under = Shut with { Gate = Shut.Gate with { Outlet = FlowSim.Gates.GateOutlet.Submerged, OutletAboveScreen = Length.FromMillimeters(20) } };
        CalibrationQuestion question = Good with { Priors = [Lot, LevelOfTank, Prior(StrainingInputs.OutletAboveScreen, new NormalDistribution(0.02, 0.001))] };
        CalibrationCheck.Require(question with { Runs = [Good.Runs[0] with { Setup = under }] });
        CalibrationCheck.Require(question with { Setup = under });
        StrainingSetup higher = under with { Gate = under.Gate with { OutletAboveScreen = Length.FromMillimeters(30) } };
        Assert.Equal("Runs", Refused(question with { Setup = under, Runs = [Good.Runs[0] with { Setup = higher }] }).ParamName);
    }

    [Fact]
    public void A_measured_viscosity_is_one_of_honey()
    {
        ViscositySpot spot = Good.Viscosities[0];
        CalibrationCheck.Require(With(spot with { LogStandardDeviation = 0.001 }));
        CalibrationCheck.Require(With(spot with { LogStandardDeviation = 2, Viscosity = DynamicViscosity.FromPascalSeconds(0.001) }));
        Assert.Equal("LogStandardDeviation", Refused(With(spot with { LogStandardDeviation = 0.0009 })).ParamName);
        Assert.Equal("LogStandardDeviation", Refused(With(spot with { LogStandardDeviation = 2.1 })).ParamName);
        Assert.Equal("Viscosity", Refused(With(spot with { Viscosity = DynamicViscosity.FromPascalSeconds(0.0009) })).ParamName);
        Assert.Equal("Temperature", Refused(With(spot with { Temperature = Temperature.FromDegreesCelsius(150) })).ParamName);

        // The range is that of the honey's own correlation.
        CalibrationQuestion own = Good with { Setup = Straight, Runs = [], Viscosities = [spot with { Temperature = Temperature.FromDegreesCelsius(80) }] };
        CalibrationCheck.Require(own);
        Assert.Equal("Temperature", Refused(own with { Viscosities = [spot with { Temperature = Temperature.FromDegreesCelsius(81) }] }).ParamName);
    }

    [Fact]
    public void Nothing_counts_twice()
    {
        TimedRun run = Good.Runs[0];
        ViscositySpot spot = Good.Viscosities[0];
        Assert.Contains("copy is given twice, also as run", Refused(Good with { Runs = [run, run with { Name = "copy" }] }).Message, StringComparison.Ordinal);
        Assert.Equal("Runs", Refused(Good with { Viscosities = [spot, spot] }).ParamName);
        CalibratedInputs earlier = new() { Inputs = [Lot], Correlations = [], Runs = [new RunOnRecord("then", null, run.Fingerprint)] };
        Assert.Contains("run is in the earlier calibration already, as then", Refused(Good with { Earlier = earlier }).Message, StringComparison.Ordinal);
        Assert.Equal("Runs", Refused(Good with { Earlier = earlier with { Runs = [new RunOnRecord("then", null, RunFingerprint.Of(spot))] } }).ParamName);
        CalibrationCheck.Require(Good with { Earlier = earlier with { Runs = [new RunOnRecord("then", null, "0123456789abcdef")] } });
    }
}
