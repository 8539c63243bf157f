using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.HeatDamage;
using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What to do after a settling run: found by asking the library again, with one thing changed.</summary>
/// <param name="input">The run.</param>
/// <param name="display">Units.</param>
/// <param name="cancellation">Ends a run.</param>
internal sealed class SettleNextSteps(SettleInput input, Display display, CancellationToken cancellation)
{
    /// <summary>Warmest that honey is advised to stand, °C: above that it scalds hands, and hours of it cost the honey much (engineering choice).</summary>
    private const double WarmestC = 45;

    /// <summary>How much warmer is tried, K.</summary>
    private const double WarmerK = 5;

    /// <summary>Share that another day has to take off what is left to be worth a word (engineering choice).</summary>
    private const double DayIsWorth = 0.2;

    /// <summary>What is left when honey is drawn off from below, in thicknesses of the scum, and at least this, m: the scum is drawn down over the gate (engineering choice).</summary>
    private const double LastScums = 3;

    private const double LeastLastM = 0.01;

    private static readonly SettlingOptions s_brief = new() { SeriesPoints = 0, ProfileTimes = [] };

    /// <summary>The steps, most pressing first.</summary>
    /// <param name="story">Run.</param>
    public IReadOnlyList<string> For(SettleStory story)
    {
        SettlingResult result = story.Result;
        List<string> steps = [];
        if (result.Status == SettlingStatus.Clear)
            AddDrawOff(steps, result);
        else
            AddNotClear(steps, result);
        AddDay(steps, result);
        AddWarmer(steps, result);
        AddStrain(steps, result);
        return steps;
    }

    private void AddDrawOff(List<string> steps, SettlingResult result)
    {
        string when = result.ClearAfter is { } clear && clear < result.Setup.StandsFor ? $" from {Display.RoughTime(clear.Seconds)} on" : string.Empty;
        string last = result.Scum.Thickness > Length.Zero ? $", or draw off from below and stop {display.Length(Math.Max(LeastLastM, LastScums * result.Scum.Thickness.Meters))} before the end" : string.Empty;
        steps.Add($"Skim{when}{last}: what has risen lies on top.");
    }

    private void AddNotClear(List<string> steps, SettlingResult result)
    {
        if (result.ClearAfter is { } clear)
            steps.Add($"Let it stand for {Display.RoughTime(clear.Seconds)}, or draw off only the {ClearDepth(result)} that are clear already.");
        Duration stands = result.Setup.StandsFor;
        if (Advice.OrNull(() => new Found(SettlingSearch.CoolestFor(input.Setup, stands, Temperature.FromDegreesCelsius(WarmestC), cancellation)))?.Temperature is { } coolest)
            steps.Add($"Or hold it at {display.Temperature(coolest.Kelvins)} all the time: then it is clear in {Display.Time(stands.Seconds)}{Costs(TemperatureHistory.Hold(coolest, stands))}.");
        else
            steps.Add($"Take a shallower layer, or more time: even at {display.Temperature(WarmestC + 273.15)} it would not be clear in {Display.Time(stands.Seconds)}.");
    }

    private string ClearDepth(SettlingResult result) => display.Length(new[] { result.Bubbles, result.Debris }
        .Where((_, i) => result.Setup.ClearOf switch { ClearOf.Bubbles => i == 0, ClearOf.Debris => i == 1, _ => true })
        .OfType<SettledMatter>()
        .Min(matter => matter.ClearDepth.Meters));

    private void AddDay(List<string> steps, SettlingResult result)
    {
        if (result.Status == SettlingStatus.Clear)
            return;
        SettlingResult? longer = Run(result.Setup with { StandsFor = result.Setup.StandsFor + Duration.FromDays(1) });
        if (longer is not null && LeftOf(longer) < (1 - DayIsWorth) * LeftOf(result))
            steps.Add($"One day more leaves {Left(longer)}.");
    }

    private void AddWarmer(List<string> steps, SettlingResult result)
    {
        if (Advice.OrNull(() => result.Setup.Warmer(TemperatureDelta.FromKelvins(WarmerK))) is not { } warmer || Run(warmer) is not { ClearAfter: { } sooner } || result.ClearAfter is not { } now)
            return;
        string costs = Hmf(warmer, sooner) is { } more && Hmf(result.Setup, now) is { } less ? $"; until then the heat adds HMF {more} in place of {less}" : string.Empty;
        steps.Add($"Held {display.TemperatureDifference(WarmerK)} warmer it is clear after {Display.RoughTime(sooner.Seconds)} in place of {Display.RoughTime(now.Seconds)}{costs}.");
    }

    private static void AddStrain(List<string> steps, SettlingResult result)
    {
        if (result.DebrisLeft is not null && result.Setup.ClearOf != ClearOf.Bubbles)
            steps.Add($"To strain what is left: flowsim strain, with the same file and {Keys.Debris.After} = \"settling\".");
    }

    /// <summary>HMF until a time.</summary>
    private string? Hmf(SettlingSetup setup, Duration until) =>
        Run(setup with { StandsFor = until }) is { } run && Advice.OrNull(() => HoneyHeatDamage.Of(run.Temperature, input.Response)) is { } damage ? DamageText.Hmf(damage) : null;

    private string Costs(TemperatureHistory history) =>
        Advice.OrNull(() => HoneyHeatDamage.Of(history, input.Response)) is { } damage ? $"; that adds HMF {DamageText.Hmf(damage)}" : string.Empty;

    private SettlingResult? Run(SettlingSetup setup) => Advice.OrNull(() => SettlingRun.Simulate(setup, s_brief, cancellation));

    private static double LeftOf(SettlingResult result) => Math.Max(result.Bubbles?.Left.DecimalFractions ?? 0, result.Debris?.Left.DecimalFractions ?? 0);

    private static string Left(SettlingResult result) => string.Join(" and ", new[]
    {
        result.Bubbles is { } bubbles ? $"{SettlingText.Left(bubbles.Left)} of the bubbles" : null,
        result.Debris is { } debris ? $"{SettlingText.Left(debris.Left)} of the debris" : null,
    }.OfType<string>());

    private sealed record Found(Temperature? Temperature);
}
