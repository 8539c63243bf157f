using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using FlowSim.Bottling;
using FlowSim.ShelfLife;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>Every interval that the documentation of a filling, a jar or a shelf question gives is the one that is kept; read from the documentation itself.</summary>
public partial class DocumentedFillingLimitsTests
{
    private static readonly Dictionary<string, string> Summaries = XDocument.Load(Path.ChangeExtension(typeof(Honey).Assembly.Location, ".xml"))
        .Descendants("member")
        .ToDictionary(member => member.Attribute("name")!.Value, member => member.Element("summary")?.Value ?? string.Empty, StringComparer.Ordinal);

    private static readonly (Type Type, Func<object> New, Action<object> Ask)[] Records =
    [
        (typeof(FillingSetup), () => Fillings.Plain() with { MostJars = 3 }, setup => FillingRun.Simulate((FillingSetup)setup)),
        (typeof(Jar), () => new Jar { Brimful = Volume.FromMilliliters(390) }, jar => FillingRun.Simulate(Fillings.Plain() with { MostJars = 3, Jar = (Jar)jar, LabelledMass = Mass.FromGrams(500) })),
        (typeof(NetWeightQuestion), () => new NetWeightQuestion { Label = Mass.FromGrams(500), Scatter = Mass.FromGrams(0.1), Lot = 100 }, question => TargetFill.Of((NetWeightQuestion)question)),
        (typeof(ShelfQuestion), () => new ShelfQuestion { Moisture = Ratio.FromPercent(17) }, question => ShelfNotes.Of((ShelfQuestion)question)),
    ];

    [GeneratedRegex(@"(?<low>−?\d+(\.\d+)?)( (?<lowUnit>[^\s.,;]+))? to (?<high>\d+(\.\d+)?)( (?<highUnit>[^\s.,;]+))?", RegexOptions.ExplicitCapture, 1000)]
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
                Type value = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
                if (interval is null || (value == typeof(Mass) && interval.Groups["highUnit"].Value == "%"))
                    continue;
                found++;
                string highUnit = interval.Groups["highUnit"].Value;
                string lowUnit = interval.Groups["lowUnit"] is { Success: true } unit ? unit.Value : highUnit;
                double low = double.Parse(interval.Groups["low"].Value.Replace('−', '-'), CultureInfo.InvariantCulture), high = double.Parse(interval.Groups["high"].Value, CultureInfo.InvariantCulture);
                double step = value == typeof(int) ? 1 : 0;
                Check(low, lowUnit, accepted: true);
                Check(high, highUnit, accepted: true);
                Check(low - Math.Max(step, 1e-6 * Math.Max(1e-3, Math.Abs(low))), lowUnit, accepted: false);
                Check(high + Math.Max(step, 1e-6 * high), highUnit, accepted: false);

                void Check(double number, string unitName, bool accepted)
                {
                    object record = create();
                    property.SetValue(record, Value(value, number, unitName));
                    string? blamed = Blamed(() => ask(record));
                    if ((blamed == property.Name) == accepted)
                        troubles.Add(FormattableString.Invariant($"{type.Name}.{property.Name} = {number} {unitName}: {(accepted ? "refused" : "not refused by name but as " + blamed)}"));
                }
            }
        }

        Assert.InRange(found, 30, int.MaxValue);
        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles));
    }

    private static string? Blamed(Action ask)
    {
        try
        {
            ask();
            return null;
        }
        catch (ArgumentException refused)
        {
            return refused.ParamName;
        }
    }

    private static object Value(Type type, double value, string unit) => (type.Name, unit) switch
    {
        (nameof(Length), "µm") => Length.FromMicrometers(value),
        (nameof(Length), "mm") => Length.FromMillimeters(value),
        (nameof(Length), "m") => Length.FromMeters(value),
        (nameof(Duration), "s") => Duration.FromSeconds(value),
        (nameof(Duration), "h") => Duration.FromHours(value),
        (nameof(Duration), "day" or "days") => Duration.FromDays(value),
        (nameof(Ratio), "%") => Ratio.FromPercent(value),
        (nameof(Temperature), "°C") => Temperature.FromDegreesCelsius(value),
        (nameof(Volume), "mL") => Volume.FromMilliliters(value),
        (nameof(Volume), "L") => Volume.FromLiters(value),
        (nameof(Mass), "g") => Mass.FromGrams(value),
        (nameof(Mass), "kg") => Mass.FromKilograms(value),
        (nameof(Double), _) => value,
        (nameof(Int32), _) => (int)value,
        _ => throw new NotSupportedException($"{type.Name} in {unit}"),
    };
}
