using FlowSim.Properties;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Settling;

/// <summary>What the user should know about a run: what was seen, what it may mean, what helps.</summary>
internal static class SettlingNotices
{
    /// <summary>Sizes above this many deviations of ln size over the median are few enough to leave out of the check on inertia: 1 % of the mass lies beyond.</summary>
    private const double LargeScore = 2.326;

    /// <summary>Change of the temperature from which the honey is told to stir itself, K (engineering choice).</summary>
    private const double StirsFromK = 3;

    /// <summary>Thickness of what has gathered, share of the depth, from which it is told to take room (engineering choice).</summary>
    private const double ThickShare = 0.1;

    public static IReadOnlyList<Notice> For(SettlingParameters p, SettlingResult result)
    {
        var notices = new List<Notice>();
        foreach (double temperatureK in new[] { p.StartK, p.ColdestK, p.HottestK })
            AddOnce(notices, RangeNotices(p.Honey, Temperature.FromKelvins(temperatureK)));
        AddClear(notices, p, result);
        AddStaying(notices, p, result);
        AddStirring(notices, p);
        AddInertia(notices, p);
        AddThick(notices, p, result);
        return notices;
    }

    /// <summary>Ranges of what a settling run uses: viscosity and density.</summary>
    private static IEnumerable<Notice> RangeNotices(HoneyProperties honey, Temperature temperature) =>
        honey.LineAt(HoneyProperty.Viscosity, temperature).Notices.Concat(honey.LineAt(HoneyProperty.Density, temperature).Notices);

    private static void AddClear(List<Notice> notices, SettlingParameters p, SettlingResult result)
    {
        if (result.ClearAfter is null)
        {
            notices.Add(new Notice(
                "settling.not-clear",
                Invariant($"not clear within {Days(p.EndS)}, as far ahead as was looked"),
                "the smallest bubbles and bits move too slowly in this honey",
                "warm it, take a shallower layer, or ask for less"));
        }
    }

    private static void AddStaying(List<Notice> notices, SettlingParameters p, SettlingResult result)
    {
        if (result.Debris is not { Direction: SettlingDirection.Stays })
            return;
        double debris = p.Matter[p.DebrisIndex!.Value].DensityKgPerM3;
        notices.Add(new Notice(
            "settling.buoyant",
            Invariant($"the debris, {debris:0} kg/m³, is within {SettlingParameters.BuoyantFromKgPerM3:0} kg/m³ of the honey or passes its density as the temperature changes, {p.Honey.DensityKgPerM3(p.HottestK):0} to {p.Honey.DensityKgPerM3(p.ColdestK):0} kg/m³"),
            "it neither rises nor sinks by much; it is counted as staying in the honey",
            "leave it to the strainer"));
    }

    private static void AddStirring(List<Notice> notices, SettlingParameters p)
    {
        (double coldest, double hottest) = p.WhileItStands;
        if (hottest - coldest < StirsFromK)
            return;
        notices.Add(new Notice(
            "settling.stirs",
            Invariant($"the honey's temperature moves by {hottest - coldest:0.0} K while it stands"),
            "honey that cools or warms at a wall moves and carries small bubbles back; the model has it still",
            "insulate or hold the tank at one temperature, and cover it"));
    }

    /// <summary>The hottest honey and the large sizes go fastest.</summary>
    private static void AddInertia(List<Notice> notices, SettlingParameters p)
    {
        double viscosity = p.Honey.ViscosityPaS(p.HottestK), density = p.Honey.DensityKgPerM3(p.HottestK);
        for (int kind = 0; kind < p.Matter.Length; kind++)
        {
            SuspendedMatter matter = p.Matter[kind];
            double size = matter.MedianM * Math.Exp(LargeScore * matter.SizeSpread);
            double reynolds = density * p.SpeedPerSizeSquared(kind, p.HottestK) * size * size * size / viscosity;
            if (StokesSphere.ReynoldsRange.NoticeFor(reynolds) is not { } notice)
                continue;
            AddOnce(notices, [notice with
            {
                MayMean = Invariant($"the largest, {1000 * size:0.0} mm, move more slowly than computed; they are gone first all the same"),
                Helps = "nothing, unless the sizes given are too large",
            }]);
        }
    }

    private static void AddThick(List<Notice> notices, SettlingParameters p, SettlingResult result)
    {
        foreach ((Deposit deposit, string where) in new[] { (result.Scum, "scum on top"), (result.Sediment, "deposit on the floor") })
        {
            double share = deposit.Thickness.Meters / p.DepthM;
            if (share < ThickShare)
                continue;
            notices.Add(new Notice(
                "settling.thick",
                Invariant($"the {where} is {deposit.Thickness.Millimeters:0} mm thick, {100 * share:0} % of the depth"),
                "it takes room from the honey below, which the model leaves out: the way is shorter than computed",
                "skim more than once"));
        }
    }

    private static void AddOnce(List<Notice> notices, IEnumerable<Notice> more)
    {
        foreach (Notice notice in more)
        {
            if (!notices.Exists(n => string.Equals(n.Code, notice.Code, StringComparison.Ordinal)))
                notices.Add(notice);
        }
    }

    private static string Days(double seconds) => seconds < 2 * 86400 ? Invariant($"{seconds / 3600:0.#} h") : Invariant($"{seconds / 86400:0.#} days");
}
