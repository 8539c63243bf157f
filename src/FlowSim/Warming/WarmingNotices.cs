using FlowSim.Heating;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Warming;

/// <summary>What the user should know about a warming run: what was seen, what it may mean, what helps.</summary>
internal static class WarmingNotices
{
    /// <summary>A wall hotter than the probe by this is told, K (engineering choice).</summary>
    private const double WallAboveProbeK = 2;

    /// <summary>Share of the crystals from which they are told as left.</summary>
    private const double CrystalsLeftShare = TargetWatch.GoneBelow;

    /// <summary>Switchings per hour from which a heater is told to cycle fast (engineering choice).</summary>
    private const double ManySwitchingsPerHour = 30;

    /// <summary>Share of the whole surface that the body has to touch for the honey to be warmed evenly (engineering choice).</summary>
    private const double EvenlyWarmedShare = 0.5;

    public static IReadOnlyList<Notice> For(WarmingParameters p, WarmingResult result)
    {
        var notices = new List<Notice>();
        AddRanges(notices, p, result);
        AddShape(notices, p, result);
        AddEnding(notices, p, result);
        AddThermostat(notices, result);
        AddCrystals(notices, result);
        AddUneven(notices, p, result);
        return notices;
    }

    private static void AddRanges(List<Notice> notices, WarmingParameters p, WarmingResult result)
    {
        HoneyProperties honey = HoneyProperties.Of(result.Setup.Honey);
        Temperature start = result.Setup.StartTemperature;
        Temperature coldest = result.End.Coldest < start ? result.End.Coldest : start;
        foreach (Temperature temperature in new[] { coldest, result.HottestHoney })
        {
            Add(notices, honey.NoticesAt(temperature));
            Add(notices, honey.LineAt(HoneyProperty.ThermalConductivity, temperature).Notices);
        }

        if (p.Inside == InsideHeat.BestEstimate
            && FreeConvection.ClosedCylinderAspectRange.NoticeFor(p.Grid.HeightM / (2 * p.Grid.RadiusM)) is { } slender)
        {
            Add(notices, [slender]);
        }

        Add(notices, result.WorstDamage.Notices);
    }

    private static void AddShape(List<Notice> notices, WarmingParameters p, WarmingResult result)
    {
        if (result.Setup.Vessel.Shape is not UprightCylinder)
        {
            notices.Add(new Notice(
                "vessel.as-cylinder",
                Invariant($"the honey is taken as an upright cylinder of the same level and volume, {2000 * p.Grid.RadiusM:0} mm wide and {1000 * p.Grid.HeightM:0} mm high"),
                "a box has more surface and warms some 10 % sooner; a cone or a lying drum differs more",
                "hold the bounds, not the best estimate, against your own experience"));
        }
    }

    private static void AddEnding(List<Notice> notices, WarmingParameters p, WarmingResult result)
    {
        switch (result.Status)
        {
            case WarmingStatus.Overheated:
                notices.Add(new Notice(
                    "warming.overheated",
                    Invariant($"something got to {HoneyHeat.HottestK - Physical.ZeroCelsiusK:0} °C after {result.Elapsed.Hours:0.0} h, and the run was ended there"),
                    "honey at that wall or element is scorched long before",
                    "use less power, a cut-out, or a sensor where it gets hot"));
                break;
            case WarmingStatus.CutOut:
                notices.Add(new Notice(
                    "warming.cut-out",
                    Invariant($"the cut-out took the heater off after {result.CutOutAt!.Value.Hours:0.0} h, and the targets were not reached"),
                    "the cut-out is set below what the thermostat lets the heater reach",
                    "lower the setpoint, move the sensor nearer to the heater, or check the cut-out"));
                break;
            case WarmingStatus.TimeLimit when result.Setup.Targets.Count > 0:
                bool atFullPower = !p.Unlimited && result.Energy.Heater.Joules > 0.98 * p.HeaterW * result.Elapsed.Seconds;
                notices.Add(new Notice(
                    "warming.not-reached",
                    Invariant($"after {result.Elapsed.Hours:0.0} h the targets are not all reached: the mean is at {result.End.Mean.DegreesCelsius:0.0} °C, the coldest at {result.End.Coldest.DegreesCelsius:0.0} °C"),
                    atFullPower ? "the heater gave all it has the whole time" : "the honey is as warm as this setpoint and these losses let it get, or needs longer",
                    atFullPower ? "take a stronger heater, fewer vessels or more insulation" : "raise the setpoint, insulate, lower the target or wait longer"));
                break;
        }
    }

