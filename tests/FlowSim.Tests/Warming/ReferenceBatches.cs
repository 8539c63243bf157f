using System.Text.Json;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Properties;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>The batches of <c>Reference/batches.json</c> as setups, and what <c>Reference/expected.json</c> says of them.</summary>
internal static class ReferenceBatches
{
    private static readonly Dictionary<string, JsonElement> s_batches = Load("batches.json", "batches");
    private static readonly Dictionary<string, JsonElement> s_expectations = Load("expected.json", "runs");

    public static IEnumerable<string> Names => s_batches.Keys;

    /// <summary>The expected figures of a batch.</summary>
    public static JsonElement Figures(string name) => s_expectations[name].GetProperty("figures");

    /// <summary>By how much a figure of the reference moves when it is integrated a hundred times more loosely.</summary>
    public static double EstimatedError(string name, string key) => Number(s_expectations[name].GetProperty("estimatedError"), key);

    /// <summary>Cells and kind of a batch; the tolerance is the caller's.</summary>
    public static WarmingOptions Options(string name)
    {
        JsonElement b = s_batches[name];
        return new WarmingOptions
        {
            Inside = Text(b, "inside") switch
            {
                "best-estimate" => InsideHeat.BestEstimate,
                "conduction-only" => InsideHeat.ConductionOnly,
                "well-mixed" => InsideHeat.WellMixed,
                var other => throw new InvalidDataException(other),
            },
            RadialCells = b.GetProperty("radialCells").GetInt32(),
            AxialCells = b.GetProperty("axialCells").GetInt32(),
            SeriesPoints = 0,
        };
    }

    /// <summary>A batch as a setup.</summary>
    public static WarmingSetup Setup(string name)
    {
        JsonElement b = s_batches[name];
        JsonElement crystals = b.GetProperty("crystals");
        return new WarmingSetup
        {
            Honey = new Honey
            {
                Moisture = Ratio.FromPercent(Number(b, "moisturePercent")),
                LotFactor = Number(b, "lotFactor"),
                Viscosity = ViscosityCorrelations.ByName(Text(b, "viscosity")),
                Conductivity = ConductivityCorrelations.ByName(Text(b, "conductivity")),
            },
            Crystals = crystals.ValueKind == JsonValueKind.Null ? null : new Crystals
            {
                Share = Ratio.FromDecimalFractions(Number(crystals, "share")),
                MeltFrom = Kelvins(crystals, "meltFromK"),
                MeltTo = Kelvins(crystals, "meltToK"),
            },
            StartTemperature = Kelvins(b, "startTemperatureK"),
            Vessel = Vessel(b.GetProperty("vessel")),
            Vessels = b.GetProperty("vessels").GetInt32(),
            Heating = Kit(b.GetProperty("kit")),
            RoomTemperature = Kelvins(b, "roomTemperatureK"),
            Targets = b.GetProperty("targets").EnumerateArray().Select(Target).ToArray(),
            HoldAfter = Seconds(b, "holdAfterS"),
            Longest = Seconds(b, "longestS"),
            Response = new HeatResponse
            {
                Law = HmfRateLaws.ByName(Text(b, "law")),
                FloralMultiplier = Number(b, "floralMultiplier"),
                IncludeFloralSpread = b.GetProperty("includeFloralSpread").GetBoolean(),
            },
        };
    }

    private static WarmedVessel Vessel(JsonElement v) => new()
    {
        // The brim is of no matter to the heat: a little above the honey.
        Shape = Text(v, "shape") switch
        {
            "upright-cylinder" => new UprightCylinder(Metres(v, "diameterM"), Metres(v, "levelM") * 1.1),
            "rectangular" => new RectangularTank(Metres(v, "lengthM"), Metres(v, "widthM"), Metres(v, "levelM") * 1.1),
            var other => throw new InvalidDataException(other),
        },
        Level = Metres(v, "levelM"),
        Wall = v.GetProperty("wall").EnumerateArray()
            .Select(layer => new WallLayer
            {
                Thickness = Metres(layer, "thicknessM"),
                Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(Number(layer, "conductivityWPerMK")),
            })
            .ToArray(),
        Emissivity = Number(v, "emissivity"),
        Lid = Enum.Parse<VesselLid>(Text(v, "lid"), ignoreCase: true),
        Base = Enum.Parse<VesselBase>(Text(v, "base"), ignoreCase: true),
    };

