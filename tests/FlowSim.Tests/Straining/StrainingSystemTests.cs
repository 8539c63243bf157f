using FlowSim.Gates;
using FlowSim.Numerics.Events;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Straining.StrainingState;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>The single system asked directly: its start, its equations at given states, and what its events change.</summary>
public class StrainingSystemTests
{
    private const double Floor = Math.PI * 0.16 * 0.16 / 4, Disc = Math.PI * 0.15 * 0.15 / 4, Under = Math.PI * 0.18 * 0.18 / 4;

    private static StrainingSetup Pail() => SmallPail.Running() with
    {
        Tank = SmallPail.Plain().Tank with { WallFilm = false },
        Debris = new Debris { Load = Ratio.FromPartsPerThousand(0.4) },
    };

    private static (StrainingSystem System, StrainingParameters P, double[] Y) Begin(StrainingSetup setup)
    {
        var p = new StrainingParameters(setup);
        var system = new StrainingSystem(p, new StrainingRecord(p, null));
        double[] y = new double[system.Dimension];
        system.WriteStart(y);
        system.Begin(y);
        return (system, p, y);
    }

    [Fact]
    public void The_start_is_written_over_whatever_stood_there()
    {
        var p = new StrainingParameters(Pail());
        var system = new StrainingSystem(p, new StrainingRecord(p, null));
        double[] y = new double[system.Dimension];
        Array.Fill(y, double.NaN);
        system.WriteStart(y);
        Assert.Equal([p.StartTankKg, 0, 0, 0, 309.15, 309.15, 295.15, 1], y);
        Assert.Equal([p.StartTankKg, p.StartTankKg, p.StartTankKg, p.StartTankKg, 300, 300, 300, 1], system.Scales.ToArray());
    }

    /// <summary>Δp = ρgh through the gate, Darcy through the cloth, Newton's cooling and mixing, each written out by hand for upright walls.</summary>
    [Fact]
    public void The_rates_are_those_of_the_model()
    {
        StrainingSetup setup = Pail();
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(setup);
        (y[TankKg], y[PondKg], y[StrainedKg], y[OverRimKg]) = (2, 0.6, p.StartTankKg - 2.6, 0);
        (y[TankK], y[PondK], y[ReceiverK], y[FirstOpenShare]) = (308, 306, 300, 0.7);
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        double Density(double k) => honey.DensityAt(Temperature.FromKelvins(k)).KilogramsPerCubicMeter;
        double Viscosity(double k) => honey.ViscosityAt(Temperature.FromKelvins(k)).PascalSeconds;
        double Capacity(double k) => honey.HeatCapacityAt(Temperature.FromKelvins(k)).JoulesPerKilogramKelvin;
        const double G = 9.80665, Room = 295.15, Loss = 6;

        double level = 2 / Density(308) / Floor, pond = 0.6 / Density(306) / Disc;
        GateGeometry gate = GateFlow.GeometryOf(setup.Gate, 0.3);
        double pressure = Density(308) * G * level, r = Viscosity(308) * gate.ViscousPerM3, b = Density(308) * gate.InertialPerM4;
        double gateFlow = Density(308) * 2 * pressure / (r + Math.Sqrt((r * r) + (4 * b * pressure)));
        double cloth = Density(306) * Density(306) * G * Disc * (pond - setup.Strainer.MinimumHead.Meters) / (Viscosity(306) * p.ClothResistancesPerM[0] * setup.Strainer.ScreenFactor / 0.7);
        double[] rates = new double[8];
        system.Derivative(5, y, rates);
        Assert.Equal(1, gateFlow / -rates[TankKg], 1e-6);
        Assert.Equal(1, cloth / rates[StrainedKg], 1e-6);
        Assert.Equal(gateFlow - cloth, rates[PondKg], 1e-6 * gateFlow);
        Assert.Equal(0, rates[OverRimKg]);

        Assert.Equal(Loss, setup.Tank.HeatLoss.WattsPerSquareMeterKelvin);
        double tankArea = (2 * Floor) + (Math.PI * 0.16 * level);
        Assert.Equal(1, -Loss * tankArea * (308 - Room) / (Capacity(308) * (2 + p.TankThermalKg)) / rates[TankK], 1e-6);
        double pondLoss = Loss * 2 * Disc * (306 - Room) / Capacity(306);
        Assert.Equal(1, ((gateFlow * 2) - pondLoss) / (0.6 + p.PondThermalKg) / rates[PondK], 1e-6);
        double received = y[StrainedKg], depth = received / Density(300) / Under;
        double receiverLoss = setup.Receiver.HeatLoss.WattsPerSquareMeterKelvin * ((2 * Under) + (Math.PI * 0.18 * depth)) * (300 - Room) / Capacity(300);
        Assert.Equal(1, ((cloth * 6) - receiverLoss) / (received + p.ReceiverThermalKg) / rates[ReceiverK], 1e-6);
        Assert.Equal(1, Clogging.OpenShareRate(setup.Debris.Law, 0.7, p.BlindingPerM[0], cloth / Density(306) / Disc) / rates[FirstOpenShare], 1e-6);

        // The slopes are those of the rates: a central difference ten thousand times coarser agrees to its own error.
        double[] jacobian = new double[64], time = new double[8], up = new double[8], down = new double[8];
        system.Jacobian(5, y, rates, jacobian, time, new double[16]);
        for (int j = 0; j < 8; j++)
        {
            double shift = 1e-5 * Math.Max(y[j], 1);
            double[] moved = [.. y];
            moved[j] += shift;
            system.Derivative(5, moved, up);
            moved[j] -= 2 * shift;
            system.Derivative(5, moved, down);
            for (int i = 0; i < 8; i++)
            {
                double slope = (up[i] - down[i]) / (2 * shift);
                Assert.Equal(slope, jacobian[(i * 8) + j], (1e-3 * Math.Abs(slope)) + 1e-6);
            }
        }

        Assert.All(time, slope => Assert.Equal(0, slope));
    }