    private static void AddThermostat(List<Notice> notices, WarmingResult result)
    {
        double above = result.WallAboveProbe.Kelvins;
        if (above > WallAboveProbeK && result.Energy.Heater > Energy.Zero && result.HottestWall.Temperature > result.Setup.StartTemperature)
        {
            notices.Add(new Notice(
                "warming.wall-above-probe",
                Invariant($"the hottest wall was up to {above:0.0} K above what the probe felt; it got to {result.HottestWall.Temperature.DegreesCelsius:0.0} °C"),
                "honey at the wall is harmed while the thermostat sees nothing of it",
                "hold the wall's temperature, not the probe's, against your limit; put the sensor at the wall, use less power, or stir"));
        }

        double perHour = result.Switchings / Math.Max(0.1, result.Elapsed.Hours);
        if (perHour > ManySwitchingsPerHour)
        {
            notices.Add(new Notice(
                "warming.switches-often",
                Invariant($"the heater switches {perHour:0} times an hour"),
                "relays wear, and the figures for the body's heat capacity may be off",
                "use a larger hysteresis or less power"));
        }
    }

    private static void AddCrystals(List<Notice> notices, WarmingResult result)
    {
        if (result.Setup.Crystals is not { } crystals || result.CrystalsLeft.DecimalFractions <= CrystalsLeftShare * crystals.Share.DecimalFractions)
            return;

        notices.Add(new Notice(
            "warming.crystals-left",
            Invariant($"{result.CrystalsLeft.Percent:0.0} % of the honey is still crystals at the end"),
            "they blind the strainer, and seed the honey so that it sets again soon",
            Invariant($"these crystals are gone at {crystals.MeltTo.DegreesCelsius:0.#} °C; hold it warmer or longer, as far as your limits allow")));
    }

    private static void AddUneven(List<Notice> notices, WarmingParameters p, WarmingResult result)
    {
        if (p.Inside != InsideHeat.BestEstimate || result.End.Mean < result.Setup.StartTemperature)
            return;

        CylinderGrid grid = p.Grid;
        KitContacts contacts = p.Contacts;
        double side = 2 * Math.PI * grid.RadiusM * Math.Max(0, Math.Min(grid.HeightM, contacts.BodySideToM) - contacts.BodySideFromM);
        double floor = contacts.FloorFacesBody && contacts.Floor.Kind != FilmKind.None ? grid.EndAreaM2 : 0;
        double top = contacts.TopFacesBody && contacts.Top.Kind != FilmKind.None ? grid.EndAreaM2 : 0;
        double whole = 2 * Math.PI * grid.RadiusM * grid.HeightM + 2 * grid.EndAreaM2;
        if ((side + floor + top) / whole >= EvenlyWarmedShare)
            return;

        notices.Add(new Notice(
            "warming.uneven",
            p.Contacts.ElementRadiusM > 0
                ? "the honey is warmed from an element inside it"
                : Invariant($"the heater touches {100 * (side + floor + top) / whole:0} % of the honey's surface"),
            "warm honey rises and stays on top, cold honey stays below the heater: the coldest honey is less sure than the bounds say",
            "stir, or measure at the bottom and at the top before you rely on it"));
    }

    private static void Add(List<Notice> notices, IEnumerable<Notice> more)
    {
        foreach (Notice notice in more)
        {
            if (!notices.Exists(known => string.Equals(known.Code, notice.Code, StringComparison.Ordinal)))
                notices.Add(notice);
        }
    }
}
