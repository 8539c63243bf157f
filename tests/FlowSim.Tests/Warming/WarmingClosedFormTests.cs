using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>Whole runs whose answer is a formula.</summary>
public class WarmingClosedFormTests
{
    private const double Film = 20;

    /// <summary>A well-mixed vessel with a fixed film all around, in what holds its temperature: Newton's law, T = T∞ + (T₀ − T∞) e^(−t/τ).</summary>
    [Theory]
    [InlineData(1e-3, 1e-3)]
    [InlineData(1e-5, 1e-5)]
    public void A_well_mixed_vessel_warms_as_an_exponential(double toleranceK, double allowedK)
    {
        WarmingParameters p = Mixed(PlainStuff.Alone(45));
        double tau = Capacity(p) / Conductance(p), wantedS = -tau * Math.Log((318.15 - 308.15) / (318.15 - 293.15));
        WarmingResult result = PlainStuff.Run(p, 2 * tau, toleranceK, 50, WarmingTarget.Mean(Celsius(35)), WarmingTarget.Mean(Celsius(43)));

        // Nothing but the end is a target of the integrator: the 43 °C are never reached in two time constants.
        for (int i = 0; i < 50; i++)
        {
            double expected = 318.15 - (25 * Math.Exp(-result.Series.TimeS[i] / tau));
            Assert.Equal(2 * tau * i / 49, result.Series.TimeS[i], 1e-6);
            Assert.Equal(expected, result.End.Mean.Kelvins + (result.Series.MeanK[i] - result.End.Mean.Kelvins), 0.5); // Straight between steps.
        }

        Assert.Equal(318.15 - (25 * Math.Exp(-2)), result.End.Mean.Kelvins, 20 * allowedK);
        Assert.Equal(wantedS, result.TargetTimes[0]!.Value.Seconds, 20 * allowedK * tau / 10);
        Assert.Null(result.TargetTimes[1]);
    }

    /// <summary>What the heater without a limit has given is what went in.</summary>
    [Fact]
    public void The_heater_gives_what_the_exponential_takes()
    {
        WarmingParameters p = Mixed(PlainStuff.Alone(45)) with { Vessels = 3, BodyLossWPerK = 2 };
        double tau = Capacity(p) / Conductance(p), into = 3 * Capacity(p) * 25 * (1 - Math.Exp(-1)), lost = 2 * 25 * tau;
        WarmingResult result = PlainStuff.Run(p, tau);
        Assert.Equal(into, result.Energy.IntoHoney.Joules, 1e-5 * into);
        Assert.Equal(lost, result.Energy.ToRoom.Joules, 1e-9 * lost);
        Assert.Equal(into + lost, result.Energy.Heater.Joules, 1e-5 * into);
    }

    /// <summary>
    /// A body with a heater of constant power and a loss, and a well-mixed vessel in it: C_b T_b′ = P − G (T_b − T) − K (T_b − T_r),
    /// C T′ = G (T_b − T): two exponentials about the steady state.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void A_body_and_a_vessel_warm_as_two_exponentials(int vessels)
    {
        const double Watts = 80, Loss = 3;
        WarmingParameters p = Mixed(PlainStuff.Alone(110)) with { Vessels = vessels, HeaterW = Watts, BodyLossWPerK = Loss, BodyStartK = 303.15 };
        double c = vessels * Capacity(p), g = vessels * Conductance(p), body = p.BodyJPerK;
        double steadyK = 293.15 + (Watts / Loss);

        // x = (T_b, T) − steady: x′ = A x, by the eigenvalues of A.
        double a11 = -(g + Loss) / body, a12 = g / body, a21 = g / c, a22 = -g / c;
        double half = (a11 + a22) / 2, root = Math.Sqrt((half * half) - ((a11 * a22) - (a12 * a21)));
        double fast = half - root, slow = half + root;
        double x1 = 303.15 - steadyK, x2 = 293.15 - steadyK;
        (double BodyK, double HoneyK) At(double t)
        {
            // e^(At) = [e^(slow t)(A − fast) − e^(fast t)(A − slow)]/(slow − fast).
            double s = Math.Exp(slow * t), f = Math.Exp(fast * t), d = slow - fast;
            double e11 = ((s * (a11 - fast)) - (f * (a11 - slow))) / d, e12 = (s - f) * a12 / d;
            double e21 = (s - f) * a21 / d, e22 = ((s * (a22 - fast)) - (f * (a22 - slow))) / d;
            return (steadyK + (e11 * x1) + (e12 * x2), steadyK + (e21 * x1) + (e22 * x2));
        }

        foreach (double t in new[] { 1000.0, 20_000, 100_000 })
        {
            WarmingResult result = PlainStuff.Run(p, t);
            (double bodyK, double honeyK) = At(t);
            Assert.Equal(bodyK, result.End.Body.Kelvins, 2e-3);
            Assert.Equal(honeyK, result.End.Mean.Kelvins, 5e-4);
            Assert.Equal(Watts * t, result.Energy.Heater.Joules, 1e-9 * Watts * t);
        }
    }

