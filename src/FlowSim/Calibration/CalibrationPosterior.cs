using FlowSim.Numerics.Fitting;
using FlowSim.Properties;

namespace FlowSim.Calibration;

/// <summary>
/// What readings and measurements say of the numbers, at given scales of the noise: residuals of all readings (over their series' scale), then of measured
/// viscosities, then the independent numbers themselves, which were standard normal before.
/// </summary>
internal sealed class CalibrationPosterior : ILeastSquaresProblem
{
    /// <summary>
    /// Step of an independent number for difference quotients: small beside what the readings leave of it, large beside what the integrator leaves. A step of 0.1, wide
    /// enough to bridge a kink (an overflow, the end of a run), puts the mode half a standard deviation off where readings fix a number well (ReferenceFitTests.cs).
    /// </summary>
    private const double Step = 0.02;

    /// <summary>The same of a clock, which readings fix to a hundredth of what was known before.</summary>
    private const double ClockStep = 0.01;

    private readonly CalibrationQuestion _question;
    private readonly RunModel[] _runs;
    private readonly int _moisture;
    private readonly int _lot;
    private readonly double[] _read;
    private readonly CancellationToken _cancellation;
    private double[] _values = [];
    private double[] _predicted = [];

    /// <summary>Prepares a question.</summary>
    /// <param name="question">Question, already checked.</param>
    /// <param name="cancellation">Ends early.</param>
    public CalibrationPosterior(CalibrationQuestion question, CancellationToken cancellation)
    {
        _question = question;
        _cancellation = cancellation;
        Layout = new FitLayout(question);
        _runs = [.. question.Runs.Select((run, i) => new RunModel(run, i, Layout, question.Threads))];
        _read = [.. question.Runs.SelectMany(run => run.Series).SelectMany(series => series.Readings).Select(reading => reading.Value)];
        _moisture = Find(Straining.StrainingInputs.Moisture);
        _lot = Find(Straining.StrainingInputs.LotFactor);
        var starts = new List<(int Start, int Count)>();
        int at = 0;
        foreach (TimedSeries series in question.Runs.SelectMany(run => run.Series))
        {
            starts.Add((at, series.Readings.Count));
            at += series.Readings.Count;
        }

        Places = [.. starts];
        Scales = new double[Places.Length];
    }

    /// <summary>The numbers.</summary>
    public FitLayout Layout { get; }

    /// <summary>Where each series' readings stand among all, and how many they are.</summary>
    public (int Start, int Count)[] Places { get; }

    /// <summary>Scale of the noise of each series, SI.</summary>
    public double[] Scales { get; }

    /// <summary>Readings of all runs.</summary>
    public int Readings => _read.Length;

    /// <summary>Residuals of readings and measured viscosities; the independent numbers follow.</summary>
    public int Measured => _read.Length + _question.Viscosities.Count;

    /// <inheritdoc/>
    public int Parameters => Layout.Count;

    /// <inheritdoc/>
    public int Residuals => Measured + Layout.Count;

    /// <summary>Model runs made so far.</summary>
    public long ModelRuns { get; private set; }

    /// <summary>Timed runs that are fitted.</summary>
    public int Runs => _runs.Length;

    /// <summary>
    /// Computes readings less what they should be, and ln of viscosities less what they should be over its standard deviation; NaN where a correlation of the
    /// user's own answers with nothing.
    /// </summary>
    /// <param name="u">Independent numbers, row by row.</param>
    /// <param name="rows">Rows.</param>
    /// <param name="off">Takes them: rows × <see cref="Measured"/>.</param>
    public void Off(ReadOnlySpan<double> u, int rows, Span<double> off)
    {
        try
        {
            OffTogether(u, rows, off);
        }
        catch (SimulationException) when (rows > 1)
        {
            // Which row it was, each has to say for itself.
            for (int row = 0; row < rows; row++)
                Off(u.Slice(row * Layout.Count, Layout.Count), 1, off.Slice(row * Measured, Measured));
        }
        catch (SimulationException)
        {
            off[..Measured].Fill(double.NaN);
        }
    }

    private void OffTogether(ReadOnlySpan<double> u, int rows, Span<double> off)
    {
        int width = Layout.Count;
        if (_values.Length < rows * width)
            (_values, _predicted) = (new double[rows * width], new double[rows * _read.Length]);
        for (int row = 0; row < rows; row++)
            Layout.Values(u.Slice(row * width, width), _values.AsSpan(row * width, width));
        int first = 0;
        foreach (RunModel run in _runs)
        {
            run.Predict(_values, rows, width, _predicted.AsSpan(first), _read.Length, _cancellation);
            first += run.Readings;
            ModelRuns += rows;
        }

        for (int row = 0; row < rows; row++)
        {
            Span<double> mine = off.Slice(row * Measured, Measured);
            for (int i = 0; i < _read.Length; i++)
                mine[i] = _read[i] - _predicted[(row * _read.Length) + i];
            for (int i = 0; i < _question.Viscosities.Count; i++)
                mine[_read.Length + i] = ViscosityOff(_question.Viscosities[i], _values.AsSpan(row * width, width));
        }
    }

