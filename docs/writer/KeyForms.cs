using System.Text.Json.Nodes;
using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;
using FlowSim.Gates;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Vessels;
using FlowSim.Warming;

namespace FlowSim.Docs;

/// <summary>What each key of a batch takes. Lists and words are the reader's; the tests hold each form to the reader.</summary>
internal static class KeyForms
{
    private static readonly Form s_duration = Form.Quantity(Dimension.Duration);

    private static readonly Form s_volumeOrMass = Form.Either(Form.Quantity(Dimension.Volume), Form.Quantity(Dimension.Mass));

    private static readonly Form s_setpointSteps = Form.List(Form.Grammar(
        "a step: a time and a temperature, `\"12 h 40 °C\"`, or `\"12 h ramp 40 °C\"` to be there then",
        $"{Patterns.Quantity(Dimension.Duration)}{Patterns.Separator}(?:{Patterns.AnyCase("ramp")}{Patterns.Separator})?{Patterns.Quantity(Dimension.Temperature)}"));

    private static readonly Form s_gateSteps = Form.List(Form.Grammar(
        "a step: a time and an opening, `\"5 min 25%\"`",
        $"{Patterns.Quantity(Dimension.Duration)}{Patterns.Separator}{Patterns.Quantity(Dimension.Share)}"));

    private static readonly Form s_layer = Form.Grammar(
        "a material and a thickness; materials: " + string.Join(", ", WallMaterial.All.Select(material => $"`{material.Name}`")),
        $"{Patterns.Separator}(?:{Patterns.Words(WallMaterial.All.Select(material => material.Name))}){Patterns.Separator}{Patterns.Quantity(Dimension.Length)}");

    private static readonly Form s_tied = Form.List(Form.Grammar(
        "two keys that take a spread and how far they go together, from -1 to 1: `\"honey.moisture, debris.load, 0.5\"`",
        $@"[A-Za-z]+\.[A-Za-z_]+{Patterns.Blank},{Patterns.Blank}[A-Za-z]+\.[A-Za-z_]+{Patterns.Blank},{Patterns.Blank}{Patterns.Number}"));

    private static readonly Form s_cloth = Form.Grammar(
        "a cloth: opening and wire `\"600 um / 400 um\"`, `\"astm 40\"`, `\"mesh 60 / 160 um\"`, the opening of a standard sieve, or of the catalogue " + string.Join(", ", CommonCloths.All.Select(cloth => $"`{cloth.Name}`")),
        string.Join(
            '|',
            $@"{Patterns.AnyCase("astm")} (?:[0-9]|[^!-~]|{Patterns.AnyCase("no.")})+",
            $@"{Patterns.AnyCase("mesh")} {Patterns.Blank}{Patterns.Number}{Patterns.Blank}/{Patterns.Blank}{Patterns.Quantity(Dimension.Length)}",
            $@"(?:{Patterns.Number}|{Patterns.Quantity(Dimension.Length)}){Patterns.Blank}/{Patterns.Blank}{Patterns.Quantity(Dimension.Length)}",
            Patterns.Words(CommonCloths.All.Select(cloth => cloth.Name)),
            Patterns.Quantity(Dimension.Length)));

