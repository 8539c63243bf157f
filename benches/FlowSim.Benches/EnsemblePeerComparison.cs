using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.Json;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>
/// The same batches on other libraries: processor time on one core at the same achieved error, ours and theirs by turns. The peers must have
/// been built: <c>make -C benches/peers</c>.
/// </summary>
internal static class EnsemblePeerComparison
{
    private const int CompiledRuns = 2000;
    private const int ScriptedRuns = 100;
    private static readonly double[] s_tolerances = [1e-3, 1e-4, 1e-5, 1e-6, 1e-7];
    private static readonly double[] s_errors = [1e-4, 1e-5, 1e-6, 1e-7];
    private static readonly string[] s_compiled = ["bdf", "adams", "adams-fp", "adams-fp-restart", "erk", "erk-restart"];
    private static readonly string[] s_scripted = ["LSODA", "BDF"];

    public static void Run(string repository, int rounds)
    {
        string peers = Path.Combine(repository, "benches", "peers"), bin = Path.Combine(peers, "bin");
        string draws = Path.Combine(bin, "draws.bin"), compiled = Path.Combine(bin, "cvode_ensemble"), scripted = Path.Combine(peers, "scipy_ensemble.py");
        if (!File.Exists(compiled))
        {
            Console.Error.WriteLine($"{compiled} is not there: make -C benches/peers");
            return;
        }

        double[] values = EnsembleDraws.Take(CompiledRuns);
        EnsembleDraws.Write(draws, values);
        EnsembleFigures[] reference = [.. EnsembleTiming.Reference(values, CompiledRuns).Select(EnsembleFigures.Of)];
        Console.WriteLine(Invariant($"{CompiledRuns} runs ({ScriptedRuns} on SciPy), {reference.Count(f => double.IsFinite(f.FirstOverflowS))} run over. Errors against ours one by one at 1e-10."));
        Agree("CVODE BDF at 1e-11", Peer(compiled, $"{draws} {CompiledRuns} bdf-restart 1e-11", bin).Figures, reference);
        Agree("SciPy LSODA at 1e-10", Peer("/usr/bin/python3", $"{scripted} {draws} {ScriptedRuns} LSODA 1e-10", bin).Figures, reference);

        var points = new List<Timed>();
        StrainingEnsemble[] ensembles = [.. s_tolerances.Select(t => EnsembleTiming.Of(LaneWidth.Widest, t))];
        var samples = new StrainingSample[CompiledRuns];
        foreach (StrainingEnsemble ensemble in ensembles)
            EnsembleTiming.WarmUp(ensemble, values, samples);
        for (int round = 0; round < rounds; round++)
        {
            for (int i = 0; i < s_tolerances.Length; i++)
            {
                string tolerance = Invariant($"{s_tolerances[i]:0e+0}");
                foreach (string method in s_compiled)
                {
                    Ours();
                    Theirs(Peer(compiled, $"{draws} {CompiledRuns} {method} {tolerance}", bin));
                }

                if (round == 0 || rounds < 4 || round % 2 == 0)
                {
                    foreach (string method in s_scripted)
                        Theirs(Peer("/usr/bin/python3", $"{scripted} {draws} {ScriptedRuns} {method} {tolerance}", bin));
                }

                Ours();

                void Ours()
                {
                    double us = EnsembleTiming.Time(() => ensembles[i].Run(values, samples)).Processor / CompiledRuns * 1e6;
                    points.Add(new Timed(PeerPoint.Ours, s_tolerances[i], us, EnsembleError.Between([.. samples.Select(EnsembleFigures.Of)], reference)));
                }

                void Theirs((string Name, double Microseconds, EnsembleFigures[] Figures) peer) =>
                    points.Add(new Timed(peer.Name, s_tolerances[i], peer.Microseconds, EnsembleError.Between(peer.Figures, reference)));
            }
        }

        Print(points);
    }

    private static void Agree(string name, EnsembleFigures[] figures, EnsembleFigures[] reference)
    {
        EnsembleError error = EnsembleError.Between(figures, reference);
        Console.WriteLine(Invariant($"{name}: of {error.Runs} runs {error.OverflowDiffers} differ in overflow; drain times by {error.MedianError:0.0e+0} (median), {error.WorstError:0.0e+0} (worst); honey over the rim by at most {error.WorstOverRimKg * 1e3:0.0e+0} g."));
    }

    private static (string Name, double Microseconds, EnsembleFigures[] Figures) Peer(string program, string arguments, string folder)
    {
        string output = Path.Combine(folder, "figures.bin");
        using Process process = Process.Start(new ProcessStartInfo(program, $"{arguments} {output}") { RedirectStandardOutput = true, UseShellExecute = false })!;
        string line = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} {arguments} ended with {process.ExitCode}.");
        using JsonDocument document = JsonDocument.Parse(line);
        return (
            document.RootElement.GetProperty("peer").GetString()!,
            document.RootElement.GetProperty("cpuUsPerRun").GetDouble(),
            MemoryMarshal.Cast<byte, EnsembleFigures>(File.ReadAllBytes(output)).ToArray());
    }

    private static void Print(List<Timed> points)
    {
        Console.WriteLine();
        Console.WriteLine("Processor time of a run on one core, µs: median, and middle half of the rounds.");
        Console.WriteLine($"{"",-26}{"rtol",-7}{"µs",9}{"middle half",18}{"median error",14}{"99 % below",12}{"overflow differs",18}");
        var medians = new List<(string Name, double Microseconds, EnsembleError Error)>();
        foreach (var group in points.GroupBy(p => (p.Name, p.Tolerance)).OrderBy(g => g.Key.Name != PeerPoint.Ours).ThenBy(g => g.Key.Name, StringComparer.Ordinal).ThenByDescending(g => g.Key.Tolerance))
        {
            double[] times = [.. group.Select(p => p.Microseconds)];
            EnsembleError error = group.First().Error;
            double median = EnsembleTiming.Median(times);
            Console.WriteLine(Invariant($"{group.Key.Name,-26}{group.Key.Tolerance,-7:0e+0}{median,9:0.0}{EnsembleTiming.Quantile(times, 0.25),9:0.0} –{EnsembleTiming.Quantile(times, 0.75),7:0.0}{error.MedianError,14:0.0e+0}{error.ErrorOf99Percent,12:0.0e+0}{error.OverflowDiffers,18}"));
            medians.Add((group.Key.Name, median, error));
        }

        Console.WriteLine();
        Console.WriteLine("µs of a run at the same achieved median error; in brackets the ratio to ours, both on one core.");
        PeerTable.Print(medians.Select(m => new PeerPoint(m.Name, m.Microseconds, m.Error.MedianError)), s_errors);
        Console.WriteLine();
        Console.WriteLine("The same at the error that 99 % of the runs stay below.");
        PeerTable.Print(medians.Select(m => new PeerPoint(m.Name, m.Microseconds, m.Error.ErrorOf99Percent)), s_errors);
    }

    private sealed record Timed(string Name, double Tolerance, double Microseconds, EnsembleError Error);
}
