using System.Globalization;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>A flow cup timed as honey runs out of it. Spreads are one standard deviation.</summary>
public sealed record CupReading
{
    /// <summary>The honey.</summary>
    public required HoneySample Sample { get; init; }

    /// <summary>The cup.</summary>
    public required FlowCup Cup { get; init; }

    /// <summary>Times it took. They must lie in <see cref="FlowCup.TimeRange"/>.</summary>
    public required IReadOnlyList<Duration> Times { get; init; }

    /// <summary>How well somebody hits a start or a stop. 0 to 60 s. Default 0.3 s (engineering choice).</summary>
    public Duration Reaction { get; init; } = Timings.DefaultReaction;

    /// <summary>Highest temperature the honey may be given to come within reach of the cup. 0 to 100 °C. Default 50 °C.</summary>
    public Temperature Ceiling { get; init; } = Temperature.FromDegreesCelsius(50);

    /// <summary>The viscosity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="MeasurementRefusedException">The time is beyond what the cup is good for.</exception>
    public ViscosityMeasurement Measure()
    {
        EquipmentCheck.Present(Sample).Validate();
        EquipmentCheck.Present(Cup).Validate();
        EquipmentCheck.Within(Ceiling.DegreesCelsius, 0, 100, "°C", nameof(Ceiling));
        var timings = new Timings(Times, Reaction, nameof(Times), nameof(Reaction));
        if (timings.MeanS > Cup.TimeRange.OuterHigh)
            throw TooThick(timings.MeanS);
        if (timings.MeanS < Cup.TimeRange.OuterLow)
            throw TooThin(timings.MeanS);

        double density = Sample.DensityKgPerM3;
        ErrorBudget budget = ErrorBudget.Of(
            x => Math.Log(x[0] * Cup.ViscosityMm2PerS(x[1])),
            new("density of the honey", density, Sample.DensitySpreadKgPerM3),
            new("timing", timings.MeanS, timings.SpreadS));
        budget.Add("formula of the cup", Cup.LogSpread);
        return ViscosityMeasurement.Of(
            1e-6 * density * Cup.ViscosityMm2PerS(timings.MeanS),
            budget,
            Sample,
            [Cooling, .. timings.Notices],
            [MeasurementCautions.PaintCup],
            Cup.Source);
    }

    private static Notice Cooling { get; } = new(
        "cup.cooling",
        "the formulas of cups are for liquids at the temperature of the room, 23 to 25 °C",
        "warm honey cools in a cold cup, by which it runs slower and seems thicker",
        "warm the cup with the honey and take the temperature of the stream");

    /// <summary>What one does with a honey that is too thick: the temperature from which the cup would do, or the ball.</summary>
    private MeasurementRefusedException TooThick(double timeS)
    {
        string longest = string.Create(CultureInfo.InvariantCulture, $"{timeS:0.#} s are more than the cup {Cup.Name} is good for, {Cup.TimeRange.OuterHigh:0} s, which is {Cup.Thickest.Centistokes:0} mm2/s");
        if (Reach() is not { } reach)
            return MeasurementRefusedException.Of(nameof(Times), longest + ".", "Time a falling ball instead.");
        string expected = string.Create(CultureInfo.InvariantCulture, $"; a common honey of this moisture has {reach.Honey.Centistokes:0} mm2/s at {reach.At.DegreesCelsius:0.#} °C.");
        string instead = reach.ThinEnoughFrom is not { } from
            ? "It is not thin enough for this cup at any temperature the correlation reaches: time a falling ball instead."
            : from <= reach.At
                ? "Yours is thicker than that: time a falling ball instead."
                : string.Create(CultureInfo.InvariantCulture, $"It would come within reach at {from.DegreesCelsius:0.#} °C, {(reach.IsWithinCeiling ? "within" : "above")} the ceiling of {Ceiling.DegreesCelsius:0.#} °C{(reach.IsWithinCeiling ? "; else time a falling ball." : ": time a falling ball instead.")}");
        return MeasurementRefusedException.Of(nameof(Times), longest + expected, instead);
    }

    private MeasurementRefusedException TooThin(double timeS)
    {
        FlowCup? finer = FlowCups.All
            .Where(cup => cup.Name.Split('-')[0] == Cup.Name.Split('-')[0] && cup.Thickest < Cup.Thickest && cup.TimeRange.Supports(cup.TimeS(Cup.ViscosityMm2PerS(timeS))))
            .MaxBy(cup => cup.Thickest.Centistokes);
        return MeasurementRefusedException.Of(
            nameof(Times),
            string.Create(CultureInfo.InvariantCulture, $"{timeS:0.#} s are less than the cup {Cup.Name} is good for, {Cup.TimeRange.OuterLow:0} s, which is {Cup.Thinnest.Centistokes:0} mm2/s."),
            finer is null ? "Measure cooler honey, or take a cup with a narrower hole." : $"Take the cup {finer.Name}, or measure cooler honey.");
    }

    /// <summary>Where a common honey of this moisture stands; null when the correlation does not reach it.</summary>
    private CupReach? Reach()
    {
        try
        {
            return CupReach.Of(Cup, new Honey { Moisture = Sample.Moisture }, Sample.Temperature, Ceiling);
        }
        catch (ArgumentOutOfRangeException)
        {
            return null;
        }
    }
}
