using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>
/// Which single measurement would narrow a prediction most. Of each that could be made, the answer is computed in every run of the prediction and blurred by its error; what is then left
/// of the variance of the prediction, on average over the answers, is the expected variance given the answer, found by sorting the runs by it.
/// </summary>
internal static class MeasurementChoice
{
    /// <summary>Classes of equal size that the runs are sorted into: each large enough for a variance.</summary>
    private const int Classes = 32;

    /// <summary>Fewest runs that must and must not run over for anything to be said of overflows.</summary>
    private const int LeastRuns = 20;

    /// <summary>Head at which a jar is filled in the measurement through the gate, Pa (engineering choice): 0.3 m of honey.</summary>
    private const double JarPressurePa = 4000;

    private delegate double Reading(PredictionDraws draws, int run);

    /// <summary>The measurements, most useful for the time first.</summary>
    /// <param name="draws">Runs of the prediction.</param>
    public static IReadOnlyList<NextMeasurement> Rank(PredictionDraws draws)
    {
        double[] times = draws.LogTimes, overflows = draws.Overflows;
        double over = overflows.Sum();
        bool undecided = over >= LeastRuns && PredictionDraws.Count - over >= LeastRuns;
        return
        [
            .. Candidates(draws)
                .Select(candidate => Judge(candidate, draws, times, undecided ? overflows : null))
                .OrderBy(next => next.TimeLeft),
        ];
    }

    private static NextMeasurement Judge(Candidate candidate, PredictionDraws draws, double[] times, double[]? overflows)
    {
        double[] answers = new double[PredictionDraws.Count];
        for (int i = 0; i < answers.Length; i++)
        {
            // The errors are the quantiles of a normal distribution in an order of their own: a fraction of the golden section.
            double place = ((i + 0.5) * 0.6180339887498949) % 1;
            answers[i] = candidate.Read(draws, i) + (candidate.Sd * MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, Math.Clamp(place, 1e-9, 1 - 1e-9)));
        }

        int[] order = [.. Enumerable.Range(0, answers.Length).OrderBy(i => answers[i])];
        return new NextMeasurement(candidate.What, candidate.How, Left(order, times), overflows is null ? null : Left(order, overflows));
    }

    /// <summary>Standard deviation left within the classes, as a share of the whole.</summary>
    private static double Left(int[] order, double[] values)
    {
        double mean = values.Average(), whole = values.Sum(v => (v - mean) * (v - mean)), within = 0;
        int each = order.Length / Classes;
        for (int c = 0; c < Classes; c++)
        {
            double sum = 0, squares = 0;
            for (int i = c * each; i < (c + 1) * each; i++)
            {
                double v = values[order[i]] - mean;
                sum += v;
                squares += v * v;
            }

            // Divided by one less than their number, as chance alone makes the classes differ.
            within += (squares - (sum * sum / each)) * each / (each - 1);
        }

        // Equal values differ from their mean by its rounding.
        return whole > 0 && values.Max() > values.Min() ? Math.Sqrt(Math.Clamp(within / whole, 0, 1)) : 1;
    }

    private static IEnumerable<Candidate> Candidates(PredictionDraws draws)
    {
        if (draws.Varies(StrainingInputs.LotFactor))
            yield return new("the viscosity of this honey", "a steel ball sinking through a jar of it, timed three times, its temperature to ± 0.5 °C: good to 6 %", LogViscosity, 0.06);
        if (draws.Varies(StrainingInputs.GateFactor))
            yield return new("the flow through this gate", "fill a weighed jar through the open gate with a clock, its temperature to ± 0.5 °C: good to 4 %", LogGateFlow, 0.04);
        if (draws.Varies(StrainingInputs.ScreenFactor))
            yield return new("the flow through this cloth", "time clean honey from the same tank falling through the clean cloth from a known depth: good to 5 %", LogClothFlow, 0.05);
        foreach ((StrainingInput input, string what, string how, double sd) in Direct())
        {
            if (draws.Varies(input))
                yield return new(what, how, (d, run) => d.Value(run, input), sd);
        }

        if (draws.Varies(StrainingInputs.DebrisLoad))
            yield return new("the debris", "strain a weighed sample through the same cloth and weigh what stays on it: good to 30 %", (d, run) => Math.Log(d.Value(run, StrainingInputs.DebrisLoad)), 0.3);
    }

    /// <summary>Inputs that are measured as such, with the standard deviation of doing it well (engineering choices).</summary>
    private static IEnumerable<(StrainingInput Input, string What, string How, double Sd)> Direct()
    {
        yield return (StrainingInputs.Moisture, "the moisture", "a refractometer with temperature correction, the mean of three drops: ± 0.1 %", 0.001);
        yield return (StrainingInputs.HoneyTemperature, "the honey's temperature", "a calibrated thermometer in the stirred tank: ± 0.3 °C", 0.3);
        yield return (StrainingInputs.Opening, "the opening of the gate", "a gauge between blade and bore, or a stop: ± 0.5 % of the bore", 0.005);
        yield return (StrainingInputs.TankLevel, "the level in the tank", "a rule held down inside the tank: ± 1 mm", 0.001);
        yield return (StrainingInputs.DebrisSize, "the size of the debris", "what a sample leaves on two sieves, weighed: ± 10 %", 0.00005);
        yield return (StrainingInputs.RoomTemperature, "the room's temperature", "a thermometer beside the tank: ± 0.5 °C", 0.5);
    }

    private static double LogViscosity(PredictionDraws draws, int run)
    {
        double viscosity = HoneyProperties.OfNumbers(draws.Setup.Honey, 100 * draws.Value(run, StrainingInputs.Moisture), draws.Value(run, StrainingInputs.LotFactor))
            .ViscosityPaS(draws.Setup.HoneyTemperature.Kelvins);
        return Math.Log(viscosity);
    }

    private static double LogGateFlow(PredictionDraws draws, int run)
    {
        Gate gate = draws.Setup.Gate with { Factor = draws.Value(run, StrainingInputs.GateFactor) };
        GateGeometry open = GateFlow.GeometryOf(gate, 1);
        double viscosity = Math.Exp(LogViscosity(draws, run)), density = HoneyDensity.DensityKgPerM3(100 * draws.Value(run, StrainingInputs.Moisture), draws.Setup.HoneyTemperature.Kelvins);
        return Math.Log(GateFlow.VolumeFlowM3PerS(JarPressurePa, viscosity * open.ViscousPerM3, density * open.InertialPerM4));
    }

    private static double LogClothFlow(PredictionDraws draws, int run) => LogViscosity(draws, run) + Math.Log(draws.Value(run, StrainingInputs.ScreenFactor));

    private sealed record Candidate(string What, string How, Reading Read, double Sd);
}
