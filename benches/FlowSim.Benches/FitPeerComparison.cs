using System.Text.Json;
using FlowSim.Calibration;
using FlowSim.Numerics.Fitting;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>
/// Fits of 200 readings of the plain pail beside SciPy's: the same readings, unknowns, known noise and squares, both on one core; how far each mode lies from
/// that of <c>fits.json</c>. Then the whole of <see cref="CalibrationFit"/>, which finds the noise itself and predicts.
/// </summary>
internal static class FitPeerComparison
{
    private static readonly double[] s_errors = [1e-2, 3e-3, 1e-3, 3e-4, 1e-4];

    public static void Run(string repository)
    {
        string path = Path.Combine(repository, "tests", "FlowSim.Tests", "Calibration", "Reference", "fits.json");
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(path));
        foreach (string name in new[] { "tank-level-200", "receiver-mass-200" })
        {
            JsonElement one = document.RootElement.GetProperty("cases").EnumerateArray().First(e => e.GetProperty("name").GetString() == name);
            Console.WriteLine(Invariant($"{name}: processor time of a fit, µs, by how far its mode is off, in standard deviations; in brackets the ratio to ours."));
            List<PeerPoint> points = [Ours(one, out CalibrationQuestion question)];
            points.AddRange(PeerTable.Of("/usr/bin/python3", Path.Combine(repository, "benches", "peers", "scipy_fit.py") + $" {name} 5", "modeErrorInSd"));
            PeerTable.Print(points, s_errors);
            double whole = PeerTable.Microseconds(() => CalibrationFit.Of(question), 1, 11);
            Console.WriteLine(Invariant($"CalibrationFit.Of without the sampler: {whole / 1000:0} ms, {CalibrationFit.Of(question).ModelRuns} model runs."));
            Console.WriteLine();
        }
    }

    private static PeerPoint Ours(JsonElement one, out CalibrationQuestion question)
    {
        JsonElement series = one.GetProperty("runs")[0].GetProperty("series")[0];
        CalibrationQuestion asked = question = Question(one, series);
        double noise = series.GetProperty("noise").GetDouble();
        double[] mode = Numbers(one.GetProperty("fit").GetProperty("scores"));
        double[][] covariance = [.. one.GetProperty("fit").GetProperty("covariance").EnumerateArray().Select(Numbers)];
        for (int i = 0; i < 200; i++)
            Fit();
        double microseconds = PeerTable.Microseconds(() => Fit(), 4, 51);
        (LeastSquaresFit fit, long runs) = Fit();
        double error = fit.X.Select((x, i) => Math.Abs(x - mode[i]) / Math.Sqrt(covariance[i][i])).Max();
        Console.Error.WriteLine(Invariant($"FlowSim: {microseconds:0} µs, {runs} model runs, {fit.Status}, mode off by {error:0.0e+0} sd"));
        return new PeerPoint(PeerPoint.Ours, microseconds, error);

        (LeastSquaresFit Fit, long Runs) Fit()
        {
            var posterior = new CalibrationPosterior(asked, CancellationToken.None);
            posterior.Scales[0] = noise;
            LeastSquaresFit found = LeastSquares.Minimise(posterior, new double[posterior.Parameters], new LeastSquaresOptions { Roughness = 1e-6, RelativeOffset = 1e-3 });
            return (found, posterior.ModelRuns);
        }
    }

    private static CalibrationQuestion Question(JsonElement one, JsonElement series)
    {
        var read = new TimedSeries
        {
            Quantity = series.GetProperty("quantity").GetString() == "tank-level" ? StrainingObservable.TankLevel : StrainingObservable.ReceiverMass,
            ClockOffset = Duration.FromSeconds(series.GetProperty("clockSd").GetDouble()),
            ZeroOffset = series.GetProperty("zeroSd").GetDouble(),
            Readings = [.. Numbers(series.GetProperty("times")).Zip(Numbers(series.GetProperty("values")), (t, y) => new TimedReading(Duration.FromSeconds(t), y))],
        };
        return new CalibrationQuestion
        {
            Setup = PlainPail.Setup,
            Runs = [new TimedRun { Name = "pail", Setup = PlainPail.Setup, Series = [read] }],
            Priors = [.. one.GetProperty("shared").EnumerateArray().Select(Prior)],
            Sample = false,
            Threads = 1,
        };
    }

    private static UncertainInput Prior(JsonElement free)
    {
        JsonElement p = free.GetProperty("prior");
        Distribution spread = p.GetProperty("kind").GetString() == "log-normal"
            ? new LogNormalDistribution(p.GetProperty("median").GetDouble(), p.GetProperty("logSd").GetDouble())
            : new UniformDistribution(p.GetProperty("low").GetDouble(), p.GetProperty("high").GetDouble());
        return new UncertainInput(StrainingInputs.ByName(free.GetProperty("input").GetString()!), spread, new Source("Made up", Standing.EngineeringChoice));
    }

    private static double[] Numbers(JsonElement list) => [.. list.EnumerateArray().Select(e => e.GetDouble())];
}
