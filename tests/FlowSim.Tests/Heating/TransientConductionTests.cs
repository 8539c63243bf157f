using FlowSim.Heating;
using MathNet.Numerics;

namespace FlowSim.Tests.Heating;

/// <summary>Series of transient conduction against closed forms and against what conduction must obey.</summary>
public class TransientConductionTests
{
    private static readonly double[] s_biots = [0.03, 0.1, 1, 10, 300, 1e6, double.PositiveInfinity];

    public static TheoryData<int, double> ShapesAndBiots
    {
        get
        {
            var data = new TheoryData<int, double>();
            foreach (ConductionShape shape in Enum.GetValues<ConductionShape>())
            {
                foreach (double biot in s_biots)
                    data.Add((int)shape, biot);
            }

            return data;
        }
    }

    [Fact]
    public void Roots_are_the_tabulated_ones()
    {
        // Carslaw and Jaeger 1959, appendix IV (from memory): ζ tan ζ = 1, and ζ J1 = J0. Zeros of J0: SciPy 1.10.1,
        // special.jn_zeros, cut to ten decimals.
        Assert.All(new[] { 0.8603, 3.4256, 6.4373, 9.5293 }.Select((z, i) => z - TransientConduction.Root(ConductionShape.PlaneWall, 1, i + 1)), d => Assert.InRange(d, -0.00005, 0.00005));
        Assert.All(new[] { 1.2558, 4.0795, 7.1558, 10.2710 }.Select((z, i) => z - TransientConduction.Root(ConductionShape.InfiniteCylinder, 1, i + 1)), d => Assert.InRange(d, -0.00005, 0.00005));
        Assert.All(new[] { 2.4048255577, 5.5200781103, 8.6537279129, 11.7915344390 }.Select((z, i) => z - TransientConduction.Root(ConductionShape.InfiniteCylinder, double.PositiveInfinity, i + 1)), d => Assert.InRange(d, -6e-11, 6e-11));
        // 1 − ζ cot ζ = 1 where cot is 0: odd quarters of a turn, exactly.
        Assert.All(Enumerable.Range(1, 5), n => Assert.Equal((n - 0.5) * Math.PI, TransientConduction.Root(ConductionShape.Sphere, 1, n), 1e-13));
    }

    [Theory, MemberData(nameof(ShapesAndBiots))]
    public void No_root_is_left_out(int shape, double biot)
    {
        // One root between neighbouring poles; far out they are π apart.
        double[] roots = [.. Enumerable.Range(1, 60).Select(n => TransientConduction.Root((ConductionShape)shape, biot, n))];
        for (int i = 0; i < roots.Length; i++)
            Assert.InRange(roots[i], i * Math.PI, (i + 1) * Math.PI);
    }

    [Theory, MemberData(nameof(ShapesAndBiots))]
    public void At_first_the_inside_does_not_notice(int shape, double biot)
    {
        // Half-way in at Fo = 1e-4, what has arrived is below erfc(0.5/(2·0.01)) = erfc(25) < 1e-270. Every term counts here.
        Assert.Equal(1, TransientConduction.GapLeft((ConductionShape)shape, biot, 0.5, 1e-4), 1e-10);
    }

    [Theory]
    [InlineData(0.03)]
    [InlineData(1)]
    [InlineData(20)]
    [InlineData(double.PositiveInfinity)]
    public void A_thick_wall_follows_the_half_space(double biot)
    {
        // Carslaw and Jaeger 1959, §2.7 (from memory): 1 − θ = erfc(η) − exp(Bi d + Bi² Fo) erfc(η + Bi √Fo), η = d/(2√Fo).
        // The far face is erfc(1.5/(2√Fo)) < 1e-40 away.
        foreach (double fourier in new[] { 1e-4, 1e-3, 5e-3 })
        {
            foreach (double depth in new[] { 0, 0.01, 0.1, 0.3 })
            {
                double root = Math.Sqrt(fourier), eta = depth / (2 * root);
                double arrived = SpecialFunctions.Erfc(eta);
                if (!double.IsPositiveInfinity(biot))
                    arrived -= Math.Exp(biot * depth + biot * biot * fourier) * SpecialFunctions.Erfc(eta + biot * root);
                Assert.Equal(1 - arrived, TransientConduction.GapLeft(ConductionShape.PlaneWall, biot, 1 - depth, fourier), 1e-10);
            }
        }
    }

