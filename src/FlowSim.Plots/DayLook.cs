using FlowSim.Planning;

namespace FlowSim.Plots;

/// <summary>How a task looks in the figure of a day: colour, pattern, letter.</summary>
/// <param name="Tasks">Tasks shown so.</param>
/// <param name="Letter">Letter.</param>
/// <param name="Words">What it is called.</param>
/// <param name="Hex">Colour of the bar.</param>
/// <param name="InkHex">Colour of words and pattern on it.</param>
/// <param name="Slant">Direction of the stripes: 0 none, 1 rising, -1 falling, 2 upright.</param>
internal sealed record DayLook(IReadOnlyList<PlanTask> Tasks, string Letter, string Words, string Hex, string InkHex, int Slant)
{
    private const float StripePx = 14;

    /// <summary>All looks, in the order that honey takes.</summary>
    public static IReadOnlyList<DayLook> All { get; } =
    [
        new([PlanTask.Warm], "W", "warm", "#F6C26B", "#000000", 0),
        new([PlanTask.Settle], "T", "settle", "#EFE3C2", "#000000", 1),
        new([PlanTask.Hold], "H", "held warm", "#FBEBD0", "#000000", 2),
        new([PlanTask.Strain], "S", "strain", "#0072B2", "#FFFFFF", 0),
        new([PlanTask.Stand], "B", "bubbles rise", "#D9ECF7", "#000000", -1),
        new([PlanTask.Fill], "F", "fill", "#00694A", "#FFFFFF", 0),
        new([PlanTask.CleanStrainer, PlanTask.CleanTank], "C", "clean", "#C9C9C9", "#000000", 1),
    ];

    public bool HasPattern => Slant != 0;

    public static DayLook Of(PlanTask task) => All.First(look => look.Tasks.Contains(task));

    public bool Shows(PlanEntry entry) => Tasks.Contains(entry.Task);

    /// <summary>The stripes of a bar, cut to it.</summary>
    public List<(float X1, float Y1, float X2, float Y2)> Pattern(float left, float top, float right, float bottom)
    {
        List<(float, float, float, float)> stripes = [];
        float height = bottom - top;
        if (Slant == 0)
            return stripes;
        for (float x = left - (Slant == 2 ? 0 : height) + StripePx; x < right; x += StripePx)
        {
            if (Slant == 2)
            {
                stripes.Add((x, top, x, bottom));
                continue;
            }

            float from = Math.Max(x, left);
            float to = Math.Min(x + height, right);
            if (to <= from)
                continue;
            float yFrom = Slant > 0 ? bottom - (from - x) : top + (from - x);
            float yTo = Slant > 0 ? bottom - (to - x) : top + (to - x);
            stripes.Add((from, yFrom, to, yTo));
        }

        return stripes;
    }
}
