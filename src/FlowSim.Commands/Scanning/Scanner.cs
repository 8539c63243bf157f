using FlowSim.Commands.Input;

namespace FlowSim.Commands.Scanning;

/// <summary>One run of a scan.</summary>
/// <typeparam name="T">Result of a run.</typeparam>
/// <param name="Values">Values of the keys that are scanned, SI.</param>
/// <param name="Result">Result.</param>
internal sealed record ScanRow<T>(IReadOnlyList<double> Values, T Result);

/// <summary>A scan that was run.</summary>
/// <typeparam name="T">Result of a run.</typeparam>
/// <param name="Scans">Keys and their values.</param>
/// <param name="Rows">Runs, the last key varying fastest.</param>
/// <param name="Name">Name of the input.</param>
/// <param name="Nominal">Value of the first key where nothing is scanned, SI; null when there is none.</param>
internal sealed record ScanRun<T>(IReadOnlyList<Scan> Scans, IReadOnlyList<ScanRow<T>> Rows, string Name, double? Nominal);

/// <summary>Runs one input with one value after the other.</summary>
internal static class Scanner
{
    /// <summary>Runs a scan. The files that are asked for are checked before.</summary>
    /// <param name="files">Files.</param>
    /// <param name="request">What was asked for.</param>
    /// <param name="run">Reads and runs one input.</param>
    /// <param name="progress">Told the share that is done.</param>
    /// <param name="cancellation">Ends the scan.</param>
    /// <exception cref="BadInputException">Something is wrong with the scan or with one of its inputs.</exception>
    public static ScanRun<T> Run<T>(IFiles files, ScanRequest request, Func<Loaded, T> run, IProgress<double> progress, CancellationToken cancellation)
    {
        IReadOnlyList<Scan> scans = ScanReader.Read(request.Scans);
        string text = request.File is null ? Demo.Text : InputFile.Read(files, request.File);
        double[][] all = [.. scans.Count == 1
            ? scans[0].Values.Select(value => new[] { value })
            : scans[0].Values.SelectMany(first => scans[1].Values.Select(second => new[] { first, second }))];

        // The last first: what is refused is mostly refused at an end, and should be before a long wait.
        ScanRow<T>?[] rows = new ScanRow<T>?[all.Length];
        int done = 0;
        foreach (int i in Enumerable.Range(0, all.Length).Prepend(all.Length - 1).Take(all.Length))
        {
            cancellation.ThrowIfCancellationRequested();
            rows[i] = new ScanRow<T>(all[i], run(Load(all[i])));
            progress.Report(++done / (double)all.Length);
        }

        Loaded plain = Loader.Load(text, request.File, request.Settings, request.More);
        return new ScanRun<T>(scans, [.. rows.OfType<ScanRow<T>>()], plain.Name, NominalOf(plain, scans[0]));

        Loaded Load(double[] values) => Loader.Load(
            text, request.File, request.Settings, [.. request.More, .. scans.Select((scan, i) => new OptionSetting(scan.Option, $"{scan.Key}={scan.Text(values[i])}"))]);
    }

    /// <summary>The value that the file gives the key, as far as it can be read without the rest.</summary>
    private static double? NominalOf(Loaded plain, Scan scan)
    {
        string[] name = scan.Key.Split('.');
        if (plain.Document.Sections.GetValueOrDefault(name[0])?.GetValueOrDefault(name[1])?.Value is not { Kind: not ValueKind.List } value)
            return null;
        if (scan.Dimension is { } dimension)
            return Quantities.QuantityGrammar.Read(value.Text, dimension, signed: true, out Quantities.Quantity quantity) is null ? quantity.Si : null;
        return Quantities.QuantityGrammar.ReadNumber(value.Text, out double number) is null ? number : null;
    }
}
