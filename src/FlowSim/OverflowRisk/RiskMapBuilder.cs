using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>Runs every cell of a map with the same draws.</summary>
internal static class RiskMapBuilder
{
    private const int RunsPerCell = 1024;

    /// <summary>Builds a map.</summary>
    /// <param name="question">The question, already checked.</param>
    /// <param name="openings">Openings.</param>
    /// <param name="temperatures">Temperatures.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancellation">Ends early.</param>
    public static RiskMap Build(
        RiskQuestion question,
        IReadOnlyList<Ratio> openings,
        IReadOnlyList<Temperature> temperatures,
        IProgress<double>? progress,
        CancellationToken cancellation)
    {
        var inputs = new SpreadInputs(RiskQuestionCheck.Inputs(question.Inputs, question.Setup), question.Correlations);
        int runs = RunDraws.Whole(question.Runs ?? RunsPerCell);
        var pass = new CountingPass(inputs, new EnsembleOptions { Threads = question.Threads }, question.Seed, question.MassThatMatters.Kilograms);
        var cells = new List<IReadOnlyList<RiskCell>>(temperatures.Count);
        foreach (Temperature temperature in temperatures)
        {
            var row = new List<RiskCell>(openings.Count);
            foreach (Ratio opening in openings)
            {
                StrainingSetup setup = question.Setup with { HoneyTemperature = temperature, Control = GateControl.LeaveAt(opening) };
                RunTally tally = pass.Run(setup, runs, cancellation, StrainingInputs.Opening, StrainingInputs.HoneyTemperature);
                row.Add(new RiskCell(tally.ChanceOf(tally.Overflow), tally.Drain.Spread(), tally.Strain.Spread()));
                progress?.Report((double)((cells.Count * openings.Count) + row.Count) / (openings.Count * temperatures.Count));
            }

            cells.Add(row);
        }

        return new RiskMap { Question = question, Openings = [.. openings], Temperatures = [.. temperatures], Cells = cells, RunsPerCell = runs };
    }
}
