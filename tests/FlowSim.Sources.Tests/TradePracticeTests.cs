using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>A plausibility check over the whole chain, not a measurement; the bands are wide on purpose.</summary>
[Publication("Practice of straining", "About 19 L of honey at about 35 °C takes about 5 minutes through a sieve that sits on a pail", Standing.CommonPractice, Remark = "no source")]
public class TradePracticeTests
{
    [Theory]
    [InlineData(400, 250)]
    [InlineData(600, 400)]
    public void A_pail_at_35_degrees_takes_about_five_minutes_with_the_gate_a_good_quarter_open(double openingUm, double wireUm)
    {
        StrainingResult result = StrainingRun.Simulate(Pail(openingUm, wireUm, 28, 0.3));

        Assert.Equal(StrainingStatus.Drained, result.Status);
        Published.Agrees(5, result.Strain.To95!.Value.Minutes, Within.Ratio(0.5, 2, "practice, wide on purpose"), $"time to strain 95 %, cloth of {openingUm} µm", "min");
    }

    [Theory]
    [InlineData(400, 250, 0.3)]
    [InlineData(400, 250, 3)]
    public void Left_alone_with_the_gate_wide_open_litres_go_over_a_100_mm_rim(double openingUm, double wireUm, double gramsPerKilogram)
    {
        StrainingResult result = StrainingRun.Simulate(Pail(openingUm, wireUm, 100, gramsPerKilogram));

        double litres = result.Masses.Bypassed.Kilograms / 1.41;
        Assert.Equal(StrainingStatus.Overflowed, result.Status);
        Assert.InRange(litres, 3, 10);
    }

    private static StrainingSetup Pail(double openingUm, double wireUm, double openPercent, double gramsPerKilogram) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank
        {
            Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)),
            Level = Length.FromMillimeters(298),
        },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(openPercent)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(285), Length.FromMillimeters(100)),
            Cloths = [new Cloth { Opening = Length.FromMicrometers(openingUm), WireDiameter = Length.FromMicrometers(wireUm) }],
        },
        Debris = new Debris { Load = Ratio.FromDecimalFractions(gramsPerKilogram / 1000) },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(320), Length.FromMillimeters(320)) },
    };
}
