using FlowSim.Bottling;
using FlowSim.Commands.Output;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What to do about a filling: found by asking the library again with the gate changed.</summary>
/// <param name="simulate">Runs a changed setup; null when the library refuses it.</param>
/// <param name="display">Units.</param>
internal sealed class FillNextSteps(Func<FillingSetup, FillingResult?> simulate, Display display)
{
    /// <summary>Share of the time that a wider gate must save to be worth a word. Engineering choice.</summary>
    private const double WorthOpening = 0.1;

    public IReadOnlyList<string> For(FillingResult result)
    {
        List<string> steps = [];
        if (result.Headspace.Verdict != HeadspaceVerdict.Fits)
            steps.Add($"Take a larger jar, or put at most {display.SmallMass(result.Headspace.Most.Kilograms)} into this one and label it accordingly.");
        if (result.CutOffs is not { } cutOffs)
            return steps;

        steps.Add($"Aim for {display.SmallMass(result.Target.Target.Kilograms)} in each jar. Begin to shut when the scale shows {OnScale(cutOffs.First, result)} at the first jars and {OnScale(cutOffs.Last, result)} at the last; trim that on the first few.");
        AddOpening(steps, result);
        steps.Add($"Weigh {(result.Target.JarsToWeigh >= result.Jars ? "all jars" : FormattableString.Invariant($"{result.Target.JarsToWeigh} jars through the run"))}: then an average half a scatter below the label shows nine times in ten. Their spread is the scatter to give next time.");
        if (result.Leak is { } leak && leak.OverNight.Grams > 10)
            steps.Add($"Tighten the gate or stand a vessel under it: {display.SmallMass(leak.OverNight.Kilograms)} leak in {Display.Time(result.Setup.Night.Seconds)}.");
        if (result.Status == FillingStatus.Emptied && result.Masses.Rest.Kilograms > 0)
            steps.Add($"Tip the tank for the rest: {display.Mass((result.Masses.Rest + result.Masses.Heel).Kilograms)} do not fill a jar by the gate alone.");
        return steps;
    }

    private string OnScale(CutOff cut, FillingResult result) => display.SmallMass((result.Target.Target - cut.LeadOnScale).Kilograms);

    /// <summary>Half or fully open, whichever way the pace says.</summary>
    private void AddOpening(List<string> steps, FillingResult result)
    {
        if (result.FillTimes is not { } times)
            return;
        if (times.First.Seconds < 3)
        {
            Ratio half = result.Setup.Opening / 2;
            if (half.Percent >= 1 && simulate(result.Setup with { Opening = half }) is { FillTimes: { } slower })
                steps.Add($"Open the gate less while the tank is full: at {Display.Share(half.DecimalFractions)} the first jar takes {Display.Time(slower.First.Seconds)}, and the hand finds the moment to shut.");
        }

        if (result.Setup.Opening < Ratio.FromPercent(100)
            && simulate(result.Setup with { Opening = Ratio.FromPercent(100) }) is { } wide
            && wide.Jars >= result.Jars
            && wide.Elapsed < (1 - WorthOpening) * result.Elapsed)
        {
            steps.Add($"Opening the gate fully as the tank empties saves up to {Display.RoughTime((result.Elapsed - wide.Elapsed).Seconds)} of {Display.RoughTime(result.Elapsed.Seconds)}.");
        }
    }
}
