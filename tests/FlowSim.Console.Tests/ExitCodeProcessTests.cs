using System.Diagnostics;
using System.Globalization;
using FlowSim.Commands;

namespace FlowSim.Console.Tests;

/// <summary>Every code that the program returns, by a real process that returns it.</summary>
public sealed class ExitCodeProcessTests : IDisposable
{
    /// <summary>
    /// A way to each code but those of signals, which <see cref="SignalTests"/> reaches, and <see cref="ExitCode.NoFit"/>, which a table leads to only when the search for
    /// a fit runs out of its evaluations, at which table may depend on the machine: a poor fit is told as one. The tests of the commands reach it with an invented answer.
    /// </summary>
    private static readonly (int Code, string Line)[] s_ways =
    [
        (ExitCode.Done, "kit"),
        (ExitCode.Unexpected, "warm --set run.radial_cells=2 --set run.axial_cells=2 --set until.longest=60d --set until.hold=59d --set thermostat.hysteresis=0.1K --set warming.power=5kW --set warming.body_heat_capacity=0.1kJ/K --set warming.loss_coefficient=10W/m2K --set warming.loss_area=2m2"),
        (ExitCode.BadInput, "strain --set gate.bore=1mm"),
        (ExitCode.FileTrouble, "strain none.toml"),
        (ExitCode.HoneyRefused, "strain --set honey.form=gelling"),
        (ExitCode.RanOver, "strain --fail-on-overflow"),
        (ExitCode.TargetMissed, "warm --set until.longest=1h --fail-on-miss"),
        (ExitCode.NoSetpoint, "setpoint --set limits.hmf=0.001mg/kg"),
        (ExitCode.AboveTolerance, "risk --runs 1024 --fail-above"),
        (ExitCode.PlanConflicts, "plan late.toml"),
    ];

    /// <summary>Three hours of straining for somebody who is there for one.</summary>
    private const string Late = """
        [day]
        date = "2026-03-14"
        [[person]]
        name = "A"
        from = "8:00"
        to = "9:00"
        [[strainer]]
        name = "cone"
        [[bottling_tank]]
        name = "tank"
        capacity = "40 L"
        [[batch]]
        name = "lime"
        strain = "3 h"
        volume = "20 L"
        fill = "1 h"
        """;

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
        s_ways.Select(way => way.Code).Concat(SignalTests.Codes).Append(ExitCode.NoFit).Distinct().Order());

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task It_is_returned(int code, string line)
    {
        File.WriteAllText(Path.Combine(_folder.FullName, "late.toml"), Late);
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "FlowSim.Console.dll"), .. line.Split(' ')])
        {
            WorkingDirectory = _folder.FullName,
            UseShellExecute = false,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = await process.StandardError.ReadToEndAsync();
        string said = await output;
        Assert.True(process.WaitForExit(120_000));
        Assert.True(process.ExitCode == code, string.Create(CultureInfo.InvariantCulture, $"{process.ExitCode}: {error}{said}"));
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }
}
