using System.Diagnostics;
using FlowSim.Commands;

namespace FlowSim.Console.Tests;

/// <summary>A disk that takes no more: the shell's limit on the size of a file stands for it, after which a write fails as it does on a full disk.</summary>
public sealed class FullDiskTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("flowsim-test-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("strain --csv out.csv", "out.csv")]
    [InlineData("strain --plot out.svg", "out.svg")]
    [InlineData("strain --plot out.png", "out.png")]
    [InlineData("strain --report out.html", "out.html")]
    [InlineData("new out.toml", "out.toml")]
    public void Nothing_half_written_is_left(string line, string name)
    {
        if (!OperatingSystem.IsLinux())
            return;
        string path = Path.Combine(_folder.FullName, name);
        Assert.Equal(ExitCode.FileTrouble, Run(line));
        Assert.Empty(_folder.GetFileSystemInfos());

        File.WriteAllText(path, "mine");
        Assert.Equal(ExitCode.FileTrouble, Run(line + " --force"));
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Single(_folder.GetFileSystemInfos());
    }

    private int Run(string line)
    {
        // 4 blocks of 1024 bytes; XFSZ is ignored, so that the write fails and the process goes on. The runtime maps its code twice through a file unless told not to.
        string shell = $"trap '' XFSZ; ulimit -f 4; DOTNET_EnableWriteXorExecute=0 exec dotnet \"{Path.Combine(AppContext.BaseDirectory, "FlowSim.Console.dll")}\" {line}";
        ProcessStartInfo start = new("/bin/bash", ["-c", shell]) { WorkingDirectory = _folder.FullName, UseShellExecute = false, RedirectStandardError = true, RedirectStandardOutput = true };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = process.StandardError.ReadToEnd();
        Assert.True(process.WaitForExit(120_000));
        Assert.NotNull(output.Result);
        Assert.Contains("cannot be written", error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        return process.ExitCode;
    }
}
