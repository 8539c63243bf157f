using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Output;

/// <summary>A run as JSON: SI units, named in each key; null where something never happened.</summary>
internal static class ResultJson
{
    public static string Of(StrainingResult result, StrainingSpread? spread, Journal journal) => JsonText.Object(json =>
    {
        MassAccount masses = result.Masses;
        json.WriteString("status", Words.Of(result.Status));
        json.WriteString("ending", Words.Of(result.Ending));
        json.Number("elapsedSeconds", result.Elapsed.Seconds);

        json.Number("drainSeconds", result.Drain.To95?.Seconds);
        json.Number("drain50Seconds", result.Drain.To50?.Seconds);
        json.Number("drain90Seconds", result.Drain.To90?.Seconds);
        json.Number("drain99Seconds", result.Drain.To99?.Seconds);
        json.Number("drainToHeelSeconds", result.DrainToHeel?.Seconds);
        json.Number("strainSeconds", result.Strain.To95?.Seconds);
        json.Number("strain50Seconds", result.Strain.To50?.Seconds);
        json.Number("strain90Seconds", result.Strain.To90?.Seconds);
        json.Number("strain99Seconds", result.Strain.To99?.Seconds);

        json.Number("peakPondM", result.PeakPond.Meters);
        json.Number("peakPondSeconds", result.PeakPondAt.Seconds);
        json.Number("rimM", result.Setup.Strainer.Shape.RimHeight.Meters);
        json.Number("firstOverflowSeconds", result.FirstOverflow?.Seconds);
        json.Number("overflowSeconds", result.Overflows.Sum(o => o.To.Seconds - o.From.Seconds));
        json.Objects("overflows", result.Overflows, overflow =>
        {
            json.Number("fromSeconds", overflow.From.Seconds);
            json.Number("toSeconds", overflow.To.Seconds);
            json.Number("massKg", overflow.Mass.Kilograms);
        });
        json.Number("receiverFullSeconds", result.ReceiverFullAt?.Seconds);

        json.Number("startKg", masses.Start.Kilograms);
        json.Number("canDrainKg", masses.CanDrain.Kilograms);
        json.Number("strainedKg", masses.Strained.Kilograms);
        json.Number("bypassedKg", masses.Bypassed.Kilograms);
        json.Number("spilledKg", masses.Spilled.Kilograms);
        json.Number("spilledAtStrainerKg", masses.SpilledAtStrainer.Kilograms);
        json.Number("spilledAtReceiverKg", masses.SpilledAtReceiver.Kilograms);
        json.Number("heldKg", masses.Held.Kilograms);
        json.Number("heldOnClothKg", masses.HeldOnCloth.Kilograms);
        json.Number("heldInFilmKg", masses.HeldInFilm.Kilograms);
        json.Number("heldInTankKg", masses.HeldInTank.Kilograms);
        json.Number("massBalanceRelative", masses.BalanceRelative);

        json.Number("viscosityPaS", result.StartViscosity.PascalSeconds);
        json.Number("tankEndK", result.EndTemperatures.Tank.Kelvins);
        json.Number("pondEndK", result.EndTemperatures.Pond.Kelvins);
        json.Number("receiverEndK", result.EndTemperatures.Receiver.Kelvins);
        json.Numbers("blindedShare", result.Blinded.Select(share => share.DecimalFractions));
        json.Numbers("scrapeSeconds", result.Scrapes.Select(scrape => scrape.Seconds));

        Spread(json, spread);

        json.Notices(result.Notices);
        json.Cautions(result.Cautions);
        Input(json, journal);
        json.WriteStartObject("solver");
        json.WriteNumber("steps", result.Solver.Steps);
        json.WriteNumber("rejectedSteps", result.Solver.RejectedSteps);
        json.WriteNumber("derivativeEvaluations", result.Solver.DerivativeEvaluations);
        json.WriteNumber("events", result.Solver.Events);
        json.WriteEndObject();
    });

    /// <summary>Lowest and highest of the what-ifs around the run; null when they could not be run.</summary>
    private static void Spread(System.Text.Json.Utf8JsonWriter json, StrainingSpread? spread)
    {
        if (spread is null)
        {
            json.WriteNull("spread");
            return;
        }

        json.WriteStartObject("spread");
        json.Number("drainLowSeconds", spread.Drain95.Low?.Seconds);
        json.Number("drainHighSeconds", spread.Drain95.High?.Seconds);
        json.Number("strainLowSeconds", spread.Strain95.Low?.Seconds);
        json.Number("strainHighSeconds", spread.Strain95.High?.Seconds);
        json.Number("peakPondLowM", spread.PeakPond.Low.Meters);
        json.Number("peakPondHighM", spread.PeakPond.High.Meters);
        json.Number("earliestOverflowSeconds", spread.EarliestOverflow?.Seconds);
        json.WriteNumber("casesThatRunOver", spread.RunsThatRunOver);
        json.WriteNumber("cases", spread.Runs);
        json.WriteEndObject();
    }

    /// <summary>What was assumed and how ambiguous units were read.</summary>
    /// <param name="json">Writer.</param>
    /// <param name="journal">Journal of the input.</param>
    public static void Input(System.Text.Json.Utf8JsonWriter json, Journal journal)
    {
        json.Objects("assumptions", journal.Assumptions, assumption =>
        {
            json.WriteString("key", assumption.Key);
            json.WriteString("text", assumption.Text);
            json.WriteString("standing", Words.Of(assumption.Standing));
        });
        json.WriteStartArray("readAs");
        foreach (string echo in journal.Echoes)
            json.WriteStringValue(echo);
        json.WriteEndArray();
    }
}
