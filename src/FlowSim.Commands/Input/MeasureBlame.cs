using FlowSim.FieldMeasurements;
using FlowSim.Gates;

namespace FlowSim.Commands.Input;

/// <summary>Lays what the library refuses of a measurement at the option that caused it.</summary>
internal static class MeasureBlame
{
    /// <summary>Names of the library's arguments, and the options that may have filled them, likeliest first.</summary>
    private static readonly Dictionary<string, string[]> s_options = new(StringComparer.Ordinal)
    {
        [nameof(FallingBall.BallDiameter)] = ["--ball"],
        [nameof(FallingBall.BallDiameterSpread)] = ["--ball"],
        [nameof(FallingBall.BallDensity)] = ["--ball-density"],
        [nameof(FallingBall.BallDensitySpread)] = ["--ball-density"],
        [nameof(FallingBall.JarDiameter)] = ["--jar"],
        [nameof(FallingBall.JarDiameterSpread)] = ["--jar"],
        [nameof(FallingBall.Distance)] = ["--distance"],
        [nameof(FallingBall.DistanceSpread)] = ["--distance"],
        [nameof(FallingBall.FromSurface)] = ["--from-surface"],
        [nameof(FallingBall.FromBottom)] = ["--from-bottom"],
        [nameof(FallingBall.Times)] = [MeasureReader.Time],
        [nameof(FallingBall.Reaction)] = [MeasureReader.Reaction],
        [nameof(BubbleTube.StokesPerSecond)] = ["--constant"],
        [nameof(BubbleTube.StokesPerSecondSpread)] = ["--constant"],
        [nameof(TimedJarFill.NetWeight)] = ["--net-weight"],
        [nameof(TimedJarFill.JarVolume)] = ["--volume", "--net-weight"],
        [nameof(TimedJarFill.ContentSpread)] = ["--net-weight", "--volume"],
        [nameof(TimedJarFill.Opening)] = ["--opening"],
        [nameof(TimedJarFill.OpeningSpread)] = ["--opening"],
        [nameof(TimedJarFill.HeadSpread)] = ["--head", "--level"],
        [nameof(ConstantHead.Head)] = ["--head"],
        [nameof(FallingHead.Level)] = ["--level", MeasuredHoney.Batch],
        [nameof(FallingHead.GateHeight)] = ["--gate-height", MeasuredHoney.Batch],
        ["diameter"] = ["--tank-diameter"],
        [nameof(Gate.Bore)] = ["--bore", MeasuredHoney.Batch],
        [nameof(Gate.TubeLength)] = ["--tube-length", MeasuredHoney.Batch],
        [nameof(CupReading.Ceiling)] = ["--ceiling", MeasuredHoney.Batch],
        [nameof(RefractometerReading.Readings)] = ["--percent", "--brix", "--index"],
        [nameof(RefractometerReading.InstrumentSpread)] = ["--setting"],
        [nameof(HoneySample.Temperature)] = [MeasuredHoney.Temperature],
        ["temperature"] = [MeasuredHoney.Temperature, RefractometerReader.At],
        [nameof(HoneySample.TemperatureSpread)] = [MeasuredHoney.Temperature],
        [nameof(HoneySample.Moisture)] = [MeasuredHoney.Moisture, MeasuredHoney.Batch],
        [nameof(HoneySample.MoistureSpread)] = [MeasuredHoney.Moisture, MeasuredHoney.Batch],
    };

    /// <summary>Asks the library.</summary>
    /// <param name="options">Options.</param>
    /// <param name="ask">Asks; null counts as a problem that has been noted.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    public static T Guard<T>(MeasureOptions options, Func<T?> ask)
        where T : class
    {
        try
        {
            if (ask() is { } answer && !options.Problems.Any)
                return answer;
        }
        catch (ArgumentException refused)
        {
            options.Problems.Add(SpotOf(refused, options), Blame.MessageOf(refused));
        }

        throw new BadInputException(options.Problems);
    }

    private static Spot SpotOf(ArgumentException refused, MeasureOptions options)
    {
        string[] candidates = s_options.GetValueOrDefault((refused.ParamName ?? string.Empty).Split('.')[^1]) ?? [];
        return options.SpotOf(candidates.FirstOrDefault(options.Has) ?? string.Empty);
    }
}
