using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Settling;

/// <summary>Writes the result of a run from its course.</summary>
internal static class SettlingReport
{
    /// <summary>Share left from which nothing worth a size is left (engineering choice): its moments would be of rounding alone.</summary>
    private const double NothingLeft = 1e-9;

    public static SettlingResult Write(SettlingParameters p, SettlingCourse course, SettlingOptions options)
    {
        double?[] clearS = [.. p.Matter.Select((_, kind) => ClearAfterS(p, course, kind))];
        double? allClearS = 0;
        for (int kind = 0; kind < clearS.Length; kind++)
        {
            if (p.MustBeClear(kind))
                allClearS = clearS[kind] is { } time && allClearS is { } latest ? Math.Max(latest, time) : null;
        }

        var result = new SettlingResult
        {
            Setup = p.Setup,
            Status = allClearS <= p.StandsForS ? SettlingStatus.Clear : SettlingStatus.NotClear,
            ClearAfter = At(allClearS),
            Bubbles = p.BubbleIndex is { } bubbles ? Matter(p, course, bubbles, clearS[bubbles]) : null,
            Debris = p.DebrisIndex is { } debris ? Matter(p, course, debris, clearS[debris]) : null,
            Scum = Gathered(p, course, 1),
            Sediment = Gathered(p, course, -1),
            DebrisLeft = DebrisLeft(p, course, p.StandsForS),
            StartTemperature = Temperature.FromKelvins(p.StartK),
            StartViscosity = DynamicViscosity.FromPascalSeconds(p.Honey.ViscosityPaS(p.StartK)),
            Temperature = p.Course.Between(0, p.StandsForS),
            Profiles = [.. ProfileTimesS(p, options).Select(timeS => Profile(p, course, timeS, options.ProfilePoints))],
            Series = Series(p, course, options.SeriesPoints, Math.Max(p.StandsForS, allClearS ?? 0)),
            Notices = [],
            Cautions = SettlingCautions.For(p),
            Steps = course.Steps,
        };
        return result with { Notices = SettlingNotices.For(p, result) };
    }

    /// <summary>When the layer is clear of a kind, s; null if not within the run.</summary>
    private static double? ClearAfterS(SettlingParameters p, SettlingCourse course, int kind) =>
        course.TimeOf(kind, p.Setup.ClearTo.ProgressFor(p.Matter[kind], p.DepthM));

    private static Duration? At(double? timeS) => timeS is { } seconds ? Duration.FromSeconds(seconds) : null;

    private static SettledMatter Matter(SettlingParameters p, SettlingCourse course, int kind, double? clearS)
    {
        SuspendedMatter matter = p.Matter[kind];
        double progress = Progress(course, kind, p.StandsForS);
        double all = p.Matter.Sum(m => m.VolumeShare);
        return new SettledMatter
        {
            Direction = p.Direction[kind] switch { 1 => SettlingDirection.Rises, -1 => SettlingDirection.Sinks, _ => SettlingDirection.Stays },
            Left = Ratio.FromDecimalFractions(SizeShares.Left(progress, matter.SizeSpread)),
            Gone = Ratio.FromDecimalFractions(SizeShares.Gone(progress, matter.SizeSpread)),
            LargestLeft = progress > 0 ? Length.FromMeters(matter.MedianM / Math.Sqrt(progress)) : null,
            ClearDepth = Length.FromMeters(p.DepthM * p.Setup.ClearTo.ClearShare(matter, p.DepthM, progress)),
            ClearAfter = At(clearS),
            MedianSpeed = Speed.FromMetersPerSecond(p.SpeedPerSizeSquared(kind, p.StartK) * matter.MedianM * matter.MedianM * HinderedSpeed.FactorRichardsonZaki1954(all)),
            StartVolume = Ratio.FromDecimalFractions(matter.VolumeShare),
        };
    }

    private static Deposit Gathered(SettlingParameters p, SettlingCourse course, int direction)
    {
        double packing = p.Setup.Packing.DecimalFractions;
        double honeyShareOfLayer = 1 - p.Matter.Sum(m => m.VolumeShare);
        double volume = 0, mass = 0;
        for (int kind = 0; kind < p.Matter.Length; kind++)
        {
            if (p.Direction[kind] != direction)
                continue;
            SuspendedMatter matter = p.Matter[kind];
            double gone = matter.VolumeShare * SizeShares.Gone(Progress(course, kind, p.StandsForS), matter.SizeSpread);
            volume += gone;
            mass += gone * matter.DensityKgPerM3 / p.StartDensityKgPerM3;
        }

        double honey = volume * (1 - packing) / packing / honeyShareOfLayer;
        return new Deposit(
            Length.FromMeters(p.DepthM * volume / packing),
            Ratio.FromDecimalFractions(honey),
            p.Setup.HoneyMass is { } all ? Mass.FromKilograms(honey * all.Kilograms) : null,
            p.Setup.HoneyMass is { } whole ? Mass.FromKilograms(mass / honeyShareOfLayer * whole.Kilograms) : null);
    }

