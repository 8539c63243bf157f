namespace FlowSim.Numerics.Fitting;

/// <summary>Residuals and Jacobian with the weights of a robust loss in them, so that plain least squares follow.</summary>
internal static class Weighing
{
    /// <summary>
    /// For steps: J̃ = √s J and r̃ = ρ′ r/√s with s the curvature of the cost, so that J̃ᵀr̃ is its gradient and J̃ᵀJ̃ its Hessian but for the bend of the
    /// residuals.
    /// </summary>
    public static (double[] Jacobian, double[] Residuals) ForSteps(FitFunction function, FitPoint point, double[] jacobian) =>
        Weigh(function, point, jacobian, function.Curvature);

    /// <summary>For the verdict: J̃ = √ρ′ J and r̃ = √ρ′ r, whose squares add up to the weighted sum.</summary>
    public static (double[] Jacobian, double[] Residuals) ForVerdict(FitFunction function, FitPoint point, double[] jacobian) =>
        Weigh(function, point, jacobian, function.Weight);

    private static (double[] Jacobian, double[] Residuals) Weigh(FitFunction function, FitPoint point, double[] jacobian, Func<int, double, double> square)
    {
        int n = function.Parameters;
        double[] j = [.. jacobian];
        double[] r = [.. point.Residuals];
        for (int i = 0; i < r.Length; i++)
        {
            double s = Math.Sqrt(square(i, r[i]));
            if (s == 1) continue;
            r[i] *= s > 0 ? function.Weight(i, r[i]) / s : 0;
            for (int c = 0; c < n; c++) j[i * n + c] *= s;
        }
        return (j, r);
    }
}