    /// <inheritdoc/>
    public bool Evaluate(ReadOnlySpan<double> x, Span<double> residuals)
    {
        Off(x, 1, residuals[..Measured]);
        if (residuals[..Measured].Contains(double.NaN))
            return false;

        for (int series = 0; series < Places.Length; series++)
        {
            (int start, int count) = Places[series];
            for (int i = start; i < start + count; i++)
                residuals[i] /= Scales[series];
        }

        x.CopyTo(residuals[Measured..]);
        return true;
    }

    /// <inheritdoc/>
    public bool Jacobian(ReadOnlySpan<double> x, ReadOnlySpan<double> residuals, Span<double> jacobian)
    {
        double[] slopes = Slopes(x);
        if (slopes.Contains(double.NaN))
            return false;

        int width = Layout.Count;
        jacobian.Clear();
        for (int series = 0; series < Places.Length; series++)
        {
            (int start, int count) = Places[series];
            for (int i = start * width; i < (start + count) * width; i++)
                jacobian[i] = slopes[i] / Scales[series];
        }

        slopes.AsSpan((_read.Length * width)..).CopyTo(jacobian[(_read.Length * width)..]);
        for (int j = 0; j < width; j++)
            jacobian[((Measured + j) * width) + j] = 1;
        return true;
    }

    /// <summary>
    /// Derivatives of <see cref="Off"/> by the independent numbers, row by row: central difference quotients, all in one batch; to one side where the other has no
    /// answer, NaN where neither has.
    /// </summary>
    /// <param name="u">Independent numbers.</param>
    public double[] Slopes(ReadOnlySpan<double> u)
    {
        int width = Layout.Count;
        double[] moved = new double[2 * width * width];
        for (int row = 0; row < 2 * width; row++)
        {
            u.CopyTo(moved.AsSpan(row * width, width));
            moved[(row * width) + (row / 2)] += row % 2 == 0 ? -StepOf(row / 2) : StepOf(row / 2);
        }

        double[] off = new double[2 * width * Measured];
        Off(moved, 2 * width, off);
        double[] slopes = new double[Measured * width];
        double[]? here = null;
        for (int j = 0; j < width; j++)
        {
            Span<double> before = off.AsSpan(2 * j * Measured, Measured), after = off.AsSpan(((2 * j) + 1) * Measured, Measured);
            double between = 2 * StepOf(j);
            if (before.Contains(double.NaN) != after.Contains(double.NaN))
            {
                if (here is null)
                    Off(u, 1, here = new double[Measured]);
                here.CopyTo(before.Contains(double.NaN) ? before : after);
                between = StepOf(j);
            }

            for (int i = 0; i < Measured; i++)
                slopes[(i * width) + j] = (after[i] - before[i]) / between;
        }

        return slopes;

        double StepOf(int number) => Layout.Numbers[number].Kind == FitNumberKind.Clock ? ClockStep : Step;
    }

    /// <summary>Logarithm of the density of readings, viscosities and scales, but for a constant.</summary>
    /// <param name="off">One row of <see cref="Off"/>.</param>
    /// <param name="scales">Scale of the noise of each series.</param>
    /// <param name="series">The series.</param>
    /// <param name="inflations">Factors by which readings that go together count less; null for none.</param>
    public double LogDensity(ReadOnlySpan<double> off, ReadOnlySpan<double> scales, TimedSeries[] series, double[]? inflations = null)
    {
        double log = 0;
        for (int s = 0; s < Places.Length; s++)
        {
            (int start, int count) = Places[s];
            double sum = 0;
            for (int i = start; i < start + count; i++)
                sum += StudentNoise.LogDensity(off[i], scales[s]);
            double far = Math.Log(scales[s] / QuantityFacts.Of(series[s].Quantity).Scatter) / StudentNoise.LogScaleSd;
            log += (sum / (inflations?[s] ?? 1)) - (0.5 * far * far);
        }

        for (int i = _read.Length; i < Measured; i++)
            log -= 0.5 * off[i] * off[i];
        return log;
    }

    private double ViscosityOff(ViscositySpot spot, ReadOnlySpan<double> values)
    {
        Honey honey = _question.Setup.Honey;
        double moisture = _moisture < 0 ? honey.Moisture.Percent : 100 * values[_moisture];
        double lot = _lot < 0 ? honey.LotFactor : values[_lot];
        double expected = HoneyProperties.OfNumbers(honey, moisture, lot).ViscosityPaS(spot.Temperature.Kelvins);
        return Math.Log(spot.Viscosity.PascalSeconds / expected) / spot.LogStandardDeviation;
    }

    private int Find(Straining.StrainingInput input)
    {
        for (int i = 0; i < Layout.Shared; i++)
        {
            if (Layout.Numbers[i].Input == input)
                return i;
        }

        return -1;
    }
}