    /// <summary>Debris left in the honey at a time: see <see cref="SettlingResult.DebrisLeft"/>.</summary>
    internal static Debris? DebrisLeft(SettlingParameters p, SettlingCourse course, double timeS)
    {
        if (p.DebrisIndex is not { } kind)
            return null;
        Debris start = p.Setup.Debris!;
        SuspendedMatter matter = p.Matter[kind];
        double progress = Progress(course, kind, timeS);
        double left = SizeShares.MomentLeft(0, progress, matter.SizeSpread);
        if (!(left > NothingLeft))
            return start with { Load = Ratio.FromDecimalFractions(start.Load.DecimalFractions * Math.Max(0, left)) };

        double size = SizeShares.MomentLeft(1, progress, matter.SizeSpread) / left;
        double inverse = SizeShares.MomentLeft(-1, progress, matter.SizeSpread) / left;
        double median = matter.MedianM * Math.Sqrt(size / inverse);
        return start with
        {
            Load = Ratio.FromDecimalFractions(start.Load.DecimalFractions * left),
            MedianSize = Length.FromMeters(Math.Clamp(median, ScreenCheck.FinestDebrisM, ScreenCheck.CoarsestDebrisM)),
            SizeSpread = Math.Clamp(Math.Sqrt(Math.Max(0, Math.Log(size * inverse))), LogNormalMoments.SpreadRange.OuterLow, LogNormalMoments.SpreadRange.OuterHigh),
        };
    }

    private static IEnumerable<double> ProfileTimesS(SettlingParameters p, SettlingOptions options) =>
        options.ProfileTimes?.Select(time => Math.Clamp(time.Seconds, 0, p.EndS)) ?? [p.StandsForS / 16, p.StandsForS / 4, p.StandsForS];

    private static SettlingProfile Profile(SettlingParameters p, SettlingCourse course, double timeS, int points)
    {
        double[] shares = Grid(points, 1);
        return new SettlingProfile
        {
            At = Duration.FromSeconds(timeS),
            HeightM = [.. shares.Select(share => share * p.DepthM)],
            BubblesLeft = Over(p.BubbleIndex),
            DebrisLeft = Over(p.DebrisIndex),
        };

        double[] Over(int? index)
        {
            if (index is not { } kind)
                return [];
            double progress = Progress(course, kind, timeS), spread = p.Matter[kind].SizeSpread;
            return [.. shares.Select(share => SizeShares.At(progress, spread, p.Direction[kind] < 0 ? 1 - share : share))];
        }
    }

    private static SettlingSeries Series(SettlingParameters p, SettlingCourse course, int points, double endS)
    {
        double[] timesS = points == 0 ? [] : Grid(Math.Max(2, points), endS);
        return new SettlingSeries
        {
            TimeS = timesS,
            TemperatureK = [.. timesS.Select(p.Course.AtK)],
            ViscosityPaS = [.. timesS.Select(time => p.Honey.ViscosityPaS(p.Course.AtK(time)))],
            BubblesLeft = Over(p.BubbleIndex, SizeShares.Left),
            BubblesClearM = Over(p.BubbleIndex, ClearM(p.BubbleIndex)),
            DebrisLeft = Over(p.DebrisIndex, SizeShares.Left),
            DebrisClearM = Over(p.DebrisIndex, ClearM(p.DebrisIndex)),
        };

        double[] Over(int? index, Func<double, double, double> of) =>
            index is { } kind ? [.. timesS.Select(time => of(Progress(course, kind, time), p.Matter[kind].SizeSpread))] : [];

        Func<double, double, double> ClearM(int? index) => (progress, _) => p.DepthM * p.Setup.ClearTo.ClearShare(p.Matter[index!.Value], p.DepthM, progress);
    }

    private static double Progress(SettlingCourse course, int kind, double timeS) => Math.Max(0, course.At(kind, timeS));

    /// <summary>Evenly spaced numbers from 0 to an end, both met exactly.</summary>
    private static double[] Grid(int points, double end) => [.. Enumerable.Range(0, points).Select(i => i == points - 1 ? end : i * end / (points - 1))];
}
