using System.Text.Json;
using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace FlowSim.Tests.Calibration;

/// <summary>The cases of <c>Reference/fits.json</c> as questions, and what another program makes of them.</summary>
internal sealed class ReferenceFits
{
    private static readonly Dictionary<string, JsonElement> Cases = Load();

    private readonly JsonElement _case;

    private ReferenceFits(JsonElement one)
    {
        _case = one;
        JsonElement[] runs = [.. one.GetProperty("runs").EnumerateArray()];
        TimedRun[] timed = [.. runs.Select(Run)];
        Question = new CalibrationQuestion
        {
            Setup = timed[0].Setup,
            Runs = timed,
            // What is each run's own is told of the first and carried to the others by the library.
            Priors = [.. one.GetProperty("shared").EnumerateArray().Concat(runs[0].GetProperty("own").EnumerateArray()).Select(Prior)],
            Sample = false,
        };
        Noise = [.. runs.SelectMany(run => run.GetProperty("series").EnumerateArray()).Select(series => series.GetProperty("noise").GetDouble())];
        JsonElement fit = one.GetProperty("fit");
        int[] order = Order(runs);
        double[] scores = Numbers(fit.GetProperty("scores"));
        Scores = [.. order.Select(i => scores[i])];
        double[][] covariance = [.. fit.GetProperty("covariance").EnumerateArray().Select(Numbers)];
        Covariance = Matrix<double>.Build.Dense(order.Length, order.Length, (i, j) => covariance[order[i]][order[j]]);
        HalfSumOfSquares = fit.GetProperty("halfSumOfSquares").GetDouble();
    }

    public static IEnumerable<string> Names => Cases.Keys;

    public CalibrationQuestion Question { get; }

    /// <summary>Known standard deviation of the noise of each series, SI.</summary>
    public double[] Noise { get; }

    /// <summary>Scores of the mode, in the order of <see cref="FitLayout"/>.</summary>
    public double[] Scores { get; }

    /// <summary>Laplace's covariance of the scores there.</summary>
    public Matrix<double> Covariance { get; }

    public double HalfSumOfSquares { get; }

    public static ReferenceFits Of(string name) => new(Cases[name]);

    public double Sd(int i) => Math.Sqrt(Covariance[i, i]);

    /// <summary>The file has shared inputs, each run's own, then clocks and zeros; the library keeps what belongs to a run together.</summary>
    private int[] Order(JsonElement[] runs)
    {
        int shared = _case.GetProperty("shared").GetArrayLength();
        int[] own = [.. runs.Select(run => run.GetProperty("own").GetArrayLength())];
        int[] series = [.. runs.Select(run => run.GetProperty("series").GetArrayLength())];
        var order = new List<int>(Enumerable.Range(0, shared));
        for (int run = 0; run < runs.Length; run++)
        {
            order.AddRange(Enumerable.Range(shared + own.Take(run).Sum(), own[run]));
            order.AddRange(Enumerable.Range(shared + own.Sum() + (2 * series.Take(run).Sum()), 2 * series[run]));
        }

        return [.. order];
    }

    private static TimedRun Run(JsonElement run, int index) => new()
    {
        Name = FormattableString.Invariant($"run {index + 1}"),
        Setup = ReferenceBatches.Setup(run.GetProperty("batch")),
        Series =
        [
            .. run.GetProperty("series").EnumerateArray().Select(series => new TimedSeries
            {
                Quantity = Enum.Parse<StrainingObservable>(series.GetProperty("quantity").GetString()!.Replace("-", "", StringComparison.Ordinal), ignoreCase: true),
                ClockOffset = Duration.FromSeconds(series.GetProperty("clockSd").GetDouble()),
                ZeroOffset = series.GetProperty("zeroSd").GetDouble(),
                Readings = [.. Numbers(series.GetProperty("times")).Zip(Numbers(series.GetProperty("values")), (t, y) => new TimedReading(Duration.FromSeconds(t), y))],
            }),
        ],
    };

    private static UncertainInput Prior(JsonElement free)
    {
        JsonElement p = free.GetProperty("prior");
        double Of(string key) => p.GetProperty(key).GetDouble();
        Distribution spread = p.GetProperty("kind").GetString() switch
        {
            "normal" => new NormalDistribution(Of("mean"), Of("sd")),
            "log-normal" => new LogNormalDistribution(Of("median"), Of("logSd")),
            _ => new UniformDistribution(Of("low"), Of("high")),
        };
        return new UncertainInput(StrainingInputs.ByName(free.GetProperty("input").GetString()!), spread, new Source("Made up", Standing.EngineeringChoice));
    }

    private static double[] Numbers(JsonElement list) => [.. list.EnumerateArray().Select(e => e.GetDouble())];

    private static Dictionary<string, JsonElement> Load()
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Calibration", "Reference", "fits.json")));
        return document.RootElement.GetProperty("cases").EnumerateArray().ToDictionary(e => e.GetProperty("name").GetString()!, e => e.Clone(), StringComparer.Ordinal);
    }
}
