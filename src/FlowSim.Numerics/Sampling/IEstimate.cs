namespace FlowSim.Numerics.Sampling;

/// <summary>A number estimated from model runs, with the interval that says how well it is known.</summary>
public interface IEstimate
{
    /// <summary>The estimate.</summary>
    double Value { get; }

    /// <summary>Standard error of the estimate.</summary>
    double StandardError { get; }

    /// <summary>Low end of the interval.</summary>
    double Low { get; }

    /// <summary>High end of the interval.</summary>
    double High { get; }

    /// <summary>Share of such intervals that hold the true number, such as 0.95.</summary>
    double Confidence { get; }
}
