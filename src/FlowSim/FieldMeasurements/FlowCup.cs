using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>A cup with a hole that is timed as it empties.</summary>
/// <remarks>ν = a (t − c) − b/t, ν in mm²/s and t in s.</remarks>
public sealed record FlowCup
{
    /// <summary>Name as the user writes it: lower case, hyphens.</summary>
    public required string Name { get; init; }

    /// <summary>The cup in a few words.</summary>
    public required string Description { get; init; }

    /// <summary>a, mm²/s for a second. 0.001 to 10000.</summary>
    public required double SlopeMm2PerS2 { get; init; }

    /// <summary>c, s. 0 to 1000. Default 0.</summary>
    public double OffsetS { get; init; }

    /// <summary>b, mm². 0 to 1000000. Default 0.</summary>
    public double InverseMm2 { get; init; }

    /// <summary>Times the cup is good for, s; the viscosity must be above 0 over all of it, and its end at most 86400 s.</summary>
    public required ValidityRange TimeRange { get; init; }

    /// <summary>Standard deviation of ln ν from cup to cup and hand to hand. 0 to 1.</summary>
    public required double LogSpread { get; init; }

    /// <summary>Where the formula comes from.</summary>
    public required Source Source { get; init; }

    /// <summary>Kinematic viscosity at the longest time the cup is good for.</summary>
    public KinematicViscosity Thickest => KinematicViscosity.FromCentistokes(ViscosityMm2PerS(TimeRange.High));

    /// <summary>Kinematic viscosity at the shortest time the cup is good for.</summary>
    public KinematicViscosity Thinnest => KinematicViscosity.FromCentistokes(ViscosityMm2PerS(TimeRange.Low));

    /// <summary>Throws when a value is outside the range its documentation gives: a cup may be the user's own.</summary>
    internal void Validate()
    {
        EquipmentCheck.Present(Name);
        EquipmentCheck.Present(Description);
        EquipmentCheck.Present(Source);
        EquipmentCheck.Present(TimeRange);
        EquipmentCheck.Within(SlopeMm2PerS2, 1e-3, 1e4, "mm2/s2", nameof(SlopeMm2PerS2));
        EquipmentCheck.Within(OffsetS, 0, 1000, "s", nameof(OffsetS));
        EquipmentCheck.Within(InverseMm2, 0, 1e6, "mm2", nameof(InverseMm2));
        EquipmentCheck.Within(LogSpread, 0, 1, "", nameof(LogSpread));
        if (!(TimeRange.OuterLow > 0 && TimeRange.OuterHigh <= 86400 && ViscosityMm2PerS(TimeRange.OuterLow) > 0))
            throw EquipmentCheck.OutOfRange(nameof(TimeRange), TimeRange.OuterLow, FormattableString.Invariant($"The shortest time of the cup {Name} must be above 0 and give a viscosity above 0, the longest at most 86400 s."));
    }

    /// <summary>Kinematic viscosity, mm²/s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ν = a (t − c) − b/t. ISO 2431: c = 0; ASTM D1200 and D4212: b = 0.</para>
    /// <para><b>Range</b>: <see cref="TimeRange"/>.</para>
    /// <para><b>Error</b>: <see cref="LogSpread"/>, stated with each cup in <see cref="FlowCups"/>.</para>
    /// <para><b>Source</b>: <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: Iso2431Tests.cs, AstmD1200Tests.cs, AstmD4212Tests.cs.</para>
    /// </remarks>
    /// <param name="timeS">Time t, s.</param>
    internal double ViscosityMm2PerS(double timeS) => SlopeMm2PerS2 * (timeS - OffsetS) - InverseMm2 / timeS;

    /// <summary>The time of a kinematic viscosity, s: the inverse, the positive root of a t² − (a c + ν) t − b = 0.</summary>
    /// <param name="viscosityMm2PerS">Kinematic viscosity, mm²/s.</param>
    internal double TimeS(double viscosityMm2PerS)
    {
        double half = (SlopeMm2PerS2 * OffsetS + viscosityMm2PerS) / 2;
        return (half + Math.Sqrt(half * half + SlopeMm2PerS2 * InverseMm2)) / SlopeMm2PerS2;
    }
}
