using FlowSim.Vessels;

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
}
