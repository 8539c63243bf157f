using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Commands;

/// <summary>Lists what an input file can name.</summary>
internal static class KitCommand
{
    private const int NameColumn = 22;

    public static int Run(UnitChoice units, Surroundings around)
    {
        Display display = new(units);
        Page page = new(around.Output, around.Width, around.Colour);
        page.Heading("Vessels: [tank], [receiver] or [vessel] use = \"…\"");
        foreach (CatalogueEntry<VesselShape> vessel in CommonVessels.All)
            page.Pair("  " + vessel.Name, $"{display.Words(vessel.Description)}; {display.Volume(vessel.Item.Capacity.CubicMeters)} to the brim, {display.Length(vessel.Item.Height.Meters)} high [{StandingText.Of(vessel.Source.Standing)}]", NameColumn);
        page.Blank();
        page.Heading("Gates: [gate] use = \"…\"");
        foreach (CatalogueEntry<Gates.Gate> gate in CommonGates.All)
            page.Pair("  " + gate.Name, $"{display.Words(gate.Description)} [{StandingText.Of(gate.Source.Standing)}]", NameColumn);
        page.Blank();
        page.Heading("Cloths: [screen] cloths = [\"…\"]");
        foreach (CatalogueEntry<Cloth> cloth in CommonCloths.All)
            page.Pair("  " + cloth.Name, $"{cloth.Description} [{StandingText.Of(cloth.Source.Standing)}]", NameColumn);
        page.Pair("  astm NUMBER", "a standard test sieve: " + string.Join(", ", StandardSieves.All.Where(s => s.AstmNumber is not null).Reverse().Select(s => FormattableString.Invariant($"{s.AstmNumber}"))), NameColumn);
        page.Pair("  mesh COUNT / WIRE", "wires per inch and wire diameter, as in \"mesh 40 / 250 um\"", NameColumn);
        page.Pair("  OPENING / WIRE", "as in \"600 um / 400 um\"", NameColumn);
        page.Blank();
        page.Heading("Jars: [filling] jar = \"…\"");
        foreach (CatalogueEntry<Jar> jar in CommonJars.All)
            page.Pair("  " + jar.Name, $"{display.Words(jar.Description)}; {display.SmallVolume(jar.Item.Brimful.CubicMeters)} [{StandingText.Of(jar.Source.Standing)}]", NameColumn);
        page.Item("  ", "A jar named by a weight is sold as that much honey; one named by a volume holds some four tenths more ounces of honey than fluid ounces.");
        page.Blank();
        page.Heading("Net-weight rules: [filling] rule = \"…\"");
        foreach (NetWeightRule rule in NetWeightRules.All)
            page.Pair("  " + rule.Name, $"{rule.Description}. {rule.Source.Citation} [{StandingText.Of(rule.Source.Standing)}]", NameColumn);
        page.Blank();
        Shapes(page, display, "Vessel shapes: [tank], [receiver] or [vessel] shape = \"…\"", VesselShapes.All);
        Shapes(page, display, "Screen forms: [screen] form = \"…\"", ScreenShapes.All);
        page.Heading("Ways of warming: [warming] by = \"…\"");
        foreach ((string name, string description) in HeatingReader.All)
            page.Pair("  " + name, description, NameColumn);
        page.Blank();
        page.Heading("Walls and insulation: [vessel] wall or insulation = \"… 2 mm\"");
        page.Pair("  materials", $"{string.Join(", ", WallMaterial.All.Select(material => material.Name))} [{StandingText.Of(WallMaterial.Source.Standing)}]", NameColumn);
        page.Blank();
        page.Heading("Limits on HMF and diastase: [limits] heat = \"…\"");
        foreach (HeatLimit limit in HeatLimits.All)
            page.Pair("  " + limit.Name, FormattableString.Invariant($"HMF at most {limit.HmfAtMost?.MilligramsPerKilogram:0.#} mg/kg, diastase number at least {limit.DiastaseAtLeast:0.#}: {limit.AppliesTo}. {limit.Source.Citation} [{StandingText.Of(limit.Source.Standing)}]"), NameColumn);
        page.Blank();
        page.Heading("Keys that take a spread, as in moisture = \"17.8 ± 0.2 %\"");
        page.Item("  ", SpreadKeys.List);
        page.Blank();
        page.Heading("Viscosity correlations: [honey] viscosity = \"…\"");
        foreach (ViscosityCorrelation correlation in ViscosityCorrelations.All)
            page.Pair("  " + correlation.Name, $"{RangeText(correlation.MoistureRange)} moisture, {display.Words(RangeText(correlation.TemperatureRange))}; {correlation.Source.Citation} [{StandingText.Of(correlation.Source.Standing)}]", NameColumn);
        return ExitCode.Done;
    }

    private static string RangeText(ValidityRange range) => FormattableString.Invariant($"{range.Low:0.##} to {range.High:0.##} {range.Unit}");

    private static void Shapes<TShape>(Page page, Display display, string heading, IReadOnlyList<ShapeEntry<TShape>> all)
        where TShape : class
    {
        page.Heading(heading);
        foreach (ShapeEntry<TShape> shape in all)
        {
            page.Pair("  " + shape.Name, shape.Description, NameColumn);
            foreach (ShapeParameter parameter in shape.Parameters)
            {
                string list = ShapeReader.IsList(parameter) ? "list; " : string.Empty;
                string need = parameter.IsRequired ? string.Empty : "; optional";
                page.Pair("    " + parameter.Key, $"{list}{parameter.Description}; {display.Words(ShapeReader.Limits(parameter))}{need}", NameColumn);
            }
        }

        page.Blank();
    }
}
