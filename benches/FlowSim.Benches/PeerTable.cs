using System.Diagnostics;
using System.Text.Json;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>What one solver took at one tolerance.</summary>
/// <param name="Name">Solver.</param>
/// <param name="Microseconds">Processor time of a run, µs.</param>
/// <param name="Error">Achieved error, relative.</param>
internal sealed record PeerPoint(string Name, double Microseconds, double Error)
{
    /// <summary>Name of the library's own points.</summary>
    public const string Ours = "FlowSim";
}

/// <summary>Measures, collects and compares <see cref="PeerPoint"/>s.</summary>
internal static class PeerTable
{
    private const int Blocks = 201;

    /// <summary>Processor time of a call, µs: short blocks and their median, as a neighbour on the machine spoils some of them, not the middle one.</summary>
    /// <param name="call">Call.</param>
    /// <param name="calls">Calls in a block.</param>
    /// <param name="blocks">Blocks, odd.</param>
    public static double Microseconds(Action call, int calls, int blocks = Blocks)
    {
        double[] times = new double[blocks];
        for (int b = 0; b < blocks; b++)
        {
            TimeSpan before = Process.GetCurrentProcess().TotalProcessorTime;
            for (int i = 0; i < calls; i++)
                call();
            times[b] = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalMicroseconds / calls;
        }

        Array.Sort(times);
        return times[blocks / 2];
    }

    /// <summary>Points that a peer prints, one JSON line each.</summary>
    /// <param name="program">Program.</param>
    /// <param name="arguments">Its arguments.</param>
    /// <param name="errorKey">Key of the achieved error.</param>
    public static IEnumerable<PeerPoint> Of(string program, string arguments, string errorKey)
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
            if (!e.TryGetProperty(errorKey, out JsonElement error))
                continue;
            string restart = e.TryGetProperty("restartAtClothStart", out JsonElement r) && r.GetBoolean() ? " restarted" : "";
            var point = new PeerPoint(e.GetProperty("peer").GetString() + restart, e.GetProperty("cpuUsPerRun").GetDouble(), error.GetDouble());
            Console.Error.WriteLine(Invariant($"{point.Name}: {point.Microseconds:0} µs, error {point.Error:0.0e+0}"));
            yield return point;
        }

        process.WaitForExit();
    }

    /// <summary>Prints times at equal errors, with the ratio to ours.</summary>
    /// <param name="points">Points.</param>
    /// <param name="errors">Achieved errors at which times are compared; each is interpolated between the tolerances that were run.</param>
    public static void Print(IEnumerable<PeerPoint> points, double[] errors)
    {
        Console.Write($"{"",-28}");
        foreach (double error in errors)
            Console.Write(Invariant($"{error,18:0e+0}"));
        Console.WriteLine();

        Dictionary<string, List<PeerPoint>> byName = points
            .GroupBy(p => p.Name, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        List<PeerPoint> ours = byName[PeerPoint.Ours];
        foreach ((string name, List<PeerPoint> list) in byName)
        {
            Console.Write($"{name,-28}");
            foreach (double error in errors)
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

    /// <summary>Time at an achieved error: the least that reaches it, on the line between neighbours in log–log.</summary>
    private static double? TimeAt(List<PeerPoint> points, double error)
    {
        PeerPoint[] sorted = [.. points.OrderBy(p => p.Microseconds)];
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
