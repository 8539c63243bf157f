using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Straining;

/// <summary>Whole runs in the few cases that have a formula, derived here beside each check.</summary>
public class ClosedFormRunTests
{
    private const double Gravity = 9.80665; // CGPM 1901

    private static readonly HoneyProperties Honey = HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(18) });
    private static readonly double Viscosity = Honey.ViscosityAt(Celsius(35)).PascalSeconds;
    private static readonly double Density = Honey.DensityAt(Celsius(35)).KilogramsPerCubicMeter;

    [Theory]
    [InlineData(100)]
    [InlineData(50)]
    [InlineData(10)]
    public void A_held_pail_without_film_drains_by_the_formula_of_a_prism(double openPercent)
    {
        StrainingResult result = StrainingRun.Simulate(Isothermal(openPercent));

        // Δp = ρgh = RQ + BQ², A dh/dt = −Q: time from h1 to h2 is (A/ρg)[S + R ln(S − R)] between h2 and h1, S = √(R² + 4Bρgh).
        double a = 0.019;
        double alpha = Math.Acos(1 - (2 * openPercent / 100));
        double open = a * a * (alpha - (Math.Sin(alpha) * Math.Cos(alpha)));
        double edge = 2 * a * (alpha + Math.Sin(alpha));
        double r = Viscosity * ((1.5 / Math.Pow(a, 3)) + (8 * 0.04 / (Math.PI * Math.Pow(a, 4)))
            + (3 * Math.PI * edge / (2 * open * open)) - (3 / Math.Pow(a, 3)));
        double b = Density * (2.69 - (0.39 * open / (Math.PI * a * a))) / (2 * open * open);
        double area = Math.PI * 0.285 * 0.285 / 4;
        double Primitive(double h)
        {
            double s = Math.Sqrt((r * r) + (4 * b * Density * Gravity * h));
            return area / (Density * Gravity) * (s + (r * Math.Log(s - r)));
        }

        double Level(double share) => 0.298 - (share * (0.298 - 0.002));
        double Time(double share) => Primitive(0.298) - Primitive(Level(share));
        Assert.Equal(1, result.Drain.To50!.Value.Seconds / Time(0.50), 1e-6);
        Assert.Equal(1, result.Drain.To95!.Value.Seconds / Time(0.95), 1e-6);
        Assert.Equal(1, result.Drain.To99!.Value.Seconds / Time(0.99), 1e-6);
        Assert.Equal(1, result.DrainToHeel!.Value.Seconds / Time(1), 1e-6);
    }

    [Fact]
    public void A_pond_on_a_clean_flat_cloth_falls_exponentially_once_the_gate_is_shut()
    {
        StrainingSetup setup = Isothermal(100) with
        {
            Control = GateControl.Follow([new OpeningStep(Duration.Zero, Ratio.FromPercent(100)), new OpeningStep(Duration.FromSeconds(5), Ratio.Zero)]),
            Longest = Duration.FromSeconds(65),
        };
        StrainingSeries s = StrainingRun.Simulate(setup).Series;

        // d − d_min falls with the time constant μ r/(ρ g): volume A d, flow ρ g A (d − d_min)/(μ r).
        double r = SquareCloth.ResistancePerMArmourCannon1968(400e-6, 250e-6);
        double constant = Viscosity * r / (Density * Gravity);
        int shut = Enumerable.Range(0, s.TimeS.Count).Last(i => s.TimeS[i] == 5);
        double expected = 0.002 + ((s.PondDepthM[shut] - 0.002) * Math.Exp(-60 / constant));
        Assert.Equal(1, s.PondDepthM[^1] / expected, 1e-6);
    }

    /// <summary>Hermia's laws in strained volume, x = σV/A: 1 − x, (1 − x/2)², e^−x, 1/(1 + x).</summary>
    [Theory]
    [InlineData(BlockingLaw.Complete)]
    [InlineData(BlockingLaw.Standard)]
    [InlineData(BlockingLaw.Intermediate)]
    [InlineData(BlockingLaw.Cake)]
    public void A_flat_cloth_blinds_with_the_strained_volume(BlockingLaw law)
    {
        var debris = new Debris { Load = Ratio.FromPartsPerMillion(900), Law = law };
        StrainingResult result = StrainingRun.Simulate(Isothermal(30) with { Debris = debris });

        double[] sigma = new double[1];
        Clogging.BlindedAreaPerVolumePerM(DebrisNumbers.Of(debris), Density, [400e-6], sigma);
        double x = sigma[0] * result.Series.StrainedKg[^1] / Density / (Math.PI * 0.285 * 0.285 / 4);
        double open = law switch
        {
            BlockingLaw.Complete => 1 - x,
            BlockingLaw.Standard => (1 - (x / 2)) * (1 - (x / 2)),
            BlockingLaw.Intermediate => Math.Exp(-x),
            _ => 1 / (1 + x),
        };
        Assert.InRange(x, 0.05, 0.95);
        Assert.Equal(open, 1 - result.Blinded[0].DecimalFractions, 1e-7);
    }

    [Fact]
    public void A_shut_tank_cools_by_Newtons_law()
    {
        StrainingSetup setup = Isothermal(100) with
        {
            Control = GateControl.Follow([new OpeningStep(Duration.Zero, Ratio.Zero), new OpeningStep(Duration.FromHours(3), Ratio.FromPercent(100))]),
            Longest = Duration.FromHours(2),
            RoomTemperature = Celsius(33),
        };
        setup = setup with { Tank = setup.Tank with { HeldAtTemperature = false } };
        double end = StrainingRun.Simulate(setup).EndTemperatures.Tank.DegreesCelsius;

        // dT/dt = −k A (T − T_room)/(c m): over 2 K the level and the heat capacity move by less than 0.5 %, which is the tolerance.
        double area = (Math.PI * 0.285 * 0.298) + (2 * Math.PI * 0.285 * 0.285 / 4);
        double mass = Density * 0.298 * Math.PI * 0.285 * 0.285 / 4;
        double heatCapacity = Honey.HeatCapacityAt(Celsius(34)).JoulesPerKilogramKelvin;
        double expected = 33 + (2 * Math.Exp(-6 * area * 7200 / (heatCapacity * mass * 1.001)));
        Assert.Equal(expected - 33, end - 33, 0.005 * 2);
    }

    private static Temperature Celsius(double degrees) => Temperature.FromDegreesCelsius(degrees);

    private static StrainingSetup Isothermal(double openPercent) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(18) },
        HoneyTemperature = Celsius(35),
        RoomTemperature = Celsius(35),
        Tank = new Tank
        {
            Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)),
            Level = Length.FromMillimeters(298),
            HeldAtTemperature = true,
            WallFilm = false,
        },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(openPercent)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(285), Length.FromMillimeters(400)),
            Cloths = [new Cloth { Opening = Length.FromMicrometers(400), WireDiameter = Length.FromMicrometers(250) }],
        },
        Debris = new Debris { Load = Ratio.Zero },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(400), Length.FromMillimeters(400)) },
    };
}
