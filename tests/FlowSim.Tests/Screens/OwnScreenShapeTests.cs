using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Tests.Screens;

/// <summary>A form of cloth may be the user's own: what it answers is looked at from the bottom to the rim before a run relies on it.</summary>
public class OwnScreenShapeTests
{
    /// <summary>A flat cloth of 0.04 m² under 0.2 m of upright wall that answers one question wrongly at one depth.</summary>
    private sealed class Own(string wrongly, double atM, double answer, double rimM = 0.2) : ScreenShape
    {
        private const double AreaM2 = 0.04;

        protected internal override double RimHeightM => rimM;

        protected internal override double PondVolumeM3(double depthM) => Answer("pond volume", depthM, AreaM2 * depthM);

        protected internal override double PondDepthM(double volumeM3) => Answer("depth of the pond volume", volumeM3 / AreaM2, volumeM3 / AreaM2);

        protected internal override double SurfaceAreaM2(double depthM) => Answer("free surface", depthM, AreaM2);

        protected internal override double WettedClothAreaM2(double depthM) => Answer("wetted cloth", depthM, AreaM2);

        protected internal override double HeadIntegralM3(double depthM) => Answer("head integral", depthM, AreaM2 * depthM);

        private double Answer(string what, double depthM, double right) => what == wrongly && Math.Abs(depthM - atM) < 1e-9 ? answer : right;
    }

    private static Strainer With(ScreenShape shape) => new() { Shape = shape, Cloths = [Cloth.FromAstmSieve(40)] };

    [Theory]
    [InlineData("free surface", 0)]
    [InlineData("free surface", 0.2)]
    [InlineData("wetted cloth", 0)]
    [InlineData("wetted cloth", 0.075)]
    [InlineData("head integral", 0.125)]
    [InlineData("head integral", 0.2)]
    [InlineData("pond volume", 0)]
    [InlineData("pond volume", 0.1)]
    [InlineData("depth of the pond volume", 0.05)]
    [InlineData("depth of the pond volume", 0.2)]
    public void A_wrong_answer_at_any_eighth_of_the_rim_is_found(string what, double depthM)
    {
        foreach (double answer in new[] { double.NaN, -1e-6, double.PositiveInfinity })
        {
            ArgumentException refused = Assert.Throws<ArgumentException>(With(new Own(what, depthM, answer)).Validate);
            Assert.Equal("Shape", refused.ParamName);
            Assert.StartsWith(FormattableString.Invariant($"The shape Own gives {answer} for its {what} at {depthM:0.######} m;"), refused.Message, StringComparison.Ordinal);
        }

        With(new Own("nothing", 0, 0)).Validate();
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_rim_must_stand_above_the_cloth(double rimM) =>
        Assert.StartsWith(
            FormattableString.Invariant($"The shape Own gives {rimM} for its rim height;"),
            Assert.Throws<ArgumentException>(With(new Own("nothing", 0, 0, rimM)).Validate).Message,
            StringComparison.Ordinal);

    [Fact]
    public void A_pond_at_the_rim_must_hold_something() =>
        Assert.StartsWith(
            "The shape Own gives 0 for its pond volume at the rim;", Assert.Throws<ArgumentException>(With(new Own("pond volume", 0.2, 0)).Validate).Message, StringComparison.Ordinal);

    /// <summary>A pond between upright walls: its cloth grows by the wall's girth with the depth, its surface not at all.</summary>
    [Fact]
    public void Upright_forms_say_so_in_the_numbers_of_their_cloth()
    {
        ScreenShape[] upright = [new BasketScreen(Length.FromMillimeters(300), Length.FromMillimeters(200)), new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100))];
        foreach (ScreenShape shape in upright)
        {
            PrismScreen prism = shape.AsPrism!.Value;
            foreach (double depthM in new[] { 0.01, 0.05, 0.1 })
            {
                Assert.Equal(shape.WettedClothAreaM2(depthM), prism.FloorClothM2 + prism.WallClothM * depthM, 1e-12);
                Assert.Equal(shape.SurfaceAreaM2(depthM), prism.SurfaceM2, 1e-12);
            }
        }

        Assert.Null(new ConeScreen(Length.FromMillimeters(250), Length.FromMillimeters(180)).AsPrism);
    }

    /// <summary>A millionth off is the same sieve (600.0006 µm), more is none.</summary>
    [Theory]
    [InlineData(600.0005, true)]
    [InlineData(599.9995, true)]
    [InlineData(600.0007, false)]
    [InlineData(599.9993, false)]
    public void An_opening_is_that_of_a_sieve_to_a_millionth(double um, bool found)
    {
        if (found)
            Assert.Equal(30, StandardSieves.ByOpening(Length.FromMicrometers(um)).AstmNumber);
        else
            Assert.Equal("opening", Assert.Throws<ArgumentOutOfRangeException>(() => StandardSieves.ByOpening(Length.FromMicrometers(um))).ParamName);
    }
}
