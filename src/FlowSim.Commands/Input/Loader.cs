using FlowSim.Bottling;
using FlowSim.Properties;
using FlowSim.Settling;
using FlowSim.ShelfLife;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>An input with all that is known about it.</summary>
/// <param name="Document">Sections and keys.</param>
/// <param name="Journal">What was assumed.</param>
/// <param name="Problems">What is wrong.</param>
/// <param name="Name">Name for people.</param>
internal sealed record Loaded(InputDocument Document, Journal Journal, Problems Problems, string Name)
{
    /// <summary>The text it was read from, without what options changed.</summary>
    public string Text { get; init; } = string.Empty;
}

/// <summary>An option of its own, or a line of another file, that sets one key.</summary>
/// <param name="Spot">Where it was given.</param>
/// <param name="Setting">The same as section.key=value.</param>
internal sealed record OptionSetting(Spot Spot, string Setting)
{
    /// <summary>An option.</summary>
    /// <param name="spoken">The option as it was given.</param>
    /// <param name="setting">The same as section.key=value.</param>
    public OptionSetting(string spoken, string setting)
        : this(new Spot(spoken, 0, 0), setting)
    {
    }
}

/// <summary>What becomes of a calibration that stands in a file.</summary>
internal enum CalibrationPart
{
    /// <summary>It takes the place of what the sections say.</summary>
    InPlace,

    /// <summary>It is read and kept apart, to be carried on.</summary>
    Apart,
}

/// <summary>Loads a file, or the example when there is none, and applies the options.</summary>
internal static class Loader
{
    /// <summary>Loads the document.</summary>
    /// <param name="files">Files.</param>
    /// <param name="path">File; null for the example.</param>
    /// <param name="settings">Options of the form section.key=value.</param>
    /// <param name="more">Options of their own that set a key each.</param>
    /// <exception cref="FileTroubleException">The file cannot be read.</exception>
    /// <exception cref="BadInputException">It is not TOML, or an option is malformed.</exception>
    public static Loaded Load(IFiles files, string? path, IReadOnlyList<string> settings, IReadOnlyList<OptionSetting>? more = null) =>
        Load(path is null ? Demo.Text : InputFile.Read(files, path), path, settings, more);

    /// <summary>Loads a document whose text has been read.</summary>
    /// <param name="text">Text.</param>
    /// <param name="path">File it is from; null for the example.</param>
    /// <param name="settings">Options of the form section.key=value.</param>
    /// <param name="more">Options of their own that set a key each.</param>
    /// <param name="part">What becomes of a calibration in it.</param>
    /// <exception cref="BadInputException">It is not TOML, or an option is malformed.</exception>
    public static Loaded Load(string text, string? path, IReadOnlyList<string> settings, IReadOnlyList<OptionSetting>? more, CalibrationPart part = CalibrationPart.InPlace)
    {
        string source = path ?? "the example";
        Problems problems = new();
        InputDocument document = TomlReader.Read(text, source, problems);
        if (settings.Count > TomlLimits.Settings)
        {
            problems.Add(new Spot("--set", 0, 0), FormattableString.Invariant($"{settings.Count} keys are set; allowed: at most {TomlLimits.Settings}; write them into the file"));
            throw new BadInputException(problems);
        }

        // Of a file that cannot be read as TOML nothing more can be said.
        foreach (string setting in settings)
            TomlReader.Set(setting, document, problems);
        foreach (OptionSetting option in more ?? [])
            TomlReader.Set(option.Setting, document, problems, option.Spot);
        Loaded loaded = new(document, new Journal(new Spot(source, 1, 1)), problems, path ?? "Example (flowsim new FILE writes it)") { Text = text };
        if (document.SectionSpots.Count == 0 && problems.Any)
            throw new BadInputException(problems);
        CalibrationMerge.Apply(document, problems, loaded.Journal, part);
        return loaded;
    }

    /// <summary>Loads a day.</summary>
    /// <param name="files">Files.</param>
    /// <param name="path">File; null for the example.</param>
    /// <exception cref="FileTroubleException">The file cannot be read.</exception>
    /// <exception cref="BadInputException">It is not TOML.</exception>
    public static Loaded LoadDay(IFiles files, string? path) => LoadDay(path is null ? Demo.Day : InputFile.Read(files, path, InputFile.Day), path);

    /// <summary>Loads a day whose text has been read.</summary>
    /// <param name="text">Text.</param>
    /// <param name="path">File it is from; null for the example.</param>
    /// <exception cref="BadInputException">It is not TOML.</exception>
    public static Loaded LoadDay(string text, string? path)
    {
        string source = path ?? "the example";
        Problems problems = new();
        InputDocument document = TomlReader.Read(text, source, problems, Dialect.Day);
        if (document.SectionSpots.Count == 0 && problems.Any)
            throw new BadInputException(problems);
        return new Loaded(document, new Journal(new Spot(source, 1, 1)), problems, path ?? "Example (flowsim new --day FILE writes it)") { Text = text };
    }

