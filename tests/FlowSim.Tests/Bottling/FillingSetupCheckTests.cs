using FlowSim.Bottling;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>The edge of a filling by itself, without a run: limits belong to what is allowed, just beyond is refused by name.</summary>
public class FillingSetupCheckTests
{
    private static FillingSetup With(string part, double value)
    {
        FillingSetup plain = Fillings.Plain();
        return part switch
        {
            nameof(FillingSetup.RoomTemperature) => plain with { RoomTemperature = Temperature.FromDegreesCelsius(value) },
            nameof(FillingSetup.HottestStore) => plain with { HottestStore = Temperature.FromDegreesCelsius(value) },
            nameof(FillingSetup.Opening) => plain with { Opening = Ratio.FromPercent(value) },
            nameof(FillingSetup.LabelledMass) => plain with { LabelledMass = Mass.FromGrams(value), FillScatter = Mass.Zero },
            nameof(FillingSetup.FillScatter) => plain with { FillScatter = Mass.FromGrams(value) },
            nameof(FillingSetup.ScatterFrom) => plain with { ScatterFrom = (int)value },
            nameof(FillingSetup.TolerableShortfall) => plain with { TolerableShortfall = Mass.FromGrams(value) },
            nameof(FillingSetup.Confidence) => plain with { Confidence = Ratio.FromPercent(value) },
            nameof(FillingSetup.LeastHeadspace) => plain with { LeastHeadspace = Ratio.FromPercent(value) },
            nameof(FillingSetup.Lot) => plain with { Lot = (int)value },
            nameof(FillingSetup.FallHeight) => plain with { FallHeight = Length.FromMeters(value) },
            nameof(FillingSetup.ClosingTime) => plain with { ClosingTime = Duration.FromSeconds(value) },
            nameof(FillingSetup.ChangeOver) => plain with { ChangeOver = Duration.FromSeconds(value) },
            nameof(FillingSetup.Lip) => plain with { Lip = Length.FromMillimeters(value) },
            nameof(FillingSetup.DripLimit) => plain with { DripLimit = Mass.FromGrams(value) },
            nameof(FillingSetup.LongestWait) => plain with { LongestWait = Duration.FromSeconds(value) },
            nameof(FillingSetup.JarsPerCase) => plain with { JarsPerCase = (int)value },
            nameof(FillingSetup.LongestFill) => plain with { LongestFill = Duration.FromSeconds(value) },
            nameof(FillingSetup.MostJars) => plain with { MostJars = (int)value },
            nameof(FillingSetup.WorkDay) => plain with { WorkDay = Duration.FromHours(value) },
            nameof(FillingSetup.Clearance) => plain with { Clearance = Length.FromMicrometers(value) },
            nameof(FillingSetup.BladeSeat) => plain with { BladeSeat = Length.FromMillimeters(value) },
            nameof(FillingSetup.Night) => plain with { Night = Duration.FromHours(value) },
            _ => throw new NotSupportedException(part),
        };
    }

    private static string? Blamed(FillingSetup setup) => Assert.ThrowsAny<ArgumentException>(() => FillingSetupCheck.Require(setup)).ParamName;

