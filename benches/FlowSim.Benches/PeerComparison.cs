using System.Diagnostics;
using System.Text.Json;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>
/// The plain run beside the same equations on other libraries, in one go: processor time at the same achieved error of the
/// 95 % drain time. The peers must have been built: <c>make -C benches/peers</c>.
/// </summary>
internal static class PeerComparison
{
    private const int Blocks = 201;

    /// <summary>Achieved errors at which times are compared; each is interpolated between the tolerances that were run.</summary>
    private static readonly double[] Errors = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8];

    private sealed record Point(string Name, double Microseconds, double Error);

    public static void Run(string repository)
    {
        string peers = Path.Combine(repository, "benches", "peers");
        List<Point> points = Ours();
        points.AddRange(Peer(Path.Combine(peers, "bin", "cvode_straining"), ""));
        points.AddRange(Peer("/usr/bin/python3", Path.Combine(peers, "scipy_straining.py") + " 7"));

        Console.WriteLine("Processor time of one run, µs, at the same achieved error of the 95 % drain time; in brackets the ratio to ours.");
        Console.Write($"{"",-28}");
        foreach (double error in Errors)
            Console.Write(Invariant($"{error,18:0e+0}"));
        Console.WriteLine();

        Dictionary<string, List<Point>> byName = points
            .GroupBy(p => p.Name, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        List<Point> ours = byName["FlowSim"];
        foreach ((string name, List<Point> list) in byName)
        {
            Console.Write($"{name,-28}");
            foreach (double error in Errors)
            {
                double? theirs = TimeAt(list, error);
                double? own = TimeAt(ours, error);
                Console.Write(theirs is null || own is null
                    ? $"{"–",18}"
                    : Invariant($"{theirs,9:0} ({theirs / own,6:0.00})"));
            }

            Console.WriteLine();
        }
    }

    private static List<Point> Ours()
    {
        double reference = StrainingRun.Simulate(PlainPail.Setup, PlainPail.AtTolerance(1e-12)).Drain.To95!.Value.Seconds;
        var points = new List<Point>();
        foreach (double tolerance in new[] { 1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10 })
        {
            StrainingOptions options = PlainPail.AtTolerance(tolerance);
            for (int i = 0; i < 3000; i++)
                StrainingRun.Simulate(PlainPail.Setup, options);

            // Short blocks and their median: a neighbour on the machine spoils some of them, not the middle one.
            double[] blocks = new double[Blocks];
            for (int b = 0; b < Blocks; b++)
            {
                TimeSpan before = Process.GetCurrentProcess().TotalProcessorTime;
                for (int i = 0; i < 40; i++)
                    StrainingRun.Simulate(PlainPail.Setup, options);
                blocks[b] = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalMicroseconds / 40;
            }

            Array.Sort(blocks);
            StrainingResult result = StrainingRun.Simulate(PlainPail.Setup, options);
            double error = Math.Abs((result.Drain.To95!.Value.Seconds / reference) - 1);
            points.Add(new Point("FlowSim", blocks[Blocks / 2], error));
            Console.Error.WriteLine(Invariant($"FlowSim rtol {tolerance:0e+0}: {blocks[Blocks / 2]:0} µs, {result.Solver.Steps} steps, error {error:0.0e+0}"));
        }

        return points;
    }

    private static IEnumerable<Point> Peer(string program, string arguments)
    {
        if (!File.Exists(program))
        {
            Console.Error.WriteLine($"{program} is not there: left out.");
            yield break;
        }

        using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, UseShellExecute = false })!;
        while (process.StandardOutput.ReadLine() is { } line)
        {
            using JsonDocument document = JsonDocument.Parse(line);
            JsonElement e = document.RootElement;
            if (!e.TryGetProperty("relErrDrain95", out JsonElement error))
                continue;
            string restart = e.TryGetProperty("restartAtClothStart", out JsonElement r) && r.GetBoolean() ? " restarted" : "";
            yield return new Point(e.GetProperty("peer").GetString() + restart, e.GetProperty("cpuUsPerRun").GetDouble(), error.GetDouble());
        }

        process.WaitForExit();
    }

    /// <summary>Time at an achieved error: the least that reaches it, on the line between neighbours in log–log.</summary>
    private static double? TimeAt(List<Point> points, double error)
    {
        Point[] sorted = [.. points.OrderBy(p => p.Microseconds)];
        for (int i = 0; i < sorted.Length; i++)
        {
            if (sorted[i].Error > error)
                continue;
            if (i == 0 || sorted[i - 1].Error <= 0 || sorted[i].Error <= 0)
                return sorted[i].Microseconds;
            double share = Math.Log(sorted[i - 1].Error / error) / Math.Log(sorted[i - 1].Error / sorted[i].Error);
            return sorted[i - 1].Microseconds * Math.Pow(sorted[i].Microseconds / sorted[i - 1].Microseconds, Math.Clamp(share, 0, 1));
        }

        return null;
    }
}
