using FlowSim.Heating;
using FlowSim.Properties;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>The numbers that a setup comes to.</summary>
public class WarmingParametersTests
{
    private static readonly WarmingSetup s_setup = ThermostatRunTests.Pail() with
    {
        Vessels = 3,
        StartTemperature = Celsius(17),
        RoomTemperature = Celsius(21),
        Heating = new WarmAir
        {
            Thermostat = new Thermostat
            {
                Schedule = [HeatNets.Step(0, 40), HeatNets.Step(60, 45, true)],
                Hysteresis = TemperatureDelta.FromKelvins(3),
                Lag = Duration.FromSeconds(12),
                CutOut = Celsius(70),
                Sensor = SensorPlace.Honey,
            },
            HeaterPower = Power.FromWatts(150),
            BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(31),
            BodyStart = Celsius(25),
            LossArea = Area.FromSquareMeters(2.5),
            LossCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(1.6),
        },
    };

    private static WarmingParameters Of(WarmingSetup setup, WarmingOptions? options = null) => WarmingParameters.Of(setup, options ?? Small, HeatFactors.None);

    [Fact]
    public void Each_number_is_that_of_the_setup_in_SI()
    {
        WarmingParameters p = WarmingParameters.Of(s_setup, Small with { Inside = InsideHeat.ConductionOnly }, new HeatFactors(1.2, 0.9));
        Assert.Equal((290.15, 294.15, 3, 0.9), (p.StartK, p.RoomK, p.Vessels, p.Emissivity));
        Assert.Equal((150, 31_000, 298.15, 4), (p.HeaterW, p.BodyJPerK, p.BodyStartK, p.BodyLossWPerK));
        Assert.Equal((3, 12, 343.15, SensorPlace.Honey), (p.HysteresisK, p.LagS, p.CutOutK, p.Sensor));
        Assert.Equal((1.2, InsideHeat.ConductionOnly, false), (p.FilmFactor, p.Inside, p.Unlimited));
        Assert.Equal([60.0], p.Setpoint.Breaks);
        Assert.Equal(0.1425, p.Grid.RadiusM, 1e-12);
        Assert.Equal(0.298, p.Grid.HeightM, 1e-12);
        Assert.Equal((4, 6), (p.Grid.RadialCells, p.Grid.AxialCells));

        // 2 mm of polyethylene: k from the list, ln(r₂/r₁) r₁/k around the side and s/k under the floor.
        double k = s_setup.Vessel.Wall[0].Conductivity.WattsPerMeterKelvin;
        Assert.Equal(0.1425 * Math.Log(0.1445 / 0.1425) / k, p.SideWallM2KPerW, 1e-12);
        Assert.Equal(0.1445 / 0.1425, p.SideRadiusRatio, 1e-12);
        Assert.Equal(0.002 / k, p.FloorWallM2KPerW, 1e-12);
        double published = HoneyProperties.Of(s_setup.Honey).HeatCapacityAt(Celsius(30)).JoulesPerKilogramKelvin;
        Assert.Equal(0.9 * published, p.Honey.Enthalpy.SensibleCapacity(303.15), 1e-6);
    }

    [Fact]
    public void What_is_not_given_is_the_rooms_or_without_end()
    {
        WarmingParameters p = Of(s_setup with { Heating = s_setup.Heating with { BodyStart = null, HeaterPower = null, Thermostat = Thermostat.At(Celsius(40)) } });
        Assert.Equal(294.15, p.BodyStartK);
        Assert.True(p.Unlimited);
        Assert.Equal((double.PositiveInfinity, double.PositiveInfinity), (p.HeaterW, p.CutOutK));
    }

    [Fact]
    public void Well_mixed_honey_is_one_cell()
    {
        WarmingParameters p = Of(s_setup, Small with { Inside = InsideHeat.WellMixed });
        Assert.Equal((1, 1, 0), (p.Grid.RadialCells, p.Grid.AxialCells, p.SensorCell));
    }

    /// <summary>Four rings, six layers: cell 6 i + k.</summary>
    [Theory]
    [InlineData(SensorPlace.Honey, 0, 0, 0)]
    [InlineData(SensorPlace.Honey, 0, 100, 5)]
    [InlineData(SensorPlace.Honey, 0, 99, 5)]
    [InlineData(SensorPlace.Honey, 100, 0, 18)]
    [InlineData(SensorPlace.Honey, 24.9, 50.1, 3)]
    [InlineData(SensorPlace.Honey, 25.1, 49.9, 8)]
    [InlineData(SensorPlace.Honey, 60, 20, 13)]
    [InlineData(SensorPlace.Wall, 0, 20, 19)]
    [InlineData(SensorPlace.Wall, 60, 100, 23)]
    public void A_sensor_is_in_the_cell_that_its_shares_point_into(SensorPlace place, double radiusPercent, double heightPercent, int cell)
    {
        Thermostat t = s_setup.Heating.Thermostat with { Sensor = place, SensorRadius = Ratio.FromPercent(radiusPercent), SensorHeight = Ratio.FromPercent(heightPercent) };
        Assert.Equal(cell, Of(s_setup with { Heating = s_setup.Heating with { Thermostat = t } }).SensorCell);
    }

    /// <summary>π r² h is the volume.</summary>
    [Fact]
    public void Another_shape_is_taken_as_the_cylinder_of_its_volume()
    {
        WarmedVessel box = s_setup.Vessel with { Shape = new RectangularTank(Length.FromMillimeters(300), Length.FromMillimeters(200), Length.FromMillimeters(400)), Level = Length.FromMillimeters(250) };
        Assert.Equal(Math.Sqrt(0.06 / Math.PI), VesselCylinder.RadiusM(box), 1e-12);
        Assert.Equal(0.3 * 0.2 * 0.25, Math.PI * Math.Pow(VesselCylinder.RadiusM(box), 2) * 0.25, 1e-12);
    }

    [Fact]
    public void Properties_are_held_at_the_ends_of_what_a_run_can_have()
    {
        HoneyProperties honey = HoneyProperties.Of(s_setup.Honey);
        var heat = new HoneyHeat(honey, null);
        Assert.Equal((233.15, 423.15), (HoneyHeat.ColdestK, HoneyHeat.HottestK));
        foreach (Func<double, double> property in new Func<double, double>[] { heat.ConductivityWPerMK, heat.DensityKgPerM3, heat.ExpansionPerK, heat.ViscosityPaS })
        {
            Assert.Equal(property(233.15), property(200));
            Assert.Equal(property(423.15), property(500));
            Assert.NotEqual(property(233.15), property(240));
            Assert.NotEqual(property(423.15), property(415));
        }

        // Thermal expansion is −(dρ/dT)/ρ.
        double slope = (heat.DensityKgPerM3(310.01) - heat.DensityKgPerM3(309.99)) / 0.02;
        Assert.Equal(-slope / heat.DensityKgPerM3(310), heat.ExpansionPerK(310), 1e-8);
        Assert.Equal(0, heat.CrystalShare);
        Assert.False(heat.Enthalpy.Melts);
        Assert.False(new HoneyHeat(honey, Crystals.Fine(Ratio.Zero)).Enthalpy.Melts);
        var granulated = new HoneyHeat(honey, Crystals.Fine());
        Assert.Equal(0.15, granulated.CrystalShare, 1e-12);
        Assert.Equal((0, 1), (granulated.Enthalpy.MeltedAt(granulated.Enthalpy.OnCurve(298)), granulated.Enthalpy.MeltedAt(granulated.Enthalpy.OnCurve(318.2))));
    }
}
