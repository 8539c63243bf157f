using FlowSim.Numerics.Ensemble;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Benches;

/// <summary>How fast many runs go, how far they err, what they allocate, and how near the machine's limit that is.</summary>
internal static class EnsembleMeasurement
{
    private const int ErrorRuns = 2000;
    private const int Rounds = 7;
    private static readonly int s_inputs = EnsembleDraws.Varied.Count;

    /// <summary>Prints all of it.</summary>
    /// <param name="most">Runs of the largest ensemble, at least 20 000.</param>
    public static void Run(int most)
    {
        double[] values = EnsembleDraws.Take(Math.Max(most, 20_000));
        Speed(values);
        Threads(values);
        Limit(values);
        Scaling(values);
    }

    /// <summary>Runs at 1e-5 on one thread, for a profiler.</summary>
    public static void Loop(TimeSpan length)
    {
        double[] values = EnsembleDraws.Take(ErrorRuns);
        var samples = new StrainingSample[ErrorRuns];
        StrainingEnsemble ensemble = EnsembleTiming.Of(LaneWidth.Widest, 1e-5);
        EnsembleTiming.WarmUp(ensemble, values, samples);
        long runs = 0;
        double processor = 0;
        var clock = System.Diagnostics.Stopwatch.StartNew();
        for (; clock.Elapsed < length; runs += ErrorRuns)
            processor += EnsembleTiming.Time(() => ensemble.Run(values, samples)).Processor;
        Console.WriteLine(Invariant($"{runs} runs, {processor / runs * 1e6:0.00} µs each."));
    }

    private static void Speed(double[] values)
    {
        EnsembleFigures[] reference = [.. EnsembleTiming.Reference(values, ErrorRuns).Select(EnsembleFigures.Of)];
        EnsembleFigures[] check = [.. EnsembleTiming.Reference(values, ErrorRuns, 1e-9).Select(EnsembleFigures.Of)];
        EnsembleError own = EnsembleError.Between(check, reference);
        Console.WriteLine(Invariant($"Reference: {ErrorRuns} runs one by one at 1e-10; those at 1e-9 differ by {own.MedianError:0.0e+0} (median), {own.WorstError:0.0e+0} (worst). {100.0 * reference.Count(f => double.IsFinite(f.FirstOverflowS)) / ErrorRuns:0.0} % run over."));
        Console.WriteLine("Processor time of a run on one thread, µs (median of interleaved rounds); error of the 95 % drain time.");
        Console.WriteLine($"{"rtol",-7}{"lanes",-10}{"µs",8}{"one by one = 1",16}{"median error",14}{"99 % below",12}{"overflow differs",18}");
        foreach (double tolerance in new[] { 1e-3, 1e-4, 1e-5, 1e-6, 1e-7 })
        {
            LaneWidth[] widths = [LaneWidth.OneByOne, LaneWidth.Two, LaneWidth.Four, LaneWidth.Eight];
            StrainingEnsemble[] ensembles = [.. widths.Select(width => EnsembleTiming.Of(width, tolerance))];
            StrainingSample[][] samples = [.. widths.Select(_ => new StrainingSample[ErrorRuns])];
            double[][] times = [.. widths.Select(_ => new double[Rounds])];
            for (int w = 0; w < widths.Length; w++)
                EnsembleTiming.WarmUp(ensembles[w], values, samples[w]);
            for (int round = 0; round < Rounds; round++)
            {
                for (int w = 0; w < widths.Length; w++)
                    times[w][round] = EnsembleTiming.Time(() => ensembles[w].Run(values.AsMemory(0, ErrorRuns * s_inputs), samples[w])).Processor / ErrorRuns * 1e6;
            }

            for (int w = 0; w < widths.Length; w++)
            {
                EnsembleError error = EnsembleError.Between([.. samples[w].Select(EnsembleFigures.Of)], reference);
                Console.WriteLine(Invariant($"{tolerance,-7:0e+0}{widths[w],-10}{EnsembleTiming.Median(times[w]),8:0.00}{EnsembleTiming.Median(times[0]) / EnsembleTiming.Median(times[w]),16:0.0}{error.MedianError,14:0.0e+0}{error.ErrorOf99Percent,12:0.0e+0}{error.OverflowDiffers,18}"));
            }
        }
    }

    private static void Threads(double[] values)
    {
        int all = Environment.ProcessorCount, count = Math.Min(100_000, values.Length / s_inputs);
        var samples = new StrainingSample[count];
        StrainingEnsemble one = EnsembleTiming.Of(LaneWidth.Widest, 1e-5), many = EnsembleTiming.Of(LaneWidth.Widest, 1e-5, all);
        double[] oneWall = new double[3], manyWall = new double[3], oneProcessor = new double[3], manyProcessor = new double[3];
        for (int round = 0; round < 3; round++)
        {
            (oneProcessor[round], oneWall[round]) = EnsembleTiming.Time(() => one.Run(values.AsMemory(0, count * s_inputs), samples));
            (manyProcessor[round], manyWall[round]) = EnsembleTiming.Time(() => many.Run(values.AsMemory(0, count * s_inputs), samples));
        }

        Console.WriteLine(Invariant($"{count} runs at 1e-5: 1 thread {EnsembleTiming.Median(oneWall):0.00} s wall, {EnsembleTiming.Median(oneProcessor):0.00} s processor; {all} threads {EnsembleTiming.Median(manyWall):0.00} s wall, {EnsembleTiming.Median(manyProcessor):0.00} s processor."));
    }

