using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input.Timed;

/// <summary>Turns the times of a column, row by row, into seconds since the opening of the gate.</summary>
/// <remarks>
/// Numbers and minutes since the opening count as they are. The time of day counts from the first row. It is taken for that under the heading
/// "clock", with am or pm, or where it begins at an hour or later, when no reading of a run would. It may pass midnight once: a fall of more than
/// half a day that leaves the whole within a day.
/// </remarks>
/// <param name="heading">Heading of the column.</param>
internal sealed partial class RunClock(RunHeading heading)
{
    private const double HourS = 3600;
    private const double HalfDayS = 12 * HourS;
    private const double DayS = 24 * HourS;

    private readonly List<string> _echoes = [];
    private TimeForm? _form = heading.Form;
    private bool _ofDay = heading.OfDay;
    private double _zeroS;
    private double _midnightS;
    private (double Seconds, CsvCell Cell)? _before;

    /// <summary>How times were read where that is not plain.</summary>
    public IReadOnlyList<string> Echoes => _echoes;

    /// <summary>Reads a time.</summary>
    /// <param name="cell">Cell.</param>
    /// <param name="seconds">Time, s.</param>
    /// <returns>Null, or what is wrong with it.</returns>
    public string? Read(CsvCell cell, out double seconds)
    {
        string text = cell.Text.Trim();
        bool clock = text.Contains(':', StringComparison.Ordinal);
        _form ??= clock ? TimeForm.HoursMinutes : TimeForm.Number;
        seconds = 0;
        if (clock != _form is not TimeForm.Number)
            return clock
                ? $"\"{Printable.Of(text)}\" is a time with a colon, but {(heading.Unit is { } unit ? $"the heading \"{heading.Shown}\" gives {unit.Symbol}" : "the rows above are numbers")}; write all times alike, under a heading such as \"time [min]\" or \"clock [h:mm]\""
                : $"\"{Printable.Of(text)}\" has no colon, but the times here are {(_form == TimeForm.MinutesSeconds ? "minutes and seconds, as in 4:30" : "hours and minutes, as in 1:05")}; write all times alike";
        string? wrong = clock ? ReadClock(text, out seconds) : ReadNumber(text, out seconds);
        return wrong ?? Advance(cell, ref seconds);
    }

    private string? ReadNumber(string text, out double seconds)
    {
        if (heading.Unit is { } unit)
        {
            string? wrong = NumberCell.Read(text, unit, out double value);
            seconds = value * unit.Factor;
            return wrong;
        }

        QuantityFault? fault = QuantityGrammar.Read(text, Dimension.Duration, out Quantity quantity);
        seconds = quantity.Si;
        return fault is null ? null : $"\"{Printable.Of(text)}\" {fault.What}; or give the unit once, in the heading, as in \"time [min]\"";
    }

    private string? ReadClock(string text, out double seconds)
    {
        seconds = 0;
        Match match = ClockTime().Match(text);
        bool half = match.Groups["half"].Success;
        int first = match.Success ? int.Parse(match.Groups["a"].Value, CultureInfo.InvariantCulture) : 0;
        int second = match.Success ? int.Parse(match.Groups["b"].Value, CultureInfo.InvariantCulture) : 0;
        double third = match.Groups["c"].Success ? double.Parse(match.Groups["c"].Value, CultureInfo.InvariantCulture) : 0;
        bool minutes = _form == TimeForm.MinutesSeconds;
        if (!match.Success || second > 59 || third >= 60 || (minutes && match.Groups["c"].Success) || (half && first is 0 or > 12))
            return $"\"{Printable.Of(text)}\" is not a time; write {(minutes ? "minutes and seconds, as in 4:30" : "hours and minutes, as in 1:05, or with seconds, 1:05:30")}";
        if (half)
            first = (first % 12) + (match.Groups["half"].Value is "p" or "P" ? 12 : 0);
        seconds = minutes ? (60 * first) + second : (HourS * first) + (60 * second) + third;
        if (_before is not null)
            return _ofDay && seconds >= DayS ? $"\"{Printable.Of(text)}\" is not a time of day; it ends at 23:59:59" : null;

        _ofDay |= !minutes && (half || seconds >= HourS);
        if (_ofDay && seconds >= DayS)
            return $"\"{Printable.Of(text)}\" is not a time of day; it ends at 23:59:59";
        _zeroS = _ofDay ? seconds : 0;
        string read = minutes ? "minutes and seconds since the opening of the gate"
            : _ofDay ? $"the time of day, counted from the first row, {Printable.Of(text)}"
            : "hours and minutes since the opening of the gate; for minutes and seconds write the heading \"time [m:ss]\"";
        _echoes.Add($"times such as \"{Printable.Of(text)}\" are read as {read}");
        return null;
    }

    /// <summary>Puts a time behind the one before it.</summary>
    private string? Advance(CsvCell cell, ref double seconds)
    {
        seconds += _midnightS - _zeroS;
        if (seconds < 0 && !_ofDay)
            return $"\"{Printable.Of(cell.Text.Trim())}\" lies before the opening of the gate; times begin at 0";
        if (_before is { } before && seconds < before.Seconds)
        {
            bool midnight = _ofDay && _midnightS == 0 && before.Seconds - seconds > HalfDayS && seconds < 0;
            if (!midnight)
                return $"time runs backwards: \"{Printable.Of(cell.Text.Trim())}\" follows \"{Printable.Of(before.Cell.Text.Trim())}\" of line {before.Cell.Line.ToString(CultureInfo.InvariantCulture)}{(_ofDay && before.Seconds - seconds <= HalfDayS ? "; a clock of 12 hours needs am or pm" : string.Empty)}";
            _midnightS = DayS;
            seconds += DayS;
            _echoes.Add(FormattableString.Invariant($"midnight passes between line {before.Cell.Line} and line {cell.Line}"));
        }

        _before = (seconds, cell);
        return null;
    }

    [GeneratedRegex(@"^(?<a>[0-9]{1,3}):(?<b>[0-9]{2})(:(?<c>[0-9]{2}(\.[0-9]{1,6})?))?\s*((?<half>[apAP])\.?[mM]\.?)?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex ClockTime();
}