    private static HeatingKit Kit(JsonElement k)
    {
        Thermostat thermostat = Thermostat(k.GetProperty("thermostat"));
        HeatingKit kit = Text(k, "kind") switch
        {
            "warm-air" => new WarmAir { Thermostat = thermostat, AirSpeed = Speed.FromMetersPerSecond(Number(k, "airSpeedMPerS")) },
            "bath" => new HeatedBath { Thermostat = thermostat, WaterLevel = Metres(k, "waterLevelM"), WaterCoefficient = Coefficient(k, "coefficientWPerM2K") },
            "jacket" => new HeatedJacket
            {
                Thermostat = thermostat,
                From = Metres(k, "fromM"),
                To = Metres(k, "toM"),
                HeatsFloor = k.GetProperty("heatsFloor").GetBoolean(),
                WaterCoefficient = Coefficient(k, "coefficientWPerM2K"),
            },
            "band" => new BandHeater { Thermostat = thermostat, From = Metres(k, "fromM"), To = Metres(k, "toM"), ContactCoefficient = Coefficient(k, "coefficientWPerM2K") },
            "immersion" => new ImmersionHeater { Thermostat = thermostat, From = Metres(k, "fromM"), To = Metres(k, "toM"), Radius = Metres(k, "radiusM") },
            var other => throw new InvalidDataException(other),
        };
        return kit with
        {
            HeaterPower = NumberOrNull(k, "heaterW") is { } watts ? Power.FromWatts(watts) : null,
            BodyHeatCapacity = Entropy.FromJoulesPerKelvin(Number(k, "bodyHeatCapacityJPerK")),
            BodyStart = NumberOrNull(k, "bodyStartK") is { } start ? Temperature.FromKelvins(start) : null,
            LossArea = Area.FromSquareMeters(Number(k, "lossAreaM2")),
            LossCoefficient = Coefficient(k, "lossCoefficientWPerM2K"),
        };
    }

    private static Thermostat Thermostat(JsonElement t) => new()
    {
        Schedule = t.GetProperty("schedule").EnumerateArray()
            .Select(s => new SetpointStep(Seconds(s, "atS"), Kelvins(s, "setpointK"), s.GetProperty("ramp").GetBoolean()))
            .ToArray(),
        Hysteresis = TemperatureDelta.FromKelvins(Number(t, "hysteresisK")),
        Sensor = Enum.Parse<SensorPlace>(Text(t, "sensor"), ignoreCase: true),
        SensorRadius = Ratio.FromDecimalFractions(Number(t, "sensorRadius")),
        SensorHeight = Ratio.FromDecimalFractions(Number(t, "sensorHeight")),
        Lag = Seconds(t, "lagS"),
        CutOut = NumberOrNull(t, "cutOutK") is { } kelvins ? Temperature.FromKelvins(kelvins) : null,
    };

    private static WarmingTarget Target(JsonElement t) => Text(t, "kind") switch
    {
        "mean" => WarmingTarget.Mean(Kelvins(t, "atK")),
        "coldest" => WarmingTarget.Coldest(Kelvins(t, "atK")),
        "cooled" => WarmingTarget.CooledTo(Kelvins(t, "atK")),
        "thin" => WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(Number(t, "viscosityPaS"))),
        "thick" => WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(Number(t, "viscosityPaS"))),
        "crystals" => WarmingTarget.NoCrystals,
        var other => throw new InvalidDataException(other),
    };

    private static Length Metres(JsonElement e, string key) => Length.FromMeters(Number(e, key));

    private static Temperature Kelvins(JsonElement e, string key) => Temperature.FromKelvins(Number(e, key));

    private static Duration Seconds(JsonElement e, string key) => Duration.FromSeconds(Number(e, key));

    private static HeatTransferCoefficient Coefficient(JsonElement e, string key) => HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(Number(e, key));

    private static double Number(JsonElement e, string key) => e.GetProperty(key).GetDouble();

    private static double? NumberOrNull(JsonElement e, string key) =>
        e.TryGetProperty(key, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    private static string Text(JsonElement e, string key) => e.GetProperty(key).GetString()!;

    private static Dictionary<string, JsonElement> Load(string file, string list)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "Warming", "Reference", file);
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(path));
        return document.RootElement.GetProperty(list).EnumerateArray()
            .ToDictionary(e => e.GetProperty("name").GetString()!, e => e.Clone(), StringComparer.Ordinal);
    }
}