    [Theory]
    [InlineData(1e-3)]
    [InlineData(0.02)]
    public void A_sphere_held_at_its_surface_follows_its_images(double fourier)
    {
        // Carslaw and Jaeger 1959, §9.3 (from memory): 1 − θ = (1/r) Σ [erfc((2n+1−r)/(2√Fo)) − erfc((2n+1+r)/(2√Fo))].
        foreach (double r in new[] { 0.2, 0.7, 0.95 })
        {
            double arrived = Enumerable.Range(0, 20).Sum(n => SpecialFunctions.Erfc((2 * n + 1 - r) / (2 * Math.Sqrt(fourier))) - SpecialFunctions.Erfc((2 * n + 1 + r) / (2 * Math.Sqrt(fourier)))) / r;
            Assert.Equal(1 - arrived, TransientConduction.GapLeft(ConductionShape.Sphere, double.PositiveInfinity, r, fourier), 1e-10);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void What_passes_the_surface_is_what_the_inside_gains(int shape)
    {
        // Energy: d(mean)/dFo = −g Bi θ(surface), g = surface over volume = 1, 2, 3.
        foreach (double biot in new[] { 0.03, 0.5, 5, 100.0 })
        {
            double passed = (shape + 1) * biot * Integrate.GaussLegendre(fo => TransientConduction.GapLeft((ConductionShape)shape, biot, 1, fo), 0.05, 0.25, 32);
            double gained = TransientConduction.MeanGapLeft((ConductionShape)shape, biot, 0.05) - TransientConduction.MeanGapLeft((ConductionShape)shape, biot, 0.25);
            Assert.Equal(passed, gained, 1e-10);
        }
    }

    [Theory, MemberData(nameof(ShapesAndBiots))]
    public void The_mean_is_the_mean_over_the_volume(int shape, double biot)
    {
        foreach (double fourier in new[] { 0.02, 0.3 })
        {
            double mean = (shape + 1) * Integrate.GaussLegendre(x => Math.Pow(x, shape) * TransientConduction.GapLeft((ConductionShape)shape, biot, x, fourier), 0, 1, 64);
            Assert.Equal(mean, TransientConduction.MeanGapLeft((ConductionShape)shape, biot, fourier), 1e-10);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_well_conducting_body_is_a_lump(int shape)
    {
        // Bi → 0: θ = exp(−g Bi Fo), to the order of Bi.
        const double biot = 1e-3;
        foreach (double fourier in new[] { 1.0, 100, 1000 })
            Assert.Equal(Math.Exp(-(shape + 1) * biot * fourier), TransientConduction.MeanGapLeft((ConductionShape)shape, biot, fourier), 1e-3);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_large_biot_number_joins_the_held_surface(int shape)
    {
        // The difference is of the order of 1/Bi.
        foreach (double x in new[] { 0, 0.5, 0.9 })
        {
            double held = TransientConduction.GapLeft((ConductionShape)shape, double.PositiveInfinity, x, 0.1);
            Assert.Equal(held, TransientConduction.GapLeft((ConductionShape)shape, 1e6, x, 0.1), 3e-6);
        }
    }

    [Fact]
    public void Nothing_has_happened_at_the_start() => Assert.Equal(1, TransientConduction.GapLeft(ConductionShape.Sphere, 1, 1, 0));

    /// <summary>The middle of a sphere whose surface is held: θ = 2 Σ (−1)ⁿ⁺¹ e^(−n²π² Fo), and where the surface passes heat it is what lies close by.</summary>
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.1)]
    [InlineData(0.3)]
    public void The_middle_of_a_sphere_by_its_own_series(double fourier)
    {
        double series = 2 * Enumerable.Range(1, 12).Sum(n => (n % 2 == 1 ? 1 : -1) * Math.Exp(-n * n * Math.PI * Math.PI * fourier));
        Assert.Equal(series, TransientConduction.GapLeft(ConductionShape.Sphere, double.PositiveInfinity, 0, fourier), 1e-10);
        Assert.Equal(
            TransientConduction.GapLeft(ConductionShape.Sphere, 2, 1e-5, fourier), TransientConduction.GapLeft(ConductionShape.Sphere, 2, 0, fourier), 1e-8);
    }
}
