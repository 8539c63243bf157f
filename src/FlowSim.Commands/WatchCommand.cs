using System.Collections.Concurrent;
using FlowSim.Attending;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Commands.Watching;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim watch</c> was asked for.</summary>
internal sealed record WatchRequest : BatchRequest
{
    public string? Log { get; init; }

    public string? At { get; init; }

    public bool Plain { get; init; }

    public bool NoColour { get; init; }

    public bool Sound { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static WatchRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Log = options.Text("--log", "RUN.csv", "Table that readings and moves are kept in; one that is there is gone on with. \"flowsim fit\" reads it."),
        Settings = options.Settings(),
        At = options.Text("--at", "TIME", "Tell how things stand this long after the opening, by what the log holds up to then, and end. Nothing is written."),
        Plain = options.Flag("--plain", "Lines in, lines out: nothing is drawn over."),
        NoColour = options.Flag("--no-colour", "No colour; as with NO_COLOR set.", "--no-color"),
        Sound = options.Flag("--sound", "Ring the bell when something is due."),
        Json = options.Json("Print the last outlook as JSON, SI units, and nothing else; lines are read as with --plain."),
        Units = options.Units(),
    };
}

/// <summary>Stays beside a run that goes on: keeps what is read and done, and tells what to do next.</summary>
internal static class WatchCommand
{
    /// <summary>Runs the command.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="cancellation">Ends it.</param>
    public static int Run(WatchRequest request, Surroundings around, CancellationToken cancellation)
    {
        string log = RequireUsage(request, around.Files);
        BatchSource batch = new(request.File ?? "the example", request.File is null ? Demo.Text : InputFile.Read(around.Files, request.File), request.Settings);
        Display display = new(request.Units);
        if (request.At is { } at)
            return TellAt(log, SecondsOf(at), batch, request, around, display, cancellation);
        bool keyboard = around.Keys is not null;
        using WatchSession session = new(around.Files, log, batch, display, around.Clock, scripted: !keyboard);
        string resume = $"flowsim watch{(request.File is { } file ? " " + Printable.Of(file, 200) : string.Empty)} --log {Printable.Of(log, 200)}"
            + string.Concat(request.Settings.Select(setting => $" --set \"{Printable.Of(setting, 200)}\"")) + (request.Units == UnitChoice.Us ? " --units us" : string.Empty);
        return keyboard && !request.Plain && !request.Json && around.DrawsOver
            ? Live(session, request, around, display, resume, cancellation)
            : Plain(session, request, around, display, resume, cancellation);
    }

    private static int Live(WatchSession session, WatchRequest request, Surroundings around, Display display, string resume, CancellationToken cancellation)
    {
        using Forecaster forecaster = new(cancellation);
        LiveScreen screen = new(around.Output, around.Colour && !request.NoColour, around.WindowSize);
        LiveWatch watch = new(session, forecaster, screen, display, request.Sound);
        using BlockingCollection<ConsoleKeyInfo?> keys = [];

        // The thread sits in the reading of a key and ends with the process.
        Thread reader = new(() => Read(around.Keys!, keys)) { IsBackground = true, Name = "keys" };
        reader.Start();
        int code = watch.Run(keys, [.. Begin(session)], cancellation);
        TellEnd(session, around, resume);
        return code;
    }

    private static int Plain(WatchSession session, WatchRequest request, Surroundings around, Display display, string resume, CancellationToken cancellation)
    {
        bool keyboard = around.Keys is not null;
        if (!request.Json)
        {
            PlainWatch.Print(around, [.. Begin(session), .. keyboard ? (ScreenLine[])[new("Enter alone tells how things stand; \"help\" lists what can be typed.")] : []]);
            around.Output.Flush();
        }

        int code;
        try
        {
            code = new PlainWatch(session, around, display, request.Json).Run(Lines(around.Input, cancellation), keyboard && !request.Json, cancellation);
        }
        catch (OperationCanceledException)
        {
            code = ExitCode.Cancelled;
        }

        if (!request.Json)
            TellEnd(session, around, resume);
        return code;
    }

