using System.Text.Json;

namespace FlowSim.Mutation;

/// <summary>Which changes a test comes to.</summary>
/// <param name="Name">The test.</param>
/// <param name="Seconds">How long it took while that was noted.</param>
/// <param name="Changes">The changes.</param>
internal sealed record TestCoverage(string Name, double Seconds, int[] Changes);

/// <summary>Which changes are come to.</summary>
/// <param name="AtStart">Those in what a process makes once, before any test.</param>
/// <param name="Tests">Those of each test that passes without any change.</param>
internal sealed record Coverage(int[] AtStart, TestCoverage[] Tests)
{
    private static readonly TimeSpan s_longest = TimeSpan.FromMinutes(5);

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static Coverage Read(string file) => JsonSerializer.Deserialize<Coverage>(File.ReadAllText(file))!;

    /// <summary>Writes it to a file.</summary>
    public void Write(string file) => File.WriteAllText(file, JsonSerializer.Serialize(this));

    /// <summary>Runs tests one at a time and notes what they come to.</summary>
    /// <param name="laboratory">Library and tests.</param>
    /// <param name="wanted">The tests to run.</param>
    /// <param name="known">What is known of the others.</param>
    public static Coverage Of(Laboratory laboratory, Func<string, bool> wanted, Coverage? known)
    {
        List<TestCoverage> tests = [.. (known?.Tests ?? []).Where(test => laboratory.Tests.Has(test.Name) && !wanted(test.Name))];
        foreach (string name in laboratory.Tests.Names.Where(wanted))
        {
            laboratory.Switches.TakeHits();
            long start = TimeProvider.System.GetTimestamp();
            (string? failed, Task work) = laboratory.Tests.Run([name], s_longest);
            if (!work.IsCompleted || failed is not null)
                Console.WriteLine($"fails without any change and is left out: {name}");
            else
                tests.Add(new(name, TimeProvider.System.GetElapsedTime(start).TotalSeconds, laboratory.Switches.TakeHits()));
        }

        return new Coverage(laboratory.AtStart, [.. tests]);
    }
}
