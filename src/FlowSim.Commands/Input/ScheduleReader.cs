using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input;

/// <summary>What all lists of steps have in common.</summary>
internal static class ScheduleReader
{
    /// <summary>Whether a list begins at 0 and goes on in time; says what is wrong if not.</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key.</param>
    /// <param name="list">The list as written.</param>
    /// <param name="timesS">Times of its entries, s.</param>
    /// <param name="first">A first step as it may be written.</param>
    /// <param name="second">A second one.</param>
    public static bool IsInOrder(Section section, Key key, InputValue list, IReadOnlyList<double> timesS, string first, string second)
    {
        if (timesS.Count == 0)
        {
            section.Wrong(key.Name, list.Spot, $"is an empty list; write [\"{first}\", \"{second}\"]");
            return false;
        }

        if (timesS[0] != 0)
        {
            section.Wrong(key.Name, list.Items[0].Spot, $"the first step is \"{Printable.Of(list.Items[0].Text)}\", but a schedule begins at 0 s, as in \"{first}\"");
            return false;
        }

        for (int i = 1; i < timesS.Count; i++)
        {
            if (timesS[i] > timesS[i - 1])
                continue;
            section.Wrong(key.Name, list.Items[i].Spot, $"\"{Printable.Of(list.Items[i].Text)}\" does not come later than \"{Printable.Of(list.Items[i - 1].Text)}\"; the times of a schedule increase");
            return false;
        }

        return true;
    }
}
