using FlowSim.Numerics.Ode;
using UnitsNet;
using static FlowSim.Straining.StrainingState;
using static System.FormattableString;

namespace FlowSim.Straining;

/// <summary>Turns the end of an integrated run into a <see cref="StrainingResult"/>.</summary>
internal static class StrainingReport
{
    public static StrainingResult Write(StrainingParameters p, StrainingOutcome outcome, SeriesBuilder? series)
    {
        MassAccount masses = Account(p, outcome);
        StrainingRecord record = outcome.Record;
        double[] y = outcome.State;
        var result = new StrainingResult
        {
            Setup = p.Setup,
            Status = Worst(record),
            Ending = record.Ending,
            Elapsed = Duration.FromSeconds(outcome.EndS),
            Drain = Times(record.DrainS),
            Strain = Times(record.StrainS),
            DrainToHeel = TimeOrNull(record.HeelS),
            PeakPond = Length.FromMeters(record.PeakPondM),
            PeakPondAt = Duration.FromSeconds(record.PeakPondS),
            Overflows = record.Overflows
                .ConvertAll(o => new Overflow(Duration.FromSeconds(o.FromS), Duration.FromSeconds(o.ToS), Mass.FromKilograms(o.Kg))),
            ReceiverFullAt = TimeOrNull(record.ReceiverFullS),
            Scrapes = record.Scrapes.ConvertAll(s => Duration.FromSeconds(s)),
            Masses = masses,
            Blinded = y[FirstOpenShare..].Select(open => Ratio.FromDecimalFractions(1 - Math.Clamp(open, 0, 1))).ToArray(),
            StartViscosity = DynamicViscosity.FromPascalSeconds(p.Honey.ViscosityPaS(p.StartTankK)),
            EndTemperatures = new EndTemperatures(
                Temperature.FromKelvins(y[TankK]),
                Temperature.FromKelvins(y[PondK]),
                Temperature.FromKelvins(y[ReceiverK])),
            Series = (series ?? new SeriesBuilder(2, outcome.EndS, p.ClothResistancesPerM.Length)).Build(),
            Notices = [],
            Cautions = StrainingCautions.For(p),
            Solver = Counts(outcome.Work),
        };
        return result with { Notices = StrainingNotices.For(p, outcome, result) };
    }

    /// <summary>The checks ask a shape or correlation of the user's own at a few points only; what it answers elsewhere ends here.</summary>
    private static void RequireNumbers(StrainingOutcome outcome, double accountKg)
    {
        if (!double.IsFinite(outcome.EndS + outcome.Record.PeakPondM + outcome.State.Sum() + accountKg))
            throw new SimulationException(Invariant($"The run ended after {outcome.EndS:0.###} s with a figure that is not a number. {SimulationException.OwnPartsMayBeTheCause}"));
    }

    private static StrainingStatus Worst(StrainingRecord record)
    {
        if (record.Overflows.Count > 0)
            return StrainingStatus.Overflowed;
        bool full = !double.IsNaN(record.ReceiverFullS);
        return full && record.Ending != StrainingStatus.ReceiverFull ? StrainingStatus.ReceiverOverfilled : record.Ending;
    }

    /// <summary>What matters of a run among many.</summary>
    public static StrainingSample Sample(StrainingParameters p, StrainingOutcome outcome)
    {
        StrainingRecord record = outcome.Record;
        WentWhere went = Split(p, outcome);
        return new StrainingSample
        {
            DrainSeconds = record.DrainS[2],
            StrainSeconds = record.StrainS[2],
            FirstOverflowSeconds = record.Overflows.Count > 0 ? record.Overflows[0].FromS : double.PositiveInfinity,
            OverRimKg = went.OverRimKg,
            BypassedKg = went.BypassedKg,
            SpilledKg = went.SpilledAtStrainerKg + went.SpilledAtReceiverKg,
            ReceiverFullSeconds = double.IsNaN(record.ReceiverFullS) ? double.PositiveInfinity : record.ReceiverFullS,
            ReceiverSpilledKg = went.SpilledAtReceiverKg,
            StrainedKg = went.StrainedKg,
            PeakPondShare = record.PeakPondM / p.Form.RimHeightM,
            EndSeconds = outcome.EndS,
            Ending = record.Ending,
            Scrapes = record.Scrapes.Count,
        };
    }

