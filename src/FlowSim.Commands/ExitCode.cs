namespace FlowSim.Commands;

/// <summary>What the process returns. Stated here once; help and documentation are made from <see cref="All"/>.</summary>
internal static class ExitCode
{
    public const int Done = 0;
    public const int Unexpected = 1;
    public const int BadInput = 2;
    public const int FileTrouble = 3;
    public const int HoneyRefused = 4;
    public const int RanOver = 10;
    public const int TargetMissed = 11;
    public const int NoSetpoint = 12;
    public const int AboveTolerance = 13;
    public const int NoFit = 14;
    public const int PlanConflicts = 15;
    public const int HungUp = 129;
    public const int Cancelled = 130;
    public const int Terminated = 143;

    /// <summary>Each code with its meaning.</summary>
    public static IReadOnlyList<(int Code, string Meaning)> All { get; } =
    [
        (Done, "a result was computed, whatever it says (but see 12, 14 and 15)"),
        (Unexpected, "the computation failed; please report it"),
        (BadInput, "bad usage, or something in the input is wrong"),
        (FileTrouble, "a file could not be read or written"),
        (HoneyRefused, "no trustworthy figures exist for this honey"),
        (RanOver, "with --fail-on-overflow: strainer or receiver ran over"),
        (TargetMissed, "with --fail-on-miss: the warming did not reach its targets"),
        (NoSetpoint, "setpoint: no setpoint meets the limits"),
        (AboveTolerance, "with --fail-above: the chance of an overflow is above the tolerance"),
        (NoFit, "fit: no fit was found"),
        (PlanConflicts, "plan: not everything can be done as asked"),
        (HungUp, "ended because its terminal was closed (SIGHUP)"),
        (Cancelled, "cancelled with Ctrl-C"),
        (Terminated, "ended by the system or by kill (SIGTERM)"),
    ];

    /// <summary>The codes as lines of help.</summary>
    public static string Help => "Exit codes:\n" + string.Join('\n', All.Select(entry => FormattableString.Invariant($"  {entry.Code,-4} {entry.Meaning}")));
}
