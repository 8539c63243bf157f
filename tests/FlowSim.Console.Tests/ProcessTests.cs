using System.Diagnostics;
using FlowSim.Commands;

namespace FlowSim.Console.Tests;

/// <summary>The program as a process whose streams are closed or full: the documented code, a message where there is somebody to read it, never a stack trace.</summary>
public class ProcessTests
{
    [Theory]
    [InlineData("strain -q >&-", ExitCode.FileTrouble, "cannot be written")]
    [InlineData("strain >/dev/full", ExitCode.FileTrouble, "cannot be written")]
    [InlineData("--help >&-", ExitCode.FileTrouble, "cannot be written")]
    [InlineData("strain --set a.b=1 2>&-", ExitCode.BadInput, "")]
    [InlineData("strain --set a.b=1 2>/dev/full", ExitCode.BadInput, "")]
    public void Closed_and_full_streams(string command, int code, string said)
    {
        if (!OperatingSystem.IsLinux())
            return;
        (int exit, string error) = Shell(command);
        Assert.Equal(code, exit);
        Assert.Contains(said, error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        Assert.DoesNotContain("Unhandled", error, StringComparison.Ordinal);
    }

    private static (int Code, string Error) Shell(string command)
    {
        string program = System.IO.Path.Combine(AppContext.BaseDirectory, "FlowSim.Console.dll");
        ProcessStartInfo start = new("/bin/sh", ["-c", $"dotnet \"{program}\" {command}"]) { UseShellExecute = false, RedirectStandardError = true, RedirectStandardOutput = true };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = process.StandardError.ReadToEnd();
        Assert.True(process.WaitForExit(120_000));
        Assert.NotNull(output.Result);
        return (process.ExitCode, error);
    }
}