    /// <summary>Evaluations of the right-hand side inside an ensemble, against nothing but evaluations.</summary>
    private static void Limit(double[] values)
    {
        const int Count = 20_000;
        const double Tolerance = 1e-5;
        var parameters = new StrainingParameters(PlainPail.Setup);
        var lanes = new StrainingLanes<Lanes8>(parameters.Another());
        var counting = new CountingLanes<Lanes8>(lanes);
        double absolute = StrainingIntegration.AbsoluteShare * Tolerance;
        var integrator = new EnsembleIntegrator<CountingLanes<Lanes8>, Lanes8>(counting, Tolerance, absolute, LaneMethod.DormandPrince, 250);
        StrainingEnsemble ensemble = EnsembleTiming.Of(LaneWidth.Eight, Tolerance);
        var samples = new StrainingSample[Count];

        lanes.TakeAll(new EnsembleBatch(StrainingNumbers.Of(PlainPail.Setup), EnsembleDraws.Varied, values.AsMemory(0, Count * s_inputs), samples, default, Tolerance, null, CancellationToken.None));
        integrator.Run(CancellationToken.None);
        long asked = counting.Derivatives + counting.WithEvents + counting.EventsAlone;
        long tried = integrator.Steps + integrator.RejectedSteps;

        EnsembleTiming.WarmUp(ensemble, values, samples);
        Lanes8[] y = new Lanes8[lanes.Dimension], dy = new Lanes8[lanes.Dimension];
        double[] state = [18, 5, 3.5, 307.5, 306.9, 304, 0.97];
        for (int i = 0; i < y.Length; i++)
            y[i] = Lanes8.Of(state[i]);
        double[] inside = new double[Rounds], bare = new double[Rounds];
        const int Bare = 400_000;
        for (int round = -2; round < Rounds; round++)
        {
            double a = EnsembleTiming.Time(() => ensemble.Run(values.AsMemory(0, Count * s_inputs), samples)).Processor;
            double b = EnsembleTiming.Time(() =>
            {
                for (int i = 0; i < Bare; i++)
                    lanes.Derivative(Lanes8.Of(50 + (1e-6 * i)), y, dy);
            }).Processor;
            if (round >= 0)
                (inside[round], bare[round]) = (a, b);
        }

        double perRun = EnsembleTiming.Median(inside) / Count, perEvaluation = EnsembleTiming.Median(bare) / Bare;
        Console.WriteLine(Invariant($"At 1e-5 a run tries {(double)tried / Count:0.0} steps ({100.0 * integrator.RejectedSteps / tried:0.0} % in vain). Registers of 8 evaluated a run: {(double)asked / Count:0.0}, of them {(double)counting.Derivatives / Count:0.0} rates alone, {(double)counting.WithEvents / Count:0.0} rates and events, {(double)counting.EventsAlone / Count:0.0} events alone."));
        Console.WriteLine(Invariant($"Busy lanes: {100.0 * tried / (8.0 * counting.Derivatives / 5):0} % (steps tried over lanes stepped, at 5 rates alone a step; those of starts count as idle)."));
        Console.WriteLine(Invariant($"Bare right-hand side: {perEvaluation * 1e9:0.0} ns a register, {8e-6 / perEvaluation:0} million a second. Inside: {8e-6 * asked / Count / perRun:0} million a second, {100 * asked / Count * perEvaluation / perRun:0} % of the limit."));
        Console.WriteLine();
    }

    private static void Scaling(double[] values)
    {
        Console.WriteLine("Runs at 1e-5, one thread: the first batch of a new ensemble, and the second.");
        Console.WriteLine($"{"runs",9}{"µs a run",10}{"allocated, kB",15}{"again, µs a run",17}{"again, bytes",14}{"working set, MB",17}");
        for (int count = 100; count <= values.Length / s_inputs; count *= 10)
        {
            var samples = new StrainingSample[count];
            long before = GC.GetTotalAllocatedBytes(true);
            StrainingEnsemble ensemble = EnsembleTiming.Of(LaneWidth.Widest, 1e-5);
            ReadOnlyMemory<double> mine = values.AsMemory(0, count * s_inputs);
            double first = EnsembleTiming.Time(() => ensemble.Run(mine, samples)).Processor;
            long after = GC.GetTotalAllocatedBytes(true);
            double second = EnsembleTiming.Time(() => ensemble.Run(mine, samples)).Processor;
            long last = GC.GetTotalAllocatedBytes(true);
            Console.WriteLine(Invariant($"{count,9}{first / count * 1e6,10:0.00}{(after - before) / 1e3,15:0}{second / count * 1e6,17:0.00}{last - after,14}{Environment.WorkingSet / 1e6,17:0}"));
        }
    }
}
