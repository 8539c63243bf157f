using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Console.Output;
using FlowSim.Properties;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Console.Input.Timed;

/// <summary>The batch that runs belong to, as it stands in its file.</summary>
/// <param name="Path">Path as the user gave it.</param>
/// <param name="Text">Text.</param>
/// <param name="Settings">Options of the form section.key=value.</param>
internal sealed record BatchSource(string Path, string Text, IReadOnlyList<string> Settings);

/// <summary>Makes a timed run of a table and the batch it was made with.</summary>
internal static class TimedRunReader
{
    /// <summary>Standard deviations of the zero by which a reading may lie above the brim. Engineering choice.</summary>
    private const double ZerosAbove = 5;

    private const int LongestName = 100;

    /// <summary>Reads a run.</summary>
    /// <param name="file">Table.</param>
    /// <param name="batch">Batch.</param>
    /// <param name="general">The setup of the batch; null to leave the run's honey as it was read.</param>
    /// <param name="echoes">Takes how it was read where that is not plain.</param>
    /// <exception cref="BadInputException">Something is wrong with the run's own keys, or its readings do not fit the vessels.</exception>
    public static TimedRun Read(RunFile file, BatchSource batch, StrainingSetup? general, List<string> echoes)
    {
        // What a run says of itself counts more than what is said of all.
        HashSet<string> own = [.. file.Settings.Select(setting => setting.Key)];
        string[] others = [.. batch.Settings.Where(setting => !own.Contains(setting.Split('=')[0].Trim()))];
        Loaded loaded = Loader.Load(batch.Text, batch.Path, others, [.. file.Settings.Select(setting => new OptionSetting(setting.Spot, setting.Setting))], CalibrationPart.Apart);
        loaded.Journal.UsesSpreads = true;
        StrainingSetup setup = Loader.ReadRun(loaded).Setup;

        // Figures of a honey that were measured are read anew for each run, and are one honey all the same.
        if (general is not null && !own.Contains(Keys.Honey.Measured.ToString()) && !own.Contains(Keys.Honey.Viscosity.ToString()))
            setup = setup with { Honey = setup.Honey with { Viscosity = general.Honey.Viscosity } };
        ScaleFacts scales = FitReader.Read(new Section(Keys.Fit.Clock.Section, loaded.Document, loaded.Problems, loaded.Journal));
        setup = WithNotes(setup, file, loaded.Problems, echoes);
        setup = Loader.Guard(loaded, () =>
        {
            foreach (RunColumn column in file.Columns)
                RequireWithin(column, setup, scales, loaded.Problems);
            return setup;
        });

        echoes.AddRange(file.Echoes.Select(echo => $"{Printable.Of(file.Name)}: {echo}"));
        foreach (SpreadRead spread in loaded.Journal.Spreads.Where(spread => own.Contains(spread.Key) && !spread.Spread.IsExact))
            echoes.Add($"{Printable.Of(file.Name)}: {spread.Key} is taken at {spread.Middle}; how far it may be off is what the batch says");
        return new TimedRun
        {
            Name = Printable.Of(file.Name, LongestName - 1),
            Date = file.Date,
            Setup = setup,
            Series = [.. file.Columns.Select(scales.SeriesOf)],
        };
    }

