using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using UnitsNet;

namespace FlowSim.Plots.Tests;

/// <summary>Invented answers to draw, with round numbers: no figure in them means anything and none is checked.</summary>
internal sealed record InventedSetpoints
{
    public double LowestC { get; init; } = 30;

    public double HighestC { get; init; } = 55;

    public double StepC { get; init; } = 1;

    public double CeilingC { get; init; } = 50;

    /// <summary>Time scale of the job.</summary>
    public double Hours { get; init; } = 60;

    public double HmfPerHour { get; init; } = 0.03;

    /// <summary>Most gain of HMF, at the high end of the band.</summary>
    public double MostGain { get; init; } = 28;

    /// <summary>From here down the honey never gets warm enough.</summary>
    public double TooColdC { get; init; } = 27;

    public PlanLimit? Binding { get; init; } = PlanLimit.Ceiling;

    public double? ChoiceC { get; init; } = 50;

    public double? RunnerUpC { get; init; } = 48.5;

    public HoneyBeforeHeat? Before { get; init; } = new() { Hmf = MassFraction.FromMilligramsPerKilogram(12), DiastaseNumber = 17 };

    public SetpointLimits Limits { get; init; } = new();

    public SetpointAnswer Answer()
    {
        int count = (int)Math.Round((HighestC - LowestC) / StepC) + 1;
        CurvePoint[] curve = [.. Enumerable.Range(0, Math.Max(0, count)).Select(i => Point(LowestC + i * StepC))];
        SetpointPlan? choice = ChoiceC is { } c ? Plan(c) with { Broken = [] } : null;
        SetpointPlan? nearest = choice is null && curve.Any(p => p.Plan is not null) ? curve.First(p => p.Plan is not null).Plan : null;
        return new()
        {
            Question = new()
            {
                Warming = new InventedWarming { Before = Before }.Result().Setup,
                Straining = InventedRun.PlainDrain().Setup,
                Limits = Limits with { Ceiling = C(CeilingC) },
            },
            Status = choice is null ? SetpointStatus.NoneMeetsTheLimits : SetpointStatus.Found,
            Choice = choice,
            RunnerUp = choice is null || RunnerUpC is null ? null : Plan(RunnerUpC.Value),
            Bounds = choice is null ? null : new InventedWarming { Hours = Hours / 2 }.Between(0.2 * Hours, 0.4 * Hours),
            BindingLimit = choice is null ? null : Binding,
            TimeADegreeBuys = choice is null ? null : Duration.FromMinutes(80),
            Curve = choice is null ? [.. curve.Select(p => p with { Allowed = false, Broken = p.Broken.Count > 0 ? p.Broken : [PlanLimit.Hmf] })] : curve,
            NearestMiss = nearest is null ? null : new(nearest, [(Binding ?? PlanLimit.Hmf, "HMF 42.3 mg/kg, 2.3 over the limit")]),
            Notices = [],
            Cautions = [],
            WarmingRuns = count,
        };
    }

    private static Temperature C(double celsius) => Temperature.FromDegreesCelsius(celsius);

    private CurvePoint Point(double setpointC)
    {
        if (setpointC <= TooColdC)
            return new(C(setpointC), null, false, [PlanLimit.Time]);

        SetpointPlan plan = Plan(setpointC);
        return new(C(setpointC), plan, plan.Broken.Count == 0, plan.Broken);
    }

    private SetpointPlan Plan(double setpointC)
    {
        double strainC = Math.Min(setpointC - 3, 0.5 * setpointC + 18);
        double warmH = Hours * 9 / (setpointC - 21);
        double strainH = Hours / 200 * Math.Exp((40 - strainC) / 10);
        double gain = HmfPerHour * warmH * Math.Exp((strainC - 40) / 6);
        List<PlanLimit> broken = [];
        if (setpointC > CeilingC)
            broken.Add(PlanLimit.Ceiling);
        if (setpointC + 1 > CeilingC + 5)
            broken.Add(PlanLimit.Wall);
        if (1.6 * gain > MostGain)
            broken.Add(PlanLimit.Hmf);
        return new()
        {
            Setpoint = C(setpointC),
            StrainAt = C(strainC),
            Opening = Ratio.FromPercent(40),
            WarmTime = Duration.FromHours(warmH),
            StrainTime = Duration.FromHours(strainH),
            Damage = new()
            {
                HmfGainLow = MassFraction.FromMilligramsPerKilogram(0.62 * gain),
                HmfGain = MassFraction.FromMilligramsPerKilogram(gain),
                HmfGainHigh = MassFraction.FromMilligramsPerKilogram(1.6 * gain),
                DiastaseLeftLow = Ratio.FromDecimalFractions(Math.Exp(-0.04 * gain)),
                DiastaseLeft = Ratio.FromDecimalFractions(Math.Exp(-0.02 * gain)),
                DiastaseLeftHigh = Ratio.FromDecimalFractions(Math.Exp(-0.0034 * gain)),
                HmfEquivalentAt20C = Duration.FromDays(40 * gain),
                DiastaseEquivalentAt20C = Duration.FromDays(55 * gain),
            },
            After = null,
            HeatCheck = null,
            HottestHoney = C(setpointC - 0.5),
            HottestWall = C(setpointC + 1),
            Heater = Energy.FromKilowattHours(5),
            Broken = broken,
        };
    }
}
