using FlowSim.Commands.Quantities;
using FlowSim.FieldMeasurements;
using FlowSim.Gates;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Commands.Input;

/// <summary>Reads a jar that was timed as it filled: gate and tank from the options or from a file.</summary>
internal static class JarReader
{
    public static IReadOnlyList<MeasureOption> Options { get; } =
    [
        new("--net-weight", "MASS", "Net weight of the jar, \"500 g\"."),
        new("--volume", "VOLUME", "Volume of the jar, in place of its net weight."),
        .. MeasureReader.Common,
        new("--head", "LENGTH", "Honey above the gate's axis, if it hardly falls."),
        new("--level", "LENGTH", "Honey in the tank at the start, if it falls; with --tank-diameter or a file."),
        new("--tank-diameter", "LENGTH", "Inside diameter of an upright tank."),
        new("--gate-height", "LENGTH", "Gate's axis above the tank's lowest point; without it 0."),
        new("--bore", "LENGTH", "Inside diameter of the gate."),
        new("--tube-length", "LENGTH", "Length of the gate's tube."),
        new("--opening", "SHARE", "Travel of the blade as a share of the bore."),
        new("--blade", "straight|round-holed", "Edge of the blade; without it straight.") { Words = Words.All<BladeShape>() },
    ];

    /// <summary>Reads it.</summary>
    /// <param name="options">Options.</param>
    /// <param name="honey">Honey; null when it could not be read.</param>
    /// <param name="batch">File; null when none was given.</param>
    public static TimedJarFill? Read(MeasureOptions options, MeasuredHoney? honey, Loaded? batch)
    {
        options.Clash("--net-weight", "--volume");
        if (!options.Has("--net-weight") && !options.Has("--volume"))
            options.Missing("--net-weight", "--net-weight \"500 g\", or --volume \"0.35 L\"");
        Given? weight = options.Quantity("--net-weight", Dimension.Mass);
        Given? volume = options.Quantity("--volume", Dimension.Volume);
        (Gate? gate, Given? opening) = ReadGate(options, batch);
        (JarSupply? supply, double? headSpreadM) = ReadSupply(options, honey, batch);
        (IReadOnlyList<Duration> times, Duration? reaction) = MeasureReader.Times(options);
        if (options.Problems.Any || honey is null || gate is null || opening is not { } share || supply is null)
            return null;

        TimedJarFill result = new()
        {
            Sample = honey.Sample,
            Gate = gate,
            Opening = Ratio.FromDecimalFractions(share.Si),
            Supply = supply,
            NetWeight = weight is { } mass ? Mass.FromKilograms(mass.Si) : null,
            JarVolume = volume is { } litres ? Volume.FromCubicMeters(litres.Si) : null,
            Times = times,
        };
        Given content = (weight ?? volume)!.Value;
        options.Assumed(content, weight is null ? "--volume" : "--net-weight", Invariant($"content of the jar ± {result.ContentSpread.Percent:0.##} %"));
        if (share.Si < 1)
            options.Assumed(share, "--opening", Invariant($"opening ± {result.OpeningSpread.Percent:0.##} % of the bore"));
        options.Assumed(new Given(0, headSpreadM), options.Has("--head") ? "--head" : "--level", Invariant($"head above the gate ± {result.HeadSpread.Millimeters:0.##} mm"));
        options.Journal.Assume(string.Empty, Invariant($"equation of the gate ± {result.ResistanceSpread.Percent:0} %, its inertia ± {result.InertiaSpread.Percent:0} %"), Standing.EngineeringChoice);
        if (content.Spread is { } ofContent)
            result = result with { ContentSpread = Ratio.FromDecimalFractions(ofContent / content.Si) };
        if (share.Spread is { } ofOpening)
            result = result with { OpeningSpread = Ratio.FromDecimalFractions(ofOpening) };
        if (headSpreadM is { } ofHead)
            result = result with { HeadSpread = Length.FromMeters(ofHead) };
        MeasureReader.NoteReaction(options, result.Reaction);
        return reaction is { } hand ? result with { Reaction = hand } : result;
    }

