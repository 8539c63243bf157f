namespace FlowSim.Mutation;

/// <summary>What came of a change, in the words of Stryker's report.</summary>
/// <param name="Status">Killed, Timeout, Survived or NoCoverage.</param>
/// <param name="By">What noticed it.</param>
/// <param name="WorkerIsLost">The process that tried it has to be left.</param>
internal sealed record Verdict(string Status, string? By = null, bool WorkerIsLost = false)
{
    /// <summary>All tests passed.</summary>
    public static Verdict NotNoticed { get; } = new("Survived");

    /// <summary>No test comes to it.</summary>
    public static Verdict NotReached { get; } = new("NoCoverage");

    /// <summary>The process came to its end: too deep a recursion, too much memory.</summary>
    public static Verdict Ended { get; } = new("Killed", "the process ended", true);

    /// <summary>Whether tests notice it.</summary>
    public bool IsNoticed => Status is "Killed" or "Timeout";

    /// <summary>A test failed.</summary>
    public static Verdict NoticedBy(string test) => new("Killed", test);

    /// <summary>Tests did not end in time.</summary>
    public static Verdict RanOn(bool stillRuns) => new("Timeout", null, stillRuns);

    /// <summary>For a line between processes.</summary>
    public string ToLine() => $"{Status} {(WorkerIsLost ? 1 : 0)} {By}";

    /// <summary>What <see cref="ToLine"/> wrote; nothing is the end of a process.</summary>
    public static Verdict OfLine(string? line) => line?.Split(' ', 3) is [string status, string lost, string by] ? new(status, by.Length > 0 ? by : null, lost == "1") : Ended;
}
