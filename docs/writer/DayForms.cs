using System.Text.Json.Nodes;
using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;
using FlowSim.Planning;

namespace FlowSim.Docs;

/// <summary>What each key of a day takes.</summary>
internal static class DayForms
{
    private const string Time = $@"[0-9]{{1,2}}:[0-9]{{2}}{Patterns.Blank}(?:[apAP]\.?[mM]\.?)?";
    private const string Date = "[0-9]{4}-[0-9]{2}-[0-9]{2}";

    private static readonly Form s_time = Form.Grammar("a time of day, `\"07:30\"` or `\"7:30 am\"`", Time);
    private static readonly Form s_moment = Form.Grammar("a time of day, or a date and one: `\"2026-03-13 15:00\"`", $@"(?:{Date}[T ]{Patterns.Blank})?{Time}");
    private static readonly Form s_duration = Form.Quantity(Dimension.Duration);

    private static readonly Dictionary<Key, Form> s_own = new()
    {
        [DayKeys.Day.Date] = Form.Grammar("a date, `\"2026-03-14\"`", Date),
        [DayKeys.Day.Begin] = s_moment,
        [DayKeys.Day.Opens] = s_time,
        [DayKeys.Day.Closes] = s_time,
        [DayKeys.Day.Pace] = Form.Word(Words.All<Pace>()),
        [DayKeys.Person.From] = s_time,
        [DayKeys.Person.To] = s_time,
        [DayKeys.Person.Breaks] = Form.List(Form.Grammar("a span, `\"12:00 to 12:30\"`", $@"{Time}{Patterns.Blank} to {Patterns.Blank}{Time}")),
        [DayKeys.Batch.Set] = Form.List(Form.AnyText, "a list of settings, each as after `--set`"),
        [DayKeys.Batch.Places] = Form.List(Form.AnyText, "a list of names of warming places"),
        [DayKeys.Batch.Earliest] = s_moment,
        [DayKeys.Batch.Due] = s_moment,
    };

    /// <summary>What a key takes.</summary>
    /// <param name="key">Key of a day.</param>
    public static Form Of(Key key)
    {
        if (s_own.TryGetValue(key, out Form? own))
            return own;
        return key.Kind switch
        {
            KeyKind.Quantity => Form.Quantity(key.Dimension!.Value),
            KeyKind.Number => Form.Number,
            KeyKind.Flag => Form.Flag,
            KeyKind.Text => Form.AnyText,
            KeyKind.QuantityOrList => Times(),
            _ => throw new InvalidOperationException($"{key} has no form in the documentation: add it to DayForms."),
        };
    }

    private static Form Times()
    {
        Form list = Form.List(s_duration);
        list.Schema["minItems"] = 1;
        list.Schema["maxItems"] = 3;
        return Form.Either(s_duration, list, Form.Grammar("none", DayKeys.None)) with { Text = "a time; or a list of a quick, a likely and a slow one; or `none`" };
    }
}