    /// <summary>What is said first: how to go on, and what to mind.</summary>
    private static IEnumerable<ScreenLine> Begin(WatchSession session)
    {
        if (session.SetAside is { } torn)
            yield return new ScreenLine($"The last line of the log was cut short and is set aside in it: \"{Printable.Of(torn)}\". Type that entry again.", Tone.Soon);
        if (session.IsOpened)
            yield return new ScreenLine(FormattableString.Invariant($"Going on: the gate was opened at {session.Moment(session.OpenedAt)}, {Kept(session.Entries)}."));
        yield return new ScreenLine("This does not stand at the gate for you: somebody stays with an open gate.");
        foreach (Caution caution in FlowSim.Straining.StrainingRun.Simulate(session.Plan.Setup, new Straining.StrainingOptions { SeriesPoints = 0 }).Cautions)
            yield return new ScreenLine("- " + caution.Text);
    }

    private static void TellEnd(WatchSession session, Surroundings around, string resume)
    {
        around.Output.Flush();
        around.Error.Write(session.IsOpened
            ? FormattableString.Invariant($"{Kept(session.Entries)}. The gate may still be open: look at it.\nGo on with: {resume}\n")
            : "The gate was not opened; nothing is kept.\n");
    }

    private static string Kept(int entries) => FormattableString.Invariant($"{entries} {(entries == 1 ? "entry is" : "entries are")} kept");

    private static int TellAt(string path, double seconds, BatchSource batch, WatchRequest request, Surroundings around, Display display, CancellationToken cancellation)
    {
        string text = InputFile.Read(around.Files, path, InputFile.Run);
        Problems problems = new();
        RunFile? file = RunCsvReader.Read(path, text, problems, goesOn: true);
        if (file is null || problems.Any)
            throw new BadInputException(problems);
        WatchPlan plan = WatchPlan.Read(batch, file);
        RunOutlook outlook;
        using (ProgressLine _ = new(around, "estimating"))
            outlook = Loader.Guard(plan.Loaded, () => RunForecast.Of(plan.RunOf(file, seconds), before: null, cancellation).At(Duration.FromSeconds(seconds)));
        if (request.Json)
        {
            around.Json.Write(OutlookJson.Of(outlook));
            return ExitCode.Done;
        }

        OutlookText words = new(display, WatchLog.MomentIn(text), around.Clock.LocalTimeZone);
        PlainWatch.Print(around, [new ScreenLine($"{Display.Time(seconds)} since the gate was opened"), .. words.Lines(outlook), new ScreenLine(string.Empty), .. words.Reasons(outlook), .. outlook.Cautions.Select(caution => new ScreenLine("- " + display.Words(caution.Text)))]);
        return ExitCode.Done;
    }

    private static void Read(Func<ConsoleKeyInfo> source, BlockingCollection<ConsoleKeyInfo?> keys)
    {
        try
        {
            while (true)
                keys.Add(source());
        }
        catch (Exception over) when (over is InvalidOperationException or IOException or ObjectDisposedException)
        {
            // The terminal is gone, or the watch has ended.
            try
            {
                keys.Add(null);
            }
            catch (Exception ended) when (ended is InvalidOperationException or ObjectDisposedException)
            {
                // The watch has ended.
            }
        }
    }

    /// <summary>Lines, read beside the rest so that Ctrl-C is heard while somebody thinks.</summary>
    private static IEnumerable<string> Lines(TextReader input, CancellationToken cancellation)
    {
        while (true)
        {
            Task<string?> next = Task.Run(() => input.ReadLine(), CancellationToken.None);
            next.Wait(cancellation);
            if (next.Result is not { } line)
                yield break;
            yield return line;
        }
    }

    private static string RequireUsage(WatchRequest request, IFiles files)
    {
        Problems problems = new();
        if (string.IsNullOrWhiteSpace(request.Log))
            problems.Add(new Spot("--log", 0, 0), "is missing: name the file that the readings are kept in, as in --log run.csv");
        else
            OutputFile.RequireOwn(files, "--log", request.Log, [("the batch", request.File)], problems);
        return problems.Any ? throw new BadInputException(problems) : request.Log!;
    }

    private static double SecondsOf(string at)
    {
        Problems problems = new();
        QuantityFault? fault = QuantityGrammar.Read(at, Dimension.Duration, out Quantities.Quantity quantity);
        if (fault is not null)
            problems.Add(new Spot("--at " + Printable.Of(at), 0, 0), fault.What);
        else if (quantity.Si > 30 * 86400)
            problems.Add(new Spot("--at " + Printable.Of(at), 0, 0), "is longer than a run can be; allowed: 0 s to 30 d");
        return problems.Any ? throw new BadInputException(problems) : quantity.Si;
    }
}
