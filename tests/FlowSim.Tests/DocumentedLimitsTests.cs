using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests;

/// <summary>
/// The limits that the documentation of a setup's properties gives are those that the checks keep: at a limit the setup is
/// accepted, a little beyond it is refused. The limits are read from the documentation itself.
/// </summary>
public partial class DocumentedLimitsTests
{
    private static readonly Dictionary<string, string> Summaries = XDocument.Load(Path.ChangeExtension(typeof(Honey).Assembly.Location, ".xml"))
        .Descendants("member")
        .ToDictionary(member => member.Attribute("name")!.Value, member => member.Element("summary")?.Value ?? string.Empty, StringComparer.Ordinal);

    /// <summary>A large invented tank, so that no other part stands in the way of a limit.</summary>
    private static StrainingSetup Roomy() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(18) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMeters(2), Length.FromMeters(2)), Level = Length.FromMeters(1.5) },
        Gate = new Gate { Bore = Length.FromMillimeters(50), TubeLength = Length.FromMillimeters(50) },
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMeters(1), Length.FromMeters(1)), Cloths = [Cloth.FromAstmSieve(40)] },
        Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(80) },
        Receiver = new Receiver
        {
            Shape = new UprightCylinder(Length.FromMeters(2), Length.FromMeters(2)),
            StartTemperature = Temperature.FromDegreesCelsius(20),
        },
    };

    [GeneratedRegex(@"(?<low>−?\d+(\.\d+)?)( (?<lowUnit>[^\s.,]+))? to (?<high>\d+(\.\d+)?)( (?<highUnit>[^\s.,]+))?", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Interval();

    [Theory]
    [InlineData("RoomTemperature")]
    [InlineData("Longest")]
    [InlineData("Gate.Bore")]
    [InlineData("Gate.TubeLength")]
    [InlineData("Gate.Factor")]
    [InlineData("Gate.OutletAboveScreen")]
    [InlineData("Strainer.ScreenFactor")]
    [InlineData("Strainer.MinimumHead")]
    [InlineData("Debris.Load")]
    [InlineData("Debris.MedianSize")]
    [InlineData("Debris.SizeSpread")]
    [InlineData("Debris.CaptureEfficiency")]
    [InlineData("Debris.Density")]
    [InlineData("Tank.HeatLoss")]
    [InlineData("Receiver.HeatLoss")]
    [InlineData("Receiver.StartTemperature")]
    [InlineData("Scraping.Recovery")]
    [InlineData("Scraping.Pause")]
    [InlineData("Scraping.AtPondDepth")]
    public void A_documented_limit_is_the_one_that_is_kept(string path)
    {
        (PropertyInfo? part, PropertyInfo property) = Find(path);
        Match? interval = Interval().Matches(Summaries[$"P:{property.DeclaringType!.FullName}.{property.Name}"]).LastOrDefault();
        Assert.True(interval is not null, $"{path} documents no interval");
        string highUnit = interval.Groups["highUnit"].Value;
        string lowUnit = interval.Groups["lowUnit"] is { Success: true } unit ? unit.Value : highUnit;
        double low = Number(interval.Groups["low"].Value);
        double high = Number(interval.Groups["high"].Value);

        Assert.Null(Refusal(low, lowUnit));
        Assert.Null(Refusal(high, highUnit));
        Assert.Equal(property.Name, Refusal(low - (1e-6 * Math.Max(1, Math.Abs(low))), lowUnit)?.ParamName);
        Assert.Equal(property.Name, Refusal(high * (1 + 1e-6), highUnit)?.ParamName);

        ArgumentException? Refusal(double value, string unitName)
        {
            try
            {
                StrainingSetupCheck.Require(With(part, property, Value(property.PropertyType, value, unitName)));
                return null;
            }
            catch (ArgumentException refused)
            {
                return refused;
            }
        }
    }

    private static (PropertyInfo? Part, PropertyInfo Property) Find(string path)
    {
        string[] names = path.Split('.');
        if (names.Length == 1)
            return (null, typeof(StrainingSetup).GetProperty(path)!);
        PropertyInfo part = typeof(StrainingSetup).GetProperty(names[0])!;
        return (part, part.PropertyType.GetProperty(names[1])!);
    }

    private static StrainingSetup With(PropertyInfo? part, PropertyInfo property, object value)
    {
        StrainingSetup setup = Roomy();
        property.SetValue(part is null ? setup : part.GetValue(setup), value); // The records are this call's own.
        return setup;
    }

    private static double Number(string text) => double.Parse(text.Replace('−', '-'), CultureInfo.InvariantCulture);

    private static object Value(Type type, double value, string unit) => (Nullable.GetUnderlyingType(type) ?? type).Name switch
    {
        nameof(Length) => unit switch
        {
            "µm" => Length.FromMicrometers(value),
            "mm" => Length.FromMillimeters(value),
            "m" => Length.FromMeters(value),
            _ => throw new NotSupportedException(unit),
        },
        nameof(Duration) => unit switch
        {
            "s" => Duration.FromSeconds(value),
            "days" => Duration.FromDays(value),
            _ => throw new NotSupportedException(unit),
        },
        nameof(Ratio) when unit == "%" => Ratio.FromPercent(value),
        nameof(Temperature) when unit == "°C" => Temperature.FromDegreesCelsius(value),
        nameof(Density) when unit == "kg/m³" => Density.FromKilogramsPerCubicMeter(value),
        nameof(HeatTransferCoefficient) when unit == "W/(m²·K)" => HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(value),
        nameof(Double) => value,
        _ => throw new NotSupportedException($"{type.Name} in {unit}"),
    };
}
