using FlowSim.Vessels;
using FsCheck.Xunit;
using MathNet.Numerics;
using UnitsNet;

namespace FlowSim.Tests.Vessels;

/// <summary>What every vessel shape must fulfil, and plane and solid geometry for each.</summary>
public class VesselShapeTests
{
    private static Length Mm(double value) => Length.FromMillimeters(value);

    /// <summary>One of each, with the awkward ones: apex and blunt cones, a cone as narrow as the cylinder, uneven tables.</summary>
    internal static readonly (string Name, VesselShape Shape)[] Samples =
    [
        ("pail", new UprightCylinder(Mm(285), Mm(298))),
        ("wide", new UprightCylinder(Mm(4000), Mm(35))),
        ("box", new RectangularTank(Mm(600), Mm(400), Mm(250))),
        ("apex", new ConeBottomedTank(Mm(800), Mm(900), Mm(300))),
        ("blunt", new ConeBottomedTank(Mm(800), Mm(900), Mm(300), Mm(50))),
        ("nearly straight", new ConeBottomedTank(Mm(800), Mm(10), Mm(700), Mm(799.9999))),
        ("straight", new ConeBottomedTank(Mm(800), Mm(200), Mm(700), Mm(800))),
        ("all cone", new ConeBottomedTank(Mm(450), Mm(0), Mm(600), Mm(30))),
        ("lying", new HorizontalCylinder(Mm(572), Mm(833))),
        ("table", new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(50), Volume.FromLiters(1.1)), (Mm(250), Volume.FromLiters(30)), (Mm(400), Volume.FromLiters(31))])),
    ];

    public static TheoryData<string> Names => [.. Samples.Select(sample => sample.Name)];

    private static VesselShape Shape(string name) => Samples.Single(sample => sample.Name == name).Shape;

    [Theory]
    [MemberData(nameof(Names))]
    public void Level_and_volume_are_inverse_when_empty_half_and_full(string name)
    {
        VesselShape shape = Shape(name);
        Assert.Equal(0, shape.LevelM(0));
        Assert.Equal(0, shape.VolumeM3(0));
        Assert.Equal(shape.HeightM, shape.LevelM(shape.CapacityM3), 1e-14 * shape.HeightM);
        Assert.Equal(shape.CapacityM3, shape.VolumeM3(shape.HeightM), 1e-14 * shape.CapacityM3);
        AssertInverse(shape, 0.5);
    }

    [Property(MaxTest = 500, Arbitrary = [typeof(Generators)])]
    public void Level_and_volume_are_inverse_anywhere(Share share)
    {
        foreach ((_, VesselShape shape) in Samples)
        {
            AssertInverse(shape, share.Value);
            AssertInverse(shape, share.LogBetween(1e-12, 1));
            AssertInverse(shape, 1 - share.LogBetween(1e-12, 1));
        }
    }

    private static void AssertInverse(VesselShape shape, double share)
    {
        double volume = share * shape.CapacityM3;
        double back = shape.VolumeM3(shape.LevelM(volume));
        Assert.True(Math.Abs(back - volume) <= 1e-13 * shape.CapacityM3, $"{shape.GetType().Name} at {share}: {volume} came back as {back}");
    }

    [Property(MaxTest = 200, Arbitrary = [typeof(Generators)])]
    public void A_higher_level_never_holds_or_wets_less(Share one, Share other)
    {
        foreach ((_, VesselShape shape) in Samples)
        {
            double low = Math.Min(one.Value, other.Value) * shape.HeightM;
            double high = Math.Max(one.Value, other.Value) * shape.HeightM;
            Assert.True(shape.VolumeM3(low) <= shape.VolumeM3(high));
            Assert.True(shape.WettedAreaM2(low) <= shape.WettedAreaM2(high));
            Assert.True(shape.LevelM(shape.VolumeM3(low)) <= shape.LevelM(shape.VolumeM3(high)));
        }
    }

    /// <summary>Independent of the volume's own formula: Gauss-Legendre quadrature of the surface, 128 nodes per smooth piece.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Volume_is_the_integral_of_the_surface(string name)
    {
        VesselShape shape = Shape(name);
        for (int i = 1; i <= 8; i++)
        {
            double level = shape.HeightM * i / 8;
            double volume = IntegrateSurface(shape, level);
            Assert.Equal(volume, shape.VolumeM3(level), 2e-5 * shape.CapacityM3);
        }
    }

    private static double IntegrateSurface(VesselShape shape, double level)
    {
        // Kinks of the samples: foot of a cylinder, points of the table. Roots at the ends of a lying cylinder cost accuracy.
        double[] kinks = [0, 0.05, 0.25, 0.3, 0.6, 0.7];
        double[] edges = [.. kinks.Where(kink => kink < level), level];
        double sum = 0;
        for (int i = 1; i < edges.Length; i++)
            sum += Integrate.GaussLegendre(shape.SurfaceAreaM2, edges[i - 1], edges[i], 128);

        return sum;
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Arguments_outside_the_vessel_are_clamped(string name)
    {
        VesselShape shape = Shape(name);
        Assert.Equal(0, shape.VolumeM3(-1));
        Assert.Equal(shape.CapacityM3, shape.VolumeM3(99), 1e-14 * shape.CapacityM3);
        Assert.Equal(0, shape.LevelM(-1));
        Assert.Equal(shape.HeightM, shape.LevelM(1e6), 1e-14 * shape.HeightM);
        Assert.Equal(shape.WettedAreaM2(0), shape.WettedAreaM2(-1));
        Assert.Equal(shape.WettedAreaM2(shape.HeightM), shape.WettedAreaM2(99));
        Assert.True(double.IsFinite(shape.SurfaceAreaM2(-1)) && double.IsFinite(shape.SurfaceAreaM2(99)));
    }

    /// <summary>V = π r² h; wall and floor π r² + 2 π r h.</summary>
    [Fact]
    public void Upright_cylinder_by_solid_geometry()
    {
        UprightCylinder shape = new(Mm(200), Mm(500));
        Assert.Equal(Math.PI * 0.01 * 0.25, shape.VolumeM3(0.25), 1e-15);
        Assert.Equal(Math.PI * 0.01 + 2 * Math.PI * 0.1 * 0.25, shape.WettedAreaM2(0.25), 1e-14);
    }

    /// <summary>19 L in a pail of 285 mm stand 298 mm high: arithmetic, 0.019/(π/4 · 0.285²) = 0.29783.</summary>
    [Fact]
    public void Cylinder_of_a_capacity_holds_it()
    {
        UprightCylinder shape = UprightCylinder.OfCapacity(Volume.FromLiters(19), Mm(285));
        Assert.Equal(0.019, shape.CapacityM3, 1e-16);
        Assert.Equal(0.29783, shape.HeightM, 5e-6);
    }

    /// <summary>V = π r² h/3 for a cone; frustum π h (r1² + r1 r2 + r2²)/3; lateral area π (r1 + r2) s.</summary>
    [Fact]
    public void Cone_by_solid_geometry()
    {
        ConeBottomedTank apex = new(Mm(600), Mm(500), Mm(400));
        Assert.Equal(Math.PI * 0.09 * 0.4 / 3, apex.VolumeM3(0.4), 1e-15);
        Assert.Equal(Math.PI * 0.3 * 0.5, apex.WettedAreaM2(0.4), 1e-15);
        Assert.Equal(Math.PI * 0.09 * 0.4 / 3 + Math.PI * 0.09 * 0.5, apex.CapacityM3, 1e-15);

        ConeBottomedTank blunt = new(Mm(600), Mm(500), Mm(400), Mm(200));
        Assert.Equal(Math.PI * 0.4 * (0.09 + 0.03 + 0.01) / 3, blunt.VolumeM3(0.4), 1e-15);
        Assert.Equal(Math.PI * 0.01 + Math.PI * 0.4 * Math.Sqrt(0.16 + 0.04), blunt.WettedAreaM2(0.4), 1e-14);
    }

    /// <summary>Above the cone the upright wall is wetted too: 2 π r for each metre; the foot's outlet counts as floor.</summary>
    [Theory]
    [InlineData(0.4)]
    [InlineData(0.45)]
    [InlineData(0.75)]
    [InlineData(0.9)]
    public void Wall_above_a_cone_by_solid_geometry(double level)
    {
        ConeBottomedTank tank = new(Mm(600), Mm(500), Mm(400), Mm(200));
        double cone = Math.PI * 0.01 + Math.PI * 0.4 * Math.Sqrt(0.16 + 0.04);
        Assert.Equal(cone + 2 * Math.PI * 0.3 * (level - 0.4), tank.WettedAreaM2(level), 1e-14);
        Assert.Equal(Math.PI * 0.4 * 0.13 / 3 + Math.PI * 0.09 * (level - 0.4), tank.VolumeM3(level), 1e-15);
        Assert.Equal(Math.PI * 0.09, tank.SurfaceAreaM2(level), 1e-15);
        Assert.Equal(level, tank.LevelM(tank.VolumeM3(level)), 1e-15);
        Assert.Equal(Math.PI * 0.04, tank.SurfaceAreaM2(0.2), 1e-15);
    }

    /// <summary>
    /// A few nanometres of honey in a lying cylinder keep their digits: the segment is 4/3 h √(2 R h) (1 − 3h/(20 R)…), the wetted arc 2 √(2 R h) (1 + h/(12 R)…).
    /// </summary>
    [Theory]
    [InlineData(1e-15)]
    [InlineData(1e-12)]
    [InlineData(1e-9)]
    public void Next_to_nothing_in_a_lying_cylinder(double h)
    {
        const double R = 0.3, L = 0.9;
        HorizontalCylinder shape = new(Mm(600), Mm(900));
        double chord = Math.Sqrt(2 * R * h);
        Assert.Equal(1, shape.VolumeM3(h) / (4.0 / 3 * h * chord * L), 1e-7);
        Assert.Equal(1, shape.WettedAreaM2(h) / (2 * chord * L), 1e-7);
        Assert.Equal(1, shape.SurfaceAreaM2(h) / (2 * chord * L), 1e-7);
    }

    /// <summary>Next to full, what is not wetted is the mirror image of what is when next to empty.</summary>
    [Theory]
    [InlineData(1e-14)]
    [InlineData(1e-12)]
    [InlineData(1e-9)]
    public void Next_to_full_in_a_lying_cylinder(double below)
    {
        const double R = 0.5, L = 1;
        HorizontalCylinder shape = new(Mm(1000), Mm(1000));

        // The diameter is 1 m, so the depth of air is known to the last digit.
        double level = 1 - below, air = 1 - level;
        double full = 2 * Math.PI * R * L + 2 * Math.PI * R * R;
        Assert.Equal(full - 2 * Math.Sqrt(2 * R * air) * L, shape.WettedAreaM2(level), 1e-12);
        Assert.Equal(shape.VolumeM3(0.25), shape.CapacityM3 - shape.VolumeM3(0.75), 1e-15);
        Assert.Equal(shape.WettedAreaM2(0.25), full - shape.WettedAreaM2(0.75), 1e-14);
    }

    /// <summary>Segment of a circle: V = L [R² acos((R − h)/R) − (R − h) √(2Rh − h²)], the usual gauging formula (from memory).</summary>
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    [InlineData(0.99)]
    public void Lying_cylinder_by_the_gauging_formula(double share)
    {
        const double r = 0.3, length = 0.9;
        HorizontalCylinder shape = new(Mm(600), Mm(900));
        double h = share * 2 * r;
        double segment = r * r * Math.Acos((r - h) / r) - (r - h) * Math.Sqrt(2 * r * h - h * h);
        Assert.Equal(length * segment, shape.VolumeM3(h), 1e-15);
        Assert.Equal(2 * segment + 2 * r * Math.Acos((r - h) / r) * length, shape.WettedAreaM2(h), 1e-14);
    }

    [Fact]
    public void Full_lying_cylinder_wets_shell_and_both_ends()
    {
        HorizontalCylinder shape = new(Mm(600), Mm(900));
        Assert.Equal(2 * Math.PI * 0.3 * 0.9 + 2 * Math.PI * 0.09, shape.WettedAreaM2(0.6), 1e-14);
        Assert.Equal(shape.CapacityM3 / 2, shape.VolumeM3(0.3), 1e-16);
    }

    /// <summary>A table of an upright cylinder is that cylinder, wetted area included.</summary>
    [Fact]
    public void Table_of_a_cylinder_is_the_cylinder()
    {
        UprightCylinder cylinder = new(Mm(400), Mm(500));
        double[] levels = [0, 0.1, 0.35, 0.5];
        LevelVolumeTable table = new([.. levels.Select(h => (Length.FromMeters(h), cylinder.VolumeAt(Length.FromMeters(h))))]);
        foreach (double h in new[] { 0, 0.05, 0.1, 0.2, 0.5 })
        {
            Assert.Equal(cylinder.VolumeM3(h), table.VolumeM3(h), 1e-15);
            Assert.Equal(cylinder.WettedAreaM2(h), table.WettedAreaM2(h), 1e-13);
        }
    }

    /// <summary>Two slices by hand: 2 L over 100 mm, then 6 L over 150 mm: areas 0.02 and 0.04 m², each wetted like an upright cylinder of its area, 2 √(π A) round.</summary>
    [Fact]
    public void Table_of_two_slices_by_hand()
    {
        LevelVolumeTable table = new([(Mm(0), Volume.Zero), (Mm(100), Volume.FromLiters(2)), (Mm(250), Volume.FromLiters(8))]);
        double first = 2 * Math.Sqrt(Math.PI * 0.02), second = 2 * Math.Sqrt(Math.PI * 0.04);
        Assert.Equal((0.25, 0.008), (table.HeightM, table.CapacityM3));
        foreach ((double h, double volume, double surface, double wetted) in new[]
                 {
                     (0.0, 0.0, 0.02, 0.02), (0.05, 0.001, 0.02, 0.02 + 0.05 * first), (0.1, 0.002, 0.04, 0.02 + 0.1 * first), (0.2, 0.006, 0.04, 0.02 + 0.1 * first + 0.1 * second),
                     (0.25, 0.008, 0.04, 0.02 + 0.1 * first + 0.15 * second),
                 })
        {
            Assert.Equal(volume, table.VolumeM3(h), 1e-17);
            Assert.Equal(h, table.LevelM(volume), 1e-15);
            Assert.Equal(surface, table.SurfaceAreaM2(h), 1e-15);
            Assert.Equal(wetted, table.WettedAreaM2(h), 1e-15);
        }
    }

    /// <summary>Neighbours 0.01 mm or 0.01 mL apart tell two points apart, nearer ones do not; the refusal names the point and both limits.</summary>
    [Fact]
    public void Points_of_a_table_are_a_hundredth_apart()
    {
        Assert.Equal(0.02, new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(0.01), Volume.FromMilliliters(0.01)), (Mm(20), Volume.FromLiters(1))]).HeightM, 1e-15);
        // Wherever they are: differences of doubles come out a last digit short half of the time.
        for (int i = 1; i < 2000; i++)
            Assert.Equal(20, new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(i), Volume.FromLiters(i)), (Mm(i + 0.01), Volume.FromMilliliters((1000 * i) + 0.01)), (Mm(20_000), Volume.FromCubicMeters(900))]).HeightM);
        foreach ((double level, double millilitres, string shown) in new[] { (0.0099, 5.0, "(0.00001 m, 0.005 L)"), (5.0, 0.0099, "(0.005 m, 0.00001 L)") })
        {
            ArgumentException refused = Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(level), Volume.FromMilliliters(millilitres)), (Mm(20), Volume.FromLiters(1))]));
            Assert.Equal("points", refused.ParamName);
            Assert.Contains($"Point 2 {shown} does not lie at least 0.01 mm and 0.01 mL above point 1", refused.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Tables_that_are_none_are_refused()
    {
        Assert.Equal("points", Assert.Throws<ArgumentNullException>(() => new LevelVolumeTable(null!)).ParamName);
        Assert.Contains("has 1 points", Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero)])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(1), Volume.Zero), (Mm(20), Volume.FromLiters(2))]));
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(0), Volume.FromLiters(1)), (Mm(20), Volume.FromLiters(2))]));
        Assert.Equal(20, new LevelVolumeTable([(Mm(0), Volume.Zero), (Length.FromMeters(20), Volume.FromCubicMeters(1000))]).HeightM);
        Assert.Throws<ArgumentOutOfRangeException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(20), Volume.FromCubicMeters(1000.1))]));
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero)]));
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(10), Volume.FromLiters(1)), (Mm(20), Volume.FromLiters(2))]));
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(20), Volume.FromLiters(2)), (Mm(20), Volume.FromLiters(3))]));
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero), (Mm(20), Volume.FromLiters(2)), (Mm(30), Volume.FromLiters(2))]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LevelVolumeTable([(Mm(0), Volume.Zero), (Length.FromMeters(21), Volume.FromLiters(2))]));
    }

    [Theory]
    [InlineData(0, 300, "diameter")]
    [InlineData(-5, 300, "diameter")]
    [InlineData(21000, 300, "diameter")]
    [InlineData(300, 5, "height")]
    [InlineData(300, 20001, "height")]
    public void Lengths_outside_their_limits_are_refused_by_name(double diameterMm, double heightMm, string argument)
    {
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => new UprightCylinder(Mm(diameterMm), Mm(heightMm)));
        Assert.Equal(argument, refused.ParamName);
        Assert.Contains("0.01 to 20 m", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>The public figures: within the vessel, its ends included, and refused by name outside.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Levels_and_volumes_outside_the_vessel_are_refused(string name)
    {
        VesselShape shape = Shape(name);
        Assert.Equal(0, shape.VolumeAt(Length.Zero).Liters);
        Assert.Equal(0, shape.LevelOf(Volume.Zero).Meters);
        Assert.Equal(shape.CapacityM3, shape.VolumeAt(shape.Height).CubicMeters, 1e-14 * shape.CapacityM3);
        Assert.Equal(shape.HeightM, shape.LevelOf(shape.Capacity).Meters, 1e-14 * shape.HeightM);
        foreach (double factor in new[] { -1e-9, 1.0001 })
        {
            Assert.Equal("level", Assert.Throws<ArgumentOutOfRangeException>(() => shape.VolumeAt(factor * shape.Height)).ParamName);
            Assert.Equal("volume", Assert.Throws<ArgumentOutOfRangeException>(() => shape.LevelOf(factor * shape.Capacity)).ParamName);
        }
    }

    /// <summary>The refusal says how far the vessel goes: 500 mm high, 0.2 m wide, 15.7 L.</summary>
    [Fact]
    public void A_level_above_the_brim_is_told_the_brim()
    {
        UprightCylinder shape = new(Mm(200), Mm(500));
        Assert.Contains("must be within 0 to 0.5 m", Assert.Throws<ArgumentOutOfRangeException>(() => shape.VolumeAt(Mm(501))).Message, StringComparison.Ordinal);
        Assert.Contains("must be within 0 to 0.0157 m³", Assert.Throws<ArgumentOutOfRangeException>(() => shape.LevelOf(Volume.FromLiters(15.8))).Message, StringComparison.Ordinal);
    }

    /// <summary>Upright walls make a prism: its floor times the height is the volume, and floor and perimeter times height what is wetted. A cone or a lying cylinder is none.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Only_upright_walls_make_a_prism(string name)
    {
        VesselShape shape = Shape(name);
        if (shape is not (UprightCylinder or RectangularTank))
        {
            Assert.Null(shape.AsPrism);
            return;
        }

        Prism prism = shape.AsPrism!.Value;
        Assert.Equal(shape.CapacityM3, prism.FloorM2 * shape.HeightM, 1e-14);
        Assert.Equal(shape.WettedAreaM2(shape.HeightM), prism.FloorM2 + prism.PerimeterM * shape.HeightM, 1e-14);
    }

    /// <summary>600 by 300 mm: floor 0.18 m², 1.8 m round.</summary>
    [Fact]
    public void Box_by_solid_geometry()
    {
        RectangularTank box = new(Mm(600), Mm(300), Mm(250));
        Assert.Equal(0.018, box.VolumeM3(0.1), 1e-16);
        Assert.Equal(0.18, box.SurfaceAreaM2(0.1), 1e-16);
        Assert.Equal(0.18 + 0.18, box.WettedAreaM2(0.1), 1e-15);
        Assert.Equal(0.1, box.LevelM(0.018), 1e-15);
        Assert.Equal(0.18, box.AsPrism!.Value.FloorM2, 1e-15);
        Assert.Equal(1.8, box.AsPrism.Value.PerimeterM, 1e-15);
    }

    [Fact]
    public void A_cone_cannot_widen_downward()
    {
        Assert.Equal(0.4, new ConeBottomedTank(Mm(300), Mm(300), Mm(100), Mm(300)).HeightM, 1e-15);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => new ConeBottomedTank(Mm(300), Mm(300), Mm(100), Mm(301)));
        Assert.Equal("outletDiameter", refused.ParamName);
    }
}
