using System.Diagnostics;
using System.Globalization;
using FlowSim.Commands;

namespace FlowSim.Console.Tests;

/// <summary>The program interrupted at any moment: it ends soon and says how, and every file that is there is whole.</summary>
public sealed class SignalTests : IDisposable
{
    /// <summary>Commands with the files that they write.</summary>
    private static readonly (string Line, string[] Files)[] s_runs =
    [
        ("strain --csv run.csv --plot run.svg --report run.html", ["run.csv", "run.svg", "run.html"]),
        ("warm --csv warm.csv --plot warm.svg --map map.svg --damage damage.svg --report warm.html", ["warm.csv", "warm.svg", "map.svg", "damage.svg", "warm.html"]),
        ("plan --csv day.csv --plot day.svg --report day.html", ["day.csv", "day.svg", "day.html"]),
        ("fit pail.csv --batch batch.toml --no-sampler --save-as learnt.toml --csv residuals.csv --plot fit.svg", ["learnt.toml", "residuals.csv", "fit.svg"]),
    ];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("flowsim-test-");

    /// <summary>Signals that are taken over, each with its code.</summary>
    private static readonly (string Signal, int Code)[] s_signals = [("INT", ExitCode.Cancelled), ("TERM", ExitCode.Terminated), ("HUP", ExitCode.HungUp)];

    /// <summary>Codes that this class reaches.</summary>
    internal static IEnumerable<int> Codes => s_signals.Select(signal => signal.Code);

    public static TheoryData<int, string, int> Cases
    {
        get
        {
            TheoryData<int, string, int> cases = [];
            for (int run = 0; run < s_runs.Length; run++)
            {
                foreach ((string signal, int code) in s_signals.Where(signal => run == 0 || signal.Signal != "HUP"))
                    cases.Add(run, signal, code);
            }

            return cases;
        }
    }

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [MemberData(nameof(Cases))]
    public void It_ends_in_good_order(int run, string signal, int code)
    {
        if (!OperatingSystem.IsLinux() || IsIgnoredHere(signal))
            return;
        (string line, string[] files) = s_runs[run];
        Prepare();
        TimeSpan whole = Run(line, signal: null, after: default).Took;
        Dictionary<string, byte[]> written = files.ToDictionary(name => name, name => File.ReadAllBytes(PathOf(name)), StringComparer.Ordinal);
        int interrupted = 0;
        Random moments = new(run);

        // Four moments; more while all came too late, as they do when the first run was held up by others: the last whole run says how long one takes.
        for (int i = 0; i < 4 || (interrupted == 0 && i < 40); i++)
        {
            foreach (string name in files)
                File.Delete(PathOf(name));
            (int exit, string error, TimeSpan took) = Run(line, signal, whole * moments.NextDouble());

            // A signal that comes before the program has taken it over ends it with the same code, which is 128 and the signal's number.
            Assert.True(exit == code || exit == ExitCode.Done, string.Create(CultureInfo.InvariantCulture, $"{exit}: {error}"));
            Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
            if (exit != ExitCode.Done)
                interrupted++;
            else
                whole = took;
            string[] there = [.. _folder.GetFiles().Select(file => file.Name).Except(["pail.csv", "batch.toml"])];
            Assert.Empty(there.Except(files));
            Assert.All(there, name => Assert.Equal(written[name], File.ReadAllBytes(PathOf(name))));
            Assert.True(exit != ExitCode.Done || there.Length == files.Length);
        }

        Assert.True(interrupted > 0, "no run was interrupted");
    }

    /// <summary>Whether this process was started with the signal ignored, as a shell starts what runs behind it: what it starts ignores it too, and should.</summary>
    private static bool IsIgnoredHere(string signal)
    {
        const string Ignored = "SigIgn:";
        int number = signal switch { "HUP" => 1, "INT" => 2, _ => 15 };
        string mask = File.ReadLines("/proc/self/status").First(line => line.StartsWith(Ignored, StringComparison.Ordinal))[Ignored.Length..].Trim();
        return (ulong.Parse(mask, NumberStyles.HexNumber, CultureInfo.InvariantCulture) >> (number - 1) & 1) != 0;
    }

    /// <summary>What cannot be taken over may leave a temporary file, and never half a target.</summary>
    [Fact]
    public void Killed_the_target_is_as_it_was()
    {
        if (!OperatingSystem.IsLinux())
            return;
        Prepare();
        string target = PathOf("run.csv");
        const string Line = "strain --csv run.csv --set run.points=20000 --force";
        TimeSpan whole = Run(Line, signal: null, after: default).Took;
        string written = File.ReadAllText(target);
        Random moments = new(1);
        for (int i = 0; i < 6; i++)
        {
            File.WriteAllText(target, "mine");
            Run(Line, "KILL", whole * moments.NextDouble());
            string there = File.ReadAllText(target);
            Assert.True(there == "mine" || there == written);
        }
    }

    private string PathOf(string name) => Path.Combine(_folder.FullName, name);

    private void Prepare()
    {
        File.WriteAllText(PathOf("pail.csv"), "# gate.opening = \"20 %\"\ntime [min],tank level [mm],receiver mass [kg]\n0,293,0.00\n0.5,247,1.25\n1,204,3.90\n1.5,170,7.00\n2,141,9.90\n3,94,14.85\n4,61,18.60\n5,40,21.15\n");
        Run("new batch.toml", signal: null, after: default);
    }

    private (int Code, string Error, TimeSpan Took) Run(string line, string? signal, TimeSpan after)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "FlowSim.Console.dll"), .. line.Split(' ')])
        {
            WorkingDirectory = _folder.FullName,
            UseShellExecute = false,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        var clock = Stopwatch.StartNew();
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        if (signal is not null && !process.WaitForExit(after))
        {
            using var kill = Process.Start("kill", ["-" + signal, process.Id.ToString(CultureInfo.InvariantCulture)]);
            kill.WaitForExit();
        }

        // A guard against hanging, no statement about speed.
        if (!process.WaitForExit(120_000))
        {
            process.Kill();
            Assert.Fail("the program hangs: " + line);
        }

        Assert.NotNull(output.Result);
        return (process.ExitCode, error.Result, clock.Elapsed);
    }
}