    /// <summary>The setup as it was run: noted openings and scrapes take the place of the batch's.</summary>
    private static StrainingSetup WithNotes(StrainingSetup setup, RunFile file, Problems problems, List<string> echoes)
    {
        string name = Printable.Of(file.Name);
        RunNote[] moves = [.. file.Notes.Where(note => note.Opening is not null)];
        RunNote[] scrapes = [.. file.Notes.Where(note => note.Opening is null)];
        if (moves.Length > 0)
        {
            List<OpeningStep> steps = moves[0].TimeS > 0 ? [new OpeningStep(Duration.Zero, FirstOpening(setup.Control))] : [];
            foreach (RunNote move in moves)
            {
                if (steps.Count > 0 && move.TimeS <= steps[^1].At.Seconds)
                    problems.Add(move.Spot, "notes a second opening at the same time; keep the one that held");
                else
                    steps.Add(new OpeningStep(Duration.FromSeconds(move.TimeS), Ratio.FromDecimalFractions(move.Opening!.Value)));
            }

            setup = setup with { Control = GateControl.Follow(steps) };
            echoes.Add($"{name}: the gate follows the notes: {string.Join(", ", steps.Select(step => $"{Display.Share(step.Opening.DecimalFractions)} from {Display.Time(step.At.Seconds)}"))}");
        }

        if (scrapes.Length == 0)
            return setup;
        double before = 0;
        foreach (RunNote scrape in scrapes)
        {
            if (scrape.TimeS <= before)
                problems.Add(scrape.Spot, before == 0 ? "notes a scrape at the opening of the gate, when nothing is on the cloth" : "notes a second scrape at the same time; keep one");
            before = scrape.TimeS;
        }

        echoes.Add($"{name}: scraped as noted, after {string.Join(", ", scrapes.Select(scrape => Display.Time(scrape.TimeS)))}");
        return setup with { Scraping = setup.Scraping with { Times = [.. scrapes.Select(scrape => Duration.FromSeconds(scrape.TimeS))], AtPondDepth = null } };
    }

    private static Ratio FirstOpening(GateControl control) => control switch
    {
        FixedOpening left => left.Opening,
        OpeningSchedule schedule => schedule.Steps[0].Opening,
        RiddenGate ridden => ridden.Widest,
        _ => Ratio.FromPercent(100),
    };

    private static void RequireWithin(RunColumn column, StrainingSetup setup, ScaleFacts scales, Problems problems)
    {
        (double limit, string what) = LimitOf(column.Quantity, setup);
        double allowed = limit + (ZerosAbove * scales.ZeroOf(column.Quantity));
        for (int i = 0; i < column.Readings.Count; i++)
        {
            double value = column.Readings[i].Value;
            if (!(value > allowed))
                continue;
            string unit = column.Unit.Symbol;
            problems.Add(column.Spots[i], $"{column.Heading}: {Amount(value)} {unit} is above {what}, {Amount(limit)} {unit}; is it read in another unit than {unit}, or is {KeyOf(column.Quantity)} another vessel's?");
            return;
        }

        string Amount(double si) => double.Parse(Display.Figures(si / column.Unit.Factor, 4), CultureInfo.InvariantCulture).ToString("0.####", CultureInfo.InvariantCulture);
    }

    private static (double Si, string What) LimitOf(StrainingObservable quantity, StrainingSetup setup)
    {
        double density = HoneyProperties.Of(setup.Honey).DensityAt(setup.HoneyTemperature).KilogramsPerCubicMeter;
        return quantity switch
        {
            StrainingObservable.PondDepth => (setup.Strainer.Shape.RimHeight.Meters, "the strainer's rim"),
            StrainingObservable.TankLevel => (setup.Tank.Shape.Height.Meters, "the tank's brim"),
            StrainingObservable.TankMass => (setup.Tank.Shape.Capacity.CubicMeters * density, "what the tank holds"),
            StrainingObservable.TankVolume => (setup.Tank.Shape.Capacity.CubicMeters, "what the tank holds"),
            StrainingObservable.ReceiverLevel => (setup.Receiver.Shape.Height.Meters, "the receiver's brim"),
            StrainingObservable.ReceiverMass => (setup.Receiver.Shape.Capacity.CubicMeters * density, "what the receiver holds"),
            _ => (setup.Receiver.Shape.Capacity.CubicMeters, "what the receiver holds"),
        };
    }

    private static string KeyOf(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.PondDepth => "[screen]",
        StrainingObservable.TankLevel or StrainingObservable.TankMass or StrainingObservable.TankVolume => "[tank]",
        _ => "[receiver]",
    };
}
