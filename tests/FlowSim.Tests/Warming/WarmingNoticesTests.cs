using FlowSim.Properties;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>Each notice from a result that gives cause for it, and none from one a little short of it.</summary>
public class WarmingNoticesTests
{
    // A jar of honey in a warm cabinet for ten hours, by figures of our own where a notice looks at them.
    private static readonly WarmingSetup s_setup = SmallJar.InCabinet() with
    {
        Heating = SmallJar.InCabinet().Heating with { HeaterPower = Power.FromWatts(50) },
        Longest = Duration.FromMinutes(1),
    };

    private static readonly WarmingParameters s_p = WarmingParameters.Of(s_setup, Small, HeatFactors.None);

    private static readonly WarmingResult s_plain = Plain();

    private static WarmingResult Plain()
    {
        WarmingResult run = WarmingRun.Simulate(s_setup, Small);
        return run with
        {
            Status = WarmingStatus.Reached,
            Elapsed = Duration.FromHours(10),
            End = new HoneyTemperatures(Celsius(33), Celsius(35), Celsius(36), Celsius(38), Celsius(40), Celsius(40)),
            HottestHoney = Celsius(36),
            HottestWall = (Celsius(38), Duration.FromHours(9)),
            WallAboveProbe = TemperatureDelta.FromKelvins(-2),
            Energy = run.Energy with { Heater = Energy.FromJoules(1e5) },
        };
    }

    private static Notice[] For(WarmingResult result, WarmingParameters? p = null) => [.. WarmingNotices.For(p ?? s_p, result)];

    private static Notice? Of(string code, WarmingResult result, WarmingParameters? p = null) => For(result, p).SingleOrDefault(notice => notice.Code == code);

    [Fact]
    public void A_plain_run_has_nothing_to_tell() => Assert.Empty(For(s_plain));

