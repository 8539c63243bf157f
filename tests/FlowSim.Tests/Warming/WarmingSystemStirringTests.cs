using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>Honey that stirs, and crystals that keep it from it: what the faces see on the mean, and what the net carries by the enhanced conductivity.</summary>
public class WarmingSystemStirringTests
{
    private const double Latent = 5000;

    public static TheoryData<string> Names => ["band", "bath", "jacket on the floor", "air", "element", "tall"];

    [Theory]
    [MemberData(nameof(Names))]
    public void Liquid_honey_conducts_as_many_times_better_as_it_stirs(string name)
    {
        WarmingParameters p = HeatNets.Of(name) with { Inside = InsideHeat.BestEstimate, Honey = new PlainStuff { ConductsPerK = 0.004, ViscosityPaSNow = 0.3 } };
        (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
        AssertAsTheNet(p, system, y, cellK, [.. cellK.Select(_ => 1.0)]);
        Assert.True(system.Enhancement > 1.3, $"{system.Enhancement}: nothing to tell by");
    }

    /// <summary>Of 4 % of crystals a part has melted where it has been warmer; 5 % would keep it from stirring altogether.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Granulated_honey_stirs_by_what_has_melted(string name)
    {
        const double Share = 0.04, FromC = 30, ToC = 50;
        var honey = new PlainStuff { ConductsPerK = 0.004, ViscosityPaSNow = 0.3, Enthalpy = new HoneyEnthalpy(2500, 0, Latent, FromC, ToC), CrystalShare = Share };
        WarmingParameters p = HeatNets.Of(name) with { Inside = InsideHeat.BestEstimate, Honey = honey };
        (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
        var random = new Random(9);
        double[] hottestK = [.. cellK.Select(_ => RandomWarmings.Between(random, 290, 335))], melted = [.. hottestK.Select(k => Math.Clamp((k - 273.15 - FromC) / (ToC - FromC), 0, 1))];
        double[] rates = new double[system.Dimension];

        // On its way up: with the heat that melting takes, between the temperatures at which it does.
        for (int c = 0; c < cellK.Length; c++)
            y[c] = system.MassKg[c] * ((2500 * (hottestK[c] - 273.15)) + (Latent * melted[c]));
        AssertAsTheNet(p, system, y, hottestK, [.. melted.Select(m => 1 - (Share * (1 - m) / 0.05))]);
        system.KeepMatrix();
        for (int c = 0; c < cellK.Length; c++)
        {
            Assert.Equal(melted[c], system.Melted[c], 1e-9);
            double capacity = 2500 + (hottestK[c] - 273.15 is > FromC and < ToC ? Latent / (ToC - FromC) : 0);
            Assert.Equal(system.MassKg[c] * capacity, system.KeptCapacityJPerK[c], 1e-6);
        }

        // Colder again: what has melted stays so, and the heat capacity is the sensible one.
        system.KeepHighest(y);
        for (int c = 0; c < cellK.Length; c++)
        {
            cellK[c] = hottestK[c] - 1 - c;
            y[c] = system.MassKg[c] * ((2500 * (cellK[c] - 273.15)) + (Latent * melted[c]));
        }

        AssertAsTheNet(p, system, y, cellK, [.. melted.Select(m => 1 - (Share * (1 - m) / 0.05))]);
        system.KeepHighest(y);
        system.Derivative(0, y, rates);
        system.KeepMatrix();
        for (int c = 0; c < cellK.Length; c++)
        {
            Assert.Equal(melted[c], system.Melted[c], 1e-9);
            Assert.Equal(system.MassKg[c] * 2500, system.KeptCapacityJPerK[c], 1e-6);
        }
    }

    [Fact]
    public void Honey_with_more_than_5_percent_of_crystals_does_not_stir_at_all()
    {
        var honey = new PlainStuff { ViscosityPaSNow = 0.3, Enthalpy = new HoneyEnthalpy(2500, 0, Latent, 60, 70), CrystalShare = 0.051 };
        WarmingParameters p = HeatNets.Of("bath") with { Inside = InsideHeat.BestEstimate, Honey = honey };
        (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
        AssertAsTheNet(p, system, y, cellK, new double[cellK.Length]);
        Assert.Equal(1, system.Enhancement);
        Assert.Equal(0.05, FaceFilms.StillFromCrystals);
    }

    /// <summary>The means at the faces and of what stirs, by areas and masses; the enhancement that these films have for them; then the net.</summary>
    private static void AssertAsTheNet(WarmingParameters p, WarmingSystem system, double[] y, double[] cellK, double[] stirs)
    {
        system.Mode = HeaterMode.Off;
        double[] rates = new double[system.Dimension];
        system.Derivative(0, y, rates);
        for (int c = 0; c < cellK.Length; c++)
            Assert.Equal(cellK[c], system.TemperatureK[c], 1e-8);

        var plain = new HeatNet(p, cellK);
        int rings = plain.Rings, layers = plain.Layers;
        double[] touched = [.. Enumerable.Range(0, layers).Select(plain.BodyShare)];
        var films = new FaceFilms(p, touched.Sum() / layers);
        int[] side = [.. Enumerable.Range(0, layers).Select(k => ((rings - 1) * layers) + k)];
        int[] floor = [.. Enumerable.Range(0, rings).Select(i => i * layers)], top = [.. floor.Select(c => c + layers - 1)];
        double[] areas = [.. Enumerable.Range(0, rings).Select(i => (2.0 * i) + 1)];
        Write(FaceFilms.BodySide, side, touched);
        Write(FaceFilms.RoomSide, side, [.. touched.Select(share => 1 - share)]);
        Write(FaceFilms.Floor, floor, areas);
        Write(FaceFilms.Top, top, areas);
        double[] weights = [.. stirs.Select((s, c) => s * system.MassKg[c])];
        double weight = weights.Sum();
        films.Solve(325, weight > 0 ? weights.Select((w, c) => w * cellK[c]).Sum() / weight : double.NaN);
        Assert.Equal(films.Enhancement, system.Enhancement, 1e-6);

        var net = new HeatNet(p, cellK, [.. stirs.Select(s => 1 + ((system.Enhancement - 1) * s))]);
        double[] flows = net.Flows(cellK, 325);
        for (int c = 0; c < cellK.Length; c++)
            HeatNets.AssertAlike(flows[c], rates[c], 1, $"cell {c}");
        HeatNets.AssertAlike(flows[net.Body], rates[system.Body], 1, "body");
        HeatNets.AssertAlike(flows[net.Room], rates[system.ToRoom], 1, "room");

        void Write(int face, int[] cells, double[] by)
        {
            double sum = by.Sum();
            if (sum < 1e-9)
                return;
            double Mean(Func<int, double> of) => cells.Select((c, j) => by[j] * of(c)).Sum() / sum;
            double Conducts(int c) => p.Honey.ConductivityWPerMK(cellK[c]);
            films.FaceK[face] = Mean(c => cellK[c]);
            films.FaceConductivity[face] = Mean(Conducts);
            films.FaceStirred[face] = Mean(c => Conducts(c) * stirs[c]);
        }
    }
}
