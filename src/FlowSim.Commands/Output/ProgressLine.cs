using System.Globalization;

namespace FlowSim.Commands.Output;

/// <summary>One line that says how far a long computation is. It comes after a second, is written over, and is gone at the end.</summary>
internal sealed class ProgressLine : IProgress<double>, IDisposable
{
    private static readonly TimeSpan s_after = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan s_every = TimeSpan.FromSeconds(0.25);

    private readonly Lock _lock = new();
    private readonly Surroundings _around;
    private readonly string _what;
    private readonly TimeProvider _clock;
    private readonly long _start;
    private readonly ITimer? _timer;
    private double _share = double.NaN;
    private int _written;
    private bool _over;

    /// <summary>Begins, if there is a terminal to write on.</summary>
    /// <param name="around">Surroundings.</param>
    /// <param name="what">What is being done, in a few words.</param>
    /// <param name="clock">Time; null for that of the system.</param>
    public ProgressLine(Surroundings around, string what, TimeProvider? clock = null)
    {
        _around = around;
        _what = what;
        _clock = clock ?? TimeProvider.System;
        _start = _clock.GetTimestamp();
        if (around.ShowsProgress)
            _timer = _clock.CreateTimer(_ => Show(), null, s_after, s_every);
    }

    /// <summary>Tells the share that is done.</summary>
    /// <param name="value">Share, 0 to 1.</param>
    public void Report(double value) => Volatile.Write(ref _share, value);

    /// <summary>Ends, and takes the line away.</summary>
    public void Dispose()
    {
        lock (_lock)
        {
            _over = true;
            _timer?.Dispose();
            if (_written > 0)
                Write("\r" + new string(' ', _written) + "\r");
        }
    }

    private void Show()
    {
        lock (_lock)
        {
            if (_over)
                return;
            double share = Volatile.Read(ref _share);
            string done = double.IsFinite(share) ? string.Create(CultureInfo.InvariantCulture, $", {Math.Clamp(share, 0, 1) * 100:0} %") : string.Empty;
            string line = $"{_what}{done}, {Display.Time(Math.Floor(_clock.GetElapsedTime(_start).TotalSeconds))}";
            if (line.Length >= _around.Width)
                line = line[..(_around.Width - 1)];
            Write("\r" + line.PadRight(_written));
            _written = Math.Max(_written, line.Length);
        }
    }

    private void Write(string text)
    {
        _around.Error.Write(text);
        _around.Error.Flush();
    }
}
