using FlowSim.Calibration;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;

namespace FlowSim.Tests.Calibration;

public class StudentNoiseTests
{
    private static double[] Normals(int count, int seed, double sd)
    {
        var random = new MersenneTwister(seed);
        return [.. Enumerable.Range(0, count).Select(_ => sd * Normal.InvCDF(0, 1, random.NextDouble()))];
    }

    /// <summary>Against the density of the reference library, up to its constant.</summary>
    [Theory]
    [InlineData(0.3, 1)]
    [InlineData(-5, 2)]
    public void The_density_is_that_of_Student(double residual, double scale)
    {
        double constant = StudentT.PDFLn(0, scale, StudentNoise.Freedom, 0) - StudentNoise.LogDensity(0, scale);
        Assert.Equal(StudentT.PDFLn(0, scale, StudentNoise.Freedom, residual), StudentNoise.LogDensity(residual, scale) + constant, 1e-12);
    }

    [Fact]
    public void The_scale_of_normal_noise_is_found_and_outliers_hardly_move_it()
    {
        double[] residuals = Normals(4000, 1, 2.5);
        double scale = StudentNoise.Scale(residuals, 1, 1e-6, 0);
        Assert.Equal(2.5, StudentNoise.DeviationPerScale * scale, 0.1);
        double[] stray = [.. residuals];
        for (int i = 0; i < stray.Length; i += 20)
            stray[i] = 200;
        Assert.InRange(StudentNoise.Scale(stray, 1, 1e-6, 0) / scale, 1, 1.25);
    }

    /// <summary>σ² of the mean of a robust fit to normal noise: 1.12 times that of the plain mean at ν = 4, by quadrature.</summary>
    [Fact]
    public void The_sandwich_gives_the_variance_of_normal_noise()
    {
        double[] residuals = Normals(20_000, 2, 1);
        double scale = StudentNoise.Scale(residuals, 1, 1e-6, 0);
        Assert.Equal(1.12, StudentNoise.Sandwich(residuals, scale) * scale * scale, 0.04);
    }

    [Fact]
    public void Numbers_that_were_fitted_count()
    {
        // 30 residuals about the mean of themselves, many times: without the correction the scale comes out too small.
        double sum = 0;
        for (int seed = 1; seed <= 200; seed++)
        {
            double[] residuals = Normals(10, seed, 1);
            double a = residuals[..5].Average(), b = residuals[5..].Average();
            sum += StudentNoise.Scale([.. residuals.Select((r, i) => r - (i < 5 ? a : b))], 1, 1e-6, 2) / StudentNoise.Scale([.. residuals.Select((r, i) => r - (i < 5 ? a : b))], 1, 1e-6, 0);
        }

        Assert.InRange(sum / 200, 1.05, 1.13); // √(10/8) = 1.118, less what was known before holds it back.
    }

    [Fact]
    public void Residuals_that_go_together_count_less()
    {
        double[] white = Normals(400, 3, 1);
        Assert.Equal(1, StudentNoise.Inflation(white, 0.83, out double none));
        Assert.InRange(none, -0.1, 0.1);
        double[] red = new double[4000];
        double[] steps = Normals(4000, 4, 1);
        for (int i = 1; i < red.Length; i++)
            red[i] = (0.6 * red[i - 1]) + steps[i];
        double inflation = StudentNoise.Inflation(red, 0.83 * 1.25, out double neighbours);
        Assert.Equal(0.6, neighbours, 0.08);
        Assert.InRange(inflation, 0.8 * (1 + 0.6) / (1 - 0.6), (1 + 0.6) / (1 - 0.6)); // Of a first-order process, (1 + φ)/(1 − φ); the pulls of far ones are cut, which takes from it.
    }

