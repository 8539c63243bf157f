namespace FlowSim.OverflowRisk;

/// <summary>How many runs are spent on what (engineering choices; the answers say what they were found from).</summary>
/// <param name="question">The question.</param>
internal sealed class RiskEffort(RiskQuestion question)
{
    private const int LeastCounted = 1 << 10;
    private const int MostCounted = 1 << 17;
    private const int Absence = 1 << 15;
    private const int LeastAdvice = 1 << 12;
    private const int MostAdvice = 1 << 15;
    private const int MostFan = 1 << 11;
    private const int LeastDrivers = 1 << 11;
    private const int MostDrivers = 1 << 13;
    private const int RareAfter = 1 << 13;
    private const int LeastPerLevel = 100;
    private const int MostPerLevel = 500;

    private readonly int? _asked = question.Runs is { } runs ? RunDraws.Whole(runs) : null;

    /// <summary>Runs counted before the precision is looked at.</summary>
    public int FirstCounted => _asked ?? LeastCounted;

    /// <summary>Runs counted at most.</summary>
    public int LastCounted => _asked ?? MostCounted;

    /// <summary>
    /// Runs for the absence: the same for every tolerance, so that a smaller one never gives a longer absence.
    /// </summary>
    public int ForAbsence => Math.Min(_asked ?? Absence, RunTally.MostKept);

    /// <summary>Runs for each opening or interval that is tried: enough for 40 events at the tolerance.</summary>
    public int ForAdvice => AdviceRuns(question.Tolerance.DecimalFractions, _asked);

    /// <summary>Runs whose pond is drawn.</summary>
    public int ForFan => Math.Min(_asked ?? MostFan, MostFan);

    /// <summary>Points of each of the two sets that the indices of the drivers are made from: the more, the rarer the overflow; each costs as many runs as there are inputs, and two.</summary>
    /// <param name="chance">Chance of an overflow.</param>
    public int ForDrivers(double chance)
    {
        if (_asked is { } asked)
            return Math.Min(asked, LeastDrivers);
        double rarer = Math.Min(chance, 1 - chance);
        int enough = LeastDrivers;
        while (enough < MostDrivers && rarer >= RareOverflow.RareBelow && enough * rarer < 4 * Chance.FewestEvents)
            enough *= 2;
        return enough;
    }

    /// <summary>Points of each level of subset simulation in each replicate.</summary>
    public int PerLevel => Math.Clamp(_asked ?? MostPerLevel, LeastPerLevel, MostPerLevel);

    /// <summary>Counted runs after which an overflow that hardly shows is left to subset simulation.</summary>
    public int CountingGivesUpAfter => RareAfter;

    /// <summary>Runs for each opening that is tried at a tolerance.</summary>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <param name="asked">Runs asked for; null for none.</param>
    public static int AdviceRuns(double tolerance, int? asked)
    {
        int enough = LeastAdvice;
        while (enough < MostAdvice && enough < 4 * Chance.FewestEvents / tolerance)
            enough *= 2;
        return Math.Min(asked ?? enough, MostAdvice);
    }
}