    /// <summary>A body alone that loses heat, on a thermostat: it goes up and down between the ends of the band in exponentials.</summary>
    [Fact]
    public void A_thermostat_switches_when_the_exponentials_reach_the_ends_of_its_band()
    {
        const double Watts = 400, Loss = 10, High = 314.15, Low = 312.15;
        WarmingParameters p = PlainStuff.Alone(40) with { HeaterW = Watts, BodyLossWPerK = Loss, HysteresisK = High - Low };
        double tau = p.BodyJPerK / Loss, ceiling = 293.15 + (Watts / Loss);
        double first = tau * Math.Log((ceiling - 293.15) / (ceiling - High));
        double off = tau * Math.Log((High - 293.15) / (Low - 293.15)), on = tau * Math.Log((ceiling - Low) / (ceiling - High));
        double end = first + (10 * (on + off)) + (0.5 * off);
        WarmingResult result = PlainStuff.Run(p, end, 1e-6);

        Assert.Equal(21, result.Switchings);
        double given = Watts * (first + (10 * on));
        Assert.Equal(given, result.Energy.Heater.Joules, 1e-5 * given);
        Assert.Equal(293.15 + ((High - 293.15) * Math.Exp(-0.5 * off / tau)), result.End.Body.Kelvins, 2e-4);
    }

    /// <summary>With hysteresis 0 the same body stands at the setpoint, at the power that it loses.</summary>
    [Fact]
    public void Without_hysteresis_the_body_stands_at_the_setpoint()
    {
        const double Watts = 400, Loss = 10;
        WarmingParameters p = PlainStuff.Alone(40) with { HeaterW = Watts, BodyLossWPerK = Loss, HysteresisK = 0 };
        double first = p.BodyJPerK / Loss * Math.Log(40.0 / 20);
        WarmingResult result = PlainStuff.Run(p, first + 50_000, 1e-6, 400);
        double given = (Watts * first) + (50_000 * Loss * 20);
        Assert.Equal(given, result.Energy.Heater.Joules, 1e-5 * given);
        Assert.Equal(313.15, result.End.Body.Kelvins, 1e-6);
        Assert.Equal(200, result.Series.HeaterW[^1], 1e-3);
        Assert.Equal(1, result.Switchings);
    }

    /// <summary>A first-order probe in what warms at a constant rate lags by rate times its time constant.</summary>
    [Fact]
    public void A_probe_lags_a_ramp_by_its_time_constant()
    {
        const double Rate = 0.01, Lag = 120, Long = 2000;
        WarmingParameters p = PlainStuff.Alone(20) with
        {
            LagS = Lag,
            Setpoint = new SetpointCurve(
            [
                new SetpointStep(Duration.Zero, Celsius(20)),
                new SetpointStep(Duration.FromSeconds(Long), Celsius(20 + (Rate * Long)), Ramp: true),
            ]),
        };
        WarmingResult result = PlainStuff.Run(p, Long, 1e-6);
        Assert.Equal(293.15 + (Rate * Long), result.End.Body.Kelvins, 1e-9);
        Assert.Equal(result.End.Body.Kelvins - (Rate * Lag * (1 - Math.Exp(-Long / Lag))), result.End.Probe.Kelvins, 1e-4);
    }

    /// <summary>Crystals that melt in a well-mixed vessel: what is turned over is the enthalpy of the end.</summary>
    [Fact]
    public void Melting_takes_its_latent_heat()
    {
        const double Latent = 15_000;
        WarmingParameters p = Mixed(PlainStuff.Alone(60)) with { Honey = new PlainStuff { Enthalpy = new HoneyEnthalpy(2500, 0, Latent, 30, 40), CrystalShare = Latent / 108_400 } };
        double mass = Capacity(p) / 2500;
        WarmingResult result = PlainStuff.Run(p, 20 * Capacity(p) / Conductance(p));
        Assert.Equal(0, result.CrystalsLeft.DecimalFractions, 1e-12);
        Assert.Equal(mass * Latent, result.Energy.Melting.Joules, 1e-9 * mass * Latent);
        Assert.Equal(mass * ((2500 * 40) + Latent), result.Energy.IntoHoney.Joules, 1e-6 * mass * Latent);
    }

    /// <summary>Well mixed, a film all around, in a body that the floor and the top face too.</summary>
    private static WarmingParameters Mixed(WarmingParameters p) => p with
    {
        Inside = InsideHeat.WellMixed,
        Grid = new CylinderGrid(0.14, 0.3, 1, 1),
        Contacts = new KitContacts
        {
            BodySide = FlowSim.Warming.Film.Coefficient(Film),
            BodySideToM = double.PositiveInfinity,
            Floor = FlowSim.Warming.Film.Coefficient(Film),
            FloorFacesBody = true,
            Top = FlowSim.Warming.Film.Coefficient(Film),
            TopFacesBody = true,
        },
    };

    private static double Capacity(WarmingParameters p) => PlainStuff.HeatCapacity * PlainStuff.Density * p.Grid.EndAreaM2 * p.Grid.HeightM;

    private static double Conductance(WarmingParameters p) => Film * ((2 * p.Grid.EndAreaM2) + (2 * Math.PI * p.Grid.RadiusM * p.Grid.HeightM));
}
