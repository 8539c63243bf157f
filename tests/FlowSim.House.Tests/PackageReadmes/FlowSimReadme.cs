using FlowSim;
using FlowSim.Catalogue;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace ReadmeExample;

/// <summary>The program in the README of the package FlowSim.</summary>
public class FlowSimReadme
{
    [Fact]
    public void Runs_and_answers()
    {
        // README begins
        var setup = new StrainingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
            HoneyTemperature = Temperature.FromDegreesCelsius(35),
            Tank = new Tank { Shape = CommonVessels.ByName("pail-19l").Item, Level = Length.FromMillimeters(298) },
            Gate = CommonGates.ByName("gate-38mm").Item,
            Control = GateControl.LeaveAt(Ratio.FromPercent(20)),
            Strainer = new Strainer
            {
                Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)),
                Cloths = [Cloth.FromAstmSieve(40)],
            },
            Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Length.FromMillimeters(300)) },
        };

        StrainingResult result = StrainingRun.Simulate(setup);
        Console.WriteLine($"{result.Status}: strained after {result.Strain.To95}, deepest pond {result.PeakPond}");

        RiskAnswer risk = RiskAnalysis.Of(new RiskQuestion { Setup = setup });
        Console.WriteLine($"runs over: {risk.Overflow.Value:P1} ({risk.Overflow.Low:P1} to {risk.Overflow.High:P1})");
        Console.WriteLine($"open the gate to {risk.WidestOpening.Opening.Percent:0} % at most");
        // README ends

        Assert.NotNull(result.Strain.To95);
        Assert.InRange(risk.Overflow.Value, risk.Overflow.Low, risk.Overflow.High);
        Assert.InRange(risk.WidestOpening.Opening.Percent, 1, 100);
    }
}
