using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Catalogue;

public static partial class CommonJars
{
    // Properties, not fields: the order in which two files of a class initialise their fields is not defined.
    private static Source FromMemory => new("usual brimful volume of glass jars for that net weight", Standing.FromMemory);
    private static Source CommonSize => new("common practice, no source: a round figure among those in use", Standing.CommonPractice);
    private static Source WeightPages => new("a packer's page that lists fluid ounces beside ounces of honey: 3 for 4 oz, 6 for 8 oz, 9 for 12 oz, 24 for 2 lb; 12 for 1 lb and 60 for 5 lb by the same ratio", Standing.SecondaryCopy);
    private static Source Unit => new("the volume the jar is named after, as the unit is defined; at its brim a jar may hold a little more", Standing.Derived);

    /// <summary>Brimful volumes. A name with a weight is the honey it is sold as, a name with a volume its brim.</summary>
    private static CatalogueEntry<Jar>[] Data() =>
    [
        Metric("jar-30g", 30, 28, CommonSize),
        Metric("jar-125g", 125, 106, FromMemory),
        Metric("jar-250g", 250, 212, FromMemory),
        Metric("jar-350g", 350, 288, CommonSize),
        Metric("jar-500g", 500, 390, FromMemory),
        Metric("jar-1kg", 1000, 770, CommonSize),
        Metric("tub-3kg", 3000, 2300, CommonSize),
        Ounces("jar-4oz", 4, 3),
        Ounces("jar-8oz", 8, 6),
        Ounces("jar-12oz", 12, 9),
        Ounces("jar-1lb", 16, 12),
        Ounces("jar-2lb", 32, 24),
        Ounces("jug-5lb", 80, 60),
        FluidOunces("volume-half-pint", "US half pint, 8 fluid ounces", 8),
        FluidOunces("volume-12floz", "12 US fluid ounces", 12),
        FluidOunces("volume-pint", "US pint, 16 fluid ounces", 16),
        FluidOunces("volume-quart", "US quart, 32 fluid ounces", 32),
        FluidOunces("volume-half-gallon", "US half gallon, 64 fluid ounces", 64),
    ];

    private static CatalogueEntry<Jar> Metric(string name, double grams, double millilitres, Source source) => new(
        name,
        FormattableString.Invariant($"sold as {grams} g of honey, {millilitres} mL to the brim"),
        new Jar { Brimful = Volume.FromMilliliters(millilitres), SoldAs = Mass.FromGrams(grams) },
        source);

    private static CatalogueEntry<Jar> Ounces(string name, double ounces, double fluidOunces) => new(
        name,
        FormattableString.Invariant($"sold as {ounces} oz of honey, {fluidOunces} US fl oz to the brim"),
        new Jar { Brimful = Volume.FromUsOunces(fluidOunces), SoldAs = Mass.FromOunces(ounces) },
        WeightPages);

    private static CatalogueEntry<Jar> FluidOunces(string name, string description, double fluidOunces) => new(
        name,
        description + " to the brim; no weight of its own",
        new Jar { Brimful = Volume.FromUsOunces(fluidOunces) },
        Unit);
}
