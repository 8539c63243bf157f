using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Gates;

/// <summary>The kernels run in the stepping loop: they allocate nothing.</summary>
public class AllocationTests
{
    [Fact]
    public void Kernels_allocate_nothing()
    {
        Gate gate = new() { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) };
        VesselShape[] vessels =
        [
            new UprightCylinder(Length.FromMeters(0.3), Length.FromMeters(0.4)),
            new ConeBottomedTank(Length.FromMeters(0.3), Length.FromMeters(0.4), Length.FromMeters(0.1)),
            new HorizontalCylinder(Length.FromMeters(0.3), Length.FromMeters(0.4)),
            new LevelVolumeTable([(Length.Zero, Volume.Zero), (Length.FromMeters(0.3), Volume.FromLiters(20))]),
        ];
        ScreenShape[] screens =
        [
            new FlatDisc(Length.FromMeters(0.2), Length.FromMeters(0.1)),
            new ConeScreen(Length.FromMeters(0.2), Length.FromMeters(0.1)),
            new BasketScreen(Length.FromMeters(0.2), Length.FromMeters(0.1)),
            new BagScreen(Length.FromMeters(0.2), Length.FromMeters(0.2)),
        ];

        double Run()
        {
            GateGeometry geometry = GateFlow.GeometryOf(gate, 0.4);
            double sum = GateFlow.VolumeFlowM3PerS(4000, 3 * geometry.ViscousPerM3, 1400 * geometry.InertialPerM4);
            foreach (VesselShape vessel in vessels)
                sum += vessel.LevelM(vessel.VolumeM3(0.15)) + vessel.SurfaceAreaM2(0.15) + vessel.WettedAreaM2(0.15);
            foreach (ScreenShape screen in screens)
                sum += screen.PondDepthM(screen.PondVolumeM3(0.05)) + screen.SurfaceAreaM2(0.05) + screen.WettedClothAreaM2(0.05) + screen.HeadIntegralM3(0.05);
            return sum + WallFilm.VolumeM3(2e-3, 0.2, 9.80665, 60, 0.3) + Clogging.OpenShareRate(BlockingLaw.Standard, 0.5, 1, 1e-3);
        }

        double first = Run();
        double second = 0;
        Assert.Equal(0, Allocated.By(() => second = Run()));
        Assert.Equal(first, second);
    }
}
