using FlowSim.Commands.Quantities;
using FlowSim.FieldMeasurements;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Commands.Input;

/// <summary>Turns the options of <c>flowsim measure</c> into measurements. Limits and defaults are the library's.</summary>
internal static class MeasureReader
{
    public const string Time = "--time";
    public const string Reaction = "--reaction";

    private static readonly MeasureOption s_time = new(Time, "TIME", "Time it took, \"10.9 s\"; give it again for every timing.", Repeats: true);
    private static readonly MeasureOption s_reaction = new(Reaction, "TIME", "How well a start or stop is hit, one standard deviation.");
    private static readonly MeasureOption s_temperature = new(MeasuredHoney.Temperature, "TEMPERATURE", "Temperature of the honey, \"35 ± 0.5 °C\".");
    private static readonly MeasureOption s_moisture = new(MeasuredHoney.Moisture, "SHARE", "Moisture of the honey, \"17.8 ± 0.2 %\".");

    /// <summary>Options of the honey and the watch.</summary>
    public static IReadOnlyList<MeasureOption> Common { get; } = [s_time, s_temperature, s_moisture, s_reaction];

    public static IReadOnlyList<MeasureOption> BallOptions { get; } =
    [
        new("--ball", "LENGTH", "Diameter of the ball, \"3 mm\"."),
        new("--jar", "LENGTH", "Inside diameter of the jar, \"50 mm\"."),
        new("--distance", "LENGTH", "Distance between the marks, \"100 mm\"."),
        .. Common,
        new("--ball-density", "DENSITY", "Density of the ball; without it steel."),
        new("--from-surface", "LENGTH", "First mark below the surface."),
        new("--from-bottom", "LENGTH", "Second mark above the bottom."),
    ];

    public static IReadOnlyList<MeasureOption> BubbleOptions { get; } =
        [.. Common, new("--constant", "NUMBER", "Stokes for a second of your tube, \"0.4 ± 0.02\"; without it 1, the tube of ASTM D1545.")];

    public static IReadOnlyList<MeasureOption> CupOptions { get; } =
    [
        new("--cup", "NAME", "The cup: iso-3 to iso-6, ford-1 to ford-5, zahn-1 to zahn-5.") { Words = [.. FlowCups.All.Select(cup => cup.Name)] },
        .. Common,
        new("--ceiling", "TEMPERATURE", "Highest temperature the honey may have; without it that of the file, or 50 °C."),
    ];

    /// <summary>Reads the falling ball.</summary>
    /// <param name="options">Options.</param>
    /// <param name="honey">Honey; null when it could not be read.</param>
    public static FallingBall? Ball(MeasureOptions options, MeasuredHoney? honey)
    {
        Given? ball = options.Required("--ball", Dimension.Length, "3 mm");
        Given? jar = options.Required("--jar", Dimension.Length, "50 mm");
        Given? distance = options.Required("--distance", Dimension.Length, "100 mm");
        Given? density = options.Quantity("--ball-density", Dimension.Density);
        Given? surface = options.Quantity("--from-surface", Dimension.Length);
        Given? bottom = options.Quantity("--from-bottom", Dimension.Length);
        (IReadOnlyList<Duration> times, Duration? reaction) = Times(options);
        if (options.Problems.Any || honey is null)
            return null;

        FallingBall result = new()
        {
            Sample = honey.Sample,
            BallDiameter = Length.FromMeters(ball!.Value.Si),
            JarDiameter = Length.FromMeters(jar!.Value.Si),
            Distance = Length.FromMeters(distance!.Value.Si),
            Times = times,
            FromSurface = surface is { } top ? Length.FromMeters(top.Si) : null,
            FromBottom = bottom is { } low ? Length.FromMeters(low.Si) : null,
        };
        options.Assumed(ball.Value, "--ball", Invariant($"diameter of the ball ± {result.BallDiameterSpread.Millimeters:0.##} mm"));
        options.Assumed(jar.Value, "--jar", Invariant($"diameter of the jar ± {result.JarDiameterSpread.Millimeters:0.##} mm"));
        options.Assumed(distance.Value, "--distance", Invariant($"distance ± {result.DistanceSpread.Millimeters:0.##} mm"));
        if (ball.Value.Spread is { } ballM)
            result = result with { BallDiameterSpread = Length.FromMeters(ballM) };
        if (jar.Value.Spread is { } jarM)
            result = result with { JarDiameterSpread = Length.FromMeters(jarM) };
        if (distance.Value.Spread is { } distanceM)
            result = result with { DistanceSpread = Length.FromMeters(distanceM) };
        if (density is { } given)
        {
            result = result with { BallDensity = Density.FromKilogramsPerCubicMeter(given.Si) };
            options.Assumed(given, "--ball-density", Invariant($"density of the ball ± {result.BallDensitySpread.KilogramsPerCubicMeter:0} kg/m3"));
            if (given.Spread is { } spread)
                result = result with { BallDensitySpread = Density.FromKilogramsPerCubicMeter(spread) };
        }
        else
        {
            options.Journal.Assume("--ball-density", Invariant($"a steel ball, {result.BallDensity.KilogramsPerCubicMeter:0} ± {result.BallDensitySpread.KilogramsPerCubicMeter:0} kg/m3"), Standing.FromMemory);
        }

        if (surface is null || bottom is null)
            options.Journal.Assume(surface is null ? "--from-surface" : "--from-bottom", Invariant($"marks at least {result.JarDiameter.Millimeters / 2:0.#} mm, the jar's radius, from surface and bottom"), Standing.EngineeringChoice);
        NoteReaction(options, result.Reaction);
        return reaction is { } hand ? result with { Reaction = hand } : result;
    }

