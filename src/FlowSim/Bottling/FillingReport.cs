using FlowSim.Gates;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Bottling;

/// <summary>Turns a course into what the user is told.</summary>
internal static class FillingReport
{
    private const double WarmerByK = 5;

    public static FillingResult Write(FillingSetup setup, FillingParameters p, FillingCourse course, TargetFill target, Headspace headspace, FillingStatus status)
    {
        List<JarMoment> jars = course.Jars;
        int n = jars.Count, middle = (n - 1) / 2;
        double perHour = n == 0 ? 0 : n / course.EndS * 3600;
        double perDay = perHour * setup.WorkDay.Hours;
        var result = new FillingResult
        {
            Setup = setup,
            Status = status,
            Jars = n,
            Elapsed = Duration.FromSeconds(course.EndS),
            FillTimes = n == 0 ? null : new FillTimes(FillOf(jars[0]), FillOf(jars[middle]), FillOf(jars[^1])),
            CutOffs = n == 0 ? null : new CutOffs(CutOffOf(p, jars[0]), CutOffOf(p, jars[middle]), CutOffOf(p, jars[^1])),
            JarsPerHour = perHour,
            Headspace = headspace,
            Target = target,
            Label = NetWeightLabel.Of(setup.Label),
            GivenAwayPerDay = perDay * target.AboveLabel,
            SavedPerDayAtHalfScatter = perDay * (target.Target - target.TargetAtHalfScatter),
            Leak = setup.Clearance is { } gap ? LeakOf(setup, p, gap.Meters) : null,
            Masses = MassesOf(p, course, setup.Label.Kilograms),
            StartViscosity = DynamicViscosity.FromPascalSeconds(p.Honey.ViscosityPaS(p.StartK)),
            EndTemperature = Temperature.FromKelvins(course.TemperatureK),
            Series = new FillingSeries
            {
                StartS = jars.ConvertAll(jar => jar.StartS),
                FillS = jars.ConvertAll(jar => jar.FillS),
                WaitS = jars.ConvertAll(jar => jar.WaitS),
                TankLevelM = jars.ConvertAll(jar => jar.LevelM),
                FlowKgPerS = jars.ConvertAll(jar => jar.FlowM3PerS * p.Honey.DensityKgPerM3(jar.TemperatureK)),
                TemperatureK = jars.ConvertAll(jar => jar.TemperatureK),
            },
            Notices = [],
            Cautions = FillingCautions.For(setup, p, target),
        };
        return result with { Notices = FillingNotices.For(p, course, result) };
    }

    private static Duration FillOf(JarMoment jar) => Duration.FromSeconds(jar.FillS);

    private static CutOff CutOffOf(FillingParameters p, JarMoment jar)
    {
        double density = p.Honey.DensityKgPerM3(jar.TemperatureK), nu = p.Honey.ViscosityPaS(jar.TemperatureK) / density;
        double kgPerS = density * jar.FlowM3PerS, speed = jar.FlowM3PerS / p.OpenAreaM2;
        SteadyStream stream = FallingThread.SteadyTrouton1906(nu, speed, p.Setup.FallHeight.Meters);
        return new CutOff
        {
            Flow = MassFlow.FromKilogramsPerSecond(kgPerS),
            Transit = Duration.FromSeconds(stream.TransitS),
            InTheAir = Mass.FromKilograms(kgPerS * stream.TransitS),

            // Momentum of stream and jar: the scale shows all that has left the gate, plus what comes in, less what hangs on the gate.
            NotYetOnScale = Mass.FromKilograms(kgPerS * (stream.PullMPerS - speed) / Physical.StandardGravity),
            WhileClosing = Mass.FromKilograms(kgPerS * p.ClosingS / 2),
            Wait = Duration.FromSeconds(jar.WaitS),
            StillHangs = Mass.FromKilograms(density * LipDrip.LeftM3(nu, p.LipM, p.RadiusM, jar.WaitS)),
        };
    }

    private static GateLeak LeakOf(FillingSetup setup, FillingParameters p, double gapM)
    {
        double hours = setup.Night.Hours;
        double warmerK = p.StartK + WarmerByK;
        bool warms = p.Honey.Viscosity.TemperatureRange.Admits(warmerK - Physical.ZeroCelsiusK);
        return new GateLeak
        {
            Clearance = setup.Clearance!.Value,
            PerHour = Mass.FromKilograms(KgPerHour(p.StartK)),
            OverNight = Mass.FromKilograms(hours * KgPerHour(p.StartK)),
            OverNightWarmer = warms ? Mass.FromKilograms(hours * KgPerHour(warmerK)) : null,
        };

        double KgPerHour(double kelvins)
        {
            double density = p.Honey.DensityKgPerM3(kelvins);
            double pressure = density * Physical.StandardGravity * (p.StartLevelM - p.GateHeightM);
            return 3600 * density * SlitFlow.VolumeFlowM3PerS(2 * Math.PI * p.RadiusM, gapM, setup.BladeSeat.Meters, pressure, p.Honey.ViscosityPaS(kelvins));
        }
    }

    /// <summary>Where the honey is; what is in the tank is measured anew from film and level, so that the balance tests both.</summary>
    private static FillingMasses MassesOf(FillingParameters p, FillingCourse course, double labelKg)
    {
        double density = p.Honey.DensityKgPerM3(course.TemperatureK), nu = p.Honey.ViscosityPaS(course.TemperatureK) / density;
        double volume = course.MassKg / density;
        double film = course.Number(p.FilmM3(volume, nu, course.EndS));
        double bulk = course.Number(p.Shape.VolumeM3(p.Shape.LevelM(volume - film)));
        double heel = Math.Min(bulk, p.HeelM3);
        double inJars = course.Jars.Count * p.TargetKg, drips = course.Jars.Sum(jar => jar.DripsKg);
        double sum = inJars + drips + density * (film + bulk);
        return new FillingMasses
        {
            Start = Mass.FromKilograms(p.StartKg),
            InJars = Mass.FromKilograms(inJars),
            GivenAway = Mass.FromKilograms(course.Jars.Count * (p.TargetKg - labelKg)),
            Drips = Mass.FromKilograms(drips),
            Film = Mass.FromKilograms(density * film),
            Rest = Mass.FromKilograms(density * (bulk - heel)),
            Heel = Mass.FromKilograms(density * heel),
            BalanceRelative = (sum - p.StartKg) / p.StartKg,
        };
    }
}
