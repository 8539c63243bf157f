using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>
/// The factored matrix against three full ones, written from the net: (I − γh A_radius), (I − γh A_height) and (I − γh A_body), solved one after the other by
/// Gaussian elimination.
/// </summary>
public class WarmingSystemMatrixTests
{
    public static TheoryData<string> Names => HeatNets.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Solving_with_the_factors_is_solving_with_three_full_matrices(string name)
    {
        WarmingParameters p = HeatNets.Of(name);
        (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
        var net = new HeatNet(p, cellK);
        var random = new Random(7);
        double[] v = new double[system.Dimension];
        foreach (HeaterMode mode in Enum.GetValues<HeaterMode>())
        {
            system.Mode = mode;
            system.Derivative(400, y, v);
            system.KeepMatrix();
            foreach (double gammaStep in new[] { 0.5, 300, 1e6 })
            {
                system.Factor(gammaStep);
                for (int i = 0; i < v.Length; i++)
                    v[i] = RandomWarmings.Between(random, -1, 1);
                double[] expected = [.. v];
                foreach (double[,] part in Parts(p, net, system))
                    Eliminate(part, gammaStep, expected);
                system.Solve(v);
                for (int i = 0; i < v.Length; i++)
                    HeatNets.AssertAlike(expected[i], v[i], 1, $"{mode}, γh = {gammaStep}, unknown {i}");
            }
        }
    }

    /// <summary>What was kept stays as it was, wherever the equations are looked at meanwhile.</summary>
    [Fact]
    public void A_kept_matrix_is_that_of_the_state_it_was_kept_at()
    {
        WarmingParameters p = HeatNets.Of("element");
        (WarmingSystem system, double[] cellK, double[] y) = HeatNets.At(p);
        system.Mode = HeaterMode.On;
        double[] v = new double[system.Dimension], elsewhere = [.. y];
        system.Derivative(0, y, v);
        system.KeepMatrix();
        double[] capacity = [.. system.KeptCapacityJPerK];
        for (int c = 0; c < p.Grid.Count; c++)
        {
            elsewhere[c] *= 1.5;
            Assert.Equal(system.MassKg[c] * PlainStuff.HeatCapacity, capacity[c], 1e-9);
        }

        system.Derivative(0, elsewhere, v);
        system.Factor(100);
        Array.Fill(v, 1);
        double[] expected = [.. v];
        foreach (double[,] part in Parts(p, new HeatNet(p, cellK), system))
            Eliminate(part, 100, expected);
        system.Solve(v);
        for (int i = 0; i < v.Length; i++)
            HeatNets.AssertAlike(expected[i], v[i], 1, $"unknown {i}");
        Assert.Equal(capacity, system.KeptCapacityJPerK.ToArray());

        // Kept again, it is another.
        system.Derivative(0, elsewhere, v);
        system.KeepMatrix();
        system.Factor(100);
        Array.Fill(v, 1);
        system.Solve(v);
        Assert.NotEqual(expected[0], v[0], 1e-6);
    }

    /// <summary>Columns: of the cells what a joule more in them moves, a kelvin by their heat capacity; of body and probe likewise.</summary>
    private static IEnumerable<double[,]> Parts(WarmingParameters p, HeatNet net, WarmingSystem system)
    {
        int n = system.Dimension;
        foreach (HeatNet.Part part in Enum.GetValues<HeatNet.Part>())
        {
            double[,] a = new double[n, n];
            for (int c = 0; c < net.Body; c++)
                Write(a, c, net.PerKelvin(c, part), system.MassKg[c] * PlainStuff.HeatCapacity);
            yield return a;
        }

        double[,] body = new double[n, n];
        body[system.Probe, system.Probe] = -1 / p.LagS;
        if (!system.BodyIsSet)
            Write(body, net.Body, net.PerKelvinOfBody(), p.BodyJPerK);
        yield return body;

        void Write(double[,] a, int column, double[] into, double capacity)
        {
            for (int c = 0; c < net.Body; c++)
                a[c, column] = into[c] / capacity;

            // A body that is held takes nothing: the heater gives that much less.
            if (system.BodyIsSet)
                a[system.FromHeater, column] = -into[net.Body] / capacity;
            else
                a[system.Body, column] = into[net.Body] / capacity;
            a[system.ToRoom, column] = into[net.Room] / capacity;
        }
    }

    /// <summary>Solves (I − γh A) x = b in place, with the largest pivot of each column.</summary>
    private static void Eliminate(double[,] a, double gammaStep, double[] b)
    {
        int n = b.Length;
        double[,] m = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
                m[i, j] = (i == j ? 1 : 0) - (gammaStep * a[i, j]);
        }

        for (int column = 0; column < n; column++)
        {
            int pivot = Enumerable.Range(column, n - column).MaxBy(row => Math.Abs(m[row, column]));
            (b[column], b[pivot]) = (b[pivot], b[column]);
            for (int j = 0; j < n; j++)
                (m[column, j], m[pivot, j]) = (m[pivot, j], m[column, j]);
            for (int row = 0; row < n; row++)
            {
                double factor = row == column ? 0 : m[row, column] / m[column, column];
                for (int j = column; factor != 0 && j < n; j++)
                    m[row, j] -= factor * m[column, j];
                b[row] -= factor * b[column];
            }
        }

        for (int i = 0; i < n; i++)
            b[i] /= m[i, i];
    }
}