    private static readonly Dictionary<Key, Form> s_own = new()
    {
        [Keys.Honey.Form] = Form.Word(Words.All<HoneyForm>()),
        [Keys.Honey.Viscosity] = Form.Word([.. ViscosityCorrelations.All.Select(correlation => correlation.Name)]),
        [Keys.Honey.Conductivity] = Form.Word([.. ConductivityCorrelations.All.Select(correlation => correlation.Name)]),
        [Keys.Honey.Measured] = Form.List(Form.Grammar("a temperature and a viscosity, `\"35 °C, 3 Pa.s\"`", $@"{Patterns.Quantity(Dimension.Temperature)}{Patterns.Blank},{Patterns.Blank}{Patterns.Quantity(Dimension.Viscosity)}")),
        [Keys.Tank.Use] = VesselNames,
        [Keys.Receiver.Use] = VesselNames,
        [Keys.Vessel.Use] = VesselNames,
        [Keys.BottlingTank.Use] = VesselNames,
        [Keys.Tank.Shape] = ShapeNames,
        [Keys.Receiver.Shape] = ShapeNames,
        [Keys.Vessel.Shape] = ShapeNames,
        [Keys.BottlingTank.Shape] = ShapeNames,
        [Keys.Tank.Fill] = s_volumeOrMass,
        [Keys.Vessel.Fill] = s_volumeOrMass,
        [Keys.BottlingTank.Fill] = s_volumeOrMass,
        [Keys.Receiver.AlreadyIn] = Form.Either(Form.Spread(Dimension.Volume), Form.Spread(Dimension.Mass)),
        [Keys.Gate.Use] = GateNames,
        [Keys.BottlingGate.Use] = GateNames,
        [Keys.Gate.Opening] = Form.Either(Form.Spread(Dimension.Share), s_gateSteps),
        [Keys.Gate.Blade] = Form.Word(Words.All<BladeShape>()),
        [Keys.BottlingGate.Blade] = Form.Word(Words.All<BladeShape>()),
        [Keys.Gate.Outlet] = Form.Word(Words.All<GateOutlet>()),
        [Keys.Screen.Form] = Form.Word([.. ScreenShapes.All.Select(shape => shape.Name)]),
        [Keys.Screen.Cloths] = Form.List(s_cloth),
        [Keys.Screen.Venting] = Form.Word(Words.All<Venting>()),
        [Keys.Screen.Overflow] = Form.Word(Words.All<OverflowPath>()),
        [Keys.Debris.Law] = Form.Word(Words.All<BlockingLaw>()),
        [Keys.Debris.After] = Form.Word(["nothing", "settling"]),
        [Keys.Scraping.Times] = Form.List(s_duration),
        [Keys.Run.Maps] = Form.List(s_duration),
        [Keys.Settling.Temperature] = Form.Either(Form.Quantity(Dimension.Temperature), s_setpointSteps),
        [Keys.Settling.ClearTo] = Form.Either(Form.Quantity(Dimension.Share), Form.Quantity(Dimension.Length)),
        [Keys.Settling.ClearOf] = Form.Word(Words.All<ClearOf>()),
        [Keys.Vessel.Wall] = s_layer,
        [Keys.Vessel.Insulation] = Form.Either(Form.List(s_layer), s_layer) with { Text = "a list of layers, from the inside out, each as in `wall`; or one layer" },
        [Keys.Vessel.Lid] = Form.Word(Words.All<VesselLid>()),
        [Keys.Vessel.StandsOn] = Form.Word(Words.All<VesselBase>()),
        [Keys.Warming.By] = Form.Word([.. HeatingReader.All.Select(kit => kit.Name)]),
        [Keys.Warming.Granulation] = Form.Word(["fine", "coarse"]),
        [Keys.Thermostat.Setpoint] = Form.Either(Form.Quantity(Dimension.Temperature), s_setpointSteps),
        [Keys.Thermostat.Sensor] = Form.Word(Words.All<SensorPlace>()),
        [Keys.Heat.Law] = Form.Word([.. HmfRateLaws.All.Select(law => law.Name)]),
        [Keys.Limits.Heat] = Form.Word([.. HeatLimits.All.Select(limit => limit.Name)]),
        [Keys.Limits.Confidence] = Form.Word([.. Words.All<LimitConfidence>().Where(word => word != Words.Of(LimitConfidence.Broken))]),
        [Keys.Filling.Jar] = Form.Word([.. CommonJars.All.Select(jar => jar.Name)]),
        [Keys.Filling.Rule] = Form.Word([.. NetWeightRules.All.Select(rule => rule.Name)]),
        [Keys.Risk.Runs] = Form.Either(new Form("a whole number", new JsonObject { ["type"] = "integer" }), Form.Word(["auto"])),
        [Keys.Risk.Seed] = new Form("a whole number, 0 or more", new JsonObject { ["type"] = "integer", ["minimum"] = 0 }),
        [Keys.Risk.Correlated] = s_tied,
        [Keys.Calibration.Date] = Form.Grammar("a date, `\"2026-11-27\"`", "[0-9]{4}-[0-9]{2}-[0-9]{2}"),
        [Keys.Calibration.Use] = Form.Word(Words.All<CalibrationUse>()),
        [Keys.Calibration.Runs] = Form.List(Form.Grammar("a run: its file, its day or `undated`, and the 16 digits that tell it from others", $@"[\s\S]+,{Patterns.Blank}(?:[0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}}|undated){Patterns.Blank},{Patterns.Blank}[0-9a-f]{{16}}")),
        [Keys.Calibration.Correlated] = s_tied,
    };

    private static Form VesselNames => Form.Word([.. CommonVessels.All.Select(vessel => vessel.Name)]);

    private static Form ShapeNames => Form.Word([.. VesselShapes.All.Select(shape => shape.Name)]);

    private static Form GateNames => Form.Word([.. CommonGates.All.Select(gate => gate.Name)]);

    /// <summary>What a key takes.</summary>
    /// <param name="key">Key of a batch.</param>
    /// <exception cref="InvalidOperationException">It is a word, a list or a text that has no form here.</exception>
    public static Form Of(Key key)
    {
        if (s_own.TryGetValue(key, out Form? own))
            return own;
        return (key.Kind, SpreadKeys.Take(key.ToString())) switch
        {
            (KeyKind.Quantity, true) => Form.Spread(key.Dimension!.Value),
            (KeyKind.Quantity, false) => Form.Quantity(key.Dimension!.Value),
            (KeyKind.Number, true) => Form.NumberOrSpread,
            (KeyKind.Number, false) => Form.Number,
            (KeyKind.Flag, _) => Form.Flag,
            _ => throw new InvalidOperationException($"{key} has no form in the documentation: add it to KeyForms."),
        };
    }

    /// <summary>What a value of a shape takes.</summary>
    /// <param name="section">Section.</param>
    /// <param name="parameter">Value of a shape.</param>
    public static Form Of(string section, ShapeParameter parameter)
    {
        Dimension dimension = ShapeReader.DimensionOf(parameter);
        if (ShapeReader.IsList(parameter))
            return Form.List(Form.Quantity(dimension));
        return SpreadKeys.Take(section + "." + parameter.Key) ? Form.Spread(dimension) : Form.Quantity(dimension);
    }
}