    /// <summary>Reads the bubble tube.</summary>
    /// <param name="options">Options.</param>
    /// <param name="honey">Honey; null when it could not be read.</param>
    public static BubbleTube? Bubble(MeasureOptions options, MeasuredHoney? honey)
    {
        Given? constant = options.Quantity("--constant", null);
        (IReadOnlyList<Duration> times, Duration? reaction) = Times(options);
        if (options.Problems.Any || honey is null)
            return null;
        BubbleTube result = new() { Sample = honey.Sample, Times = times };
        if (constant is { } given)
            result = result with { StokesPerSecond = given.Si };
        else
            options.Journal.Assume("--constant", "the tube of ASTM D1545, 10.65 mm inside, 73 mm of travel: seconds are stokes", BubbleTube.Source.Standing);
        if (constant?.Spread is { } spread)
            result = result with { StokesPerSecondSpread = Ratio.FromDecimalFractions(spread / result.StokesPerSecond) };
        else
            options.Journal.Assume("--constant", Invariant($"constant of the tube ± {result.StokesPerSecondSpread.Percent:0} %"), Standing.EngineeringChoice);
        NoteReaction(options, result.Reaction);
        return reaction is { } hand ? result with { Reaction = hand } : result;
    }

    /// <summary>Reads the flow cup.</summary>
    /// <param name="options">Options.</param>
    /// <param name="honey">Honey; null when it could not be read.</param>
    /// <param name="batch">File; null when none was given.</param>
    public static CupReading? Cup(MeasureOptions options, MeasuredHoney? honey, Loaded? batch)
    {
        if (!options.Has("--cup"))
            options.Missing("--cup", "--cup iso-6");
        string? cup = options.Word("--cup", [.. FlowCups.All.Select(known => known.Name)], "flow cup");
        Given? ceiling = options.Quantity("--ceiling", Dimension.Temperature);
        (IReadOnlyList<Duration> times, Duration? reaction) = Times(options);
        double? inFile = ceiling is null && batch is not null ? CeilingOf(batch) : null;
        if (options.Problems.Any || honey is null || cup is null)
            return null;
        CupReading result = new() { Sample = honey.Sample, Cup = FlowCups.ByName(cup), Times = times };
        if (ceiling?.Si is { } asked)
            result = result with { Ceiling = Temperature.FromKelvins(asked) };
        else if (inFile is { } given)
            result = result with { Ceiling = Temperature.FromKelvins(given) };
        NoteReaction(options, result.Reaction);
        return reaction is { } hand ? result with { Reaction = hand } : result;
    }

    /// <summary>Timings and how well the watch is handled.</summary>
    /// <param name="options">Options.</param>
    public static (IReadOnlyList<Duration> Times, Duration? Reaction) Times(MeasureOptions options)
    {
        if (!options.Has(Time))
            options.Missing(Time, $"{Time} \"10.9 s\", once for each timing");
        IReadOnlyList<double> seconds = options.All(Time, Dimension.Duration);
        Given? reaction = options.Quantity(Reaction, Dimension.Duration);
        return ([.. seconds.Select(s => Duration.FromSeconds(s))], reaction is { } given ? Duration.FromSeconds(given.Si) : null);
    }

    /// <summary>Notes how well a watch is taken to be handled when nothing was said of it.</summary>
    /// <param name="options">Options.</param>
    /// <param name="reaction">What was taken.</param>
    public static void NoteReaction(MeasureOptions options, Duration reaction)
    {
        if (!options.Has(Reaction))
            options.Journal.Assume(Reaction, Invariant($"start and stop by hand ± {reaction.Seconds:0.##} s each"), Standing.EngineeringChoice);
    }

    private static double? CeilingOf(Loaded batch) =>
        new Section(Keys.Limits.Ceiling.Section, batch.Document, batch.Problems, batch.Journal).Quantity(Keys.Limits.Ceiling);
}