    [Fact]
    public void Properties_are_looked_up_at_the_coldest_and_at_the_hottest_honey()
    {
        // Viscosity is known from 12 to 60 °C, conductivity from 10 to 70 °C, HMF to 70 °C.
        Assert.Empty(For(s_plain with { End = s_plain.End with { Coldest = Celsius(12.01) } }));
        Assert.Single(For(s_plain with { End = s_plain.End with { Coldest = Celsius(11.9) } }), notice => notice.Code == "range.vogel viscosity.temperature");
        Assert.Single(For(s_plain with { End = s_plain.End with { Coldest = Celsius(9.9) } }), notice => notice.Code == "range.riedel conductivity.temperature");
        Assert.Single(For(s_plain with { Setup = s_setup with { StartTemperature = Celsius(11.9) } }), notice => notice.Code == "range.vogel viscosity.temperature");
        Assert.Empty(For(s_plain with { HottestHoney = Celsius(59.9) }));
        Assert.Single(For(s_plain with { HottestHoney = Celsius(60.1) }), notice => notice.Code == "range.vogel viscosity.temperature");
        Assert.Single(For(s_plain with { HottestHoney = Celsius(70.1) }), notice => notice.Code == "range.riedel conductivity.temperature");

        // Too cold and too hot is told once, of the cold.
        WarmingResult both = s_plain with { End = s_plain.End with { Coldest = Celsius(8) }, HottestHoney = Celsius(65) };
        Assert.Contains("8 °C", Of("range.vogel viscosity.temperature", both)!.Seen, StringComparison.Ordinal);

        // A coldest that was warmer than the start is not where it was coldest.
        WarmingResult warmed = s_plain with { Setup = s_setup with { StartTemperature = Celsius(11) }, End = s_plain.End with { Coldest = Celsius(34) } };
        Assert.Contains("11 °C", Of("range.vogel viscosity.temperature", warmed)!.Seen, StringComparison.Ordinal);
        WarmingResult cooled = s_plain with { End = s_plain.End with { Coldest = Celsius(7) } };
        Assert.Contains("7 °C", Of("range.vogel viscosity.temperature", cooled)!.Seen, StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_worst_damage_had_to_tell_is_told()
    {
        var told = new Notice("invented", "a", "b", "c");
        Assert.Equal([told], For(s_plain with { WorstDamage = s_plain.WorstDamage with { Notices = [told, told] } }));
    }

    [Theory]
    [InlineData(0.74, true)]
    [InlineData(0.76, false)]
    [InlineData(1.99, false)]
    [InlineData(2.01, true)]
    public void A_vessel_too_flat_or_too_tall_for_the_convection_is_told_of_the_best_estimate(double aspect, bool told)
    {
        WarmingParameters p = s_p with { Grid = new CylinderGrid(0.05, 0.1 * aspect, 4, 6) };
        Assert.Equal(told, Of("range.evans-stefany 1966.L/D", s_plain, p) is not null);
        Assert.Empty(For(s_plain, p with { Inside = InsideHeat.ConductionOnly }));
        Assert.Empty(For(s_plain, p with { Inside = InsideHeat.WellMixed }));
    }

    [Fact]
    public void Another_shape_is_told_with_the_cylinder_it_is_taken_for()
    {
        WarmedVessel box = s_setup.Vessel with { Shape = new RectangularTank(Length.FromMillimeters(90), Length.FromMillimeters(90), Length.FromMillimeters(150)) };
        string seen = Of("vessel.as-cylinder", s_plain with { Setup = s_setup with { Vessel = box } }, s_p with { Grid = new CylinderGrid(0.0508, 0.1404, 4, 6) })!.Seen;
        Assert.Contains("102 mm wide and 140 mm high", seen, StringComparison.Ordinal);
    }

    [Fact]
    public void How_it_ended_is_told_with_when()
    {
        WarmingResult at = s_plain with { Elapsed = Duration.FromHours(3.4), CutOutAt = Duration.FromHours(1.75) };
        string hot = Of("warming.overheated", at with { Status = WarmingStatus.Overheated })!.Seen;
        Assert.Contains("150 °C after 3.4 h", hot, StringComparison.Ordinal);
        Assert.Contains("after 1.8 h", Of("warming.cut-out", at with { Status = WarmingStatus.CutOut })!.Seen, StringComparison.Ordinal);
        string late = Of("warming.not-reached", at with { Status = WarmingStatus.TimeLimit })!.Seen;
        Assert.Contains("after 3.4 h", late, StringComparison.Ordinal);
        Assert.Contains("the mean is at 35.0 °C, the coldest at 33.0 °C", late, StringComparison.Ordinal);
        Assert.Empty(For(at with { Status = WarmingStatus.TimeLimit, Setup = s_setup with { Targets = [] } }));
        Assert.Empty(For(at));
        foreach (WarmingStatus status in new[] { WarmingStatus.Overheated, WarmingStatus.CutOut, WarmingStatus.TimeLimit })
            Assert.Single(For(at with { Status = status }));
    }

    /// <summary>50 W for 10 h are 1.8 MJ.</summary>
    [Theory]
    [InlineData(0.975, false)]
    [InlineData(0.985, true)]
    public void A_heater_that_gave_all_it_had_is_told_apart(double share, bool atFullPower)
    {
        WarmingResult late = s_plain with { Status = WarmingStatus.TimeLimit, Energy = s_plain.Energy with { Heater = Energy.FromJoules(share * 1.8e6) } };
        Notice notice = Of("warming.not-reached", late)!, endless = Of("warming.not-reached", late, s_p with { HeaterW = double.PositiveInfinity })!;
        Assert.Equal(atFullPower, notice.MayMean.Contains("all it has", StringComparison.Ordinal));
        Assert.Equal(atFullPower, notice.Helps.Contains("stronger heater", StringComparison.Ordinal));
        Assert.DoesNotContain("all it has", endless.MayMean, StringComparison.Ordinal);
        Assert.DoesNotContain("stronger heater", endless.Helps, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wall_hotter_than_the_probe_is_told_if_it_was_heated()
    {
        WarmingResult Above(double kelvins) => s_plain with { WallAboveProbe = TemperatureDelta.FromKelvins(kelvins), HottestWall = (Celsius(52.34), Duration.Zero) };
        const string Code = "warming.wall-above-probe";
        Assert.Null(Of(Code, Above(2)));
        string seen = Of(Code, Above(2.06))!.Seen;
        Assert.Contains("2.1 K", seen, StringComparison.Ordinal);
        Assert.Contains("52.3 °C", seen, StringComparison.Ordinal);
        Assert.Null(Of(Code, Above(5) with { Energy = s_plain.Energy with { Heater = Energy.Zero } }));
        Assert.Null(Of(Code, Above(5) with { Energy = s_plain.Energy with { Heater = Energy.FromJoules(-1e5) } }));
        Assert.Null(Of(Code, Above(5) with { HottestWall = (Celsius(20), Duration.Zero) }));
        Assert.NotNull(Of(Code, Above(5) with { HottestWall = (Celsius(20.1), Duration.Zero) }));
    }

    [Theory]
    [InlineData(300, 10, null)]
    [InlineData(301, 10, "30 times")]
    [InlineData(452, 10, "45 times")]
    [InlineData(3, 0.01, null)]
    [InlineData(4, 0.01, "40 times")]
    [InlineData(7, 0.2, "35 times")]
    public void A_heater_that_switches_more_than_30_times_an_hour_is_told(int switchings, double hours, string? times)
    {
        // Six minutes at the least: a switching or three in a short run are none too many.
        Notice? notice = Of("warming.switches-often", s_plain with { Switchings = switchings, Elapsed = Duration.FromHours(hours) });
        if (times is null)
            Assert.Null(notice);
        else
            Assert.Contains(times, notice!.Seen, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.11, null)]
    [InlineData(0.13, "0.1 %")]
    [InlineData(4.26, "4.3 %")]
    public void Crystals_that_are_left_are_told_from_a_hundredth_of_them_on(double percentLeft, string? told)
    {
        // Of 12 %: 0.12 %.
        WarmingSetup granulated = s_setup with { Crystals = Crystals.Coarse(Ratio.FromPercent(12)) };
        WarmingResult left = s_plain with { Setup = granulated, CrystalsLeft = Ratio.FromPercent(percentLeft) };
        Notice? notice = Of("warming.crystals-left", left);
        Assert.Equal(told is null, notice is null);
        if (notice is not null)
        {
            Assert.Contains(told!, notice.Seen, StringComparison.Ordinal);
            Assert.Contains("65 °C", notice.Helps, StringComparison.Ordinal);
        }

        Assert.Empty(For(left with { Setup = s_setup }));
    }

    // The vessel is 0.1 m wide and 0.14 m high: side 43 982 mm², either end 7854 mm², 59 690 mm² together, of which half is 29 845.
    [Theory]
    [InlineData(0, 0.0949, false, false, 50)]
    [InlineData(0, 0.0951, false, false, null)]
    [InlineData(0.05, 0.3, false, false, 47)]
    [InlineData(0.03, 0.1252, false, false, null)]
    [InlineData(0.03, 0.12, false, false, 47)]
    [InlineData(0, 0.0699, true, false, 50)]
    [InlineData(0, 0.0701, true, false, null)]
    [InlineData(0, 0.0699, false, true, 50)]
    [InlineData(0, 0.0701, false, true, null)]
    [InlineData(0, 0.0449, true, true, 50)]
    [InlineData(0, 0.0451, true, true, null)]
    [InlineData(0, 0, true, false, 13)]
    [InlineData(0.2, 0.3, true, true, 26)]
    public void Honey_that_is_touched_on_less_than_half_of_its_surface_is_warmed_unevenly(double from, double to, bool floor, bool top, int? percent)
    {
        var contacts = new KitContacts
        {
            BodySide = Film.Coefficient(50),
            BodySideFromM = from,
            BodySideToM = to,
            Floor = Film.Coefficient(50),
            FloorFacesBody = floor,
            Top = Film.Coefficient(50),
            TopFacesBody = top,
        };
        WarmingParameters p = s_p with { Grid = new CylinderGrid(0.05, 0.14, 4, 6), Contacts = contacts };
        Notice? notice = Of("warming.uneven", s_plain, p);
        if (percent is null)
            Assert.Null(notice);
        else
            Assert.Contains(FormattableString.Invariant($" {percent} %"), notice!.Seen, StringComparison.Ordinal);
        Assert.Empty(For(s_plain, p with { Inside = InsideHeat.WellMixed }));
        Assert.Empty(For(s_plain with { End = s_plain.End with { Mean = Celsius(19.9) } }, p));
        if (notice is not null)
            Assert.NotNull(Of("warming.uneven", s_plain with { End = s_plain.End with { Mean = Celsius(20) } }, p));
    }

    [Fact]
    public void A_face_that_lets_nothing_through_warms_nothing_and_an_element_is_told_as_one()
    {
        KitContacts ends = new() { BodySide = Film.Coefficient(50), BodySideToM = 0.06, Floor = Film.Coefficient(50), FloorFacesBody = true, Top = Film.Coefficient(9), TopFacesBody = true };
        WarmingParameters p = s_p with { Grid = new CylinderGrid(0.05, 0.14, 4, 6), Contacts = ends };
        Assert.Null(Of("warming.uneven", s_plain, p));
        Assert.NotNull(Of("warming.uneven", s_plain, p with { Contacts = ends with { Floor = Film.None } }));
        Assert.NotNull(Of("warming.uneven", s_plain, p with { Contacts = ends with { Top = Film.None } }));
        KitContacts element = new() { ElementRadiusM = 0.01, ElementToM = 0.1 };
        Assert.Contains("element", Of("warming.uneven", s_plain, p with { Contacts = element })!.Seen, StringComparison.Ordinal);
        Assert.DoesNotContain("element", Of("warming.uneven", s_plain, p with { Contacts = new KitContacts() })!.Seen, StringComparison.Ordinal);
    }
}
