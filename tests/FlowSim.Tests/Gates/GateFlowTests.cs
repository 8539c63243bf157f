using FlowSim.Gates;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Gates;

public class GateFlowTests
{
    private static Gate Gate(double boreMm = 38, double tubeMm = 40, BladeShape blade = BladeShape.Straight, GateOutlet outlet = GateOutlet.Free) => new()
    {
        Bore = Length.FromMillimeters(boreMm),
        TubeLength = Length.FromMillimeters(tubeMm),
        Blade = blade,
        Outlet = outlet,
    };

    private static Gate AnyGate(Share bore, Share tube, bool roundHoled, bool submerged) => Gate(
        bore.LogBetween(3, 200),
        tube.Between(0, 2000),
        roundHoled ? BladeShape.RoundHoled : BladeShape.Straight,
        submerged ? GateOutlet.Submerged : GateOutlet.Free);

    /// <summary>R̂ = 1.5/a³ + 8L/(πa⁴) and B̂ = 2.3/(2A²), put in by hand for a = 19 mm, L = 40 mm.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(0.4)]
    public void A_factor_multiplies_the_viscous_resistance_alone(double opening)
    {
        GateGeometry computed = GateFlow.GeometryOf(Gate(), opening);
        GateGeometry own = GateFlow.GeometryOf(Gate() with { Factor = 1.3 }, opening);
        Assert.Equal(1.3 * computed.ViscousPerM3, own.ViscousPerM3, 1e-12 * own.ViscousPerM3);
        Assert.Equal(computed.InertialPerM4, own.InertialPerM4);
    }

    [Fact]
    public void Fully_open_gate_is_entry_and_tube()
    {
        const double a = 0.019;
        double area = Math.PI * a * a;
        GateGeometry geometry = GateFlow.GeometryOf(Gate(), 1);
        Assert.Equal(1.5 / Math.Pow(a, 3) + 8 * 0.040 / (Math.PI * Math.Pow(a, 4)), geometry.ViscousPerM3, 1e-9 * geometry.ViscousPerM3);
        Assert.Equal(2.3 / (2 * area * area), geometry.InertialPerM4, 1e-12 * geometry.InertialPerM4);
        Assert.False(geometry.IsShut);
    }

    /// <summary>Under the pond the exit half of the hole counts too: 1.5/a³ more.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(0.4)]
    public void Submerged_outlet_costs_the_other_half_of_the_hole(double opening)
    {
        double free = GateFlow.GeometryOf(Gate(), opening).ViscousPerM3;
        double submerged = GateFlow.GeometryOf(Gate(outlet: GateOutlet.Submerged), opening).ViscousPerM3;
        Assert.Equal(1.5 / Math.Pow(0.019, 3), submerged - free, 1e-9 * free);
    }

    /// <summary>However small the opening, a gate has a resistance in numbers or is shut.</summary>
    [Theory]
    [InlineData(BladeShape.Straight)]
    [InlineData(BladeShape.RoundHoled)]
    public void An_opening_too_small_for_numbers_is_shut(BladeShape blade)
    {
        int shut = 0;
        for (double opening = 1; opening > 0; opening /= 16)
        {
            GateGeometry geometry = GateFlow.GeometryOf(Gate(blade: blade), opening);
            Assert.True(geometry.IsShut || (double.IsFinite(geometry.ViscousPerM3) && double.IsFinite(geometry.InertialPerM4)), $"{opening}: {geometry}");
            Assert.InRange(GateFlow.VolumeFlowM3PerS(1e4, geometry.ViscousPerM3, geometry.InertialPerM4), 0, 1);
            shut += geometry.IsShut ? 1 : 0;
        }

        Assert.True(shut > 100, $"{shut} openings are shut");
        Assert.True(GateFlow.GeometryOf(Gate(blade: blade), 0).IsShut);
    }