    /// <summary>The limits are those of the documentation of <see cref="FillingSetup"/>; 100 g stand for the 20 % of 500 g that a scatter may be.</summary>
    [Theory]
    [InlineData(nameof(FillingSetup.RoomTemperature), -10, 60, 0.001)]
    [InlineData(nameof(FillingSetup.HottestStore), 0, 80, 0.001)]
    [InlineData(nameof(FillingSetup.Opening), 1, 100, 0.001)]
    [InlineData(nameof(FillingSetup.LabelledMass), 5, 45_000, 0.001)]
    [InlineData(nameof(FillingSetup.FillScatter), 0, 100, 0.001)]
    [InlineData(nameof(FillingSetup.ScatterFrom), 3, 10_000, 1)]
    [InlineData(nameof(FillingSetup.TolerableShortfall), 0.01, 500, 0.001)]
    [InlineData(nameof(FillingSetup.Confidence), 50, 99.99, 0.001)]
    [InlineData(nameof(FillingSetup.LeastHeadspace), 0, 50, 0.001)]
    [InlineData(nameof(FillingSetup.Lot), 1, 200_000, 1)]
    [InlineData(nameof(FillingSetup.FallHeight), 0.001, 3, 1e-6)]
    [InlineData(nameof(FillingSetup.ClosingTime), 0, 60, 0.001)]
    [InlineData(nameof(FillingSetup.ChangeOver), 0, 3600, 0.001)]
    [InlineData(nameof(FillingSetup.Lip), 0, 500, 0.001)]
    [InlineData(nameof(FillingSetup.DripLimit), 0.01, 1000, 0.001)]
    [InlineData(nameof(FillingSetup.LongestWait), 0, 600, 0.001)]
    [InlineData(nameof(FillingSetup.JarsPerCase), 1, 1000, 1)]
    [InlineData(nameof(FillingSetup.LongestFill), 1, 86_400, 0.001)]
    [InlineData(nameof(FillingSetup.MostJars), 1, 200_000, 1)]
    [InlineData(nameof(FillingSetup.WorkDay), 0.1, 24, 0.001)]
    [InlineData(nameof(FillingSetup.Clearance), 1, 5000, 0.001)]
    [InlineData(nameof(FillingSetup.BladeSeat), 0.5, 50, 0.001)]
    [InlineData(nameof(FillingSetup.Night), 0, 720, 0.001)]
    public void Limits_belong_to_what_is_allowed(string part, double low, double high, double beyond)
    {
        FillingSetupCheck.Require(With(part, low));
        FillingSetupCheck.Require(With(part, high));
        Assert.Equal(part, Blamed(With(part, low - beyond)));
        Assert.Equal(part, Blamed(With(part, high + beyond)));
    }

