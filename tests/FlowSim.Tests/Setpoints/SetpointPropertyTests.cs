using FlowSim.HeatDamage;
using FlowSim.OverflowRisk;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Vessels;
using FlowSim.Warming;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>Rules that every answer keeps, on invented questions.</summary>
public class SetpointPropertyTests
{
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 0 };

    [Property(MaxTest = 12)]
    public void A_choice_keeps_all_its_limits_when_it_is_simulated_again(DoNotSize<int> any)
    {
        SetpointQuestion question = Any(any.Item);
        SetpointAnswer answer = SetpointSearch.Find(question);
        if (answer.Choice is not { } choice)
        {
            Assert.Equal(SetpointStatus.NoneMeetsTheLimits, answer.Status);
            Assert.True(answer.NearestMiss is null || answer.NearestMiss.Misses.Count > 0, $"seed {any.Item}: a miss that misses nothing");
            Assert.DoesNotContain(answer.Curve, point => point.Allowed);
            return;
        }

        WarmingResult warming = WarmingRun.Simulate(choice.Warming!.Setup, question.Options);
        StrainingSetup setup = question.Straining with { Honey = question.Warming.Honey, HoneyTemperature = warming.End.Mean };
        StrainingResult straining = StrainingRun.Simulate(setup with { Control = GateControl.LeaveAt(choice.Opening) }, Quick);
        double seconds = choice.StrainTime.Seconds;
        HoneyHeatDamage damage = warming.Damage.Then(HoneyHeatDamage.Of(TemperatureHistory.Hold(warming.End.Mean, Duration.FromSeconds(seconds)), question.Warming.Response));
        LimitCheck check = LimitCheck.Of(damage.After(question.Warming.Before!), question.Limits.Heat);
        SetpointLimits limits = question.Limits;

        string seed = $"seed {any.Item}";
        Assert.True(check.Overall >= limits.Confidence, seed);
        Assert.True(choice.Setpoint.Kelvins <= limits.Ceiling.Kelvins + 1e-6, seed);
        Assert.True(warming.HottestHoney.Kelvins <= limits.Ceiling.Kelvins + 1e-6, seed);
        Assert.True(warming.HottestWall.Temperature.Kelvins <= limits.Ceiling.Kelvins + 5 + 1e-6, seed);
        Assert.True(warming.End.Mean.Kelvins <= limits.WarmestAtStrainer.Kelvins + 1e-6, seed);
        Assert.True(warming.End.Mean.Kelvins >= question.ColdestStraining.Kelvins - 1e-4, seed);
        Assert.True(warming.CrystalsLeft.DecimalFractions <= 0.0101 * (question.Warming.Crystals?.Share.DecimalFractions ?? 1), seed);
        Assert.True(choice.Total <= limits.Longest, seed);
        Assert.Empty(straining.Overflows);
        Assert.True(choice.Opening <= WidestOpening.Find(setup), seed);
        Assert.All(answer.Curve, point => Assert.Equal(point.Allowed, point.Plan is not null && point.Broken.Count == 0));
    }

    /// <summary>An invented question: another pail, another heater, other limits for each seed.</summary>
    private static SetpointQuestion Any(int seed)
    {
        var random = new Random(seed);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();

        SetpointQuestion question = Pail(Between(150, 340));
        double ceilingC = Between(38, 60);
        WarmingSetup warming = question.Warming;
        return question with
        {
            Warming = warming with
            {
                Honey = new Honey { Moisture = Ratio.FromPercent(Between(16, 19)), LotFactor = Between(0.7, 1.4) },
                StartTemperature = C(Between(8, 25)),
                Crystals = random.Next(3) == 0 ? Crystals.Fine(Ratio.FromPercent(Between(5, 20))) : null,
                Heating = random.Next(3) switch
                {
                    0 => new WarmAir { Thermostat = Thermostat.At(C(40)), AirSpeed = Speed.FromMetersPerSecond(Between(0, 3)) },
                    1 => new HeatedBath { Thermostat = Thermostat.At(C(40)), WaterLevel = Length.FromMillimeters(Between(80, 300)) },
                    _ => new WarmAir { Thermostat = Thermostat.At(C(40)) with { Hysteresis = TemperatureDelta.Zero }, HeaterPower = Power.FromWatts(Between(100, 800)) },
                },
                Before = new HoneyBeforeHeat { Hmf = MgPerKg(Between(1, 30)), DiastaseNumber = Between(9, 20) },
            },
            Limits = new SetpointLimits
            {
                Ceiling = C(ceilingC),
                Heat = random.Next(2) == 0 ? HeatLimits.ByName("eu") : HeatLimit.House(MgPerKg(Between(5, 40)), Between(5, 15)),
                Confidence = random.Next(2) == 0 ? LimitConfidence.OverTheWholeBand : LimitConfidence.AtTheBestEstimate,
            },
            Lowest = C(ceilingC - Between(2, 6)),
            ColdestStraining = C(Between(26, 36)),
        };
    }
}
