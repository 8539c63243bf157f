using UnitsNet;

namespace FlowSim.Settling;

/// <summary>When honey counts as clear.</summary>
public abstract record Clarity
{
    private protected Clarity()
    {
    }

    /// <summary>Default: at most 5 % of what was there at the start is left, mean over the layer (engineering choice).</summary>
    public static Clarity Default { get; } = new ShareLeft(Ratio.FromPercent(5));

    /// <summary>Clear when no more than a share of what was there at the start is left, mean over the layer.</summary>
    /// <param name="atMost">The share. 0.0001 to 99 %.</param>
    public static Clarity OfShare(Ratio atMost) => new ShareLeft(atMost);

    /// <summary>Clear when nothing of a size or larger is left anywhere in the layer.</summary>
    /// <param name="size">The size. 0.001 to 20 mm. A careful eye sees bubbles of some 0.1 mm (from memory).</param>
    public static Clarity OfSize(Length size) => new SizeGone(size);

    /// <summary>Progress at which a kind of matter is clear.</summary>
    internal abstract double ProgressFor(in SuspendedMatter matter, double depthM);

    /// <summary>Depth from where the travel began that is clear, share of the whole depth, 0 to 1.</summary>
    internal abstract double ClearShare(in SuspendedMatter matter, double depthM, double progress);

    /// <summary>Throws when a value is outside its range.</summary>
    internal abstract void Validate(string name);
}

/// <summary>Clear when no more than a share of what was there at the start is left, mean over the layer.</summary>
/// <param name="AtMost">The share. 0.0001 to 99 %.</param>
public sealed record ShareLeft(Ratio AtMost) : Clarity
{
    internal override double ProgressFor(in SuspendedMatter matter, double depthM) => SizeShares.ProgressFor(AtMost.DecimalFractions, matter.SizeSpread);

    internal override double ClearShare(in SuspendedMatter matter, double depthM, double progress) =>
        SizeShares.ClearTo(progress, matter.SizeSpread, AtMost.DecimalFractions);

    internal override void Validate(string name) => EquipmentCheck.Within(AtMost.Percent, 1e-4, 99, "%", name);
}

/// <summary>Clear when nothing of a size or larger is left anywhere in the layer.</summary>
/// <param name="Size">The size. 0.001 to 20 mm.</param>
public sealed record SizeGone(Length Size) : Clarity
{
    // d² M = h at y = M D50²/h.
    internal override double ProgressFor(in SuspendedMatter matter, double depthM)
    {
        double ratio = matter.MedianM / Size.Meters;
        return ratio * ratio;
    }

    internal override double ClearShare(in SuspendedMatter matter, double depthM, double progress) => Math.Min(1, progress / ProgressFor(matter, depthM));

    internal override void Validate(string name) => EquipmentCheck.Millimetres(Size, 0.001, 20, name);
}
