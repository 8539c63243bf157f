using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using FlowSim.FieldMeasurements;
using FlowSim.Gates;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

/// <summary>Every interval that the documentation of a measurement's properties gives is the one that is kept; read from the documentation itself.</summary>
public partial class DocumentedMeasurementLimitsTests
{
    private static readonly Dictionary<string, string> Summaries = XDocument.Load(Path.ChangeExtension(typeof(Honey).Assembly.Location, ".xml"))
        .Descendants("member")
        .ToDictionary(member => member.Attribute("name")!.Value, member => member.Element("summary")?.Value ?? string.Empty, StringComparer.Ordinal);

    private static readonly (Type Type, Func<object> New, Action<object> Ask)[] Records =
    [
        (typeof(HoneySample), () => Samples.Honey(), sample => (Samples.Ball(10.9) with { Sample = (HoneySample)sample }).Measure()),
        (typeof(FallingBall), () => Samples.Ball(10.9), ball => ((FallingBall)ball).Measure()),
        (typeof(BubbleTube), () => new BubbleTube { Sample = Samples.Honey(), Times = Samples.Seconds(20) }, tube => ((BubbleTube)tube).Measure()),
        (typeof(TimedJarFill), NewJar, jar => ((TimedJarFill)jar).Measure()),
        (typeof(RefractometerReading), () => new RefractometerReading { Scale = RefractometerScale.Moisture, Readings = [17.6] }, reading => ((RefractometerReading)reading).Measure()),
        (typeof(CupReading), NewCup, cup => ((CupReading)cup).Measure()),
        (typeof(FlowCup), () => FlowCups.ByName("ford-5") with { Name = "own" }, cup => (NewCup() with { Cup = (FlowCup)cup }).Measure()),
    ];

    private static TimedJarFill NewJar() => new()
    {
        Sample = Samples.Honey(),
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Opening = Ratio.FromPercent(20),
        Supply = JarSupply.Constant(Length.FromMillimeters(250)),
        JarVolume = Volume.FromLiters(1),
        Times = Samples.Seconds(30),
    };

    private static CupReading NewCup() => new() { Sample = Samples.Honey(18.5, 48), Cup = FlowCups.ByName("ford-5"), Times = Samples.Seconds(60) };

    [GeneratedRegex(@"(?<low>\d+(\.\d+)?)( (?<lowUnit>[^\s.,;]+))? to (?<high>\d+(\.\d+)?)( (?<highUnit>[^\s.,;]+))?", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Interval();

    [Fact]
    public void Documented_limits_are_those_that_are_kept()
    {
        int found = 0;
        List<string> troubles = [];
        foreach ((Type type, Func<object> create, Action<object> ask) in Records)
        {
            foreach (PropertyInfo property in type.GetProperties().Where(property => property.SetMethod is not null))
            {
                Match? interval = Interval().Matches(Summaries[$"P:{type.FullName}.{property.Name}"]).LastOrDefault();
                if (interval is null)
                    continue;
                found++;
                string highUnit = interval.Groups["highUnit"].Value;
                string lowUnit = interval.Groups["lowUnit"] is { Success: true } unit ? unit.Value : highUnit;
                double low = double.Parse(interval.Groups["low"].Value, CultureInfo.InvariantCulture), high = double.Parse(interval.Groups["high"].Value, CultureInfo.InvariantCulture);
                Check(low, lowUnit, accepted: true);
                Check(high, highUnit, accepted: true);
                Check(low == 0 ? -1e-3 : low * (1 - 1e-6), lowUnit, accepted: false);
                Check(high * (1 + 1e-6), highUnit, accepted: false);

                void Check(double value, string unitName, bool accepted)
                {
                    // Volume and net weight exclude each other.
                    object record = property.Name == nameof(TimedJarFill.NetWeight) ? NewJar() with { JarVolume = null } : create();
                    property.SetValue(record, Value(property.PropertyType, value, unitName));
                    string? blamed = Blamed(() => ask(record));
                    if ((blamed == property.Name) == accepted)
                        troubles.Add(FormattableString.Invariant($"{type.Name}.{property.Name} = {value} {unitName}: {(accepted ? "refused" : "not refused by name but as " + blamed)}"));
                }
            }
        }

        Assert.InRange(found, 30, int.MaxValue);
        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles));
    }

    /// <summary>The argument that a value out of its range is laid to; a measurement that is refused for what it says counts as none.</summary>
    private static string? Blamed(Action ask)
    {
        try
        {
            ask();
            return null;
        }
        catch (ArgumentOutOfRangeException refused)
        {
            return refused.ParamName;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static object Value(Type type, double value, string unit) => ((Nullable.GetUnderlyingType(type) ?? type).Name, unit) switch
    {
        (nameof(Length), "mm") => Length.FromMillimeters(value),
        (nameof(Duration), "s") => Duration.FromSeconds(value),
        (nameof(Ratio), "%") => Ratio.FromPercent(value),
        (nameof(Temperature), "°C") => Temperature.FromDegreesCelsius(value),
        (nameof(TemperatureDelta), "K") => TemperatureDelta.FromKelvins(value),
        (nameof(Density), "kg/m3") => Density.FromKilogramsPerCubicMeter(value),
        (nameof(Volume), "mL") => Volume.FromMilliliters(value),
        (nameof(Volume), "L") => Volume.FromLiters(value),
        (nameof(Mass), "g") => Mass.FromGrams(value),
        (nameof(Mass), "kg") => Mass.FromKilograms(value),
        (nameof(Double), _) => value,
        _ when type == typeof(IReadOnlyList<Duration>) && unit == "s" => Samples.Seconds(value),
        _ => throw new NotSupportedException($"{type.Name} in {unit}"),
    };
}
