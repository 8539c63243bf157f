using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.FieldMeasurements;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim measure</c> was asked for.</summary>
internal sealed record MeasureRequest
{
    /// <summary>Method.</summary>
    public required MeasureMethod Method { get; init; }

    /// <summary>What was given, by option.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<string>> Options { get; init; }

    public string? Batch { get; init; }

    public bool Compensated { get; init; }

    public bool Json { get; init; }

    public UnitChoice Units { get; init; }

    /// <summary>The request of a line by one method, and what that method takes.</summary>
    /// <param name="method">Method.</param>
    /// <param name="options">What it takes.</param>
    public static MeasureRequest Of(MeasureMethod method, CommandOptions options) => new()
    {
        Method = method,
        Options = method.Options.ToDictionary(option => option.Name, option => options.Repeated(option.Name, option.Value, option.Meaning, option.Words), StringComparer.Ordinal),
        Batch = options.Text(MeasuredHoney.Batch, "FILE", "TOML file whose honey, gate and tank are taken."),
        Compensated = method == MeasureMethod.Refractometer && options.Flag(RefractometerReader.Compensated, "The instrument corrects for its temperature itself."),
        Json = options.Json(),
        Units = options.Units(),
    };
}

/// <summary>A way of measuring.</summary>
/// <param name="Name">Name of the command.</param>
/// <param name="Description">What it does.</param>
/// <param name="Options">Its options.</param>
internal sealed record MeasureMethod(string Name, string Description, IReadOnlyList<MeasureOption> Options)
{
    public static MeasureMethod Ball { get; } = new("ball", "A ball timed as it sinks through a jar of the honey.", MeasureReader.BallOptions);

    public static MeasureMethod Bubble { get; } = new("bubble", "A bubble timed as it rises through a closed tube of the honey.", MeasureReader.BubbleOptions);

    public static MeasureMethod Jar { get; } = new("jar", "A jar timed as it fills through the gate.", JarReader.Options);

    public static MeasureMethod Refractometer { get; } = new("refractometer", "Moisture from drops in a refractometer, and what its error does to the viscosity.", RefractometerReader.Options);

    public static MeasureMethod Cup { get; } = new("cup", "A flow cup timed as honey runs out of it.", MeasureReader.CupOptions);

    public static IReadOnlyList<MeasureMethod> All { get; } = [Ball, Bubble, Jar, Refractometer, Cup];
}

/// <summary>Works out what a measurement says. Writes no file.</summary>
internal static class MeasureCommand
{
    public static int Run(MeasureRequest request, Surroundings around)
    {
        Loaded? batch = request.Batch is null ? null : Loader.Load(around.Files, request.Batch, []);
        var options = new MeasureOptions(
            request.Method.Name,
            request.Options,
            batch?.Problems ?? new Problems(),
            batch?.Journal ?? new Journal(new Spot("flowsim measure " + request.Method.Name, 0, 0)));

        // The spread of the file's moisture is used here, so nothing is said of the median.
        options.Journal.UsesSpreads = true;
        foreach (MeasureOption twice in request.Method.Options.Where(option => !option.Repeats && request.Options[option.Name].Count > 1))
            options.Problems.Add(options.SpotOf(twice.Name), "is given twice; give it once");
        if (request.Method == MeasureMethod.Refractometer)
            return Moisture(request, options, batch, around);

        MeasuredHoney? honey = MeasuredHoney.Read(options, batch);
        ViscosityMeasurement measured = MeasureBlame.Guard(options, () => Measure(request.Method, options, honey, batch));
        (LotFactorEstimate? lot, string? why) = LotFactor(measured, honey!);
        if (request.Json)
            around.Json.Write(MeasureJson.Of(measured, lot, options.Journal));
        else
            new MeasureText(PageOf(around), new Display(request.Units), options.Journal).Write(measured, lot, why);
        around.Output.Flush();
        return ExitCode.Done;
    }

    private static ViscosityMeasurement? Measure(MeasureMethod method, MeasureOptions options, MeasuredHoney? honey, Loaded? batch)
    {
        if (method == MeasureMethod.Ball)
            return MeasureReader.Ball(options, honey)?.Measure();
        if (method == MeasureMethod.Bubble)
            return MeasureReader.Bubble(options, honey)?.Measure();
        return method == MeasureMethod.Jar
            ? JarReader.Read(options, honey, batch)?.Measure()
            : MeasureReader.Cup(options, honey, batch)?.Measure();
    }

    /// <summary>The lot factor, or why there is none: the viscosity stands without it.</summary>
    private static (LotFactorEstimate? Lot, string? Why) LotFactor(ViscosityMeasurement measured, MeasuredHoney honey)
    {
        try
        {
            return (measured.LotFactor(honey.Honey), null);
        }
        catch (ArgumentException refused)
        {
            return (null, Blame.MessageOf(refused));
        }
    }

    private static int Moisture(MeasureRequest request, MeasureOptions options, Loaded? batch, Surroundings around)
    {
        MoistureMeasurement measured = MeasureBlame.Guard(options, () => RefractometerReader.Read(options, request.Compensated)?.Measure());
        (UnitsNet.Temperature at, ViscosityCorrelation correlation) = RefractometerReader.Viscosity(options, batch);
        if (options.Problems.Any)
            throw new BadInputException(options.Problems);
        double? factor = null;
        try
        {
            factor = measured.ViscosityFactorAt(at, correlation);
        }
        catch (ArgumentOutOfRangeException)
        {
            // Beyond the correlation: the moisture stands without it.
        }

        if (request.Json)
            around.Json.Write(MeasureJson.Of(measured, at, factor, options.Journal));
        else
            new MeasureText(PageOf(around), new Display(request.Units), options.Journal).Write(measured, at, factor);
        around.Output.Flush();
        return ExitCode.Done;
    }

    private static Page PageOf(Surroundings around) => new(around.Output, around.Width, around.Colour);
}
