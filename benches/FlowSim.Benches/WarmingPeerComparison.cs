using FlowSim.Warming;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>
/// The 48 h pail beside the same equations on the same cells on other libraries, in one go: processor time at the same achieved
/// error, the largest relative one of three times. The peers must have been built: <c>make -C benches/peers</c>.
/// </summary>
internal static class WarmingPeerComparison
{
    private static readonly double[] s_errors = [1e-2, 1e-3, 1e-4, 1e-5, 1e-6];

    public static void Run(string repository)
    {
        string peers = Path.Combine(repository, "benches", "peers");
        List<PeerPoint> points = Ours();
        points.AddRange(PeerTable.Of(Path.Combine(peers, "bin", "cvode_warming"), "", "relErr"));
        points.AddRange(PeerTable.Of("/usr/bin/python3", Path.Combine(peers, "scipy_warming.py") + " 7", "relErr"));
        Console.WriteLine("Processor time of one warming run of 48 h, µs, at the same achieved error of three times; in brackets the ratio to ours.");
        PeerTable.Print(points, s_errors);
        Cells();
    }

    private static void Cells()
    {
        Console.WriteLine("Processor time of the same run against the number of cells, default tolerance:");
        foreach (int radial in new[] { 10, 20, 40, 80 })
        {
            var options = new WarmingOptions { SeriesPoints = 0, RadialCells = radial, AxialCells = radial * 3 / 2 };
            int calls = 4000 / (radial * radial) + 1;
            double microseconds = PeerTable.Microseconds(() => WarmingRun.Simulate(WarmedPail.Setup, options), calls, 31);
            int steps = WarmingRun.Simulate(WarmedPail.Setup, options).Steps;
            Console.WriteLine(Invariant($"{radial,4} × {options.AxialCells,-4} {microseconds,9:0} µs {steps,6} steps {1000 * microseconds / steps / radial / options.AxialCells,6:0} ns a cell and step"));
        }
    }

    private static List<PeerPoint> Ours()
    {
        double[] reference = Times(1e-6);
        var points = new List<PeerPoint>();
        foreach (double tolerance in new[] { 0.3, 0.1, 0.03, 0.01, 3e-3, 1e-3, 3e-4, 1e-4, 1e-5 })
        {
            WarmingOptions options = WarmedPail.AtTolerance(tolerance);
            int calls = tolerance > 2e-3 ? 20 : 2;
            PeerTable.Microseconds(() => WarmingRun.Simulate(WarmedPail.Setup, options), calls, 11);
            double microseconds = PeerTable.Microseconds(() => WarmingRun.Simulate(WarmedPail.Setup, options), calls, 31);
            double error = Times(tolerance).Zip(reference, (a, b) => Math.Abs((a / b) - 1)).Max();
            points.Add(new PeerPoint(PeerPoint.Ours, microseconds, error));
            Console.Error.WriteLine(Invariant($"FlowSim tolerance {tolerance:0e+0} K: {microseconds:0} µs, {WarmingRun.Simulate(WarmedPail.Setup, options).Steps} steps, error {error:0.0e+0}"));
        }

        return points;
    }

    private static double[] Times(double toleranceK) =>
        [.. WarmingRun.Simulate(WarmedPail.Setup, WarmedPail.AtTolerance(toleranceK)).TargetTimes.Take(3).Select(t => t!.Value.Seconds)];
}