    /// <summary>Where the honey went that left the tank, from the state at the end.</summary>
    private static WentWhere Split(StrainingParameters p, StrainingOutcome outcome)
    {
        StrainingRecord record = outcome.Record;
        double bypassShare = p.Bypass ? 1 : 0;
        double strained = outcome.State[StrainedKg];
        double overRim = Math.Max(0, outcome.State[OverRimKg]); // A linear solve may leave a rounding of either sign.
        double bypassed = bypassShare * overRim;
        double spilledAtReceiver = 0;
        if (outcome.System.Mode.ReceiverFull)
        {
            double strainedBefore = record.StrainedAtFullKg;
            double bypassedBefore = bypassShare * record.OverRimAtFullKg;
            spilledAtReceiver = strained - strainedBefore + bypassed - bypassedBefore;
            (strained, bypassed) = (strainedBefore, bypassedBefore);
        }

        return new WentWhere(overRim, strained, bypassed, (1 - bypassShare) * overRim, spilledAtReceiver);
    }

    private readonly record struct WentWhere(double OverRimKg, double StrainedKg, double BypassedKg, double SpilledAtStrainerKg, double SpilledAtReceiverKg);

    /// <summary>Where the honey is, measured anew from the levels, so that the balance tests levels, volumes and flows together.</summary>
    private static MassAccount Account(StrainingParameters p, StrainingOutcome outcome)
    {
        double[] y = outcome.State;
        StrainingHydraulics.Evaluate(p, outcome.System.Mode, outcome.EndS, y, out StrainingFlows f);

        double film = f.TankDensity * f.FilmM3;
        double tank = f.TankDensity * p.Tank.VolumeM3(f.TankLevelM);
        double pond = f.PondDensity * p.Form.PondVolumeM3(f.PondDepthM);
        (_, double strained, double bypassed, double spilledAtStrainer, double spilledAtReceiver) = Split(p, outcome);
        double inReceiver = (p.Honey.DensityKgPerM3(y[ReceiverK]) * p.Receiver.VolumeM3(f.ReceiverLevelM)) - p.StartReceiverKg;
        if (outcome.System.Mode.ReceiverFull)
            inReceiver = strained + bypassed; // Brim-full: the level no longer tells the mass as the honey cools.
        double sum = tank + film + pond + inReceiver + spilledAtStrainer + spilledAtReceiver;
        RequireNumbers(outcome, sum);
        return new MassAccount
        {
            Start = Mass.FromKilograms(p.StartTankKg),
            CanDrain = Mass.FromKilograms(p.CanDrainKg),
            Strained = Mass.FromKilograms(strained),
            Bypassed = Mass.FromKilograms(bypassed),
            SpilledAtStrainer = Mass.FromKilograms(spilledAtStrainer),
            SpilledAtReceiver = Mass.FromKilograms(spilledAtReceiver),
            HeldOnCloth = Mass.FromKilograms(pond),
            HeldInFilm = Mass.FromKilograms(film),
            HeldInTank = Mass.FromKilograms(tank),
            BalanceRelative = (sum - p.StartTankKg) / p.StartTankKg,
        };
    }

    private static ShareTimes Times(ReadOnlySpan<double> seconds) =>
        new(TimeOrNull(seconds[0]), TimeOrNull(seconds[1]), TimeOrNull(seconds[2]), TimeOrNull(seconds[3]));

    private static Duration? TimeOrNull(double seconds) => double.IsNaN(seconds) ? null : Duration.FromSeconds(seconds);

    private static SolverCounts Counts(in IntegrationResult work) =>
        new(work.StepsAccepted, work.StepsRejected, work.DerivativeEvaluations, work.Events);
}
