using System.Diagnostics;
using System.Globalization;

namespace FlowSim.Mutation;

/// <summary>A <see cref="Worker"/> as seen from outside.</summary>
internal sealed class WorkerProcess : IDisposable
{
    /// <summary>A change that makes tests allocate without end ends there.</summary>
    private const string MostMemory = "0x100000000";

    private readonly Process _process;

    /// <summary>Starts one.</summary>
    /// <param name="words">How this program was called, after its verb.</param>
    /// <param name="active">The change that is on from its start.</param>
    public WorkerProcess(IEnumerable<string> words, int active)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!, ["exec", Path.Combine(AppContext.BaseDirectory, "FlowSim.Mutation.dll"), "worker", .. words, active.ToString(CultureInfo.InvariantCulture)])
        {
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = AppContext.BaseDirectory,
        };
        start.Environment["DOTNET_GCHeapHardLimit"] = MostMemory;
        _process = Process.Start(start)!;
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginErrorReadLine();
        using var late = new Timer(_ => Stop(), null, TimeSpan.FromMinutes(1), Timeout.InfiniteTimeSpan);
        Started = Worker.IsReady(_process.StandardOutput.ReadLine());
    }

    /// <summary>Whether it got as far as to ask for changes.</summary>
    public bool Started { get; }

    /// <summary>Tries a change on tests.</summary>
    public Verdict Try(int id, IEnumerable<int> tests)
    {
        try
        {
            _process.StandardInput.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{id} {string.Join(' ', tests)}"));
            _process.StandardInput.Flush();
            return Verdict.OfLine(_process.StandardOutput.ReadLine());
        }
        catch (IOException)
        {
            return Verdict.Ended;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Stop();
        _process.Dispose();
    }

    private void Stop()
    {
        try
        {
            _process.Kill(entireProcessTree: true);
        }
        catch (InvalidOperationException)
        {
            // It has ended by itself.
        }
    }
}
