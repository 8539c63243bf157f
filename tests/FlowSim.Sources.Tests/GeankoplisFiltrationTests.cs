using FlowSim.Numerics.Fitting;
using FlowSim.Screens;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Filtrate of a calcium carbonate slurry against time at constant pressure, filter 0.0439 m², 23.47 kg of solids per m³ of filtrate, water at
/// 25 °C, by Ruth and Kempe 1937. Of Hermia's four laws the cake must be the one that fits, with the resistances that the book takes off its graph.
/// </summary>
[Publication("Geankoplis 1993", "Transport Processes and Unit Operations, 3rd ed., section 14.2: example 14.2-1 (338 kN/m²) and problem 14.2-1 (46.2 kN/m²)", Standing.SecondaryCopy, Remark = "both tables and the printed answer of the problem on public pages that quote them; the answer of the example from memory")]
public class GeankoplisFiltrationTests
{
    private const double AreaM2 = 0.0439;
    private const double SolidsKgPerM3 = 23.47;
    private const double WaterPaS = 0.8937e-3;

    private static readonly Table s_example = new(
        338e3,
        [4.4, 9.5, 16.3, 24.6, 34.7, 46.1, 59.0, 73.6, 89.4, 107.3],
        [0.498, 1.000, 1.501, 2.000, 2.498, 3.002, 3.506, 4.004, 4.502, 5.009]);

    private static readonly Table s_problem = new(46.2e3, [17.3, 41.3, 72.0, 108.3, 152.0, 201.7], [0.5, 1.0, 1.5, 2.0, 2.5, 3.0]);

    [Fact]
    public void The_printed_answer_of_the_problem_comes_out()
    {
        (double cake, double medium, _) = s_problem.Fit(BlockingLaw.Cake);
        Within graph = Within.Relative(0.01, "the book takes them off a graph");
        Published.Agrees(1.106e11, cake, graph, "resistance of the cake, problem", "m/kg");
        Published.Agrees(6.40e10, medium, graph, "resistance of the medium, problem", "1/m");
    }

    [Fact]
    public void The_answer_of_the_example_comes_out()
    {
        (double cake, double medium, _) = s_example.Fit(BlockingLaw.Cake);
        Within ruler = Within.Relative(0.02, "the book rules its line by eye");
        Published.Agrees(1.863e11, cake, ruler, "resistance of the cake, example", "m/kg");
        Published.Agrees(10.63e10, medium, ruler, "resistance of the medium, example", "1/m");
    }

    [Theory]
    [InlineData(BlockingLaw.Complete)]
    [InlineData(BlockingLaw.Standard)]
    [InlineData(BlockingLaw.Intermediate)]
    public void The_other_laws_fit_at_least_three_times_worse(BlockingLaw law)
    {
        foreach (Table table in new[] { s_example, s_problem })
            Assert.True(table.Fit(law).ScatterL > 3 * table.Fit(BlockingLaw.Cake).ScatterL);
    }

    [Theory]
    [Publication("SciPy", "least_squares on the same tables: root-mean-square of what is left", Standing.Derived)]
    [InlineData(BlockingLaw.Complete, 0.10672327, 0.04614976)]
    [InlineData(BlockingLaw.Standard, 0.07824833, 0.03488721)]
    [InlineData(BlockingLaw.Intermediate, 0.04988948, 0.02365366)]
    [InlineData(BlockingLaw.Cake, 0.01574244, 0.00258028)]
    public void What_is_left_is_what_another_program_leaves(BlockingLaw law, double example, double problem)
    {
        Within another = Within.Absolute(2e-7, "two programs that stop a little apart");
        Published.Agrees(example, s_example.Fit(law).ScatterL, another, $"scatter of the example, {law}", "L");
        Published.Agrees(problem, s_problem.Fit(law).ScatterL, another, $"scatter of the problem, {law}", "L");
    }

    /// <summary>V(t) = Q₀/K · v(K t), in the logarithms of Q₀ and K; residuals in litres.</summary>
    private sealed record Table(double PressurePa, double[] Seconds, double[] Litres) : ILeastSquaresProblem
    {
        private BlockingLaw _law;

        public int Parameters => 2;

        public int Residuals => Seconds.Length;

        /// <summary>Resistance of the cake (m/kg) and the medium (1/m), from t/V = V K/(2 Q₀²) + 1/Q₀, and the scatter about the law.</summary>
        public (double Cake, double Medium, double ScatterL) Fit(BlockingLaw law)
        {
            LeastSquaresFit fit = LeastSquares.Minimise(this with { _law = law }, [Math.Log(1e-3 * Litres[0] / Seconds[0]), Math.Log(1 / Seconds[^1])]);
            Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
            double flow = Math.Exp(fit.X[0]), rate = Math.Exp(fit.X[1]);
            return (
                rate / (flow * flow) * AreaM2 * AreaM2 * PressurePa / (WaterPaS * SolidsKgPerM3),
                AreaM2 * PressurePa / (flow * WaterPaS),
                Math.Sqrt(fit.ResidualSumOfSquares / Seconds.Length));
        }

        public bool Evaluate(ReadOnlySpan<double> x, Span<double> residuals)
        {
            double flow = Math.Exp(x[0]), rate = Math.Exp(x[1]);
            for (int i = 0; i < Seconds.Length; i++)
                residuals[i] = (1e3 * flow / rate * Clogging.VolumeRatioHermia1982(_law, rate * Seconds[i])) - Litres[i];
            return true;
        }

        public bool Jacobian(ReadOnlySpan<double> x, ReadOnlySpan<double> residuals, Span<double> jacobian) => false;
    }
}
