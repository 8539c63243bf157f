using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Commands.Output;
using FlowSim.Properties;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input.Timed;

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
        HashSet<string> own = [.. file.Settings.Select(setting => setting.Key)];
        Loaded loaded = LoadOwn(file, batch);
        StrainingSetup setup = Loader.ReadRun(loaded).Setup;

        // Figures of a honey that were measured are read anew for each run, and are one honey all the same.
        if (general is not null && !own.Contains(Keys.Honey.Measured.ToString()) && !own.Contains(Keys.Honey.Viscosity.ToString()))
            setup = setup with { Honey = setup.Honey with { Viscosity = general.Honey.Viscosity } };
        ScaleFacts scales = ScalesOf(loaded);
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

    /// <summary>The batch with a run's own keys in place of its own. What a run says of itself counts more than what is said of all.</summary>
    /// <param name="file">Table.</param>
    /// <param name="batch">Batch.</param>
    public static Loaded LoadOwn(RunFile file, BatchSource batch)
    {
        HashSet<string> own = [.. file.Settings.Select(setting => setting.Key)];
        string[] others = [.. batch.Settings.Where(setting => !own.Contains(setting.Split('=')[0].Trim()))];
        Loaded loaded = Loader.Load(batch.Text, batch.Path, others, [.. file.Settings.Select(setting => new OptionSetting(setting.Spot, setting.Setting))], CalibrationPart.Apart);
        loaded.Journal.UsesSpreads = true;
        return loaded;
    }

    /// <summary>What is known of clock and scales.</summary>
    /// <param name="loaded">Batch.</param>
    public static ScaleFacts ScalesOf(Loaded loaded) => FitReader.Read(new Section(Keys.Fit.Clock.Section, loaded.Document, loaded.Problems, loaded.Journal));

    /// <summary>What was noted, as the library takes it; two of a kind at one time, or a scrape of a clean cloth, are told.</summary>
    /// <param name="notes">Notes.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static IReadOnlyList<NotedStep> StepsOf(IReadOnlyList<RunNote> notes, Problems problems)
    {
        double moved = double.NegativeInfinity, scraped = 0;
        List<NotedStep> steps = [];
        foreach (RunNote note in notes)
        {
            if (note.Opening is { } opening)
            {
                if (note.TimeS <= moved)
                    problems.Add(note.Spot, "notes a second opening at the same time; keep the one that held");
                else
                    steps.Add(new NotedStep(Duration.FromSeconds(note.TimeS), Ratio.FromDecimalFractions(opening)));
                moved = note.TimeS;
            }
            else
            {
                if (note.TimeS <= scraped)
                    problems.Add(note.Spot, scraped == 0 ? "notes a scrape at the opening of the gate, when nothing is on the cloth" : "notes a second scrape at the same time; keep one");
                else
                    steps.Add(NotedStep.Scrape(Duration.FromSeconds(note.TimeS)));
                scraped = note.TimeS;
            }
        }

        return steps;
    }

    /// <summary>The setup as it was run: noted openings and scrapes take the place of the batch's.</summary>
    private static StrainingSetup WithNotes(StrainingSetup setup, RunFile file, Problems problems, List<string> echoes)
    {
        string name = Printable.Of(file.Name);
        IReadOnlyList<NotedStep> steps = StepsOf(file.Notes, problems);
        StrainingSetup noted = NotedSteps.ApplyTo(setup, steps);
        if (noted.Control is OpeningSchedule schedule && steps.Any(step => step.Opening is not null))
            echoes.Add($"{name}: the gate follows the notes: {string.Join(", ", schedule.Steps.Select(step => $"{Display.Share(step.Opening.DecimalFractions)} from {Display.Time(step.At.Seconds)}"))}");
        if (steps.Any(step => step.Opening is null))
            echoes.Add($"{name}: scraped as noted, after {string.Join(", ", noted.Scraping.Times.Select(time => Display.Time(time.Seconds)))}");
        return noted;
    }

    /// <summary>Refuses readings above what the vessel holds.</summary>
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

    /// <summary>The most that a quantity can be, and what that is.</summary>
    /// <param name="quantity">Quantity.</param>
    /// <param name="setup">Setup.</param>
    public static (double Si, string What) LimitOf(StrainingObservable quantity, StrainingSetup setup)
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
