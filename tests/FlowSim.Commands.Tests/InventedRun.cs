using System.Globalization;
using System.Text;
using FlowSim.Commands.Input;
using FlowSim.Straining;

namespace FlowSim.Commands.Tests;

/// <summary>Tables of runs that nobody made: the example's pail, run in the model, read with a rule and a scale that are not exact.</summary>
internal static class InventedRun
{
    /// <summary>The run behind a table.</summary>
    /// <param name="settings">What is true of it, as <c>--set</c> takes it.</param>
    public static StrainingResult Truth(params string[] settings)
    {
        StrainInput input = Loader.ReadRun(Loader.Load(Disk.Files, null, settings));
        return StrainingRun.Simulate(input.Setup, input.Options with { SeriesPoints = 2001 });
    }

    /// <summary>A table of level and receiver mass: a rule read to ± 1 mm, a scale to ± 30 g, a watch started 2 s late.</summary>
    /// <param name="truth">Run.</param>
    /// <param name="rows">Rows.</param>
    /// <param name="lastS">Time of the last row, s.</param>
    /// <param name="seed">Number that the errors come from.</param>
    /// <param name="us">Whether it is written in inches and pounds, with semicolons.</param>
    public static string Csv(StrainingResult truth, int rows, double lastS, int seed, bool us = false)
    {
        const double WatchS = 2;
        Random random = new(seed);
        char delimiter = us ? ';' : ',';
        StringBuilder text = new(us ? "time_s;tank_level_in;receiver_weight_lb\r\n" : "time [s],tank level [mm],receiver mass [kg]\n");
        for (int i = 0; i < rows; i++)
        {
            double time = lastS * i / (rows - 1);
            double level = Math.Round((1000 * At(truth.Series.TankLevelM, time + WatchS)) + (1.0 * Normal(random)), 1);
            double mass = Math.Round(Math.Max(0, At(truth.Series.StrainedKg, time + WatchS) + (0.03 * Normal(random))), 3);
            text.Append(CultureInfo.InvariantCulture, $"{time:0.##}{delimiter}{(us ? level / 25.4 : level):R}{delimiter}{(us ? mass / 0.45359237 : mass):R}{(us ? "\r\n" : "\n")}");
        }

        return text.ToString();

        double At(IReadOnlyList<double> values, double time)
        {
            IReadOnlyList<double> times = truth.Series.TimeS;
            int after = 1;
            while (after < times.Count - 1 && times[after] < time)
                after++;
            double span = times[after] - times[after - 1];
            double share = span > 0 ? Math.Clamp((time - times[after - 1]) / span, 0, 1) : 1;
            return values[after - 1] + (share * (values[after] - values[after - 1]));
        }
    }

    private static double Normal(Random random) => MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (random.NextDouble() * 0.999998) + 1e-6);
}
