using FlowSim.Screens;

namespace FlowSim.Tests.Screens;

public class ScreenShapesListTests
{
    [Fact]
    public void Every_screen_form_of_the_library_is_on_the_list() => ShapeListRules.EveryClassIsListed(ScreenShapes.All);

    [Fact]
    public void Every_entry_describes_itself() => ShapeListRules.EntriesAreWellFormed(ScreenShapes.All);

    [Fact]
    public void Every_entry_makes_its_form_from_its_keys() => ShapeListRules.EntriesCreate(ScreenShapes.All);

    [Fact]
    public void A_missing_key_is_named() => ShapeListRules.MissingKeysAreNamed(ScreenShapes.All);

    [Fact]
    public void A_value_outside_its_limits_is_named() => ShapeListRules.ValuesOutsideAreNamed(ScreenShapes.All);

    [Fact]
    public void An_unknown_name_gives_the_nearest() =>
        Assert.Contains("Nearest: 'basket'", Assert.Throws<ArgumentException>(() => ScreenShapes.ByName("bascet")).Message, StringComparison.Ordinal);
}
