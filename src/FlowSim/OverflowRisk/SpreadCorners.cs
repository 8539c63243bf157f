using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>The setups at the corners of viscosity, cloth and debris.</summary>
/// <remarks>
/// What is known of an input takes the place of what is common. A corner lies at the 10 % or 90 % quantile of three independent normal scores
/// u: those of the three inputs are z = L u, L the Cholesky factor of their correlations, and the other inputs that are known follow at what
/// they most likely are then, C z₃ with C from the correlations (conditional median of a Gaussian copula; from memory). So inputs that go together do
/// not make a corner that is never seen. Without correlations these are the corners of the three by themselves.
/// </remarks>
internal sealed class SpreadCorners
{
    private static readonly double Corner = Normal.InvCDF(0, 1, 0.90);

    private static readonly StrainingInput[] Three = [StrainingInputs.LotFactor, StrainingInputs.ScreenFactor, StrainingInputs.DebrisLoad];

    private readonly StrainingSetup _setup;
    private readonly UncertainInput[] _known;
    private readonly Matrix<double> _scores;

    /// <summary>Prepares the corners.</summary>
    /// <param name="setup">Setup that passes its checks.</param>
    /// <param name="known">Inputs of which more is known than what is common.</param>
    /// <param name="correlations">Which of them go together.</param>
    /// <exception cref="ArgumentException">Inputs and correlations do not fit.</exception>
    public SpreadCorners(StrainingSetup setup, IReadOnlyList<UncertainInput> known, IReadOnlyList<InputCorrelation> correlations)
    {
        _setup = setup;
        _known = [.. EquipmentCheck.Present(known).Where(input => input.Input.AppliesTo(setup))];
        HashSet<string> names = [.. _known.Select(input => input.Input.Name)];
        InputCorrelation[] tied = [.. EquipmentCheck.Present(correlations).Where(pair => names.Contains(pair.One) && names.Contains(pair.Other))];
        if (_known.Length > 0)
            _ = new SpreadInputs(_known, tied);
        _scores = ScoresOf(tied);
    }

    /// <summary>A corner.</summary>
    /// <param name="viscosity">−1 for thin honey, 1 for thick.</param>
    /// <param name="screen">−1 for an open cloth, 1 for a close one.</param>
    /// <param name="debris">−1 for little debris, 1 for much.</param>
    public StrainingSetup At(int viscosity, int screen, int debris)
    {
        int[] signs = [viscosity, screen, debris];
        Vector<double> z = _scores * Vector<double>.Build.Dense([Corner * viscosity, Corner * screen, Corner * debris]);
        StrainingSetup setup = _setup;
        for (int i = 0; i < Three.Length; i++)
        {
            if (!Array.Exists(_known, input => input.Input == Three[i]))
                setup = Common(setup, i, signs[i]);
        }

        for (int i = 0; i < _known.Length; i++)
        {
            (double low, double high) = _known[i].Input.RangeIn(setup);
            setup = _known[i].Input.With(setup, Math.Clamp(_known[i].Spread.Quantile(Normal.CDF(0, 1, z[i])), low, high));
        }

        return setup;
    }

    /// <summary>One of the three where no more is known of it than what is common.</summary>
    private static StrainingSetup Common(StrainingSetup setup, int input, int sign) => input switch
    {
        0 => setup with { Honey = setup.Honey with { LotFactor = Math.Clamp(setup.Honey.LotFactor * Math.Exp(sign * Corner * DefaultSpreads.LogViscosity(setup)), LotFactorSpread.Range.Low, LotFactorSpread.Range.High) } },
        1 => setup with { Strainer = setup.Strainer with { ScreenFactor = Math.Max(ScreenCheck.LeastScreenFactor, setup.Strainer.ScreenFactor * (sign < 0 ? DefaultSpreads.LowScreenFactor : 1)) } },
        _ => setup with { Debris = setup.Debris with { Load = Ratio.FromPercent(Math.Min(ScreenCheck.MostDebrisPercent, setup.Debris.Load.Percent * (sign < 0 ? 1 / DefaultSpreads.DebrisFactor : DefaultSpreads.DebrisFactor))) } },
    };

    /// <summary>Normal score of every known input by those of the three: rows by input, columns by viscosity, cloth, debris.</summary>
    private Matrix<double> ScoresOf(InputCorrelation[] correlations)
    {
        if (_known.Length == 0)
            return Matrix<double>.Build.Dense(1, Three.Length);
        Matrix<double> three = Matrix<double>.Build.Dense(Three.Length, Three.Length, (i, j) => Correlation(Three[i], Three[j]));
        Matrix<double> factor = three.Cholesky().Factor;
        Matrix<double> others = Matrix<double>.Build.Dense(_known.Length, Three.Length, (i, j) => Correlation(_known[i].Input, Three[j]));

        // C₃⁻¹ L = L⁻ᵀ; of the three themselves this gives their own row of L.
        return others * factor.Transpose().Inverse();

        double Correlation(StrainingInput one, StrainingInput other) => one == other
            ? 1
            : Array.Find(correlations, pair => Ties(pair, one, other))?.Strength ?? 0;
    }

    private static bool Ties(InputCorrelation pair, StrainingInput one, StrainingInput other) =>
        (pair.One == one.Name && pair.Other == other.Name) || (pair.One == other.Name && pair.Other == one.Name);
}
