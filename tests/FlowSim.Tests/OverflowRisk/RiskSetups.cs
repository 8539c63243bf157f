using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Invented setups for questions about chances.</summary>
internal static class RiskSetups
{
    /// <summary>A pail of 19 L through a flat cloth of 425 µm, the gate left at an opening.</summary>
    public static StrainingSetup Pail(double openingPercent = 40) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Mm(285), Mm(360)), Level = Mm(298) },
        Gate = new Gate { Bore = Mm(38), TubeLength = Mm(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(openingPercent)),
        Strainer = new Strainer { Shape = new FlatDisc(Mm(240), Mm(100)), Cloths = [Cloth.FromAstmSieve(40)] },
        Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Mm(300)) },
    };

    public static Length Mm(double millimetres) => Length.FromMillimeters(millimetres);
}
