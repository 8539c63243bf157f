using FlowSim;
using FlowSim.Gates;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
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
        // README ends

        Assert.NotNull(result.Strain.To95);
        Assert.InRange(widest.Percent, 1, 100);
        Assert.True(spread.Strain95.Low <= result.Strain.To95);
    }
}
