using FsCheck.Xunit;

namespace FlowSim.Tests;

public class CircleSegmentTests
{
    /// <summary>x − sin x in decimal arithmetic of 28 digits by its Taylor series.</summary>
    private static double Exact(double x)
    {
        decimal q = (decimal)x * (decimal)x;
        decimal term = (decimal)x * q / 6;
        decimal sum = 0;
        for (int k = 4; Math.Abs(term) > 1e-27m; k += 2)
        {
            sum += term;
            term *= -q / (k * (k + 1));
        }

        return (double)sum;
    }

    [Theory]
    [InlineData(0.001)]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(0.999999)]
    [InlineData(1.0)]
    [InlineData(1.5)]
    [InlineData(3)]
    public void Small_angles_keep_their_digits(double x) =>
        Assert.Equal(Exact(x), CircleSegment.AngleMinusSine(x), 1e-15 * Exact(x));

    [Property(Arbitrary = [typeof(Generators)])]
    public void The_angle_comes_back_from_the_area(Share share)
    {
        double x = share.LogBetween(1e-6, 2 * Math.PI);
        double back = CircleSegment.AngleMinusSine(CircleSegment.AngleOf(CircleSegment.AngleMinusSine(x)));
        Assert.Equal(CircleSegment.AngleMinusSine(x), back, 2e-15 * CircleSegment.AngleMinusSine(x));
    }

    [Fact]
    public void Ends_are_exact()
    {
        Assert.Equal(0, CircleSegment.AngleOf(0));
        Assert.Equal(0, CircleSegment.AngleOf(-1));
        Assert.Equal(2 * Math.PI, CircleSegment.AngleOf(7));
        Assert.Equal(Math.PI, CircleSegment.AngleOf(Math.PI), 1e-15);
    }
}
