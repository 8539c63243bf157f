using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>The plain sequence against <c>scipy.stats.qmc.Sobol(scramble=False)</c>, SciPy 1.10.1; the scrambled one against what a net must hold.</summary>
public sealed class ScrambledSobolTests
{
    private static double[] Plain(long number, int dimensions)
    {
        uint[] point = new uint[dimensions];
        SobolSequence.At(SobolSequence.Directions(dimensions), number, point);
        return [.. point.Select(x => x * Math.Pow(2, -32))];
    }

    [Fact]
    public void The_first_points_are_the_published_ones()
    {
        double[][] expected =
        [
            [0, 0, 0, 0, 0, 0],
            [0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
            [0.75, 0.25, 0.25, 0.25, 0.75, 0.75],
            [0.25, 0.75, 0.75, 0.75, 0.25, 0.25],
            [0.375, 0.375, 0.625, 0.875, 0.375, 0.125],
            [0.875, 0.875, 0.125, 0.375, 0.875, 0.625],
            [0.625, 0.125, 0.875, 0.625, 0.625, 0.875],
            [0.125, 0.625, 0.375, 0.125, 0.125, 0.375],
        ];
        for (int n = 0; n < expected.Length; n++) Assert.Equal(expected[n], Plain(n, 6));
    }

    [Theory]
    [InlineData(1000, new[] { 0.2197265625, 0.0966796875, 0.5185546875, 0.0693359375, 0.4794921875, 0.4462890625, 0.1865234375, 0.5439453125 }, 66.060546875)]
    [InlineData(123456, new[] { 0.02649688720703125, 0.18274688720703125, 0.30725860595703125, 0.24906158447265625, 0.37097930908203125, 0.9521408081054688, 0.9257736206054688, 0.5796127319335938 }, 59.090850830078125)]
    public void Later_points_in_high_dimensions_are_the_published_ones(long number, double[] some, double sumOfAll)
    {
        double[] point = Plain(number, 128);
        Assert.Equal(some, new[] { 1, 2, 3, 10, 40, 64, 100, 128 }.Select(d => point[d - 1]));
        Assert.Equal(sumOfAll, point.Sum(), 1e-10);
    }

    [Fact]
    public void Stepping_and_jumping_agree()
    {
        uint[] directions = SobolSequence.Directions(9);
        uint[] stepped = new uint[9], jumped = new uint[9];
        for (long n = 1; n < 3000; n++)
        {
            SobolSequence.Next(directions, n, stepped);
            SobolSequence.At(directions, n, jumped);
            Assert.Equal(jumped, stepped);
        }
    }

    [Fact]
    public void Every_dyadic_block_has_one_point_in_each_slice_of_each_coordinate()
    {
        const int dimensions = 128;
        ScrambledSobol set = new(dimensions, 2024, 5);
        foreach ((int log, long block) in new[] { (4, 0L), (4, 37), (8, 0), (8, 3), (10, 0), (10, 1), (6, 1_000_003) })
        {
            int count = 1 << log;
            double[] points = new double[count * dimensions];
            set.Fill(block * count, points);
            for (int d = 0; d < dimensions; d++)
            {
                HashSet<int> slices = [];
                for (int i = 0; i < count; i++) slices.Add((int)(points[i * dimensions + d] * count));
                Assert.Equal(count, slices.Count);
            }
        }
    }

    [Fact]
    public void The_first_two_coordinates_fill_every_elementary_box_once()
    {
        // The first two Sobol' coordinates are a (0, 2)-sequence (I. M. Sobol', 1967; from memory): any box 2^-a by 2^-b holds one of 2^(a+b) points.
        const int log = 10;
        double[] points = new double[2 << log];
        new ScrambledSobol(2, 7).Fill(3L << log, points);
        for (int a = 0; a <= log; a++)
        {
            HashSet<(int, int)> boxes = [];
            for (int i = 0; i < 1 << log; i++) boxes.Add(((int)(points[2 * i] * (1 << a)), (int)(points[2 * i + 1] * (1 << (log - a)))));
            Assert.Equal(1 << log, boxes.Count);
        }
    }

    [Fact]
    public void Scrambling_keeps_how_the_boxes_of_every_pair_are_filled()
    {
        // It only swaps boxes: the list of how many of 256 points lie in each of 16 by 16 boxes stays the same, whatever the quality of the pair.
        const int count = 256, dimensions = 12;
        double[] points = new double[count * dimensions];
        new ScrambledSobol(dimensions, 77).Fill(0, points);
        double[] plain = [.. Enumerable.Range(0, count).SelectMany(n => Plain(n, dimensions))];
        bool someUneven = false;
        for (int a = 0; a < dimensions; a++)
        {
            for (int b = 0; b < a; b++)
            {
                int[] expected = Filled(plain, a, b);
                Assert.Equal(expected, Filled(points, a, b));
                someUneven |= expected[^1] > 1;
            }
        }
        Assert.True(someUneven);

        static int[] Filled(double[] points, int a, int b)
        {
            int[] boxes = new int[256];
            for (int i = 0; i < count; i++) boxes[(int)(16 * points[i * dimensions + a]) * 16 + (int)(16 * points[i * dimensions + b])]++;
            Array.Sort(boxes);
            return boxes;
        }
    }

    [Fact]
    public void Each_point_alone_is_uniform_over_the_replicates()
    {
        // 20 cells, 4000 replicates: chi-squared with 19 degrees of freedom, 99.99 % point 50.8 (from memory).
        double[] point = new double[3];
        foreach (long n in new[] { 0L, 1, 1000 })
        {
            int[][] cells = [new int[20], new int[20], new int[20]];
            for (int replicate = 0; replicate < 4000; replicate++)
            {
                new ScrambledSobol(3, 11, replicate).Fill(n, point);
                for (int d = 0; d < 3; d++) cells[d][(int)(20 * point[d])]++;
            }
            Assert.All(cells, c => Assert.True(c.Sum(k => (k - 200.0) * (k - 200.0) / 200) < 50.8));
        }
    }

    [Fact]
    public void Scrambling_is_nested()
    {
        // Owen scrambling keeps the number of leading binary digits two points share.
        double[] points = new double[64];
        new ScrambledSobol(1, 5).Fill(0, points);
        for (int i = 0; i < 64; i++)
        {
            for (int j = 0; j < i; j++) Assert.Equal(Shared(Plain(i, 1)[0], Plain(j, 1)[0]), Shared(points[i], points[j]));
        }

        static int Shared(double a, double b)
        {
            int digits = 0;
            while ((long)(a * (1L << (digits + 1))) == (long)(b * (1L << (digits + 1)))) digits++;
            return digits;
        }
    }

    [Fact]
    public void The_flips_of_a_digit_differ_between_the_branches_before_it()
    {
        // What a digital shift lacks: were the flips the same in every branch, the XOR of plain and scrambled digits would be one number.
        double[] points = new double[256];
        new ScrambledSobol(1, 5).Fill(0, points);
        HashSet<long> flips = [];
        for (int i = 0; i < 256; i++) flips.Add((long)(points[i] * 256) ^ (long)(Plain(i, 1)[0] * 256));
        Assert.True(flips.Count > 16, $"{flips.Count}");
    }
}
