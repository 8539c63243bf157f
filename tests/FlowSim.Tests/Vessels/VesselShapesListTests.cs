using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Vessels;

public class VesselShapesListTests
{
    [Fact]
    public void Every_vessel_shape_of_the_library_is_on_the_list() => ShapeListRules.EveryClassIsListed(VesselShapes.All);

    [Fact]
    public void Every_entry_describes_itself() => ShapeListRules.EntriesAreWellFormed(VesselShapes.All);

    [Fact]
    public void Every_entry_makes_its_shape_from_its_keys() => ShapeListRules.EntriesCreate(VesselShapes.All);

    [Fact]
    public void A_missing_key_is_named() => ShapeListRules.MissingKeysAreNamed(VesselShapes.All);

    [Fact]
    public void A_value_outside_its_limits_is_named() => ShapeListRules.ValuesOutsideAreNamed(VesselShapes.All);

    /// <summary>Keys that a file has to give; the others have a default, or a choice between two.</summary>
    [Theory]
    [InlineData("upright-cylinder", "diameter")]
    [InlineData("rectangular-tank", "length width height")]
    [InlineData("cone-bottomed-tank", "diameter cylinder_height cone_height")]
    [InlineData("horizontal-cylinder", "diameter length")]
    [InlineData("level-volume-table", "levels volumes")]
    public void Keys_that_must_be_given(string shape, string keys) =>
        Assert.Equal(keys, string.Join(' ', VesselShapes.ByName(shape).Parameters.Where(parameter => parameter.IsRequired).Select(parameter => parameter.Key)));

    /// <summary>A cone without a word on its outlet ends in an apex: π r² h/3.</summary>
    [Fact]
    public void A_cone_ends_in_an_apex_unless_told()
    {
        VesselShape cone = VesselShapes.ByName("cone-bottomed-tank").Create(key => key switch { "diameter" => 0.6, "cylinder_height" => 0, "cone_height" => 0.4, _ => null });
        Assert.Equal(Math.PI * 0.09 * 0.4 / 3, cone.CapacityM3, 1e-15);
        Assert.Equal(0, cone.SurfaceAreaM2(0));
    }

    [Fact]
    public void Levels_and_volumes_go_in_pairs()
    {
        ShapeEntry<VesselShape> entry = VesselShapes.ByName("level-volume-table");
        ArgumentException refused = Assert.Throws<ArgumentException>(() => entry.Create(key => key switch { "levels[0]" => 0, "levels[1]" => 0.1, "levels[2]" => 0.2, "volumes[0]" => 0, "volumes[1]" => 0.01, _ => null }));
        Assert.Equal("volumes", refused.ParamName);
        Assert.Contains("'levels' has 3 values and 'volumes' 2", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_name_gives_the_nearest()
    {
        ArgumentException refused = Assert.Throws<ArgumentException>(() => VesselShapes.ByName("horisontal-cylinder"));
        Assert.Contains("Nearest: 'horizontal-cylinder'", refused.Message, StringComparison.Ordinal);
        Assert.Same(VesselShapes.All[0], VesselShapes.ByName("Upright-Cylinder"));
    }

    [Fact]
    public void A_cylinder_may_be_given_by_its_capacity_but_not_twice()
    {
        ShapeEntry<VesselShape> entry = VesselShapes.ByName("upright-cylinder");
        VesselShape byCapacity = entry.Create(key => key switch { "diameter" => 0.285, "capacity" => 0.019, _ => null });
        Assert.Equal(0.019, byCapacity.CapacityM3, 1e-16);
        Assert.Throws<ArgumentException>(() => entry.Create(key => key switch { "diameter" => 0.285, "capacity" => 0.019, "height" => 0.3, _ => null }));
        Assert.Throws<ArgumentException>(() => entry.Create(key => key == "diameter" ? 0.285 : null));
    }

    [Theory]
    [InlineData(0.1)] // 0.1 L is 1.6 mm high at 285 mm, below the least height of 10 mm
    [InlineData(2000)] // 2 m³ is 31 m high, above the greatest of 20 m
    public void A_capacity_that_makes_no_height_is_itself_at_fault(double litres)
    {
        ArgumentOutOfRangeException direct = Assert.Throws<ArgumentOutOfRangeException>(() => UprightCylinder.OfCapacity(Volume.FromLiters(litres), Length.FromMillimeters(285)));
        Assert.Equal("volume", direct.ParamName);

        // π/4 · 0.285² m² · 10 mm and · 20 m: 0.637940 and 1275.88 L.
        Assert.Contains("0.63794 to 1275.8", direct.Message, StringComparison.Ordinal);
        ShapeEntry<VesselShape> entry = VesselShapes.ByName("upright-cylinder");
        Assert.Equal("capacity", Assert.Throws<ArgumentOutOfRangeException>(() => entry.Create(key => key switch { "diameter" => 0.285, "capacity" => litres / 1000, _ => null })).ParamName);
    }

    [Theory]
    [InlineData(0.01)]
    [InlineData(20)]
    public void A_capacity_right_at_the_limits_of_the_height_is_accepted(double heightM)
    {
        for (double diameter = 0.011; diameter < 7; diameter *= 1.37)
        {
            Volume capacity = Volume.FromCubicMeters(Math.PI / 4 * diameter * diameter * heightM);
            if (capacity.Liters >= 0.01)
                Assert.Equal(heightM, UprightCylinder.OfCapacity(capacity, Length.FromMeters(diameter)).HeightM, 1e-12 * heightM);
        }
    }
}
