using FlowSim;
using FlowSim.Catalogue;
using FlowSim.Plots;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace ReadmeExample;

/// <summary>The program in the README of the package FlowSim.Plots.</summary>
public class PlotsReadme
{
    [Fact]
    public void Draws_the_run()
    {
        // README begins
        StrainingResult result = StrainingRun.Simulate(new StrainingSetup
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
        });

        string svg = StrainingFigure.Of(result).ToSvg();
        byte[] png = StrainingFigure.Of(result, DisplayUnits.UsCustomary).ToPng();
        // README ends

        Assert.StartsWith("<?xml", svg, StringComparison.Ordinal);
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], png[..4]);
    }
}
