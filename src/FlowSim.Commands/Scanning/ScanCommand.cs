using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Scanning;

/// <summary>Runs a scan of one of the commands and tells what came out.</summary>
internal static class ScanCommand
{
    /// <summary>Refuses options that show a single run.</summary>
    /// <param name="options">Options with their values; null for one that was not given.</param>
    public static void RefuseBeside(params IEnumerable<(string Option, string? Value)> options)
    {
        Problems problems = new();
        foreach ((string option, string? _) in options.Where(option => option.Value is not null))
            problems.Add(new Spot(option, 0, 0), "shows a single run and cannot stand beside --scan; --plot draws the scan");
        if (problems.Any)
            throw new BadInputException(problems);
    }

    /// <summary>Runs the scan, writes its files and its text.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="columns">What is told of each run.</param>
    /// <param name="run">Reads and runs one input.</param>
    /// <param name="bad">Whether a run ended badly.</param>
    /// <param name="verdict">What such a run did.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="cancellation">Ends the scan.</param>
    /// <returns>Whether any run ended badly.</returns>
    public static bool Run<T>(
        ScanRequest request, IReadOnlyList<ScanColumn<T>> columns, Func<Loaded, T> run, Func<T, bool> bad, string verdict, Surroundings around, CancellationToken cancellation)
    {
        IReadOnlyList<Scan> scans = ScanReader.Read(request.Scans);
        Asked[] files = [Asked.Text("--csv", request.Csv), Asked.Drawing("--plot", request.Plot)];
        Loaded plain = new(new InputDocument(), new Journal(new Spot("--scan", 0, 0)), new Problems(), string.Empty);
        Outputs.Require(around, plain, request.File, request.Force, seriesPoints: null, files);
        if (request.Plot is not null && scans.Count == 2 && scans[1].Values.Count > ScanReport<T>.MostCurves)
        {
            plain.Problems.Add(new Spot(scans[1].Option, 0, 0), FormattableString.Invariant($"makes {scans[1].Values.Count} curves of each kind; with --plot the second scan has at most {ScanReport<T>.MostCurves} values, or let the other key be the second"));
            throw new BadInputException(plain.Problems);
        }

        ScanReport<T> report;
        ScanRun<T> scanned;
        using (ProgressLine progress = new(around, "scanning"))
        {
            scanned = Scanner.Run(around.Files, request, run, progress, cancellation);
            report = new ScanReport<T>(scanned, columns);
            if (request.Csv is { } csv)
                around.Files.Write(csv, request.Force, report.Csv());
            if (request.Plot is { } plot)
                around.Files.Write(plot, request.Force, around.Drawing.Draw(report.Figure(new Display(request.Units)), request.Units, scanned.Name, plot));
        }

        if (request.Json)
        {
            around.Json.Write(report.Json());
        }
        else
        {
            Page page = new(around.Output, around.Width, around.Colour);
            if (!request.Quiet)
                report.WriteRows(page);
            report.WriteOutcome(page, bad, verdict);
            Outputs.Tell(around, files);
        }

        return scanned.Rows.Any(row => bad(row.Result));
    }
}