    [Fact]
    public void Without_pressure_nothing_flows_even_without_resistance()
    {
        Assert.Equal(0, GateFlow.VolumeFlowM3PerS(0, 0, 0));
        Assert.Equal(0, GateFlow.VolumeFlowM3PerS(0, 0, 1));
        Assert.Equal(0, GateFlow.VolumeFlowM3PerS(-1, 1, 1));
        Assert.Equal(0, GateFlow.VolumeFlowM3PerS(1, double.PositiveInfinity, 1));
    }

    [Fact]
    public void No_gate_is_told_as_such() => Assert.Throws<ArgumentNullException>(() => GateCheck.Validate(null!));

    /// <summary>Half open, a round-holed blade leaves the lens of two circles a radius apart, a straight one half the bore: 2a²(π/3 − √3/4) and πa²/2.</summary>
    [Fact]
    public void The_blade_that_is_named_is_the_one_that_is_taken()
    {
        Assert.Equal(2 * ((Math.PI / 3) - (Math.Sqrt(3) / 4)), GateOpening.Of(BladeShape.RoundHoled, 1, 0.5).AreaM2, 1e-12);
        Assert.Equal(Math.PI / 2, GateOpening.Of(BladeShape.Straight, 1, 0.5).AreaM2, 1e-12);
    }

    /// <summary>A blade half across: α = π/2, A = πa²/2, P = a(π + 2); K = 2.69 − 0.195.</summary>
    [Fact]
    public void Half_open_straight_blade_by_hand()
    {
        const double a = 0.019;
        double area = Math.PI * a * a / 2;
        double perimeter = a * (Math.PI + 2);
        double viscous = 1.5 / Math.Pow(a, 3) + 8 * 0.040 / (Math.PI * Math.Pow(a, 4)) + 3 * Math.PI * perimeter / (2 * area * area) - 3 / Math.Pow(a, 3);
        GateGeometry geometry = GateFlow.GeometryOf(Gate(), 0.5);
        Assert.Equal(viscous, geometry.ViscousPerM3, 1e-12 * viscous);
        Assert.Equal(2.495 / (2 * area * area), geometry.InertialPerM4, 1e-12 * geometry.InertialPerM4);
    }

    /// <summary>Two circles of radius a whose centres are a apart share a²(2π/3 − √3/2) inside 4πa/3: the vesica piscis.</summary>
    [Fact]
    public void Half_travelled_round_holed_blade_leaves_a_vesica_piscis()
    {
        GateOpening opening = GateOpening.OfRoundHoledBlade(1, 0.5);
        Assert.Equal(2 * Math.PI / 3 - Math.Sqrt(3) / 2, opening.AreaM2, 1e-15);
        Assert.Equal(4 * Math.PI / 3, opening.PerimeterM, 1e-14);
    }

    [Theory]
    [InlineData(BladeShape.Straight)]
    [InlineData(BladeShape.RoundHoled)]
    public void Both_blades_fully_open_leave_the_whole_bore(BladeShape blade)
    {
        GateOpening opening = GateOpening.Of(blade, 0.019, 1);
        Assert.Equal(Math.PI * 0.019 * 0.019, opening.AreaM2, 1e-17);
        Assert.Equal(2 * Math.PI * 0.019, opening.PerimeterM, 1e-15);
    }

    /// <summary>The ends that the straight line of K joins: 1/0.61² = 2.687 and 2.3.</summary>
    [Fact]
    public void Loss_coefficient_joins_blade_and_open_tube()
    {
        Assert.Equal(1 / (0.61 * 0.61), OpeningResistance.ShortTubeLossCoefficient(0), 0.005);
        Assert.Equal(2.3, OpeningResistance.ShortTubeLossCoefficient(1), 1e-15);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(1e-200)]
    public void Shut_gate_lets_nothing_through(double opening)
    {
        GateGeometry geometry = GateFlow.GeometryOf(Gate(), opening);
        Assert.True(geometry.IsShut);
        Assert.Equal(0, GateFlow.VolumeFlowM3PerS(4000, 3 * geometry.ViscousPerM3, 1400 * geometry.InertialPerM4));
    }

    [Fact]
    public void Wider_than_open_is_open() =>
        Assert.Equal(GateFlow.GeometryOf(Gate(), 1), GateFlow.GeometryOf(Gate(), 1.5));

