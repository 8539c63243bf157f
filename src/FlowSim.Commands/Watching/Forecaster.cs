using FlowSim.Attending;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Watching;

/// <summary>Makes forecasts beside the screen: the newest run counts, what is older is given up.</summary>
/// <param name="cancellation">Ends all.</param>
internal sealed class Forecaster(CancellationToken cancellation) : IDisposable
{
    private readonly Lock _lock = new();
    private CancellationTokenSource? _current;
    private RunForecast? _latest;
    private string? _trouble;
    private bool _busy;

    /// <summary>The newest forecast; null before the first.</summary>
    public RunForecast? Latest
    {
        get
        {
            lock (_lock)
                return _latest;
        }
    }

    /// <summary>Whether one is being made.</summary>
    public bool Busy
    {
        get
        {
            lock (_lock)
                return _busy;
        }
    }

    /// <summary>Why the last one failed; null when it did not.</summary>
    public string? Trouble
    {
        get
        {
            lock (_lock)
                return _trouble;
        }
    }

    /// <summary>Asks for a forecast.</summary>
    /// <param name="run">Run.</param>
    public void Ask(AttendedRun run)
    {
        CancellationTokenSource mine;
        RunForecast? before;
        lock (_lock)
        {
            _current?.Cancel();
            mine = _current = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            (_busy, before) = (true, _latest);
        }

        _ = Task.Run(() => Make(run, before, mine), CancellationToken.None);
    }

    public void Dispose()
    {
        lock (_lock)
            _current?.Cancel();
    }

    private void Make(AttendedRun run, RunForecast? before, CancellationTokenSource mine)
    {
        RunForecast? made = null;
        string? trouble = null;
        try
        {
            made = RunForecast.Of(run, before, mine.Token);
        }
        catch (OperationCanceledException)
        {
            return;
        }
        catch (Exception failed)
        {
            // Whatever it is, the watch goes on keeping readings.
            trouble = Printable.Of(failed.Message, 300);
        }

        lock (_lock)
        {
            if (_current != mine)
                return;
            (_latest, _trouble, _busy) = (made ?? _latest, trouble, false);
        }
    }
}
