using FlowSim.Warming;
using static FlowSim.Tests.Warming.HeatNets;

namespace FlowSim.Tests.Warming;

/// <summary>What a run that has ended is told as: account of heat, places, states.</summary>
public class WarmingReportTests
{
    [Theory]
    [InlineData("band")]
    [InlineData("bath")]
    [InlineData("air")]
    [InlineData("mixed")]
    public void The_account_is_that_of_the_temperatures_at_the_end(string name)
    {
        WarmingParameters p = Of(name) with { BodyStartK = 330, HysteresisK = 2, StartK = 295 };
        (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, PlainStuff.Setup(p, 1500), 1e-3);
        WarmingResult result = WarmingReport.Write(p, PlainStuff.Setup(p, 1500), run, recorder);
        double into = 0, sum = 0;
        for (int c = 0; c < p.Grid.Count; c++)
        {
            into += p.Vessels * run.System.MassKg[c] * PlainStuff.HeatCapacity * (run.System.TemperatureK[c] - 295);
            sum += run.System.MassKg[c] * run.System.TemperatureK[c];
        }

        EnergyAccount e = result.Energy;
        Assert.Equal(into, e.IntoHoney.Joules, 1e-6 * into);
        Assert.Equal(p.BodyJPerK * (result.End.Body.Kelvins - 330), e.IntoBody.Joules, 1e-3);
        Assert.Equal(e.Heater.Joules, e.IntoHoney.Joules + e.IntoBody.Joules + e.ToRoom.Joules, 1e-3);
        Assert.Equal(0, e.BalanceRelative, 1e-10);
        Assert.Equal(0, e.Melting.Joules);
        Assert.True(e.ToRoom.Joules > 1000 && e.Heater.Joules > 1000, "nothing to tell by");
        Assert.Equal(sum / run.System.HoneyKg, result.End.Mean.Kelvins, 1e-9);
        Assert.Equal(run.System.HottestWallK(run.Now.BodyK), result.End.Wall.Kelvins);
        Assert.Equal(run.Now.ProbeK, result.End.Probe.Kelvins);
        Assert.Equal(run.State[run.System.Probe], result.End.Probe.Kelvins);

        // Cells are numbered ring by ring from the axis, in each from the floor.
        double[] cells = run.System.TemperatureK.ToArray();
        int coldest = Array.IndexOf(cells, cells.Min());
        Assert.Equal((cells.Min(), cells.Max()), (result.End.Coldest.Kelvins, result.End.Hottest.Kelvins));
        Assert.Equal(((coldest / p.Grid.AxialCells) + 0.5) * p.Grid.RadiusM / p.Grid.RadialCells, result.ColdestPlace.Radius.Meters, 1e-12);
        Assert.Equal(((coldest % p.Grid.AxialCells) + 0.5) * p.Grid.HeightM / p.Grid.AxialCells, result.ColdestPlace.Height.Meters, 1e-12);
        Assert.Equal(run.Steps, result.Steps);
        Assert.Equal(p.Inside, result.Inside);
    }

    [Fact]
    public void Of_cells_equally_cold_the_one_at_axis_and_floor_is_told()
    {
        WarmingResult result = PlainStuff.Run(PlainStuff.Climbing(2, Step(0, 40)), 100, 1e-3);
        Assert.Equal((0.035, 0.075), (result.ColdestPlace.Radius.Meters, result.ColdestPlace.Height.Meters));
    }

    /// <summary>What does not add up is told as a share of all that was moved, either way; of next to nothing as joules a kilogram.</summary>
    [Fact]
    public void An_account_that_does_not_add_up_says_by_how_much()
    {
        WarmingParameters p = PlainStuff.Mixed(10, 200) with { HeaterW = 1000, BodyJPerK = 5000, BodyStartK = 330, BodyLossWPerK = 3, Vessels = 2 };
        WarmingSetup setup = PlainStuff.Setup(p, 500);
        (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, setup, 1e-3);
        run.State[run.System.FromHeater] = -700;
        run.State[run.System.ToRoom] += 400;
        EnergyAccount e = WarmingReport.Write(p, setup, run, recorder).Energy;
        Assert.True(e.IntoHoney.Joules > 1000 && e.IntoBody.Joules < -1000 && e.ToRoom.Joules > 1000, "nothing to tell by");
        Assert.Equal(-700, e.Heater.Joules);
        double turnover = 700 + e.IntoHoney.Joules - e.IntoBody.Joules + e.ToRoom.Joules;
        Assert.Equal(-1100 / turnover, e.BalanceRelative, 1e-9);

        // 2 · 1.0996 kg, and 0.5 J too much of nothing at all.
        (WarmingIntegration none, WarmingRecorder nothing) = PlainStuff.Integrate(p, PlainStuff.Setup(p, 500, WarmingTarget.Mean(RandomWarmings.Celsius(10))), 1e-3);
        none.State[none.System.FromHeater] = 0.5;
        Assert.Equal(0.5 / (2 * PlainStuff.MixedJPerK / PlainStuff.HeatCapacity), WarmingReport.Write(p, setup, none, nothing).Energy.BalanceRelative, 1e-6);
    }

    /// <summary>Granulated honey in a bath of 40 °C until it is at 30 °C, and again from a temperature at which part of it was melted.</summary>
    [Theory]
    [InlineData(293.15, 0)]
    [InlineData(299.15, 0.2)]
    public void Melting_is_told_by_what_was_solid_at_the_start(double startK, double meltedAtStart)
    {
        // Melts from 24 to 34 °C: 0.6 of it at 30 °C.
        const double Latent = 9000;
        WarmingParameters p = PlainStuff.Mixed(40, 200) with
        {
            Honey = new PlainStuff { Enthalpy = new HoneyEnthalpy(2500, 0, Latent, 24, 34), CrystalShare = 0.08 },
            StartK = startK,
            Vessels = 3,
        };
        WarmingResult result = PlainStuff.Run(p, 1e5, 1e-4, 0, WarmingTarget.Mean(RandomWarmings.Celsius(30)));
        double kg = 3 * PlainStuff.MixedJPerK / 2500, melted = 0.6 - meltedAtStart;
        Assert.Equal(kg * Latent * melted, result.Energy.Melting.Joules, 1e-3 * kg);
        Assert.Equal(kg * ((2500 * (303.15 - startK)) + (Latent * melted)), result.Energy.IntoHoney.Joules, 1e-3 * kg);
        Assert.Equal(0.4 * 0.08, result.CrystalsLeft.DecimalFractions, 1e-7);
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-9);
        Assert.Equal(kg / 3, result.HoneyPerVessel.Kilograms, 1e-9);
    }

    [Fact]
    public void Honey_that_is_cooled_again_keeps_what_has_melted()
    {
        // To 29 °C and back to 20 °C: half of what melts from 24 to 34 °C stays melted.
        WarmingParameters p = PlainStuff.Mixed(20, 200) with
        {
            Honey = new PlainStuff { Enthalpy = new HoneyEnthalpy(2500, 0, 9000, 24, 34), CrystalShare = 0.08 },
            Setpoint = new SetpointCurve([Step(0, 29), Step(20_000, 10)]),
        };
        WarmingResult result = PlainStuff.Run(p, 40_000, 1e-4);
        Assert.Equal(10, result.End.Mean.DegreesCelsius, 1e-3);
        Assert.Equal(0.5 * 0.08, result.CrystalsLeft.DecimalFractions, 1e-5);
        Assert.Equal(0.5 * 9000 * PlainStuff.MixedJPerK / 2500, result.Energy.Melting.Joules, 1);
    }
}
