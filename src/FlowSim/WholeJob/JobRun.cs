using FlowSim.Bottling;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>Takes a batch through all its steps: warm, settle and skim, strain, fill.</summary>
public static class JobRun
{
    /// <summary>Runs a job.</summary>
    /// <param name="setup">The job.</param>
    /// <param name="options">How it is computed; null for the defaults.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in a setup is out of its range, or the steps do not go together; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    /// <exception cref="SimulationException">An integrator gave up; the message says where.</exception>
    public static JobResult Simulate(JobSetup setup, JobOptions? options = null, CancellationToken cancellation = default)
    {
        EquipmentCheck.Present(setup);
        EquipmentCheck.Present(setup.Straining);
        options ??= new JobOptions();
        var full = new StrainingParameters(setup.Straining);

        WarmingResult? warming = setup.Warming is { } warm ? WarmingRun.Simulate(warm, cancellation: cancellation) : null;
        SettlingResult? settling = setup.Settling is { } stands ? SettlingRun.Simulate(JobChain.Standing(stands, setup.Straining, full), cancellation: cancellation) : null;
        Mass scum = settling?.Scum.Honey ?? Mass.Zero;
        StrainingSetup toStrain = settling is null ? setup.Straining : JobChain.Skimmed(setup.Straining, full, settling, scum);
        StrainingResult straining = StrainingRun.Simulate(toStrain, cancellation: cancellation);
        Mass arrived = Mass.FromKilograms(full.StartReceiverKg) + straining.Masses.Strained + straining.Masses.Bypassed;
        FillingSetup? toFill = setup.Filling is { } fill ? JobChain.Arrived(fill, arrived) : null;
        FillingResult? filling = toFill is null ? null : FillingRun.Simulate(toFill, cancellation);

        var times = new JobTimes(options, cancellation);
        List<JobStep> steps = [];
        if (warming is not null)
            steps.Add(times.OfWarming(warming));
        if (settling is not null)
            steps.Add(JobTimes.OfSettling(settling));
        steps.Add(times.OfStraining(straining));
        if (setup.Filling is not null)
            steps.Add(times.OfFilling(toFill, filling));

        JobAccount account = JobAccounts.Of(Mass.FromKilograms(full.StartTankKg + full.StartReceiverKg), arrived, scum, straining, filling);
        return new JobResult
        {
            Setup = setup,
            Steps = steps,
            Warming = warming,
            Settling = settling,
            Straining = straining,
            Filling = filling,
            Account = account,
            Recoveries = Recoveries.Of(account, straining, filling),
            Notices = [.. Once([warming?.Notices, settling?.Notices, JobNotices.Of(setup, warming, toStrain), straining.Notices, filling?.Notices], notice => notice.Code)],
            Cautions = [.. Once([warming?.Cautions, settling?.Cautions, straining.Cautions, filling?.Cautions], caution => caution.Code)],
        };
    }

    private static IEnumerable<T> Once<T>(IReadOnlyList<T>?[] lists, Func<T, string> key) =>
        lists.SelectMany(list => list ?? []).DistinctBy(key, StringComparer.Ordinal);
}
