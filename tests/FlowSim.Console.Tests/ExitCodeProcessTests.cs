using System.Diagnostics;
using System.Globalization;
using FlowSim.Commands;

namespace FlowSim.Console.Tests;

/// <summary>Every code that the program returns, by a real process that returns it.</summary>
public sealed class ExitCodeProcessTests : IDisposable
{
    /// <summary>A way to each code but those of signals, which <see cref="SignalTests"/> reaches.</summary>
    private static readonly (int Code, string Line)[] s_ways =
    [
        (ExitCode.Done, "kit"),
        (ExitCode.Unexpected, "warm --set run.radial_cells=2 --set run.axial_cells=2 --set until.longest=60d --set until.hold=60d --set thermostat.hysteresis=0.00001K"),
        (ExitCode.BadInput, "strain --set gate.bore=1mm"),
        (ExitCode.FileTrouble, "strain none.toml"),
        (ExitCode.HoneyRefused, "strain --set honey.form=gelling"),
        (ExitCode.RanOver, "strain --fail-on-overflow"),
        (ExitCode.TargetMissed, "warm --set until.longest=1h --fail-on-miss"),
        (ExitCode.NoSetpoint, "setpoint --set limits.hmf=0.001mg/kg"),
        (ExitCode.AboveTolerance, "risk --runs 1024 --fail-above"),
        (ExitCode.NoFit, "fit odd.csv --batch batch.toml --no-sampler"),
        (ExitCode.PlanConflicts, "plan late.toml"),
    ];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("flowsim-test-");

    public static TheoryData<int, string> Ways
    {
        get
        {
            TheoryData<int, string> ways = [];
            foreach ((int code, string line) in s_ways)
                ways.Add(code, line);
            return ways;
        }
    }

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void No_code_is_left_out() => Assert.Equal(
        ExitCode.All.Select(entry => entry.Code).Order(),
        s_ways.Select(way => way.Code).Concat(SignalTests.Codes).Distinct().Order());

    [Theory]
    [MemberData(nameof(Ways))]
    public void It_is_returned(int code, string line)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "FlowSim.Console.dll"), .. line.Split(' ')])
        {
            WorkingDirectory = _folder.FullName,
            UseShellExecute = false,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = process.StandardError.ReadToEnd();
        Assert.True(process.WaitForExit(120_000));
        Assert.True(process.ExitCode == code, string.Create(CultureInfo.InvariantCulture, $"{process.ExitCode}: {error}{output.Result}"));
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }
}
