using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>What the equations give at a state, against the same vessel as a net of resistances.</summary>
public class WarmingSystemNetTests
{
    public static TheoryData<string> Names => HeatNets.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Heat_goes_where_the_net_carries_it_in_every_mode(string name)
    {
        WarmingParameters p = HeatNets.Of(name);
        (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
        var net = new HeatNet(p, cellK);
        double[] rates = new double[system.Dimension];
        foreach (HeaterMode mode in Enum.GetValues<HeaterMode>())
        {
            // In the first segment, 400 s into it: the setpoint is at 44 °C and climbs by 0.01 K/s.
            system.Mode = mode;
            bool set = mode is HeaterMode.Follows or HeaterMode.Holds;
            double bodyK = set ? 317.15 : 325;
            Assert.Equal(bodyK, system.BodyK(400, y), 1e-9);
            system.Derivative(400, y, rates);
            double[] flows = net.Flows(cellK, bodyK);
            for (int c = 0; c < cellK.Length; c++)
                HeatNets.AssertAlike(flows[c], rates[c], 1, $"{mode}, cell {c}");
            double climbs = mode == HeaterMode.Holds ? 0.01 * 9000 : 0;
            double heater = mode == HeaterMode.On ? 700 : set ? climbs - flows[net.Body] : 0;
            HeatNets.AssertAlike(heater, system.HeaterW, 1, $"{mode}, heater");
            HeatNets.AssertAlike(heater, rates[system.FromHeater], 1, $"{mode}, from the heater");
            HeatNets.AssertAlike(heater + flows[net.Body], rates[system.Body], 10, $"{mode}, body");
            HeatNets.AssertAlike(flows[net.Room], rates[system.ToRoom], 1, $"{mode}, room");
            Assert.Equal((bodyK - 310) / 30, rates[system.Probe], 1e-9);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_sensor_feels_its_place(string name)
    {
        WarmingParameters p = HeatNets.Of(name);
        (_, double[] cellK, _) = HeatNets.At(p);
        var net = new HeatNet(p, cellK);
        int rings = p.Grid.RadialCells, layers = p.Grid.AxialCells;
        foreach ((int ring, int layer) in new[] { (0, 0), (rings - 1, layers / 2), (rings / 2, layers - 1) })
        {
            int cell = (ring * layers) + layer, atWall = ((rings - 1) * layers) + layer;
            double towardsBody = net.WallK(atWall, net.Body, HeatNet.Part.Radius, cellK, 325) ?? cellK[atWall];
            double towardsRoom = net.WallK(atWall, net.Room, HeatNet.Part.Radius, cellK, 325) ?? cellK[atWall];
            double share = net.BodyShare(layer);
            Feels(SensorPlace.Honey, cell, cellK[cell]);
            Feels(SensorPlace.Wall, atWall, (share * towardsBody) + ((1 - share) * towardsRoom));
            Feels(SensorPlace.Body, cell, 325);
        }

        void Feels(SensorPlace place, int cell, double expectedK)
        {
            WarmingParameters sensing = p with { Sensor = place, SensorCell = cell };
            (WarmingSystem system, _, double[] y) = HeatNets.At(sensing);
            double[] rates = new double[system.Dimension];
            system.Mode = HeaterMode.Off;
            system.Derivative(0, y, rates);
            Assert.Equal(expectedK, system.SensorK(325), 1e-8);
            Assert.Equal((expectedK - 310) / 30, rates[system.Probe], 1e-8);

            // Without lag there is no probe of its own to move.
            (WarmingSystem prompt, _, _) = HeatNets.At(sensing with { LagS = 0 });
            prompt.Derivative(0, y, rates);
            Assert.Equal(0, rates[prompt.Probe]);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_hottest_wall_is_the_hottest_end_of_a_link_to_the_outside(string name)
    {
        WarmingParameters kept = HeatNets.Of(name);
        foreach (double roomK in new[] { 270.0, 400 })
        {
            WarmingParameters p = kept with { RoomK = roomK };
            (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
            system.Mode = HeaterMode.Off;
            foreach (double bodyK in new[] { 260.0, 330, 380 })
            {
                y[system.Body] = p.BodyJPerK * bodyK;
                system.Derivative(0, y, new double[system.Dimension]);
                Assert.Equal(Hottest(p, cellK, bodyK), system.HottestWallK(bodyK), 1e-8);
            }
        }
    }

    /// <summary>A face that lets nothing through is as warm as the honey at it; where the body touches nothing there is no face of its.</summary>
    private static double Hottest(WarmingParameters p, double[] cellK, double bodyK)
    {
        var net = new HeatNet(p, cellK);
        int rings = p.Grid.RadialCells, layers = p.Grid.AxialCells;
        double hottest = p.Contacts.ElementRadiusM > 0 ? bodyK : 0;
        for (int k = 0; k < layers; k++)
        {
            int c = ((rings - 1) * layers) + k;
            hottest = Math.Max(hottest, net.WallK(c, net.Body, HeatNet.Part.Radius, cellK, bodyK) ?? (net.BodyShare(k) > 0 ? cellK[c] : 0));
            hottest = Math.Max(hottest, net.WallK(c, net.Room, HeatNet.Part.Radius, cellK, bodyK) ?? (net.BodyShare(k) < 1 - 1e-9 ? cellK[c] : 0));
        }

        for (int i = 0; i < rings; i++)
        {
            int floor = i * layers, top = floor + layers - 1;
            hottest = Math.Max(hottest, End(floor, p.Contacts.FloorFacesBody, p.Contacts.Floor));
            hottest = Math.Max(hottest, End(top, p.Contacts.TopFacesBody, p.Contacts.Top));
        }

        return hottest;

        // Floor and top of a vessel of one layer are the same cell: told apart by their film.
        double End(int c, bool facesBody, Film film)
        {
            if (film.Kind == FilmKind.None || p.Inside == InsideHeat.WellMixed)
                return cellK[c];
            return net.WallK(c, facesBody ? net.Body : net.Room, HeatNet.Part.Height, cellK, bodyK)!.Value;
        }
    }

    [Fact]
    public void It_starts_with_the_same_temperature_throughout_and_with_nothing_given()
    {
        WarmingParameters p = HeatNets.Of("band") with { StartK = 291, BodyStartK = 299 };
        var system = new WarmingSystem(p);
        double[] y = new double[system.Dimension];
        Array.Fill(y, 17);
        system.Start(y);
        double volume = Math.PI * 0.12 * 0.12 * 0.3, cellsTogether = 0;
        Assert.Equal(19, system.Dimension);
        Assert.Equal((15, 16, 17, 18), (system.Body, system.Probe, system.FromHeater, system.ToRoom));
        Assert.Equal(PlainStuff.Density * volume, system.HoneyKg, 1e-9);
        for (int c = 0; c < 15; c++)
        {
            // Rings of 40 mm: areas as 1, 3 and 5.
            double kg = PlainStuff.Density * volume * ((2 * (c / 5)) + 1) / 9 / 5;
            Assert.Equal(kg, system.MassKg[c], 1e-12);
            Assert.Equal(kg * PlainStuff.HeatCapacity * (291 - 273.15), y[c], 1e-6);
            cellsTogether += system.MassKg[c];
        }

        Assert.Equal(system.HoneyKg, cellsTogether, 1e-12);
        Assert.Equal(9000.0 * 299, y[system.Body], 1e-6);
        Assert.Equal((0, 0), (y[system.FromHeater], y[system.ToRoom]));

        // A heater without a limit has its body at the setpoint from the start, wherever it stood.
        var unlimited = new WarmingSystem(p with { HeaterW = double.PositiveInfinity });
        unlimited.Start(y);
        Assert.Equal(9000 * 313.15, y[unlimited.Body], 1e-6);
    }

    [Fact]
    public void The_segment_says_which_setpoint_counts_where_two_meet()
    {
        (WarmingSystem system, _, double[] y) = HeatNets.At(HeatNets.Of("band") with { Setpoint = new SetpointCurve([HeatNets.Step(0, 40), HeatNets.Step(100, 60), HeatNets.Step(200, 50, true)]) });
        Assert.Equal(313.15, system.SetpointK(100), 1e-9);
        system.Segment = 1;
        Assert.Equal(333.15, system.SetpointK(100), 1e-9);
        Assert.Equal(328.15, system.SetpointK(150), 1e-9);
        system.Mode = HeaterMode.Holds;
        Assert.True(system.BodyIsSet);
        Assert.Equal(328.15, system.BodyK(150, y), 1e-9);

        // It cools by 0.1 K/s: the body gives 900 W.
        double[] rates = new double[system.Dimension];
        system.Derivative(150, y, rates);
        Assert.Equal(-900, rates[system.Body], 1e-9);
    }
}