    [Fact]
    public void Parts_that_are_missing_or_do_not_fit_are_named()
    {
        FillingSetup plain = Fillings.Plain();
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => FillingSetupCheck.Require(null!)).ParamName);
        Assert.Equal("setup.Honey", Assert.Throws<ArgumentNullException>(() => FillingSetupCheck.Require(plain with { Honey = null! })).ParamName);
        Assert.Equal("tank", Blamed(plain with { Tank = null! }));
        Assert.Equal("gate", Blamed(plain with { Gate = null! }));
        Assert.Equal("jar", Blamed(plain with { Jar = null! }));
        Assert.Equal("rule", Blamed(plain with { Rule = null! }));
        Assert.Equal(nameof(Tank.HeatLoss), Blamed(plain with { Tank = plain.Tank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(101) } }));
        Assert.Equal(nameof(Gate.TubeLength), Blamed(plain with { Gate = plain.Gate with { TubeLength = Length.FromMeters(2.001) } }));
        Assert.Equal(nameof(Jar.Mouth), Blamed(plain with { Jar = plain.Jar with { Mouth = Length.FromMillimeters(4.9) } }));
        Assert.Equal(nameof(Gate.Outlet), Blamed(plain with { Gate = plain.Gate with { Outlet = GateOutlet.Submerged } }));
        Assert.Equal(nameof(FillingSetup.LabelledMass), Blamed(plain with { Jar = plain.Jar with { SoldAs = null } }));
    }

    /// <summary>Viscosity measured at 35 °C is stretched less far than density, and viscosity measured from 0 to 80 °C farther: each has its own limits.</summary>
    [Fact]
    public void Temperature_must_be_within_viscosity_and_density()
    {
        FillingSetup narrow = Fillings.Plain() with { Honey = Measured((35, 6)) };
        ValidityRange range = HoneyProperties.Of(narrow.Honey).Viscosity.TemperatureRange;
        Assert.InRange(range.OuterHigh, 35.1, 79);
        FillingSetupCheck.Require(narrow with { Temperature = Temperature.FromDegreesCelsius(range.OuterHigh - 0.01) });
        Assert.Equal(nameof(FillingSetup.Temperature), Blamed(narrow with { Temperature = Temperature.FromDegreesCelsius(range.OuterHigh + 0.01) }));

        FillingSetup wide = Fillings.Plain() with { Honey = Measured((0, 400), (40, 4), (80, 0.4)) };
        Assert.True(HoneyProperties.Of(wide.Honey).Viscosity.TemperatureRange.OuterHigh > 80.1);
        FillingSetupCheck.Require(wide with { Temperature = Temperature.FromDegreesCelsius(80) });
        Assert.Equal(nameof(FillingSetup.Temperature), Blamed(wide with { Temperature = Temperature.FromDegreesCelsius(80.01) }));
    }

    private static Honey Measured(params (double Celsius, double PaS)[] figures) => new()
    {
        Moisture = Ratio.FromPercent(17.8),
        Viscosity = new MeasuredViscosity(figures.Select(f => (Temperature.FromDegreesCelsius(f.Celsius), DynamicViscosity.FromPascalSeconds(f.PaS)))),
    };

    /// <summary>The tank drains to 2 mm above the axis of a gate at 30 mm, and what stands above that must be another 2 mm: 34 mm.</summary>
    [Fact]
    public void The_level_must_be_above_the_heel()
    {
        FillingSetup plain = Fillings.Plain();
        FillingSetup At(double millimetres) => plain with { Tank = plain.Tank with { Level = Length.FromMillimeters(millimetres) } };
        FillingSetupCheck.Require(At(34.001));
        Assert.Equal(nameof(Tank.Level), Blamed(At(33.999)));
        FillingSetupCheck.Require(At(450));
    }

    /// <summary>A tank as low as that holds just what it needs: no bore is too wide for it. One a hair lower drains nothing.</summary>
    [Fact]
    public void A_bore_as_wide_as_the_tank_allows()
    {
        FillingSetup plain = Fillings.Plain();
        FillingSetup Brim(double metres) => plain with
        {
            Tank = plain.Tank with { Shape = new UprightCylinder(Length.FromMeters(0.38), Length.FromMeters(metres)), GateHeight = Length.FromMeters(0.03), Level = Length.FromMeters(metres) },
        };
        FillingSetupCheck.Require(Brim(0.03 + 0.002 + 0.002));
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => FillingSetupCheck.Require(Brim(0.0339)));
        Assert.Equal(nameof(Gate.Bore), refused.ParamName);
        Assert.Contains("A bore of 38 mm is too wide for this tank", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>A prism of 1 m² with the gate at 0.998 m: it drains its density times (level − 1 m), in kg, and at most 200 000 jars of 5 g, 1000 kg, are counted.</summary>
    [Fact]
    public void No_more_jars_than_a_run_can_count()
    {
        FillingSetup plain = Fillings.Plain();
        double density = HoneyProperties.Of(plain.Honey).DensityAt(plain.Temperature).KilogramsPerCubicMeter;
        FillingSetup Draining(double kilograms) => plain with
        {
            LabelledMass = Mass.FromGrams(5),
            FillScatter = Mass.Zero,
            Tank = plain.Tank with
            {
                Shape = new RectangularTank(Length.FromMeters(1), Length.FromMeters(1), Length.FromMeters(2)),
                GateHeight = Length.FromMeters(0.998),
                Level = Length.FromMeters(1 + kilograms / density),
            },
        };
        FillingSetupCheck.Require(Draining(999.9));
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => FillingSetupCheck.Require(Draining(1000.1)));
        Assert.Equal(nameof(FillingSetup.LabelledMass), refused.ParamName);
        Assert.Contains("200020 jars of 5 g; at most 200000", refused.Message, StringComparison.Ordinal);
        FillingSetupCheck.Require(Draining(1000.1) with { LabelledMass = Mass.FromGrams(5.01) });
    }
}
