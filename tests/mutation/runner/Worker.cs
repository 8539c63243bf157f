using System.Globalization;

namespace FlowSim.Mutation;

/// <summary>Tries changes, in a process of its own: a line of input for each, a line of output for what came of it.</summary>
internal static class Worker
{
    private const string Ready = "ready";
    private static readonly TimeSpan s_slack = TimeSpan.FromSeconds(3);

    /// <summary>Answers <c>NUMBER TEST…</c>, tests by their places in the coverage, until the input ends.</summary>
    /// <param name="laboratory">Library and tests.</param>
    /// <param name="coverage">How long tests take.</param>
    /// <param name="always">The change that is on from the start to the end, or none.</param>
    /// <param name="answers">Where to write.</param>
    public static void Serve(Laboratory laboratory, Coverage coverage, int always, TextWriter answers)
    {
        Say(Ready);
        while (Console.In.ReadLine() is { } line)
        {
            int[] numbers = [.. line.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => int.Parse(word, CultureInfo.InvariantCulture))];
            if (always == Switches.None)
                laboratory.Switches.Active = numbers[0];
            Verdict verdict = Try(laboratory, [.. numbers.Skip(1).Select(place => coverage.Tests[place])]);
            if (always == Switches.None)
                laboratory.Switches.Active = Switches.None;
            Say(verdict.ToLine());
            if (verdict.WorkerIsLost)
                return;
        }

        void Say(string line)
        {
            answers.WriteLine(line);
            answers.Flush();
        }
    }

    /// <summary>Whether a worker is ready for changes.</summary>
    public static bool IsReady(string? line) => line == Ready;

    private static Verdict Try(Laboratory laboratory, TestCoverage[] tests)
    {
        // Few at first: most changes are noticed by the first tests that come to them.
        int most = 1;
        for (int next = 0; next < tests.Length; most = Math.Min(4 * most, 1000))
        {
            int from = next;
            double seconds = 0;
            for (; next < tests.Length && next - from < most && (next == from || seconds + tests[next].Seconds < 2); next++)
                seconds += tests[next].Seconds;
            (string? failed, Task work) = laboratory.Tests.Run(tests[from..next].Select(test => test.Name), s_slack + TimeSpan.FromSeconds(6 * seconds));
            if (failed is not null)
                return Verdict.NoticedBy(failed);
            if (!work.IsCompleted)
            {
                // With the change off again, what it kept from ending mostly ends.
                laboratory.Switches.Active = Switches.None;
                return Verdict.RanOn(!work.Wait(s_slack));
            }
        }

        return Verdict.NotNoticed;
    }
}