    private static (Gate? Gate, Given? Opening) ReadGate(MeasureOptions options, Loaded? batch)
    {
        Given? bore = options.Quantity("--bore", Dimension.Length);
        Given? tube = options.Quantity("--tube-length", Dimension.Length);
        Given? opening = options.Quantity("--opening", Dimension.Share);
        string? blade = options.Word("--blade", Words.All<BladeShape>(), "blade");
        Gate? gate = null;
        GateControl? control = null;
        if (batch is not null && !(options.Has("--bore") && options.Has("--tube-length") && options.Has("--opening")))
            (gate, control) = GateReader.Read(new Section("gate", batch.Document, batch.Problems, batch.Journal), batch.Journal);
        if (opening is null && !options.Has("--opening") && control is FixedOpening { Opening: var left })
        {
            opening = new Given(left.DecimalFractions, null);
            options.Journal.Assume("--opening", Invariant($"gate open {left.Percent:0.##} %, as in the file"), Standing.GivenByUser);
        }

        if (gate is null)
        {
            const string Instead = ", or --batch FILE whose [gate] gives it";
            if (!options.Has("--bore"))
                options.Missing("--bore", "--bore \"38 mm\"" + Instead);
            if (!options.Has("--tube-length"))
                options.Missing("--tube-length", "--tube-length \"40 mm\"; it counts as much as the bore" + Instead);
        }

        if (opening is null && !options.Has("--opening"))
            options.Missing("--opening", "--opening 20%");
        if (gate is null && bore is { } diameter && tube is { } length)
            gate = new Gate { Bore = Length.FromMeters(diameter.Si), TubeLength = Length.FromMeters(length.Si) };
        if (gate is not null && bore is { } wide)
            gate = gate with { Bore = Length.FromMeters(wide.Si) };
        if (gate is not null && tube is { } end)
            gate = gate with { TubeLength = Length.FromMeters(end.Si) };
        if (gate is not null && blade is not null)
            gate = gate with { Blade = Words.Value<BladeShape>(blade) };

        // A jar is held under the gate, wherever the outlet ends when honey is strained.
        return (gate is null ? null : gate with { Outlet = GateOutlet.Free }, opening);
    }

    private static (JarSupply? Supply, double? SpreadM) ReadSupply(MeasureOptions options, MeasuredHoney? honey, Loaded? batch)
    {
        options.Clash("--head", "--level");
        if (options.Quantity("--head", Dimension.Length) is { } head)
            return (JarSupply.Constant(Length.FromMeters(head.Si)), head.Spread);
        Given? level = options.Quantity("--level", Dimension.Length);
        Given? diameter = options.Quantity("--tank-diameter", Dimension.Length);
        Given? height = options.Quantity("--gate-height", Dimension.Length);
        if (!options.Has("--head") && !options.Has("--level") && batch is null)
            options.Missing("--head", "--head \"250 mm\" if it hardly falls, or --level \"300 mm\" with --tank-diameter or --batch FILE");
        else if (options.Has("--level") && batch is null && !options.Has("--tank-diameter"))
            options.Missing("--tank-diameter", "--tank-diameter \"285 mm\", or --batch FILE whose [tank] gives the shape");
        else if (options.Has("--tank-diameter") && !options.Has("--level"))
            options.Missing("--level", "--level \"300 mm\", the honey in the tank at the start");
        if (options.Has("--head") || options.Problems.Any || honey is null)
            return (null, null);

        Tank? tank = batch is not null && diameter is null
            ? VesselReader.ReadTank(new Section("tank", batch.Document, batch.Problems, batch.Journal), (honey.Honey, honey.Sample.Temperature), batch.Journal)
            : null;
        batch?.Journal.Withdraw(Keys.Tank.HeatLoss);
        if (options.Problems.Any || (tank is null && diameter is null) || (tank is null && level is null))
            return (null, null);

        double levelM = level?.Si ?? tank!.Level.Meters;
        if (level is null)
            options.Journal.Assume("--level", Invariant($"honey {1000 * levelM:0.#} mm deep at the start, as in the file"), Standing.GivenByUser);
        double gateM = height?.Si ?? tank?.GateHeight.Meters ?? 0;
        if (height is null && tank is null)
            options.Journal.Assume("--gate-height", "gate's axis at the tank's lowest point", Standing.EngineeringChoice);

        // An upright tank of the options is as high as it needs to be.
        VesselShape shape = tank?.Shape ?? new UprightCylinder(Length.FromMeters(diameter!.Value.Si), Length.FromMeters(Math.Clamp(levelM, 0.01, 20)));
        return (JarSupply.Falling(shape, Length.FromMeters(levelM), Length.FromMeters(gateM)), level?.Spread);
    }
}
