namespace FlowSim.OverflowRisk;

/// <summary>Finds how likely an overflow is and what keeps it within the tolerance.</summary>
public static class RiskAnalysis
{
    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told the share of the work that is done, 0 to 1.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the question is out of its range; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    public static RiskAnswer Of(RiskQuestion question, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        RiskQuestionCheck.Require(question);
        return new RiskStudy(question, progress, cancellation).Answer();
    }

    /// <summary>Chances and times over openings and temperatures.</summary>
    /// <remarks>A spread of the opening or the temperature is carried along: its median lies at the value of the cell.</remarks>
    /// <param name="question">The question; its opening and temperature are replaced, its runs are those of a cell, 1024 if it says none.</param>
    /// <param name="openings">Openings, 0 to 100 %, increasing; 1 to 100 of them.</param>
    /// <param name="temperatures">Temperatures of the honey at the start, increasing; 1 to 100 of them.</param>
    /// <param name="progress">Told the share of the work that is done, 0 to 1.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something is out of its range; the message names it.</exception>
    public static RiskMap Map(
        RiskQuestion question,
        IReadOnlyList<UnitsNet.Ratio> openings,
        IReadOnlyList<UnitsNet.Temperature> temperatures,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        RiskQuestionCheck.Require(question);
        RiskQuestionCheck.Axis(openings, opening => opening.Percent, 100, "%", nameof(openings));
        RiskQuestionCheck.Axis(temperatures, temperature => temperature.Kelvins, double.MaxValue, "K", nameof(temperatures));
        return RiskMapBuilder.Build(question, openings, temperatures, progress, cancellation);
    }
}
