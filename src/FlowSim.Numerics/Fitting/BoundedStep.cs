namespace FlowSim.Numerics.Fitting;

/// <summary>Damped steps from one point that end at the bounds they meet.</summary>
internal sealed class BoundedStep
{
    private readonly FitFunction _function;
    private readonly FitPoint _point;
    private readonly double[] _jacobian;
    private readonly double[] _residuals;
    private readonly double[] _scale;
    private readonly int[] _free;
    private readonly LinearModel? _model;

    public BoundedStep(FitFunction function, FitPoint point, double[] jacobian, double[] residuals, double[] scale)
    {
        _function = function;
        _point = point;
        _jacobian = jacobian;
        _residuals = residuals;
        _scale = scale;
        _free = Free(function, point, jacobian, residuals);
        _model = _free.Length == 0 ? null : LinearModel.Of(jacobian, residuals, scale, _free);
    }

    /// <summary>Parameters that are not pressed against a bound where they lie.</summary>
    public static int[] Free(FitFunction function, FitPoint point, double[] jacobian, double[] residuals)
    {
        int n = function.Parameters;
        return [.. Enumerable.Range(0, n).Where(j => !function.IsFixed(j) && !Pressed(j))];

        bool Pressed(int j)
        {
            bool low = point.X[j] <= function.Lower[j], high = point.X[j] >= function.Upper[j];
            if (!low && !high) return false;
            double gradient = 0;
            for (int i = 0; i < residuals.Length; i++) gradient += jacobian[i * n + j] * residuals[i];
            return low ? gradient > 0 : gradient < 0;
        }
    }

    /// <summary>Where the step of a damping leads, and what the linear model expects to gain; none if there is no step.</summary>
    public (double[] X, double Gain)? At(double damping, double cut = 0, bool bent = false)
    {
        int n = _function.Parameters;
        double[] step = new double[n];
        int[] free = _free;
        LinearModel? model = _model;
        while (model is not null)
        {
            model.Step(damping, cut, step);
            int[] inside = [.. free.Where(j => _point.X[j] + step[j] >= _function.Lower[j] && _point.X[j] + step[j] <= _function.Upper[j])];
            if (inside.Length == free.Length) break;
            foreach (int j in free.Except(inside)) step[j] = _function.Clip(j, _point.X[j] + step[j]) - _point.X[j];
            foreach (int j in inside) step[j] = 0;
            free = inside;
            if (free.Length == 0) break;
            model = LinearModel.Of(_jacobian, After(step), _scale, free);
        }
        if (model is null && free.Length > 0) return null;
        double[] after = After(step);
        if (bent && model is not null && model == _model) Bend(step, damping);

        double[] x = new double[n];
        bool moves = false;
        for (int j = 0; j < n; j++)
        {
            x[j] = _function.Clip(j, _point.X[j] + step[j]);
            if (!double.IsFinite(x[j])) return null;
            moves |= x[j] != _point.X[j];
        }
        if (!moves) return null;
        // ½‖r‖² − ½‖r + Jp‖² without the cancellation of the two.
        double gain = 0;
        for (int i = 0; i < after.Length; i++) gain -= (after[i] - _residuals[i]) * 0.5 * (after[i] + _residuals[i]);
        return (x, gain);
    }

    /// <summary>
    /// Bends a step along the valley: adds ½ of the acceleration that keeps the residuals on the straight line the linear model promised, if that is
    /// less than the step itself (Transtrum and Sethna's geodesic acceleration). One evaluation.
    /// </summary>
    private void Bend(double[] step, double damping)
    {
        const double look = 0.1;
        const double most = 0.75;
        int n = step.Length;
        double[] x = new double[n];
        for (int j = 0; j < n; j++) x[j] = _point.X[j] + look * step[j];
        if (_function.Evaluate(x) is not { } ahead) return;
        double[] straight = After(step);
        double[] gradient = new double[n];
        for (int i = 0; i < _residuals.Length; i++)
        {
            double weight = _function.StepWeight(i, _point.Residuals[i]);
            double slope = straight[i] - _residuals[i];
            double second = 2 / look * ((ahead.Residuals[i] - _point.Residuals[i]) * weight / look - slope);
            for (int j = 0; j < n; j++) gradient[j] += _jacobian[i * n + j] * second;
        }
        double[] acceleration = new double[n];
        _model!.Against(gradient, damping, acceleration);
        if (!(2 * _model.ScaledNorm(acceleration) <= most * _model.ScaledNorm(step))) return;
        for (int j = 0; j < n; j++)
        {
            double bent = step[j] + 0.5 * acceleration[j];
            if (_function.Clip(j, _point.X[j] + bent) == _point.X[j] + bent) step[j] = bent;
        }
    }

    private double[] After(double[] step)
    {
        double[] after = [.. _residuals];
        for (int i = 0; i < after.Length; i++)
        {
            for (int j = 0; j < step.Length; j++) after[i] += _jacobian[i * step.Length + j] * step[j];
        }
        return after;
    }
}
