using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>An invented small pail, 3 kg of warm honey, whose runs take milliseconds.</summary>
internal static class SmallPail
{
    /// <summary>What it stands over.</summary>
    public static UprightCylinder Receiver { get; } = new(Length.FromMillimeters(180), Length.FromMillimeters(170));

    /// <summary>Pail, gate, disc and receiver; all else as a setup has it by itself.</summary>
    public static StrainingSetup Plain() => new()
    {
        Honey = new Honey { Moisture = Percent(18) },
        HoneyTemperature = Celsius(36),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(160), Length.FromMillimeters(150)), Level = Length.FromMillimeters(110) },
        Gate = new Gate { Bore = Length.FromMillimeters(25), TubeLength = Length.FromMillimeters(20) },
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(60)), Cloths = [Cloth.FromAstmSieve(40)] },
        Receiver = new Receiver { Shape = Receiver },
    };

    /// <summary>The gate three tenths open and left, the receiver 5 mm below, and what is too much spills.</summary>
    public static StrainingSetup Running()
    {
        StrainingSetup plain = Plain();
        return plain with
        {
            Control = GateControl.LeaveAt(Percent(30)),
            Strainer = plain.Strainer with { Overflow = OverflowPath.Spill },
            Receiver = plain.Receiver with { Spacer = Length.FromMillimeters(5) },
        };
    }
}
