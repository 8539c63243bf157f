// What a program that takes FlowSim as a package asks of it, one question of each kind. Every answer is a line "name value"; a number has
// 17 significant digits, enough to tell any two doubles apart, so two builds of the program can be compared.
using System.Globalization;
using System.Text;
using FlowSim;
using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Gates;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

Console.OutputEncoding = Encoding.UTF8;
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;

var setup = new StrainingSetup
{
    Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
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
        Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)),
        Cloths = [Cloth.FromAstmSieve(40)],
    },
    Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Length.FromMillimeters(300)) },
};

StrainingResult strained = StrainingRun.Simulate(setup);
Word("strain.status", strained.Status);
Number("strain.drain95S", strained.Drain.To95?.Seconds);
Number("strain.strain95S", strained.Strain.To95?.Seconds);
Number("strain.peakPondM", strained.PeakPond.Meters);
Number("strain.startViscosityPaS", strained.StartViscosity.PascalSeconds);
Word("strain.drain95", strained.Drain.To95); // With its unit, which UnitsNet looks up at run time.

var warming = new WarmingSetup
{
    Honey = setup.Honey,
    StartTemperature = Temperature.FromDegreesCelsius(18),
    Vessel = new WarmedVessel
    {
        Shape = setup.Tank.Shape,
        Level = setup.Tank.Level,
        Wall = [WallMaterial.ByName("polyethylene").Layer(Length.FromMillimeters(2))],
    },
    Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(40)) },
    Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(35))],
    Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(8), DiastaseNumber = 15 },
};

WarmingBounds bounds = WarmingBounds.Of(warming);
Word("warm.status", bounds.Best.Status);
Number("warm.timeToTargetS", bounds.Best.TimeToTarget?.Seconds);
Number("warm.timeToTargetLowS", bounds.TimeToTargetLow?.Seconds);
Number("warm.timeToTargetHighS", bounds.TimeToTargetHigh?.Seconds);
Number("warm.hmfGainHighMgPerKg", bounds.Best.Damage.HmfGainHigh.MilligramsPerKilogram);
Number("warm.heaterJ", bounds.Best.Energy.Heater.Joules);

RiskAnswer risk = RiskAnalysis.Of(new RiskQuestion { Setup = setup, Runs = 512 });
Number("risk.overflow", risk.Overflow.Value);
Number("risk.overflowLow", risk.Overflow.Low);
Number("risk.overflowHigh", risk.Overflow.High);
Number("risk.strainP90S", risk.Strain.P90?.Seconds);
Number("risk.lookAwayS", risk.Absence.Longest?.Seconds);
Number("risk.widestOpening", risk.WidestOpening.Opening.DecimalFractions);
Word("risk.measureNext", risk.MeasureNext?.How);

double[] levelsM = [0.293, 0.247, 0.204, 0.170, 0.141, 0.094, 0.061, 0.040];
double[] minutes = [0, 0.5, 1, 1.5, 2, 3, 4, 5];
CalibrationAnswer learnt = CalibrationFit.Of(new CalibrationQuestion
{
    Setup = setup,
    Runs =
    [
        new TimedRun
        {
            Name = "a pail",
            Setup = setup,
            Series =
            [
                new TimedSeries
                {
                    Quantity = StrainingObservable.TankLevel,
                    Readings = [.. minutes.Zip(levelsM, (minute, levelM) => new TimedReading(Duration.FromMinutes(minute), levelM))],
                },
            ],
        },
    ],
    Viscosities = [new ViscositySpot("a falling ball", Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(2.6), 0.06)],
    Sample = false,
});
Word("fit.status", learnt.Status);
foreach (FittedInput input in learnt.Inputs)
{
    Number($"fit.{input.Input.Name}.low", input.Low);
    Number($"fit.{input.Input.Name}.middle", input.Middle);
    Number($"fit.{input.Input.Name}.high", input.High);
}

Word("fit.fingerprint", learnt.Calibrated.Runs[0].Fingerprint);

RunOutlook outlook = RunForecast.Of(new AttendedRun { Setup = setup, Steps = [NotedStep.Scrape(Duration.FromMinutes(3))] }).At(Duration.FromMinutes(4));
Word("watch.next", outlook.NextActions[0].Kind);
Number("watch.nextAtS", outlook.NextActions[0].At.Seconds);

SetpointAnswer setpoint = SetpointSearch.Find(new SetpointQuestion { Warming = warming, Straining = setup });
Word("setpoint.status", setpoint.Status);
Number("setpoint.setpointK", setpoint.Choice?.Setpoint.Kelvins);
Number("setpoint.totalS", setpoint.Choice?.Total.Seconds);
Word("setpoint.bindingLimit", setpoint.BindingLimit);

foreach (Notice notice in strained.Notices.Concat(risk.Notices).Concat(learnt.Notices).Concat(setpoint.Notices))
    Word("notice", notice);

// A refusal names what is wrong and what is allowed; its text must not depend on what a linker leaves out.
try
{
    StrainingRun.Simulate(setup with { HoneyTemperature = Temperature.FromDegreesCelsius(-40) });
    Word("refusal", "none");
}
catch (ArgumentOutOfRangeException refused)
{
    Word("refusal", refused.Message.ReplaceLineEndings(" "));
}

static void Number(string name, double? value) => Console.WriteLine($"{name} {value?.ToString("G17", CultureInfo.InvariantCulture) ?? "none"}");

static void Word(string name, object? value) => Console.WriteLine($"{name} {value ?? "none"}");
