using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Writes a run that has ended as a result.</summary>
internal static class WarmingReport
{
    public static WarmingResult Write(WarmingParameters p, WarmingSetup setup, WarmingIntegration run, WarmingRecorder recorder)
    {
        WarmingMoment end = run.Now;
        WarmingSystem system = run.System;
        double massKg = system.HoneyKg;
        Duration? reached = run.Targets.AllReachedS is { } s ? Duration.FromSeconds(s) : null;
        var result = new WarmingResult
        {
            Setup = setup,
            Inside = p.Inside,
            Status = StatusOf(run, reached),
            Elapsed = Duration.FromSeconds(run.EndS),
            TimeToTarget = reached,
            TargetTimes = [.. run.Targets.ReachedS.Select(at => double.IsNaN(at) ? (Duration?)null : Duration.FromSeconds(at))],
            End = new HoneyTemperatures(
                Kelvins(end.ColdestK),
                Kelvins(end.MeanK),
                Kelvins(end.HottestK),
                Kelvins(system.HottestWallK(end.BodyK)),
                Kelvins(end.ProbeK),
                Kelvins(end.BodyK)),
            ColdestPlace = PlaceOf(p.Grid, IndexOfColdest(system.TemperatureK)),
            HottestWall = (Kelvins(recorder.HottestWall.Kelvins), Duration.FromSeconds(recorder.HottestWall.AtS)),
            HottestHoney = Kelvins(recorder.HottestHoneyK),
            WallAboveProbe = TemperatureDelta.FromKelvins(recorder.WallAboveProbeK),
            CrystalsLeft = Ratio.FromDecimalFractions(end.CrystalsLeft * p.Honey.CrystalShare),
            Viscosity = DynamicViscosity.FromPascalSeconds(p.Honey.ViscosityPaS(end.MeanK)),
            HoneyPerVessel = Mass.FromKilograms(massKg),
            Energy = Account(p, run),
            CutOutAt = run.CutOutS is { } cut ? Duration.FromSeconds(cut) : null,
            Switchings = run.Switchings,
            Damage = run.Doses.Average(system.MassKg, setup.Response),
            WorstDamage = HoneyHeatDamage.Of(run.Doses.DoseOf(run.Doses.WorstCell), setup.Response),
            Series = recorder.Series(),
            Maps = recorder.Maps,
            Notices = [],
            Cautions = [],
            Steps = run.Steps,
        };
        return result with
        {
            Notices = WarmingNotices.For(p, result),
            Cautions = WarmingCautions.For(recorder.HottestWall.Kelvins, recorder.HottestHoneyK, massKg, setup.Heating),
        };
    }

    private static WarmingStatus StatusOf(WarmingIntegration run, Duration? reached)
    {
        if (run.Overheated)
            return WarmingStatus.Overheated;
        if (reached is not null)
            return WarmingStatus.Reached;
        return run.CutOutS is null ? WarmingStatus.TimeLimit : WarmingStatus.CutOut;
    }

    private static EnergyAccount Account(WarmingParameters p, WarmingIntegration run)
    {
        WarmingSystem system = run.System;
        HoneyEnthalpy enthalpy = p.Honey.Enthalpy;
        double start = enthalpy.OnCurve(p.StartK), meltedAtStart = enthalpy.Melts ? enthalpy.MeltedAt(start) : 0;
        double into = 0, melting = 0;
        for (int c = 0; c < system.MassKg.Length; c++)
        {
            double melted = enthalpy.Melts ? system.Melted[c] : 0;
            into += system.MassKg[c] * (enthalpy.At(system.TemperatureK[c], melted) - start);
            melting += system.MassKg[c] * (enthalpy.At(p.StartK, melted) - enthalpy.At(p.StartK, meltedAtStart));
        }

        into *= p.Vessels;
        melting *= p.Vessels;
        double heater = run.State[system.FromHeater];
        double room = run.State[system.ToRoom];
        double body = p.Unlimited && run.CutOutS is null ? 0 : run.State[system.Body] - run.BodyHeatAtStart;

        // At least 1 J per kg: in a run of no length rounding of the honey's enthalpy is all there is.
        double turnover = Math.Max(p.Vessels * system.HoneyKg, Math.Abs(heater) + Math.Abs(into) + Math.Abs(room) + Math.Abs(body));
        return new EnergyAccount
        {
            Heater = Energy.FromJoules(heater),
            IntoHoney = Energy.FromJoules(into),
            Melting = Energy.FromJoules(melting),
            IntoBody = Energy.FromJoules(body),
            ToRoom = Energy.FromJoules(room),
            BalanceRelative = (heater - into - body - room) / turnover,
        };
    }

    private static int IndexOfColdest(ReadOnlySpan<double> kelvins)
    {
        int coldest = 0;
        for (int c = 1; c < kelvins.Length; c++)
        {
            if (kelvins[c] < kelvins[coldest])
                coldest = c;
        }

        return coldest;
    }

    private static (Length Radius, Length Height) PlaceOf(CylinderGrid grid, int cell) => (
        Length.FromMeters((cell / grid.AxialCells + 0.5) * grid.RadialStepM),
        Length.FromMeters((cell % grid.AxialCells + 0.5) * grid.AxialStepM));

    private static Temperature Kelvins(double value) => Temperature.FromKelvins(value);
}
