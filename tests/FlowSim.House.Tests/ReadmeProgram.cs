using FlowSim;
using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Gates;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace ReadmeExample; // Outside FlowSim, where a user stands: Console means System.Console there.

/// <summary>The program that the README shows, run.</summary>
public class ReadmeProgram
{
    [Fact]
    public void Runs_and_answers()
    {
        // README begins
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

        StrainingResult result = StrainingRun.Simulate(setup);
        Console.WriteLine($"{result.Status}: 95 % drained after {result.Drain.To95}, strained after {result.Strain.To95}");
        Console.WriteLine($"deepest pond {result.PeakPond}, runs over: {(result.FirstOverflow is { } first ? $"after {first}" : "no")}");

        Ratio widest = WidestOpening.Find(setup);
        StrainingSpread spread = StrainingSpread.Of(setup);

        RiskAnswer risk = RiskAnalysis.Of(new RiskQuestion
        {
            Setup = setup,
            Tolerance = Ratio.FromPercent(1),
            Inputs =
            [
                .. DefaultSpreads.For(setup).Where(input => input.Input != StrainingInputs.Moisture),
                new UncertainInput(StrainingInputs.Moisture, new NormalDistribution(0.178, 0.001), new Source("my refractometer", Standing.GivenByUser)),
            ],
        });
        Console.WriteLine($"runs over: {risk.Overflow.Value:P1} ({risk.Overflow.Low:P1} to {risk.Overflow.High:P1}); look away for {(risk.Absence.Longest is { } longest ? $"{longest}" : "the whole run")}");
        Console.WriteLine($"open to {risk.WidestOpening.Opening.Percent:0.#} %; measure next: {risk.MeasureNext?.How}");

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
        HoneyHeatDamage damage = bounds.Best.Damage;
        Console.WriteLine($"35 °C after {bounds.Best.TimeToTarget}, between {bounds.TimeToTargetLow} and {bounds.TimeToTargetHigh}");
        Console.WriteLine($"HMF + {damage.HmfGainLow} to {damage.HmfGainHigh}, as much as {damage.EquivalentDaysAt20C.ByHmf:0} days at 20 °C");

        CalibrationAnswer learnt = CalibrationFit.Of(new CalibrationQuestion
        {
            Setup = setup,
            Viscosities = [new ViscositySpot("a falling ball", Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(2.6), 0.06)],
        });
        StrainingSetup mine = learnt.Calibrated.ApplyTo(setup);
        Console.WriteLine($"lot factor {mine.Honey.LotFactor:0.00}; measure next {learnt.Next[0].What}: {learnt.Next[0].TimeLeft:P0} of the spread would be left");

        RunOutlook outlook = RunForecast.Of(new AttendedRun { Setup = setup, Steps = [NotedStep.Scrape(Duration.FromMinutes(3))] }).At(Duration.FromMinutes(4));
        Console.WriteLine($"next: {outlook.NextActions[0].Kind} at {outlook.NextActions[0].At}; nobody need look for {(outlook.LookAgainIn is { } absence ? $"{absence}" : "the rest of the run")}");

        SetpointAnswer answer = SetpointSearch.Find(new SetpointQuestion { Warming = warming, Straining = setup });
        Console.WriteLine($"{answer.Choice?.Setpoint}: warm and strained after {answer.Choice?.Total}; what stands in the way of sooner: {answer.BindingLimit}");
        // README ends

        Assert.NotNull(result.Strain.To95);
        Assert.InRange(widest.Percent, 1, 100);
        Assert.InRange(risk.WidestOpening.Opening.Percent, 1, widest.Percent);
        Assert.InRange(risk.Overflow.Value, risk.Overflow.Low, risk.Overflow.High);
        Assert.True(spread.Strain95.Low <= result.Strain.To95);
        Assert.True(bounds.TimeToTargetLow <= bounds.Best.TimeToTarget && bounds.Best.TimeToTarget <= bounds.TimeToTargetHigh);
        Assert.Equal(SetpointStatus.Found, answer.Status);
    }
}
