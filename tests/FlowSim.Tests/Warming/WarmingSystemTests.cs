using FlowSim.Warming;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>The equations and their matrix, at states that no run has been to.</summary>
public class WarmingSystemTests
{
    private static readonly HeaterMode[] Modes = Enum.GetValues<HeaterMode>();

    [Property(MaxTest = 1000)]
    public void Heat_is_only_moved_in_every_mode(DoNotSize<int> any)
    {
        (WarmingSystem system, WarmingParameters p, double[] y, Random random) = AtSomeState(any.Item);
        double[] derivative = new double[system.Dimension];
        double t = random.NextDouble() * 100;
        foreach (HeaterMode mode in Modes.Where(mode => mode != HeaterMode.On || !p.Unlimited))
        {
            system.Mode = mode;
            system.Derivative(t, y, derivative);
            AssertAddsUp(Account(system, p, derivative), Turned(system, p, derivative), $"seed {any.Item}, {mode}");
            Assert.All(derivative, rate => Assert.True(double.IsFinite(rate), $"seed {any.Item}, {mode}"));
        }
    }

    [Property(MaxTest = 1000)]
    public void The_factors_only_move_heat_too(DoNotSize<int> any)
    {
        (WarmingSystem system, WarmingParameters p, double[] y, Random random) = AtSomeState(any.Item);
        double[] v = new double[system.Dimension];
        foreach (HeaterMode mode in Modes.Where(mode => mode != HeaterMode.On || !p.Unlimited))
        {
            system.Mode = mode;
            system.Derivative(0, y, v);
            system.KeepMatrix();
            foreach (double gammaStep in new[] { 1e-3, 1, 1e3, 1e6 })
            {
                system.Factor(gammaStep);
                for (int i = 0; i < v.Length; i++)
                    v[i] = random.NextDouble() - 0.5;
                double before = Account(system, p, v), size = Turned(system, p, v);
                system.Solve(v);

                // The sizes in between may be larger than at either end: what a factor moves, the next may move back.
                AssertAddsUp(Account(system, p, v) - before, size + Turned(system, p, v), $"seed {any.Item}, {mode}, {gammaStep}");
            }
        }
    }

    /// <summary>
    /// With properties that do not change the equations are linear, and the three parts of the matrix must add up to all of their
    /// Jacobian but what the probe feels. A difference of a linear function is exact; the parts are seen as (M⁻¹ − 1)/γh for a small γh.
    /// </summary>
    [Theory]
    [InlineData(true, true, false)]
    [InlineData(false, false, false)]
    [InlineData(true, false, true)]
    public void The_parts_of_the_matrix_add_up_to_the_Jacobian(bool floorFacesBody, bool topFacesBody, bool element)
    {
        WarmingParameters p = Linear(floorFacesBody, topFacesBody, element);
        var system = new WarmingSystem(p);
        int n = system.Dimension;
        double[] y = new double[n], base_ = new double[n], moved = new double[n], v = new double[n];
        var random = new Random(3);
        system.Start(y);
        for (int c = 0; c < p.Grid.Count; c++)
            y[c] *= 1 + (0.2 * random.NextDouble());
        y[system.Probe] = 300;
        foreach (HeaterMode mode in new[] { HeaterMode.On, HeaterMode.Off, HeaterMode.Holds, HeaterMode.CutOut })
        {
            system.Mode = mode;
            system.Derivative(0, y, base_);
            for (int column = 0; column < n; column++)
            {
                double step = column == system.Probe ? 1 : 1e4;
                y[column] += step;
                system.Derivative(0, y, moved);
                y[column] -= step;
                system.Derivative(0, y, base_);
                system.KeepMatrix();
                const double Gamma = 1e-4;
                system.Factor(Gamma);
                Array.Clear(v);
                v[column] = step;
                system.Solve(v);
                v[column] -= step;
                for (int row = 0; row < n; row++)
                {
                    double jacobian = (moved[row] - base_[row]) / step, matrix = v[row] / Gamma / step;
                    if (row == system.Probe && column != system.Probe)
                        jacobian = 0; // Left out on purpose: the probe is slower than what it feels.
                    Assert.True(Math.Abs(jacobian - matrix) <= 1e-5 * Math.Max(1e-3, Math.Abs(jacobian)), $"{mode}, row {row}, column {column}: {jacobian:r}, matrix {matrix:r}");
                }
            }
        }
    }

