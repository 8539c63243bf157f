using FlowSim.OverflowRisk;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using UnitsNet;

namespace FlowSim.Plots.Tests;

/// <summary>Invented answers about a risk to draw, with round numbers: no figure in them means anything and none is checked.</summary>
internal sealed record InventedRisk
{
    public double Tolerance { get; init; } = 0.01;

    /// <summary>Chance of an overflow in the end.</summary>
    public double Overflow { get; init; } = 0.23;

    /// <summary>Half-width of the interval, ratio.</summary>
    public double Interval { get; init; } = 1.2;

    public double Minutes { get; init; } = 60;

    public double RimM { get; init; } = 0.1;

    /// <summary>Of drivers.</summary>
    public int Drivers { get; init; } = 6;

    public string? Refused { get; init; }

    public bool HasAbsence { get; init; } = true;

    public double LongestMinutes { get; init; } = 5;

    public double FirstMinutes { get; init; } = 8.5;

    public double WorstMinutes { get; init; } = 9;

    public int Points { get; init; } = 121;

    public int Temperatures { get; init; } = 9;

    public int Openings { get; init; } = 10;

    public int RunsPerCell { get; init; } = 1000;

    /// <summary>Normal score of the chance in the middle of the map.</summary>
    public double MapScore { get; init; } = -2;

    /// <summary>From here up cells are found by subset simulation, so that none is 0.</summary>
    public bool Subset { get; init; }

    /// <summary>Share of the runs that never get there, in the coldest row at the widest opening.</summary>
    public double Never { get; init; }

    private RiskQuestion Question => new()
    {
        Setup = InventedRun.PlainDrain().Setup with { Control = GateControl.LeaveAt(Ratio.FromPercent(40)) },
        Tolerance = Ratio.FromDecimalFractions(Tolerance),
    };

    public RiskAnswer Answer()
    {
        ProbabilityEstimate overflow = Estimate(Overflow, 16384);
        Duration Min(double minutes) => Duration.FromMinutes(minutes);
        double[] times = [.. Enumerable.Range(0, Points).Select(i => Points == 1 ? Minutes : Minutes * i / (Points - 1.0))];
        return new()
        {
            Question = Question,
            Inputs = [],
            Overflow = overflow,
            Bypass = overflow,
            Spill = Estimate(0, 16384),
            ReceiverFull = Estimate(0, 16384),
            ReceiverOverfilled = Estimate(0, 16384),
            Drain = Times(0.5 * Minutes, 0),
            Strain = Times(0.6 * Minutes, 0),
            Absence = HasAbsence ? new(Min(LongestMinutes), Min(FirstMinutes), Min(WorstMinutes)) : new(null, null, null),
            WidestOpening = new(Ratio.FromPercent(Overflow > 0.5 ? 0 : 32.5), Estimate(0.006, 16384), Overflow > 0.5 ? null : Times(0.8 * Minutes, 0)),
            Scraping = HasAbsence ? new(true, Min(6), Estimate(0.008, 16384)) : new(false, null, null),
            Riding = new(Length.FromMeters(0.6 * RimM), Estimate(0.008, 16384)),
            Drivers = Table(DriverOutput.Overflow, Refused),
            DriversOfTime = Table(DriverOutput.StrainTime, null),
            MeasureNext = Drivers == 0 ? null : new("honey.lot_factor", DriverOutput.Overflow, "time a ball through a tall jar of this honey, at its temperature", 0.62),
            ChanceOverTime = [.. times.Select(t => Chance(t))],
            Fan = Fan(times),
            Runs = 51234,
            Notices = [],
            Cautions = [],
        };
    }

    public RiskMap Map()
    {
        double[] openings = [.. Enumerable.Range(0, Openings).Select(i => 10 + 90.0 * i / Math.Max(1, Openings - 1))];
        double[] celsius = [.. Enumerable.Range(0, Temperatures).Select(i => 22 + 26.0 * i / Math.Max(1, Temperatures - 1))];
        return new()
        {
            Question = Question,
            Openings = [.. openings.Select(o => Ratio.FromPercent(o))],
            Temperatures = [.. celsius.Select(t => Temperature.FromDegreesCelsius(t))],
            RunsPerCell = RunsPerCell,
            Cells = [.. celsius.Select(t => openings.Select(o => Cell(o, t)).ToArray())],
        };
    }

