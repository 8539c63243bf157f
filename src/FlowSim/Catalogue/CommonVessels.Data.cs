using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Catalogue;

public static partial class CommonVessels
{
    // Properties, not fields: the order in which two files of a class initialise their fields is not defined.
    private static Source FromMemory => new("usual inside size, tapered walls taken as upright at the mean diameter", Standing.FromMemory);
    private static Source CommonSize => new("common practice, no source: a round figure among those in use", Standing.CommonPractice);
    private static Source DrumPages => new("steel drum, open head, 55 US gal: inside 22.5 in × 32.8 in as public supply pages list it", Standing.SecondaryCopy);

    /// <summary>Inside dimensions in mm. The number in a name is the nominal content; the brim holds a little more.</summary>
    private static CatalogueEntry<VesselShape>[] Data() =>
    [
        new("pail-4l", "pail, 1 US gal", Upright(185, 165), FromMemory),
        new("pail-13l", "pail, 3.5 US gal", Upright(285, 222), FromMemory),
        new("pail-19l", "pail, 5 US gal; 19 L stand 298 mm high", Upright(285, 330), FromMemory),
        new("pail-23l", "pail, 6 US gal", Upright(300, 350), FromMemory),
        new("drum-114l", "drum, 30 US gal, standing", Upright(463, 690), FromMemory),
        new("drum-208l", "drum, 55 US gal, standing, open head", Upright(571.5, 833), DrumPages),
        new("drum-208l-lying", "drum, 55 US gal, on its side", new HorizontalCylinder(Mm(571.5), Mm(833)), DrumPages),
        new("sump-60l", "warmed sump, a box", new RectangularTank(Mm(600), Mm(400), Mm(260)), CommonSize),
        new("tank-50l", "bottling tank", Upright(380, 450), CommonSize),
        new("tank-100l", "bottling tank", Upright(460, 620), CommonSize),
        new("tank-200l", "settling or bottling tank", Upright(600, 720), CommonSize),
        new("tank-400l", "settling tank", Upright(760, 900), CommonSize),
        new("tank-500l-cone", "settling tank with a cone bottom", new ConeBottomedTank(Mm(800), Mm(920), Mm(300), Mm(50)), CommonSize),
    ];

    private static UprightCylinder Upright(double diameterMm, double heightMm) => new(Mm(diameterMm), Mm(heightMm));

    private static Length Mm(double value) => Length.FromMillimeters(value);
}