    /// <summary>∫(1 + u²/4)^(−5/2) du = 8/3, whatever the scale.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(0.02)]
    public void The_density_holds_the_same_probability_at_every_scale(double scale)
    {
        double whole = MathNet.Numerics.Integrate.GaussLegendre(angle => Math.Exp(StudentNoise.LogDensity(2 * scale * Math.Tan(angle), scale)) * 2 * scale / Math.Pow(Math.Cos(angle), 2), -Math.PI / 2, Math.PI / 2, 64);
        Assert.Equal(8.0 / 3, whole, 1e-10);
        Assert.Equal(-Math.Log(scale), StudentNoise.LogDensity(0, scale), 1e-14);
    }

    [Theory]
    [InlineData(0.4, 1)]
    [InlineData(-3, 2)]
    public void The_pull_is_the_slope_of_the_density(double residual, double scale)
    {
        double h = 1e-5 * scale, slope = (StudentNoise.LogDensity(residual + h, scale) - StudentNoise.LogDensity(residual - h, scale)) / (2 * h);
        Assert.Equal(-slope * scale, StudentNoise.Pull(residual / scale), 1e-8);
    }

    /// <summary>Where Σ (5 v²/(4 + v²) − 1) = ln(s/expected)/ln² 3, v = r/(s √c), c the share of the readings that no number was fitted to; by halving.</summary>
    [Theory]
    [InlineData(1, 0)]
    [InlineData(3, 0)]
    [InlineData(0.2, 4)]
    [InlineData(1, 20)]
    public void The_scale_is_where_the_slope_of_the_posterior_is_none(double expected, double spent)
    {
        double[] residuals = [0.1, -0.4, 1.2, -2.5, 0.8, 0.05, -0.9, 1.6, 14, -0.3];
        double share = Math.Max(1, residuals.Length - spent) / residuals.Length;
        double low = Math.Log(1e-3), high = Math.Log(14);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high), scale = Math.Exp(middle) * Math.Sqrt(share);
            double slope = residuals.Sum(r => (5 * r * r / ((4 * scale * scale) + (r * r))) - 1) - ((middle - Math.Log(expected)) / Math.Pow(Math.Log(3), 2));
            (low, high) = slope > 0 ? (middle, high) : (low, middle);
        }

        Assert.Equal(low, Math.Log(StudentNoise.Scale(residuals, expected, 1e-3, spent)), 2e-4);
    }

    [Fact]
    public void The_scale_keeps_between_its_floor_and_the_largest_residual()
    {
        Assert.Equal(0.01, StudentNoise.Scale([0, 0, 0, 0, 0, 0], 0.5, 0.01, 0));
        Assert.Equal(0.01, StudentNoise.Scale([0, 0, 0, 0, 0, 0], 0.001, 0.01, 0));
        Assert.Equal(0.01, StudentNoise.Scale([0.009, -0.009, 0.009, -0.009], 0.001, 0.01, 0), 1e-12);

        // Equal residuals have their own size as the likeliest scale; with half of them spent the scale would lie above all of them.
        double[] equal = [1, -1, 1, -1, 1, -1, 1, -1, 1, -1];
        Assert.Equal(1, StudentNoise.Scale(equal, 1, 1e-3, 0), 2e-4);
        Assert.Equal(1, StudentNoise.Scale(equal, 1, 1e-3, 5));
        Assert.InRange(StudentNoise.Scale(equal, 1.5, 1e-3, 5), 1.2, 1.45); // √2, but for what was known before.
    }

    /// <summary>Mean ψ² over the square of mean ψ′, the slope by differences; ten readings' worth of 1.622 stand behind.</summary>
    [Fact]
    public void The_sandwich_is_Hubers()
    {
        double[] residuals = [1, -2, 5, 0.2];
        const double Scale = 2, H = 1e-5;
        double square = residuals.Average(r => Math.Pow(StudentNoise.Pull(r / Scale), 2));
        double slope = residuals.Average(r => (StudentNoise.Pull((r / Scale) + H) - StudentNoise.Pull((r / Scale) - H)) / (2 * H));
        Assert.Equal(((4 * square / slope / slope) + 16.22) / 14, StudentNoise.Sandwich(residuals, Scale), 1e-8);
    }

    /// <summary>Beyond u = 2 the pull falls; where its mean slope is no more than a tenth, the variance counts tenfold.</summary>
    [Theory]
    [InlineData(6)]
    [InlineData(1.84)]
    public void Readings_that_are_all_stray_have_a_sandwich_of_ten(double far) =>
        Assert.Equal((20 + 16.22) / 12, StudentNoise.Sandwich([far, -far], 1), 1e-12);

    [Theory]
    [InlineData(100, 400.0 / 7)]
    [InlineData(8, 32.0 / 7)]
    [InlineData(7, 4)]
    [InlineData(2, 4)]
    public void An_unsure_scale_counts_as_Students_variance(double left, double degrees) =>
        Assert.Equal(degrees / (degrees - 2), StudentNoise.Unsure(left), 1e-14);

    /// <summary>Residuals of one scale have a pull of ±1, so that correlations are counts of signs.</summary>
    [Fact]
    public void Neighbours_must_go_together_beyond_chance()
    {
        // Of 13 pairs 10 agree and 3 do not: 7/14 is 2/√16, no more than chance; 9/16 is more.
        double[] chance = [1, 1, 1, 1, -1, -1, -1, 1, 1, 1, 1, -1, -1, -1, 0, 0], more = [1, 1, 1, 1, -1, -1, -1, -1, 1, 1, 1, 1, -1, -1, -1, -1];
        Assert.Equal(1, StudentNoise.Inflation(chance, 1, out double neighbours));
        Assert.Equal(0.5, neighbours);
        Assert.True(StudentNoise.Inflation(more, 1, out neighbours) > 1);
        Assert.Equal(9.0 / 16, neighbours);
        Assert.Equal(1, StudentNoise.Inflation([0, 0, 0, 0], 1, out neighbours));
        Assert.Equal(0, neighbours);
    }

    /// <summary>Five up and five down in turn, 40 readings: the correlations by counting signs; those below 0 are left out, and lags go to 19.</summary>
    [Fact]
    public void The_autocorrelation_time_is_the_sum_over_both_sides()
    {
        double[] blocks = [.. Enumerable.Range(0, 40).Select(i => i / 5 % 2 == 0 ? 2.0 : -2.0)];
        double time = 1;
        for (int k = 1; k < 20; k++)
            time += 2 * Math.Max(0, Enumerable.Range(0, 40 - k).Sum(i => Math.Sign(blocks[i] * blocks[i + k])) / 40.0);
        Assert.InRange(time, 5, 9.9);
        Assert.Equal(time, StudentNoise.Inflation(blocks, 2, out double neighbours), 1e-12);
        Assert.Equal((32 - 7) / 40.0, neighbours, 1e-12);

        // Residuals that never change sign are worth four readings at least.
        Assert.Equal(10, StudentNoise.Inflation([.. Enumerable.Repeat(1.0, 40)], 1, out _));
    }

    /// <summary>The sum ends where the lag is five times the time so far: what the far lags do by chance stays out.</summary>
    [Fact]
    public void Far_lags_stay_out_of_the_autocorrelation_time()
    {
        // Pairs in the order of a pattern that comes again after 30 readings: correlated at lags 1 and 30 only, but for chance.
        double[] signs = Normals(15, 12, 1), again = [.. Enumerable.Range(0, 240).Select(i => signs[i % 30 / 2] > 0 ? 1.0 : -1.0)];
        double[] lags = [.. Enumerable.Range(0, 120).Select(k => Enumerable.Range(0, 240 - k).Sum(i => again[i] * again[i + k]) / 240)];
        double time = 1;
        int last = Enumerable.Range(1, 119).First(k => k >= 5 * (1 + (2 * lags[1..k].Sum(lag => Math.Max(0, lag)))));
        time += 2 * lags[1..last].Sum(lag => Math.Max(0, lag));
        Assert.InRange(last, 6, 28);
        Assert.Equal(time, StudentNoise.Inflation(again, 1, out _), 1e-12);
    }
}
