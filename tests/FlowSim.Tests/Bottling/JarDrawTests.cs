using FlowSim.Bottling;
using FlowSim.Vessels;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>The time of one jar against closed forms.</summary>
public class JarDrawTests
{
    private static readonly UprightCylinder Cylinder = new(Length.FromMeters(0.4), Length.FromMeters(0.5));

    /// <summary>The same walls as a table, which has no closed form and goes by quadrature.</summary>
    private static readonly LevelVolumeTable Table = new([(Length.Zero, Volume.Zero), (Length.FromMeters(0.5), Volume.FromCubicMeters(Math.PI / 4 * 0.4 * 0.4 * 0.5))]);

    /// <summary>Without inertia: t = (A μR̂/(ρg)) ln(h₁/h₂), and a jar of volume V takes the level down by V/A.</summary>
    [Property(Arbitrary = [typeof(Generators)])]
    public void Upright_walls_without_inertia(Share level, Share part)
    {
        double area = Math.PI / 4 * 0.16, from = level.Between(0.1, 0.5), to = from * part.Between(0.3, 0.99);
        GateHoney flow = new(3e6, 0, 1.4e4);
        double expected = area * 3e6 / 1.4e4 * Math.Log(from / to);
        Assert.Equal(expected, JarDraw.TimeS(Cylinder, 0, area * (from - to), area * from, area * to, flow), 1e-10 * expected);
    }

    /// <summary>Quadrature and closed form, with inertia, with what the film gives.</summary>
    [Property(Arbitrary = [typeof(Generators)])]
    public void Quadrature_is_the_closed_form(Share level, Share part, Share film)
    {
        double area = Math.PI / 4 * 0.16, from = level.Between(0.1, 0.5), to = from * part.Between(0.5, 0.999);
        GateHoney flow = new(1e6, 4e9, 1.4e4);
        double drawn = area * (from - to) * film.Between(0.8, 1.2);
        double expected = JarDraw.TimeS(Cylinder, 0.03, drawn, area * from, area * to, flow);
        Assert.Equal(expected, JarDraw.TimeS(Table, 0.03, drawn, area * from, area * to, flow), 1e-9 * expected);
    }

    /// <summary>A level that the film holds up: volume over flow; and no jump on the way there.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1e-12)]
    [InlineData(1e-7)]
    [InlineData(-1e-7)]
    public void A_level_that_stays(double fallM)
    {
        double area = Math.PI / 4 * 0.16;
        GateHoney flow = new(1e6, 4e9, 1.4e4);
        double expected = 1e-3 / flow.FlowM3PerS(0.2);
        Assert.Equal(expected, JarDraw.TimeS(Cylinder, 0, 1e-3, area * 0.2, area * (0.2 - fallM), flow), 1e-6 * expected);
    }

    /// <summary>A small jar of 10 mL from under a head of 1 mm takes the head down by a twelfth: (A R/(ρg)) ln(h₁/h₂), not volume over flow.</summary>
    [Fact]
    public void A_small_jar_from_a_low_head()
    {
        double area = Math.PI / 4 * 0.16, to = 0.001 - 1e-5 / area;
        GateHoney flow = new(3e6, 0, 1.4e4);
        double expected = area * 3e6 / 1.4e4 * Math.Log(0.001 / to);
        Assert.Equal(expected, JarDraw.TimeS(Cylinder, 0, 1e-5, area * 0.001, area * to, flow), 1e-9 * expected);
        Assert.Equal(1e-5 / flow.FlowM3PerS(0.001), JarDraw.TimeS(Cylinder, 0, 1e-5, area * 0.001, area * 0.001, flow), 1e-9 * expected);
    }
}