    [Property(Arbitrary = [typeof(Generators)])]
    public void More_open_never_resists_more(Share bore, Share tube, Share one, Share other, bool roundHoled, bool submerged)
    {
        Gate gate = AnyGate(bore, tube, roundHoled, submerged);
        GateGeometry less = GateFlow.GeometryOf(gate, Math.Min(one.Value, other.Value));
        GateGeometry more = GateFlow.GeometryOf(gate, Math.Max(one.Value, other.Value));
        Assert.True(more.ViscousPerM3 <= less.ViscousPerM3 * (1 + 1e-14));
        Assert.True(more.InertialPerM4 <= less.InertialPerM4 * (1 + 1e-14));
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void Flow_is_the_positive_root_grows_with_pressure_and_falls_with_viscosity(Share bore, Share tube, Share opening, Share pressure, Share viscosity)
    {
        GateGeometry geometry = GateFlow.GeometryOf(AnyGate(bore, tube, false, false), opening.LogBetween(1e-4, 1));
        double pa = pressure.LogBetween(1e-6, 1e5);
        double muPaS = viscosity.LogBetween(1e-3, 1e4);
        double r = muPaS * geometry.ViscousPerM3;
        double b = 1400 * geometry.InertialPerM4;
        double flow = GateFlow.VolumeFlowM3PerS(pa, r, b);
        Assert.True(double.IsFinite(flow) && flow > 0);
        Assert.Equal(pa, r * flow + b * flow * flow, 1e-14 * pa);
        Assert.True(GateFlow.VolumeFlowM3PerS(1.01 * pa, r, b) > flow);
        Assert.True(GateFlow.VolumeFlowM3PerS(pa, 1.01 * r, b) < flow);
    }

    /// <summary>Q → Δp/R in creeping flow, √(Δp/B) without viscosity.</summary>
    [Property(Arbitrary = [typeof(Generators)])]
    public void Flow_has_both_limits(Share pressure)
    {
        double pa = pressure.LogBetween(1e-3, 1e5);
        Assert.Equal(pa / 1e9, GateFlow.VolumeFlowM3PerS(pa, 1e9, 1e3), 1e-9 * pa / 1e9);
        Assert.Equal(Math.Sqrt(pa / 1e9), GateFlow.VolumeFlowM3PerS(pa, 0, 1e9), 1e-15 * Math.Sqrt(pa / 1e9));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-10)]
    [InlineData(double.NaN)]
    public void Nothing_flows_without_pressure(double pa) => Assert.Equal(0, GateFlow.VolumeFlowM3PerS(pa, 1e6, 1e9));

    public static TheoryData<string, Gate> BadGates => new()
    {
        { nameof(FlowSim.Gates.Gate.Bore), Gate(boreMm: 2.9) },
        { nameof(FlowSim.Gates.Gate.Bore), Gate(boreMm: 201) },
        { nameof(FlowSim.Gates.Gate.TubeLength), Gate(tubeMm: -1) },
        { nameof(FlowSim.Gates.Gate.TubeLength), Gate(tubeMm: 2001) },
        { nameof(FlowSim.Gates.Gate.Factor), Gate() with { Factor = 0.09 } },
        { nameof(FlowSim.Gates.Gate.Factor), Gate() with { Factor = 10.1 } },
        { nameof(FlowSim.Gates.Gate.Factor), Gate() with { Factor = double.NaN } },
        { nameof(FlowSim.Gates.Gate.Blade), Gate(blade: (BladeShape)7) },
        { nameof(FlowSim.Gates.Gate.Outlet), Gate(outlet: (GateOutlet)7) },
        { nameof(FlowSim.Gates.Gate.OutletAboveScreen), Gate() with { OutletAboveScreen = Length.FromMillimeters(-1) } },
    };

    [Theory]
    [MemberData(nameof(BadGates))]
    public void A_gate_outside_its_ranges_is_refused_by_name(string name, Gate gate) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(gate.Validate).ParamName);

    [Fact]
    public void Usual_gate_passes() => Gate().Validate();
}
