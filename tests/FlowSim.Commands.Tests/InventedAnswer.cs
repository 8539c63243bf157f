using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.OverflowRisk;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>Answers about an overflow, invented for the purpose: figures here stand for nothing.</summary>
internal static class InventedAnswer
{
    /// <summary>A chance of 1 in 40, at a tolerance of 1 %.</summary>
    public static RiskAnswer Of(params string[] settings)
    {
        RiskInput input = Input(settings);
        return new RiskAnswer
        {
            Question = input.Question,
            Inputs = [.. input.Inputs.Select(varied => varied.Uncertain)],
            Overflow = Chance(1 / 40.0, 1 / 52.0, 1 / 33.0),
            Bypass = Chance(0.02, 0.015, 0.026),
            Spill = Chance(0, 0, 0.0004),
            ReceiverFull = Chance(0.37, 0.36, 0.38),
            ReceiverOverfilled = Chance(0, 0, 0.0004),
            Drain = new TimeSpread(Minutes(10), Minutes(12), Minutes(15), 0),
            Strain = new TimeSpread(Minutes(11), Minutes(14), Minutes(18), 0.001),
            Absence = new AbsenceAdvice(Minutes(3.99), Minutes(8), Minutes(2)),
            WidestOpening = new OpeningAdvice(Ratio.FromPercent(18.5), Chance(0.0077, 0.006, 0.0099), new TimeSpread(Minutes(13), Minutes(16), Minutes(21), 0)),
            Scraping = new ScrapeAdvice(true, Minutes(8), Chance(0.009, 0.007, 0.0099)),
            Riding = new RideAdvice(Length.FromMillimeters(62), Chance(0.009, 0.007, 0.0099)),
            Drivers = new DriverTable(DriverOutput.Overflow, [Driver("debris.load", 0.31, 0.58), Driver("honey.lot_factor + honey.moisture", 0.10, 0.30), Driver("tank.level", 0, 0.005)], null),
            DriversOfTime = new DriverTable(DriverOutput.StrainTime, [], "every run takes the same time"),
            MeasureNext = new MeasureAdvice("debris.load", DriverOutput.Overflow, "strain a weighed sample of 1 kg", 0.8),
            ChanceOverTime = [new(Duration.Zero, 0, 0, 0.0004), new(Minutes(5), 0.01, 0.015, 0.02), new(Minutes(20), 1 / 52.0, 1 / 40.0, 1 / 33.0)],
            Fan = Fan(),
            Runs = 40_000,
            Notices = [],
            Cautions = [],
        };
    }

    public static RiskInput Input(params string[] settings) => Loader.ReadRisk(Loader.Load(Disk.Files, null, settings));

    public static RiskStory Story(RiskAnswer answer, params string[] settings)
    {
        RiskInput input = Input(settings);
        return new RiskStory(answer, input with { Question = answer.Question }, new Journal(new Spot("invented", 1, 1)), "invented");
    }

    public static ProbabilityEstimate Chance(double value, double low, double high) => new(value, low, high, 8192, EstimateMethod.Counting);

    private static PondFan Fan()
    {
        double[] depth = [0, 0.05, double.NaN];
        return new PondFan
        {
            Times = [Duration.Zero, Minutes(10), Minutes(20)],
            Rim = Length.FromMillimeters(100),
            P05 = depth,
            P25 = depth,
            P50 = depth,
            P75 = depth,
            P95 = depth,
            GoingOn = [1, 0.6, 0],
        };
    }

    private static Driver Driver(string name, double first, double total) => new(name, first, first - 0.05, first + 0.05, total, Math.Max(0, total - 0.05), total + 0.05);

    private static Duration Minutes(double minutes) => Duration.FromMinutes(minutes);
}