    private RiskCell Cell(double opening, double celsius)
    {
        double score = MapScore + 3.2 * Math.Log(opening / 45) - 0.11 * (celsius - 35) + 0.0009 * (opening - 45) * (celsius - 35);
        double chance = Normal.CDF(0, 1, score);
        ProbabilityEstimate estimate = Subset ? Estimate(chance, RunsPerCell) : Estimate(Math.Floor(chance * RunsPerCell) / RunsPerCell, RunsPerCell);
        double minutes = Minutes / 3 * Math.Exp((35 - celsius) / 11);
        double never = Never * Math.Clamp((opening / 100 + (48 - celsius) / 26) / 2, 0, 1);
        return new(estimate, Times(minutes * Math.Pow(100 / opening, 1.4), never), Times(minutes * (0.5 + Math.Pow(100 / opening, 1.4)), never));
    }

    private ProbabilityEstimate Estimate(double chance, int runs) =>
        new(chance, chance / Interval, chance == 0 ? 3.0 / runs : Math.Min(1, chance * Interval), runs, Subset ? EstimateMethod.SubsetSimulation : EstimateMethod.Counting);

    private TimeSpread Times(double minutes, double never)
    {
        Duration? At(double factor, double share) => never + share <= 1 ? Duration.FromMinutes(minutes * factor) : null;
        return new(At(0.7, 0.1), At(1, 0.5), At(1.5, 0.9), never);
    }

    private ChancePoint Chance(double minutes)
    {
        double value = minutes <= 0 ? 0 : Overflow * Normal.CDF(Math.Log(0.3 * Minutes), 0.45, Math.Log(minutes));
        double shown = Math.Floor(value * 16384) / 16384;
        if (Subset)
            shown = value;
        return new(Duration.FromMinutes(minutes), shown / Interval, shown, Math.Min(1, shown * Interval + (Subset ? 0 : 1.0 / 16384)));
    }

    private PondFan Fan(double[] times)
    {
        double[] Quantile(double score) => [.. times.Select(t =>
        {
            double share = t / Minutes;
            double depth = RimM * 0.75 * Math.Exp(0.3 * score) * (1 - Math.Exp(-8 * share)) * Math.Exp(-Math.Max(0, share - 0.4 - 0.1 * score) * 3);
            return GoingOn(share) > 0 ? Math.Min(RimM, depth) : double.NaN;
        })];
        return new()
        {
            Times = [.. times.Select(t => Duration.FromMinutes(t))],
            Rim = Length.FromMeters(RimM),
            P05 = Quantile(-1.645),
            P25 = Quantile(-0.674),
            P50 = Quantile(0),
            P75 = Quantile(0.674),
            P95 = Quantile(1.645),
            GoingOn = [.. times.Select(t => GoingOn(t / Minutes))],
        };
    }

    private static double GoingOn(double share) => share < 0.35 ? 1 : share > 0.97 ? 0 : 1 / (1 + Math.Exp(14 * (share - 0.62)));

    private DriverTable Table(DriverOutput of, string? refused)
    {
        string[] names =
        [
            "honey.lot_factor", "honey.temperature + room.temperature", "debris.load", "honey.moisture", "screen.factor", "debris.median_size",
            "debris.capture", "tank.level", "gate.opening", "receiver.heat_loss", "a name that is not known and far too long to stand in one row of the sheet beside anything",
        ];
        Driver[] drivers = [.. Enumerable.Range(0, Math.Min(Drivers, names.Length)).Select(i =>
        {
            double total = 0.62 * Math.Pow(0.55, i);
            double first = of == DriverOutput.Overflow ? 0.6 * total : 0.94 * total;
            return new Driver(names[i], first, first - 0.05, first + 0.05, total, total - 0.08, total + 0.08);
        })];
        return refused is null ? new(of, drivers, null) : new(of, [], refused);
    }
}
