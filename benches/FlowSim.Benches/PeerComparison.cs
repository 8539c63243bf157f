using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>
/// The plain straining run beside the same equations on other libraries, in one go: processor time at the same achieved error
/// of the 95 % drain time. The peers must have been built: <c>make -C benches/peers</c>.
/// </summary>
internal static class PeerComparison
{
    private static readonly double[] s_errors = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8];

    public static void Run(string repository)
    {
        string peers = Path.Combine(repository, "benches", "peers");
        List<PeerPoint> points = Ours();
        points.AddRange(PeerTable.Of(Path.Combine(peers, "bin", "cvode_straining"), "", "relErrDrain95"));
        points.AddRange(PeerTable.Of("/usr/bin/python3", Path.Combine(peers, "scipy_straining.py") + " 7", "relErrDrain95"));
        Console.WriteLine("Processor time of one straining run, µs, at the same achieved error of the 95 % drain time; in brackets the ratio to ours.");
        PeerTable.Print(points, s_errors);
    }

    private static List<PeerPoint> Ours()
    {
        double reference = StrainingRun.Simulate(PlainPail.Setup, PlainPail.AtTolerance(1e-12)).Drain.To95!.Value.Seconds;
        var points = new List<PeerPoint>();
        foreach (double tolerance in new[] { 1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10 })
        {
            StrainingOptions options = PlainPail.AtTolerance(tolerance);
            for (int i = 0; i < 3000; i++)
                StrainingRun.Simulate(PlainPail.Setup, options);

            double microseconds = PeerTable.Microseconds(() => StrainingRun.Simulate(PlainPail.Setup, options), 40);
            StrainingResult result = StrainingRun.Simulate(PlainPail.Setup, options);
            double error = Math.Abs((result.Drain.To95!.Value.Seconds / reference) - 1);
            points.Add(new PeerPoint(PeerPoint.Ours, microseconds, error));
            Console.Error.WriteLine(Invariant($"FlowSim rtol {tolerance:0e+0}: {microseconds:0} µs, {result.Solver.Steps} steps, error {error:0.0e+0}"));
        }

        return points;
    }
}