    /// <summary>Reads a run.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static StrainInput ReadRun(Loaded loaded) => Guard(loaded, () => SetupReader.Read(loaded.Document, loaded.Problems, loaded.Journal));

    /// <summary>Reads a run whose debris may have settled before, and lets it settle.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static StrainInput ReadSettledRun(Loaded loaded)
    {
        StrainInput input = Guard(loaded, () => SetupReader.Read(loaded.Document, loaded.Problems, loaded.Journal, maySettle: true));
        return input.Settling is { } settling ? Guard(loaded, () => Settled(input, settling, loaded.Journal)) : input;
    }

    /// <summary>Reads a settling run.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static SettleInput ReadSettling(Loaded loaded) => Guard(loaded, () => SettlingReader.Read(loaded.Document, loaded.Problems, loaded.Journal));

    private static StrainInput Settled(StrainInput input, SettlingSetup settling, Journal journal)
    {
        SettlingResult stood = SettlingRun.Simulate(settling, new SettlingOptions { SeriesPoints = 0, ProfileTimes = [] });
        if (stood.DebrisLeft is not { } left)
            return input;
        journal.Echo(FormattableString.Invariant($"{Keys.Debris.After}: of {input.Setup.Debris.Load.PartsPerThousand:0.###} g/kg, {left.Load.PartsPerThousand:0.###} g/kg of {left.MedianSize.Millimeters:0.###} mm median are left after {Output.Display.Time(settling.StandsFor.Seconds)} of settling and skimming"));
        return input with { Setup = input.Setup with { Debris = left } };
    }

    /// <summary>Reads a question about an overflow.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static RiskInput ReadRisk(Loaded loaded) => Guard(loaded, () => RiskReader.Read(loaded.Document, loaded.Problems, loaded.Journal));

    /// <summary>Reads a warming run.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static WarmInput ReadWarming(Loaded loaded) => Guard(loaded, () => WarmingReader.Read(loaded.Document, loaded.Problems, loaded.Journal));

    /// <summary>Reads a search for a setpoint.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static SetpointInput ReadQuestion(Loaded loaded) => Guard(loaded, () => WarmingReader.ReadQuestion(loaded.Document, loaded.Problems, loaded.Journal));

    /// <summary>Reads a filling of jars.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="cancellation">Ends the straining that says how full the bottling tank is.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static FillingSetup ReadFilling(Loaded loaded, CancellationToken cancellation) =>
        Guard(loaded, () => FillingReader.Read(loaded.Document, loaded.Problems, loaded.Journal, cancellation));

    /// <summary>Reads what is known of a honey on the shelf.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    public static ShelfQuestion ReadShelf(Loaded loaded) => Guard(loaded, () => ShelfReader.Read(loaded.Document, loaded.Problems, loaded.Journal));

    /// <summary>Reads the honey alone.</summary>
    /// <param name="loaded">Input.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    /// <exception cref="RefusedHoneyException">There are no figures for this honey.</exception>
    public static (Honey Honey, Temperature Temperature) ReadHoney(Loaded loaded) =>
        Guard(loaded, () => SetupReader.ReadHoney(loaded.Document, loaded.Problems, loaded.Journal) is { } honey ? new Box(honey) : null).Value;

    /// <summary>Asks the library and lays a refusal at the key that caused it.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="ask">Asks; null counts as a problem that has been noted.</param>
    public static T Guard<T>(Loaded loaded, Func<T?> ask)
        where T : class
    {
        try
        {
            if (ask() is { } answer && !loaded.Problems.Any)
                return answer;
        }
        catch (HoneyRefusedException refused)
        {
            Spot spot = loaded.Document.Sections.GetValueOrDefault("honey")?.GetValueOrDefault(Keys.Honey.Form.Name)?.Value.Spot ?? loaded.Journal.FileSpot;
            throw new RefusedHoneyException($"{spot}: {Keys.Honey.Form}: {refused.Reason} {refused.WhatToMeasure} In the file: {Keys.Honey.Measured.Name} = [\"30 °C, 5.1 Pa.s\", \"40 °C, 1.9 Pa.s\"]");
        }
        catch (ArgumentException refusal)
        {
            Blame.Report(refusal, loaded.Document, loaded.Journal, loaded.Problems);
        }

        throw new BadInputException(loaded.Problems);
    }

    private sealed record Box((Honey Honey, Temperature Temperature) Value);
}
