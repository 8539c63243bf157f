using System.Globalization;
using FlowSim.Numerics.Fitting;

namespace FlowSim.Sources.Tests;

/// <summary>One of NIST's nonlinear regressions: data, both starts and certified answers from its file in Data, and its model.</summary>
internal sealed class NistRegression : ILeastSquaresProblem
{
    private delegate double Model(ReadOnlySpan<double> b, double[] x);

    private static readonly Dictionary<string, Model> Models = new(StringComparer.Ordinal)
    {
        ["Misra1a"] = (b, x) => b[0] * (1 - Math.Exp(-b[1] * x[0])),
        ["Misra1b"] = (b, x) => b[0] * (1 - Math.Pow(1 + b[1] * x[0] / 2, -2)),
        ["Misra1c"] = (b, x) => b[0] * (1 - Math.Pow(1 + 2 * b[1] * x[0], -0.5)),
        ["Misra1d"] = (b, x) => b[0] * b[1] * x[0] / (1 + b[1] * x[0]),
        ["Chwirut1"] = Chwirut,
        ["Chwirut2"] = Chwirut,
        ["Lanczos1"] = Lanczos,
        ["Lanczos2"] = Lanczos,
        ["Lanczos3"] = Lanczos,
        ["Gauss1"] = Gauss,
        ["Gauss2"] = Gauss,
        ["Gauss3"] = Gauss,
        ["DanWood"] = (b, x) => b[0] * Math.Pow(x[0], b[1]),
        ["Kirby2"] = (b, x) => (b[0] + x[0] * (b[1] + x[0] * b[2])) / (1 + x[0] * (b[3] + x[0] * b[4])),
        ["Hahn1"] = Cubics,
        ["Thurber"] = Cubics,
        ["Nelson"] = (b, x) => b[0] - b[1] * x[0] * Math.Exp(-b[2] * x[1]),
        ["MGH17"] = (b, x) => b[0] + b[1] * Math.Exp(-x[0] * b[3]) + b[2] * Math.Exp(-x[0] * b[4]),
        ["Roszman1"] = (b, x) => b[0] - b[1] * x[0] - Math.Atan(b[2] / (x[0] - b[3])) / Math.PI,
        ["ENSO"] = Enso,
        ["MGH09"] = (b, x) => b[0] * (x[0] * x[0] + x[0] * b[1]) / (x[0] * x[0] + x[0] * b[2] + b[3]),
        ["BoxBOD"] = (b, x) => b[0] * (1 - Math.Exp(-b[1] * x[0])),
        ["Rat42"] = (b, x) => b[0] / (1 + Math.Exp(b[1] - b[2] * x[0])),
        ["Rat43"] = (b, x) => b[0] / Math.Pow(1 + Math.Exp(b[1] - b[2] * x[0]), 1 / b[3]),
        ["MGH10"] = (b, x) => b[0] * Math.Exp(b[1] / (x[0] + b[2])),
        ["Eckerle4"] = (b, x) => b[0] / b[1] * Math.Exp(-0.5 * Math.Pow((x[0] - b[2]) / b[1], 2)),
        ["Bennett5"] = (b, x) => b[0] * Math.Pow(b[1] + x[0], -1 / b[2]),
    };

    private readonly Model _model;
    private readonly double[] _y;
    private readonly double[][] _x;

    private NistRegression(string name)
    {
        Name = name;
        _model = Models[name];
        string[][] rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Data", $"nist-{name.ToLowerInvariant()}.csv"))
            .Where(line => !line.StartsWith('#')).Select(line => line.Split(','))];
        double[][] parameters = [.. rows.Where(row => row[0][0] == 'b').Select(row => row[1..].Select(Number).ToArray())];
        Starts = [[.. parameters.Select(p => p[0])], [.. parameters.Select(p => p[1])]];
        Certified = [.. parameters.Select(p => p[2])];
        StandardDeviations = [.. parameters.Select(p => p[3])];
        ResidualSumOfSquares = Number(rows.Single(row => row[0] == "residual sum of squares")[1]);
        double[][] data = [.. rows.SkipWhile(row => row[0] != "y").Skip(1).Select(row => row.Select(Number).ToArray())];
        _y = [.. data.Select(row => name == "Nelson" ? Math.Log(row[0]) : row[0])];
        _x = [.. data.Select(row => row[1..])];
    }

    public static IEnumerable<string> Names => Models.Keys;

    public string Name { get; }

    public double[][] Starts { get; }

    public double[] Certified { get; }

    public double[] StandardDeviations { get; }

    public double ResidualSumOfSquares { get; }

    public int Parameters => Certified.Length;

    public int Residuals => _y.Length;

    public static NistRegression Load(string name) => new(name);

    public bool Evaluate(ReadOnlySpan<double> x, Span<double> residuals)
    {
        for (int i = 0; i < residuals.Length; i++) residuals[i] = _y[i] - _model(x, _x[i]);
        return true;
    }

    public bool Jacobian(ReadOnlySpan<double> x, ReadOnlySpan<double> residuals, Span<double> jacobian) => false;

    private static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static double Chwirut(ReadOnlySpan<double> b, double[] x) => Math.Exp(-b[0] * x[0]) / (b[1] + b[2] * x[0]);

    private static double Lanczos(ReadOnlySpan<double> b, double[] x) =>
        b[0] * Math.Exp(-b[1] * x[0]) + b[2] * Math.Exp(-b[3] * x[0]) + b[4] * Math.Exp(-b[5] * x[0]);

    private static double Gauss(ReadOnlySpan<double> b, double[] x) =>
        b[0] * Math.Exp(-b[1] * x[0]) + Peak(b[2], b[3], b[4], x[0]) + Peak(b[5], b[6], b[7], x[0]);

    private static double Peak(double height, double centre, double width, double x) =>
        height * Math.Exp(-(x - centre) * (x - centre) / (width * width));

    private static double Cubics(ReadOnlySpan<double> b, double[] x)
    {
        double t = x[0];
        return (b[0] + t * (b[1] + t * (b[2] + t * b[3]))) / (1 + t * (b[4] + t * (b[5] + t * b[6])));
    }

    private static double Enso(ReadOnlySpan<double> b, double[] x)
    {
        double t = 2 * Math.PI * x[0];
        return b[0] + b[1] * Math.Cos(t / 12) + b[2] * Math.Sin(t / 12)
            + b[4] * Math.Cos(t / b[3]) + b[5] * Math.Sin(t / b[3]) + b[7] * Math.Cos(t / b[6]) + b[8] * Math.Sin(t / b[6]);
    }
}
