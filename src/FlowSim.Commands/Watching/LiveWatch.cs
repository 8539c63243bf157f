using System.Collections.Concurrent;
using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Commands.Output;
using UnitsNet;

namespace FlowSim.Commands.Watching;

/// <summary>A watch on a terminal: keys in, a screen that keeps itself up to date, the fit beside it.</summary>
internal sealed class LiveWatch
{
    /// <summary>Longest wait for a key before the screen is looked at again.</summary>
    private static readonly TimeSpan s_tick = TimeSpan.FromSeconds(0.2);

    private readonly WatchSession _session;
    private readonly Forecaster _forecaster;
    private readonly LiveScreen _screen;
    private readonly Display _display;
    private readonly bool _sound;
    private readonly LineEditor _editor = new();
    private readonly HashSet<(NextActionKind Kind, long At)> _rung = [];

    /// <summary>Prepares a watch.</summary>
    /// <param name="session">Session.</param>
    /// <param name="forecaster">Makes the forecasts.</param>
    /// <param name="screen">Screen.</param>
    /// <param name="display">Units.</param>
    /// <param name="sound">Whether the bell rings when something is due.</param>
    public LiveWatch(WatchSession session, Forecaster forecaster, LiveScreen screen, Display display, bool sound) =>
        (_session, _forecaster, _screen, _display, _sound) = (session, forecaster, screen, display, sound);

    /// <summary>Watches until somebody quits.</summary>
    /// <param name="keys">Keys; null when there will be no more.</param>
    /// <param name="begin">What is said first.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <returns>The code of the process.</returns>
    public int Run(BlockingCollection<ConsoleKeyInfo?> keys, IReadOnlyList<ScreenLine> begin, CancellationToken cancellation)
    {
        _forecaster.Ask(_session.Run);
        List<ScreenLine> said = [.. begin];
        int? code = null;
        while (code is null)
        {
            Ring();
            _screen.Draw(said, Block(), _editor.Text);
            said.Clear();
            try
            {
                for (bool any = keys.TryTake(out ConsoleKeyInfo? key, (int)s_tick.TotalMilliseconds, cancellation); any && code is null; any = keys.TryTake(out key))
                {
                    if (key is null)
                        code = ExitCode.Done;
                    else if (_editor.Take(key.Value) is { } line && !Handle(line, said))
                        code = ExitCode.Done;
                }
            }
            catch (OperationCanceledException)
            {
                code = ExitCode.Cancelled;
            }
        }

        _screen.Draw(said, Block(), _editor.Text);
        _screen.End();
        return code.Value;
    }

    /// <summary>Takes a line.</summary>
    /// <returns>Whether to go on.</returns>
    private bool Handle(string line, List<ScreenLine> said)
    {
        Reply reply = line.Trim().Length == 0 && !_session.IsOpened ? _session.Take("open") : _session.Take(line);
        if (line.Trim().Length > 0)
            said.Add(new ScreenLine("> " + Printable.Of(line.Trim(), 100)));
        if (reply.Said.Length > 0)
            said.Add(new ScreenLine("  " + reply.Said, reply.Refused ? Tone.Soon : Tone.Plain));
        switch (reply.Word)
        {
            case WatchWord.Quit:
                return false;
            case WatchWord.Help:
                said.AddRange(_session.Grammar.Help.Select(one => new ScreenLine("  " + one)));
                break;
            case WatchWord.Why when _forecaster.Latest is { } forecast:
                said.AddRange(Text().Reasons(OutlookOf(forecast)));
                break;
            default:
                break;
        }

        if (reply.Changed)
            _forecaster.Ask(_session.Run);
        return true;
    }

    private OutlookText Text() => new(_display, _session.IsOpened ? _session.OpenedAt : null, _session.Zone);

    private RunOutlook OutlookOf(RunForecast forecast) => forecast.At(Duration.FromSeconds(Math.Max(_session.ElapsedS, forecast.Run.LastEntry.Seconds)));

    private List<ScreenLine> Block()
    {
        string busy = _forecaster.Busy ? ", re-estimating" : string.Empty;
        List<ScreenLine> lines =
        [
            new(string.Empty),
            new(_session.IsOpened
                ? $"{Display.Time(Math.Floor(_session.ElapsedS))} since the gate was opened at {_session.Moment(_session.OpenedAt)}{busy}"
                : $"The gate is shut. Type \"open\", or press Enter, at the moment it is opened{busy}.", _session.IsOpened ? Tone.Plain : Tone.Next),
        ];
        if (_forecaster.Trouble is { } trouble)
            lines.Add(new ScreenLine("NOTE  no outlook: " + trouble, Tone.Soon));
        if (_forecaster.Latest is { } forecast)
            lines.AddRange(Text().Lines(OutlookOf(forecast)));
        lines.Add(new ScreenLine("type  " + _session.Grammar.Hint));
        return lines;
    }

    private void Ring()
    {
        if (!_sound || !_session.IsOpened || _forecaster.Latest is not { } forecast)
            return;
        foreach (NextAction action in OutlookOf(forecast).NextActions.Where(action => action.At.Seconds <= _session.ElapsedS))
        {
            if (_rung.Add((action.Kind, (long)action.At.Seconds)))
                _screen.Ring();
        }
    }
}
