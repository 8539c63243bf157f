using System.Globalization;

namespace FlowSim.Numerics.Sampling;

/// <summary>Calls a model in batches and refuses NaN at once.</summary>
internal static class BatchEvaluation
{
    /// <summary>Points handed over at once: enough for lanes and threads, few enough to ask for cancellation in between.</summary>
    public const int Size = 4096;

    public static void Check(IBatchModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        if (model.Dimensions < 1 || model.Outputs < 1)
        {
            throw new ArgumentException($"A model needs at least 1 dimension and 1 output; this one has {model.Dimensions} and {model.Outputs}.", nameof(model));
        }
    }

    public static void Run(IBatchModel model, ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        model.Evaluate(points, outputs, cancellation);
        cancellation.ThrowIfCancellationRequested();
        for (int i = 0; i < outputs.Length; i++)
        {
            if (!double.IsNaN(outputs[i])) continue;
            string point = string.Join(", ", points.Slice(i / model.Outputs * model.Dimensions, model.Dimensions).ToArray()
                .Select(x => x.ToString("R", CultureInfo.InvariantCulture)));
            throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"The model gave no number for output {i % model.Outputs} at the point ({point})."));
        }
    }
}