    [Fact]
    public void A_step_of_the_equations_allocates_nothing()
    {
        (WarmingSystem system, _, double[] y, _) = AtSomeState(12);
        double[] derivative = new double[system.Dimension];
        void Once()
        {
            system.Derivative(0, y, derivative);
            system.KeepMatrix();
            system.Factor(1);
            system.Solve(derivative);
        }

        Assert.Equal(0, Allocated.By(Once));
    }

    /// <summary>The temperature of the wall's inside, from the flux on its outside: what passes the film and the wall arrives there.</summary>
    [Property(MaxTest = 300)]
    public void The_hottest_wall_is_no_hotter_than_what_heats_it(DoNotSize<int> any)
    {
        (WarmingSystem system, WarmingParameters p, double[] y, _) = AtSomeState(any.Item);
        system.Mode = HeaterMode.Off;
        system.Derivative(0, y, new double[system.Dimension]);
        double bodyK = system.BodyK(0, y), hottest = 0;
        foreach (double kelvins in system.TemperatureK)
            hottest = Math.Max(hottest, kelvins);
        Assert.InRange(system.HottestWallK(bodyK), 0, Math.Max(Math.Max(bodyK, p.RoomK), hottest) + 1e-9);
    }

    private static (WarmingSystem System, WarmingParameters P, double[] Y, Random Random) AtSomeState(int seed)
    {
        var random = new Random(seed);
        WarmingOptions options = RandomWarmings.Small with { Inside = (InsideHeat)random.Next(3), RadialCells = random.Next(2, 7), AxialCells = random.Next(2, 9) };
        WarmingParameters p = WarmingParameters.Of(RandomWarmings.Any(seed), options, HeatFactors.None);
        var system = new WarmingSystem(p);
        double[] y = new double[system.Dimension];
        system.Start(y);
        for (int c = 0; c < p.Grid.Count; c++)
            y[c] = system.MassKg[c] * p.Honey.Enthalpy.OnCurve(273.15 + RandomWarmings.Between(random, -20, 90));
        y[system.Body] = p.BodyJPerK * (273.15 + RandomWarmings.Between(random, -20, 110));
        y[system.Probe] = 273.15 + RandomWarmings.Between(random, -20, 110);
        return (system, p, y, random);
    }

    private static WarmingParameters Linear(bool floorFacesBody, bool topFacesBody, bool element) => PlainStuff.Alone(40) with
    {
        Contacts = new KitContacts
        {
            BodySide = Film.Coefficient(50),
            BodySideFromM = 0.06,
            BodySideToM = 0.22,
            RoomSide = Film.Coefficient(8),
            Floor = Film.Coefficient(30),
            FloorFacesBody = floorFacesBody,
            Top = Film.Coefficient(12),
            TopFacesBody = topFacesBody,
            ElementRadiusM = element ? 0.01 : 0,
            ElementFromM = 0.02,
            ElementToM = 0.2,
        },
        Vessels = element ? 1 : 3,
        HeaterW = 500,
        BodyStartK = 310,
        BodyLossWPerK = 4,
        SideWallM2KPerW = 0.01,
        SideRadiusRatio = 1.05,
        LagS = 30,
    };

    /// <summary>N ΣU + body + room − heater.</summary>
    private static double Account(WarmingSystem system, WarmingParameters p, double[] v) =>
        (p.Vessels * v.Take(p.Grid.Count).Sum()) + v[system.Body] + v[system.ToRoom] - v[system.FromHeater];

    private static double Turned(WarmingSystem system, WarmingParameters p, double[] v) =>
        (p.Vessels * v.Take(p.Grid.Count).Sum(Math.Abs)) + Math.Abs(v[system.Body]) + Math.Abs(v[system.ToRoom]) + Math.Abs(v[system.FromHeater]);

    private static void AssertAddsUp(double rest, double turned, string what) =>
        Assert.True(Math.Abs(rest) <= 1e-11 * turned, $"{what}: {rest:g3} of {turned:g3} left over");
}
