using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Commands.Tests.Input;

/// <summary>Any calibration that a fit may give comes back from its table as it was; any text at all is read as a table or refused in words.</summary>
public class CalibrationRoundTripTests
{
    private static readonly StrainingInput[] s_inputs = [.. StrainingInputs.All.Where(CalibrationPriors.IsShared)];

    [Theory]
    [InlineData("metric")]
    [InlineData("us")]
    public void Spreads_of_every_input_at_any_width(string system)
    {
        UnitChoice units = Words.Value<UnitChoice>(system);
        StrainingSetup setup = Loader.ReadRun(Loader.Load(Disk.Files, null, [])).Setup;
        Random random = new(11);
        for (int round = 0; round < 30; round++)
        {
            CalibratedInputs written = new()
            {
                Inputs = [.. s_inputs.Select(input => Random(input, setup, random))],
                Correlations = [],
                Runs = [],
            };
            CalibratedInputs read = Back(written, units);
            foreach ((UncertainInput one, UncertainInput other) in written.Inputs.Zip(s_inputs.Select(input => read.Inputs.Single(back => back.Input == input))))
            {
                double width = one.Spread.Quantile(0.84) - one.Spread.Quantile(0.16);
                foreach (double at in new[] { 0.025, 0.16, 0.5, 0.84, 0.975 })
                    Assert.True(Math.Abs(one.Spread.Quantile(at) - other.Spread.Quantile(at)) <= 2e-3 * width, FormattableString.Invariant($"{one.Input.Name}, {one.Spread}: {one.Spread.Quantile(at)} came back as {other.Spread.Quantile(at)}"));
                Assert.True(Math.Abs(one.Spread.Median - other.Spread.Median) <= 1e-3 * width, one.Input.Name);
            }
        }
    }

    [Fact]
    public void Correlations_at_the_edge_of_what_is_possible()
    {
        Random random = new(12);
        for (int round = 0; round < 30; round++)
        {
            // Inputs that follow two hidden ones almost exactly: as near to singular as a fit may come.
            int count = 4 + random.Next(8);
            Matrix<double> hidden = Matrix<double>.Build.Dense(count, 2, (_, _) => (2 * random.NextDouble()) - 1);
            Matrix<double> covariance = (hidden * hidden.Transpose()) + (Math.Pow(10, -2 - (6 * random.NextDouble())) * Matrix<double>.Build.DenseIdentity(count));
            UncertainInput[] inputs = [.. s_inputs.Take(count).Select(input => new UncertainInput(input, new LogNormalDistribution(1, 0.1), new Source("invented", Standing.GivenByUser)))];
            List<InputCorrelation> pairs = [];
            for (int i = 0; i < count; i++)
            {
                for (int j = 0; j < i; j++)
                    pairs.Add(new InputCorrelation(inputs[j].Input.Name, inputs[i].Input.Name, covariance[i, j] / Math.Sqrt(covariance[i, i] * covariance[j, j])));
            }

            IReadOnlyList<InputCorrelation> read = CalibrationToml.Rounded(inputs, pairs);
            double[,] matrix = new double[count, count];
            for (int i = 0; i < count; i++)
                matrix[i, i] = 1;
            int At(string name) => Array.FindIndex(inputs, input => input.Input.Name == name);
            foreach (InputCorrelation pair in read)
                matrix[At(pair.One), At(pair.Other)] = matrix[At(pair.Other), At(pair.One)] = pair.Strength;
            _ = new GaussianCopula(matrix); // Throws where it is impossible.
            Assert.All(read, pair => Assert.Equal(pairs.Single(other => other.One == pair.One && other.Other == pair.Other).Strength, pair.Strength, 5e-3));
        }
    }

    [Fact]
    public void Any_text_is_a_table_or_is_refused_in_words()
    {
        string[] pieces = ["time", " [min]", "(s)", "_mm", "tank level", "receiver mass", "pond depth", "note", "clock", ",", ";", "\t", "\n", "\r\n", "\"", "\"\"", "#", " = ", "honey.temperature", "\"33 °C\"", "0", "1", "23:59", "0:01", "12.5", "12,5", "-3", "nan", "1e9", "gate 40 %", "scrape", "shut", "\u0007", "é", " "];
        Random random = new(13);
        int read = 0;
        for (int round = 0; round < 4000; round++)
        {
            string text = round % 2 == 0 ? string.Empty : "time [min],tank level [mm],note\n0,9,\n1,8,\n2,7,\n3,6,\n";
            for (int i = random.Next(30); i > 0; i--)
                text += pieces[random.Next(pieces.Length)];
            Problems problems = new();
            RunFile? file = RunCsvReader.Read("run.csv", text, problems);
            Assert.Equal(file is null, problems.Any);
            read += file is null ? 0 : 1;
            if (file is not null)
                Assert.All(file.Columns, column => Assert.True(column.Readings.Count >= 4 && column.Readings.Zip(column.Readings.Skip(1)).All(pair => pair.First.At <= pair.Second.At)));
        }

        Assert.InRange(read, 100, 3900);
    }

    [Fact]
    public void The_common_figures_in_the_example_are_the_librarys()
    {
        string text = Demo.Text[Demo.Text.IndexOf("[fit]", StringComparison.Ordinal)..Demo.Text.IndexOf("[calibration]", StringComparison.Ordinal)];
        foreach (string key in new[] { "clock", "level_zero", "mass_zero", "volume_zero" })
            text = text.Replace("\n# " + key + " =", "\n" + key + " =", StringComparison.Ordinal);
        Problems problems = new();
        ScaleFacts facts = FitReader.Read(new Section("fit", TomlReader.Read(text, "demo", problems), problems, new Journal(new Spot("demo", 1, 1))));
        Assert.Empty(problems.All);
        Assert.Equal(new TimedSeries { Quantity = StrainingObservable.TankLevel, Readings = [] }.ClockOffset.Seconds, facts.ClockS);
        foreach (StrainingObservable quantity in Enum.GetValues<StrainingObservable>())
            Assert.Equal(TimedSeries.CommonZeroOffset(quantity), facts.Zero(HeadingGrammar.DimensionOf(quantity))!.Value, 1e-12);
    }

    private static UncertainInput Random(StrainingInput input, StrainingSetup setup, Random random)
    {
        double value = input.ValueIn(setup);
        double width = Math.Pow(10, -4 + (3.7 * random.NextDouble()));
        Distribution spread = value > 0 && random.Next(2) == 0
            ? new LogNormalDistribution(value * Math.Exp(random.NextDouble() - 0.5), width)
            : random.Next(3) switch
            {
                0 => new UniformDistribution(value + (0.001 * random.NextDouble()), value + 0.001 + width),
                _ => new NormalDistribution(value + (0.001 * random.NextDouble()), Math.Max(Math.Abs(value), 1e-3) * width),
            };
        return new UncertainInput(input, spread, new Source("invented", Standing.GivenByUser));
    }

    private static CalibratedInputs Back(CalibratedInputs written, UnitChoice units)
    {
        string text = CalibrationToml.Of(written, new DateOnly(2026, 11, 27), units);
        Problems problems = new();
        CalibrationTable? table = CalibrationReader.Read(TomlReader.Read(text, "table", problems), problems, new Journal(new Spot("table", 1, 1)));
        Assert.True(!problems.Any, text + string.Join('\n', problems.All));
        return table!.ToInputs()!;
    }
}
