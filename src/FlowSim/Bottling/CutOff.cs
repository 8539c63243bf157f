using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>How far ahead to shut the gate, for one flow.</summary>
/// <remarks>
/// All that is in the air when the gate shuts still lands. A scale under the jar feels the stream, though: of thin honey it already
/// shows what is in the air, because the stream pushes on the jar; of thick honey it does not, because the thread hangs on the gate. So there are two
/// leads: one for somebody who goes by the jar's own level, and one by the scale.
/// </remarks>
public sealed record CutOff
{
    /// <summary>Mass flow when the gate begins to shut.</summary>
    public required MassFlow Flow { get; init; }

    /// <summary>Time on the way from gate to jar.</summary>
    public required Duration Transit { get; init; }

    /// <summary>In the air: flow times transit.</summary>
    public required Mass InTheAir { get; init; }

    /// <summary>Of that, what a scale under the jar does not show yet; below 0 when the push of a thin, fast stream shows more.</summary>
    public required Mass NotYetOnScale { get; init; }

    /// <summary>Comes while the gate closes: half the flow times the closing time.</summary>
    public required Mass WhileClosing { get; init; }

    /// <summary>Lead by the jar's content: shut when so much is missing in the jar.</summary>
    public Mass Lead => InTheAir + WhileClosing;

    /// <summary>Lead by the scale: begin to shut when the scale reads so much less than the target; more than the target when it is below 0.</summary>
    public Mass LeadOnScale => NotYetOnScale + WhileClosing;

    /// <summary>Lead by the clock: begin to shut so long before the flow would have brought the target into the jar.</summary>
    public Duration LeadTime => Duration.FromSeconds(Lead.Kilograms / Flow.KilogramsPerSecond);

    /// <summary>How long to leave the jar under the shut gate.</summary>
    public required Duration Wait { get; init; }

    /// <summary>What still hangs on the gate's rim then.</summary>
    public required Mass StillHangs { get; init; }
}
