using System.Text.Json;
using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Straining;

/// <summary>The batches of <c>Reference/batches.json</c> as setups, and what <c>Reference/expected.json</c> says of them.</summary>
internal static class ReferenceBatches
{
    private static readonly Dictionary<string, JsonElement> Batches = Load("batches.json", "batches");
    private static readonly Dictionary<string, JsonElement> Expectations = Load("expected.json", "runs");

    public static IEnumerable<string> Names => Batches.Keys;

    /// <summary>The expected figures of a batch.</summary>
    public static JsonElement Figures(string name) => Expectations[name].GetProperty("figures");

    /// <summary>The expected states of a batch at a few times.</summary>
    public static IEnumerable<JsonElement> States(string name) => Expectations[name].GetProperty("states").EnumerateArray();

    /// <summary>A batch as a setup.</summary>
    public static StrainingSetup Setup(string name) => Setup(Batches[name]);

    /// <summary>A batch written as those of the file are, as a setup.</summary>
    public static StrainingSetup Setup(JsonElement b)
    {
        JsonElement tank = b.GetProperty("tank");
        JsonElement gate = b.GetProperty("gate");
        JsonElement debris = b.GetProperty("debris");
        JsonElement receiver = b.GetProperty("receiver");
        return new StrainingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(Number(b, "moisturePercent")), LotFactor = Number(b, "lotFactor") },
            HoneyTemperature = Temperature.FromKelvins(Number(b, "honeyTemperatureK")),
            RoomTemperature = Temperature.FromKelvins(Number(b, "roomTemperatureK")),
            Tank = new Tank
            {
                Shape = Vessel(tank),
                Level = Metres(tank, "levelM"),
                GateHeight = Metres(tank, "gateHeightM"),
                WallFilm = tank.GetProperty("wallFilm").GetBoolean(),
                HeldAtTemperature = tank.GetProperty("held").GetBoolean(),
                HeatLoss = HeatLoss(tank),
            },
            Gate = new Gate
            {
                Bore = Metres(gate, "boreM"),
                TubeLength = Metres(gate, "tubeLengthM"),
                Blade = Text(gate, "blade") == "straight" ? BladeShape.Straight : BladeShape.RoundHoled,
                Outlet = Text(gate, "outlet") == "free" ? GateOutlet.Free : GateOutlet.Submerged,
                OutletAboveScreen = Length.FromMeters(NumberOrNull(gate, "outletAboveScreenM") ?? 0),
            },
            Control = Control(b.GetProperty("control")),
            Strainer = Strainer(b.GetProperty("strainer")),
            Debris = new Debris
            {
                Load = Ratio.FromDecimalFractions(Number(debris, "load")),
                MedianSize = Metres(debris, "medianSizeM"),
                SizeSpread = Number(debris, "sizeSpread"),
                CaptureEfficiency = Number(debris, "captureEfficiency"),
                Density = Density.FromKilogramsPerCubicMeter(Number(debris, "densityKgPerM3")),
                Law = Enum.Parse<BlockingLaw>(Text(debris, "law"), ignoreCase: true),
            },
            Scraping = Scraping(b.GetProperty("scraping")),
            Receiver = new Receiver
            {
                Shape = Vessel(receiver),
                AlreadyIn = Volume.FromCubicMeters(Number(receiver, "alreadyInM3")),
                StartTemperature = NumberOrNull(receiver, "startTemperatureK") is { } kelvins ? Temperature.FromKelvins(kelvins) : null,
                Spacer = Metres(receiver, "spacerM"),
                ShutWhenFull = receiver.GetProperty("shutWhenFull").GetBoolean(),
                HeatLoss = HeatLoss(receiver),
            },
            Longest = Duration.FromSeconds(Number(b, "maxDurationS")),
        };
    }

    private static VesselShape Vessel(JsonElement v) => Text(v, "shape") switch
    {
        "upright-cylinder" => new UprightCylinder(Metres(v, "diameterM"), Metres(v, "heightM")),
        "rectangular" => new RectangularTank(Metres(v, "lengthM"), Metres(v, "widthM"), Metres(v, "heightM")),
        "cone-bottomed" => new ConeBottomedTank(
            Metres(v, "diameterM"), Metres(v, "cylinderHeightM"), Metres(v, "coneHeightM"), Metres(v, "bottomDiameterM")),
        "horizontal-cylinder" => new HorizontalCylinder(Metres(v, "diameterM"), Metres(v, "lengthM")),
        "level-volume-table" => new LevelVolumeTable(v.GetProperty("levelsM").EnumerateArray()
            .Zip(v.GetProperty("volumesM3").EnumerateArray())
            .Select(p => (Length.FromMeters(p.First.GetDouble()), Volume.FromCubicMeters(p.Second.GetDouble())))
            .ToArray()),
        var other => throw new InvalidDataException(other),
    };

    private static Strainer Strainer(JsonElement s)
    {
        Length diameter = Metres(s, "diameterM");
        Length rim = Metres(s, "rimHeightM");
        return new Strainer
        {
            Shape = Text(s, "form") switch
            {
                "flat-disc" => new FlatDisc(diameter, rim),
                "cone" => new ConeScreen(diameter, rim),
                "basket" => new BasketScreen(diameter, rim),
                "bag" => new BagScreen(diameter, rim),
                var other => throw new InvalidDataException(other),
            },
            Cloths = s.GetProperty("cloths").EnumerateArray()
                .Select(c => new Cloth { Opening = Metres(c, "openingM"), WireDiameter = Metres(c, "wireM") })
                .ToArray(),
            ScreenFactor = Number(s, "factor"),
            Venting = Text(s, "venting") == "sealed" ? Venting.Sealed : Venting.Vented,
            Overflow = Text(s, "overflow") == "spill" ? OverflowPath.Spill : OverflowPath.Bypass,
            MinimumHead = Metres(s, "minimumHeadM"),
        };
    }

    private static GateControl Control(JsonElement c) => Text(c, "kind") switch
    {
        "open" => GateControl.LeaveAt(Ratio.FromDecimalFractions(Number(c, "opening"))),
        "ride" => GateControl.RideAt(Metres(c, "pondDepthM"), Ratio.FromDecimalFractions(Number(c, "opening"))),
        "schedule" => Schedule(c.GetProperty("steps").EnumerateArray()
            .Select(s => new OpeningStep(Duration.FromSeconds(s[0].GetDouble()), Ratio.FromDecimalFractions(s[1].GetDouble())))
            .ToArray()),
        var other => throw new InvalidDataException(other),
    };

    /// <summary>In the reference the gate is shut before the first step; the library wants that said.</summary>
    private static GateControl Schedule(OpeningStep[] steps) => steps[0].At > Duration.Zero
        ? GateControl.Follow([new OpeningStep(Duration.Zero, Ratio.Zero), .. steps])
        : GateControl.Follow(steps);

    private static Scraping Scraping(JsonElement s) => Text(s, "kind") switch
    {
        "never" => FlowSim.Straining.Scraping.Never,
        "at-times" => new Scraping
        {
            Times = s.GetProperty("timesS").EnumerateArray().Select(t => Duration.FromSeconds(t.GetDouble())).ToArray(),
            Recovery = Number(s, "recovery"),
        },
        "at-depth" => new Scraping
        {
            AtPondDepth = Metres(s, "depthM"),
            Recovery = Number(s, "recovery"),
            Pause = Duration.FromSeconds(Number(s, "pauseS")),
        },
        var other => throw new InvalidDataException(other),
    };

    private static HeatTransferCoefficient HeatLoss(JsonElement e) =>
        HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(Number(e, "heatLossWPerM2K"));

    private static Length Metres(JsonElement e, string key) => Length.FromMeters(Number(e, key));

    private static double Number(JsonElement e, string key) => e.GetProperty(key).GetDouble();

    private static double? NumberOrNull(JsonElement e, string key) =>
        e.TryGetProperty(key, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    private static string Text(JsonElement e, string key) => e.GetProperty(key).GetString()!;

    private static Dictionary<string, JsonElement> Load(string file, string list)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "Straining", "Reference", file);
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(path));
        return document.RootElement.GetProperty(list).EnumerateArray()
            .ToDictionary(e => e.GetProperty("name").GetString()!, e => e.Clone(), StringComparer.Ordinal);
    }
}