    /// <summary>Half a wall's film is gone when the time is four times as long: the rates' slope against time is there with a film only.</summary>
    [Fact]
    public void A_film_thins_with_the_square_root_of_time()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail() with { Tank = Pail().Tank with { WallFilm = true } });
        (y[TankKg], y[PondKg], y[StrainedKg]) = (1, 0.5, p.StartTankKg - 1.5);
        double Film(double t)
        {
            StrainingHydraulics.Evaluate(p, system.Mode, t, y, out StrainingFlows f);
            Assert.Equal(1 / f.TankDensity, f.FilmM3 + (f.TankLevelM * Floor), 1e-12);
            return f.FilmM3;
        }

        Assert.Equal(0, Film(0));
        Assert.Equal(2, Film(100) / Film(400), 1e-9);
        double[] rates = new double[8], time = new double[8];
        system.Derivative(100, y, rates);
        system.Jacobian(100, y, rates, new double[64], time, new double[16]);
        Assert.True(time[TankKg] < 0, "what has left the wall is not in the flow");
        Assert.Equal(-time[TankKg], time[PondKg], 1e-15);
    }

    /// <summary>Boyle's law: honey that takes half the air's room doubles its pressure.</summary>
    [Fact]
    public void Trapped_air_pushes_back()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail() with { Strainer = Pail().Strainer with { Venting = Venting.Sealed } });
        y[StrainedKg] = 0.5 * p.ReceiverCapacityM3 * p.StartDensityKgPerM3;
        y[PondKg] = 0.5;
        StrainingHydraulics.Evaluate(p, system.Mode, 5, y, out StrainingFlows f);
        Assert.Equal(101325 / (f.PondDensity * 9.80665), f.AirHeadM, 1e-9);
        Assert.Equal(0, f.ClothKgPerS);
        Assert.Equal(f.PondDepthM - f.AirHeadM - p.MinimumHeadM, f.DrivingHeadM, 1e-12);
    }

    /// <summary>Honey that stands outside the cloth holds back as much of the pond; an outlet under the pond loses as much head.</summary>
    [Fact]
    public void Honey_outside_the_cloth_and_over_the_outlet_counts()
    {
        StrainingSetup low = Pail() with
        {
            Receiver = Pail().Receiver with { Spacer = Length.FromMillimeters(-150) },
            Gate = Pail().Gate with { Outlet = GateOutlet.Submerged, OutletAboveScreen = Length.FromMillimeters(4) },
        };
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(low);
        y[PondKg] = 0.5;
        y[StrainedKg] = 1.2;
        y[TankKg] = 1;
        StrainingHydraulics.Evaluate(p, system.Mode, 5, y, out StrainingFlows f);
        Assert.Equal(f.ReceiverLevelM - 0.02, f.BackUpM, 1e-12);
        Assert.Equal(f.BackUpM, f.HeldBackM);
        Assert.Equal(f.TankDensity * 9.80665 * (f.TankLevelM - (f.PondDepthM - 0.004)), f.GatePressurePa, 1e-9);
        y[PondKg] = 0.05;
        StrainingHydraulics.Evaluate(p, system.Mode, 5, y, out f);
        Assert.Equal(f.TankDensity * 9.80665 * f.TankLevelM, f.GatePressurePa, 1e-9);

        // Each unknown's own part evaluated anew gives what all together give.
        for (int j = -1; j < y.Length; j++)
        {
            double[] moved = [.. y];
            if (j >= 0)
                moved[j] *= 1.01;
            double t = j < 0 ? 9 : 5;
            StrainingFlows again = f;
            StrainingHydraulics.Reevaluate(p, system.Mode, t, moved, j, ref again);
            StrainingHydraulics.Evaluate(p, system.Mode, t, moved, out StrainingFlows whole);
            Assert.Equal((whole.GateCapacityKgPerS, whole.ClothKgPerS, whole.PondDepthM, whole.ReceiverLevelM, whole.TankLevelM), (again.GateCapacityKgPerS, again.ClothKgPerS, again.PondDepthM, again.ReceiverLevelM, again.TankLevelM));
        }
    }

    [Fact]
    public void A_pond_at_the_rim_runs_over_while_it_gains_and_is_put_below_it_after()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail());
        Assert.Equal((PondMode.Free, 0.0), (system.Mode.Pond, system.Mode.OpenedAtS));
        Assert.Equal((0.11, Floor + (Math.PI * 0.16 * 0.11)), (Math.Round(system.Mode.OpenedAtLevelM, 12), system.Mode.OpenedAtWettedM2), ((double, double) a, (double, double) b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) < 1e-12);
        double rimKg = p.RimVolumeM3 * p.Honey.DensityKgPerM3(y[PondK]);
        y[FirstOpenShare] = 0.01;
        (y[TankKg], y[PondKg]) = (1.5, rimKg * (1 + 1e-13));
        double[] events = new double[system.EventCount];
        system.EventValues(8, y, events);
        Assert.True(events[0] >= 0 && Math.Abs(events[0]) < 1e-11, $"the rim is reached: {events[0]}");
        Assert.Equal(-1, events[2]); // nobody rides
        Assert.Equal(-1, events[3]);
        Assert.Equal(EventResponse.Restart, system.OnEvent(0, 8, y));
        Assert.Equal(PondMode.OverRim, system.Mode.Pond);
        double[] rates = new double[8];
        system.Derivative(8, y, rates);
        Assert.True(rates[OverRimKg] > 0);

        // The volume stays: what runs over is gate less cloth, and the swelling as the pond cools or warms.
        double swelling = p.RimVolumeM3 * p.Honey.DensitySlopeKgPerM3K(y[PondK]) * rates[PondK];
        Assert.Equal(swelling, rates[PondKg], 1e-12);
        system.EventValues(9, y, events);
        Assert.Equal(-1, events[0]);
        Assert.Equal(-rates[OverRimKg], events[1], 1e-12);

        // A tank without head brings nothing: the pond is put a rounding below the rim and what that moves goes over.
        y[TankKg] = 0.1 * p.Honey.DensityKgPerM3(y[TankK]) * Floor * p.HeelLevelM;
        y[FirstOpenShare] = 1;
        double over = y[OverRimKg];
        system.OnEvent(1, 20, y);
        Assert.Equal(PondMode.Free, system.Mode.Pond);
        Assert.True(y[PondKg] < rimKg);
        Assert.Equal(rimKg * (1 + 1e-13) - y[PondKg], y[OverRimKg] - over, 1e-14);
        Assert.Equal(EventResponse.Continue, system.OnEvent(1, 21, y)); // the deepest of a free pond
    }

    /// <summary>A stall counts only when nothing is due; the flow that counts as none moves what can drain in 7 days (engineering choice).</summary>
    [Fact]
    public void A_stall_waits_for_what_is_due()
    {
        double Margin(StrainingSetup setup)
        {
            (StrainingSystem system, StrainingParameters p, double[] y) = Begin(setup);
            double[] events = new double[system.EventCount];
            system.EventValues(1, y, events);
            double[] rates = new double[y.Length];
            system.Derivative(1, y, rates);
            return events[7] == -1 ? -1 : events[7] - (p.StallKgPerS + rates[TankKg]);
        }

        Assert.Equal(0, Margin(Pail()), 1e-15);
        Assert.Equal(-1, Margin(Pail() with { Scraping = new Scraping { Times = [Duration.FromMinutes(3)] } }));
        Assert.Equal(-1, Margin(Pail() with { Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(30)), new OpeningStep(Duration.FromMinutes(9), Percent(30))) }));
    }

    [Fact]
    public void After_the_end_nothing_changes()
    {
        (StrainingSystem system, _, double[] y) = Begin(Pail() with { Scraping = new Scraping { Times = [Duration.FromMinutes(3)] } });
        Assert.Equal(180, system.NextStop(0));
        Assert.Equal(EventResponse.Stop, system.OnEvent(7, 10, y));
        Assert.True(system.Mode.Ended);
        double[] before = [.. y];
        Assert.Equal(EventResponse.Stop, system.OnEvent(5, 10, y));
        Assert.Equal(EventResponse.Stop, system.OnStop(180, y));
        Assert.False(system.Mode.AtHeel);
        Assert.Equal(before, y);
        Assert.Equal(EventDirection.Either, system.DirectionOf(10));
        Assert.Equal(EventDirection.Either, system.DirectionOf(11));
        Assert.Equal(EventDirection.Rising, system.DirectionOf(0));
        Assert.Equal(EventDirection.Rising, system.DirectionOf(9));
    }

    /// <summary>Scraped at 60 mm: half of what is blinded comes free, and nobody looks for the pause; then at a deep pond once more.</summary>
    [Fact]
    public void A_scrape_clears_its_share_and_is_followed_by_its_pause()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail() with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(30), Recovery = 0.5, Pause = Duration.FromSeconds(70) } });
        double[] events = new double[system.EventCount];
        y[PondKg] = 1.5 * 0.03 * Disc * p.Honey.DensityKgPerM3(y[PondK]);
        y[FirstOpenShare] = 0.995; // half of the 1 % from which it is worth while (engineering choice)
        system.EventValues(5, y, events);
        Assert.Equal(-0.5, events[8], 1e-9);
        y[FirstOpenShare] = 0.6;
        system.EventValues(5, y, events);
        Assert.Equal(0.5, events[8], 1e-9); // one and a half times the depth
        system.OnEvent(8, 5, y);
        Assert.Equal(0.8, y[FirstOpenShare], 1e-12);
        Assert.True(system.Mode.InScrapePause);
        Assert.Equal(75, system.NextStop(5));
        system.EventValues(6, y, events);
        Assert.Equal(-1, events[8]);
        system.OnStop(75, y);
        Assert.Equal(0.9, y[FirstOpenShare], 1e-12);
        Assert.Equal(145, system.NextStop(75));
        y[PondKg] = 0.01;
        system.OnStop(145, y);
        Assert.Equal(0.9, y[FirstOpenShare], 1e-12);
        Assert.False(system.Mode.InScrapePause);
        Assert.Equal(double.PositiveInfinity, system.NextStop(145));
    }

    /// <summary>It is watched for the first honey through the cloth, then for its rest, then for 0.1 mm of head (engineering choice).</summary>
    [Fact]
    public void The_cloth_runs_rests_and_runs_again()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail());
        y[PondKg] = 0.4;
        StrainingHydraulics.Evaluate(p, system.Mode, 1, y, out StrainingFlows f);
        double head = f.DrivingHeadM;
        Assert.Equal((0.4 / f.PondDensity / Disc) - p.MinimumHeadM, head, 1e-12);
        double[] events = new double[system.EventCount];
        double Watched()
        {
            system.EventValues(1, y, events);
            return events[9];
        }

        Assert.Equal(head, Watched());
        system.OnEvent(9, 1, y);
        Assert.Equal((true, false), (system.Mode.ClothHasRun, system.Mode.ClothRests));
        Assert.Equal(-head, Watched());
        system.OnEvent(9, 2, y);
        Assert.True(system.Mode.ClothRests);
        Assert.Equal(head - 0.0001, Watched());
        system.OnEvent(9, 3, y);
        Assert.False(system.Mode.ClothRests);
        Assert.Equal(-head, Watched());
    }

    [Fact]
    public void What_has_happened_is_not_watched_for_again()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail() with { Control = GateControl.RideAt(Length.FromMillimeters(20), Percent(90)), Receiver = Pail().Receiver with { ShutWhenFull = false } });
        double[] events = new double[system.EventCount], rates = new double[y.Length];
        y[PondKg] = 0.0201 * Disc * p.Honey.DensityKgPerM3(y[PondK]);
        y[StrainedKg] = 1;
        system.EventValues(1, y, events);
        Assert.Equal(0.0001, events[2], 1e-9);
        Assert.Equal(-1, events[3]);
        Assert.Equal(-1, events[6]);
        Assert.True(events[1] < 0 && events[1] != -1);
        system.OnEvent(2, 1, y);
        Assert.Equal(PondMode.Ridden, system.Mode.Pond);
        system.EventValues(2, y, events);
        Assert.Equal((-1.0, -1.0, -1.0), (events[0], events[1], events[2]));
        Assert.True(events[3] < 0 && events[3] != -1);

        // The gate brings just what the cloth passes, and the swelling.
        system.Derivative(2, y, rates);
        double swelling = 0.0201 * Disc * p.Honey.DensitySlopeKgPerM3K(y[PondK]) * rates[PondK];
        Assert.Equal(swelling, rates[PondKg], 1e-12);

        system.OnEvent(5, 3, y);
        system.EventValues(3, y, events);
        Assert.Equal(-1, events[5]);
        Assert.NotEqual(-1, events[6]);
        Assert.NotEqual(-1, events[4]);
        system.OnEvent(4, 4, y);
        system.EventValues(4, y, events);
        Assert.Equal(-1, events[4]);
        Assert.Equal(-1, events[11]);
    }

    /// <summary>1000, as docs/guides/model.md says (engineering choice).</summary>
    [Fact]
    public void After_a_thousand_scrapes_nobody_looks_at_the_depth_any_more()
    {
        (StrainingSystem system, StrainingParameters p, double[] y) = Begin(Pail() with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(30), Recovery = 0 } });
        double[] events = new double[system.EventCount];
        double deep = 0.05 * Disc * p.Honey.DensityKgPerM3(y[PondK]);
        for (int i = 1; i <= 1000; i++)
        {
            (y[PondKg], y[FirstOpenShare]) = (deep, 0.5);
            system.OnEvent(8, i, y);
            y[PondKg] = 0.01;
            system.OnStop(i + 60, y);
            Assert.False(system.Mode.InScrapePause);
            y[PondKg] = deep;
            system.EventValues(i, y, events);
            Assert.True(i < 1000 ? events[8] > 0 : events[8] == -1, $"{i}: {events[8]}");
        }
    }

    [Fact]
    public void A_run_can_be_cancelled() =>
        Assert.ThrowsAny<OperationCanceledException>(() => StrainingRun.Simulate(Pail(), cancellation: new CancellationToken(canceled: true)));

    [Fact]
    public void A_filled_rim_and_an_own_viscosity_are_taken()
    {
        var measured = new MeasuredViscosity((Celsius(36), DynamicViscosity.FromPascalSeconds(7)));
        StrainingSetup setup = Pail() with { Honey = new Honey { Moisture = Percent(18), Viscosity = measured } };
        var p = new StrainingParameters(setup);
        Assert.Same(measured, p.Viscosity);
        Assert.Same(p.Honey, p.Honey);
        Assert.Same(setup.Strainer.Shape, p.Form);
        StrainingNumbers numbers = StrainingNumbers.Of(setup);
        numbers.RimHeightM = 0.08;
        p.Fill(numbers);
        Assert.Equal(0.08, p.Form.RimHeightM);
        Assert.Equal(0.08 * Disc, p.RimVolumeM3, 1e-12);
    }

    /// <summary>A table of the user's own that has no answer just where the tank begins: no check at fixed levels meets it.</summary>
    [Fact]
    public void A_tank_must_answer_at_the_levels_between_which_it_drains()
    {
        StrainingSetup setup = Pail();
        ArgumentException refused = Assert.ThrowsAny<ArgumentException>(() => StrainingSetupCheck.Require(setup with { Tank = setup.Tank with { Shape = new Gap(), Level = Length.FromMillimeters(110.0137) } }));
        Assert.Equal("Shape", refused.ParamName);
        Assert.Contains("volume", refused.Message, StringComparison.Ordinal);
    }

    private sealed class Gap : VesselShape
    {
        private static readonly UprightCylinder s_pail = new(Length.FromMillimeters(160), Length.FromMillimeters(150));

        protected internal override double HeightM => s_pail.HeightM;

        protected internal override double CapacityM3 => s_pail.CapacityM3;

        protected internal override double VolumeM3(double levelM) => Math.Abs(levelM - 0.1100137) < 1e-7 ? double.NaN : s_pail.VolumeM3(levelM);

        protected internal override double LevelM(double volumeM3) => s_pail.LevelM(volumeM3);

        protected internal override double SurfaceAreaM2(double levelM) => s_pail.SurfaceAreaM2(levelM);

        protected internal override double WettedAreaM2(double levelM) => s_pail.WettedAreaM2(levelM);
    }
}
