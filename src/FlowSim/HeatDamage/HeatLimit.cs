using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>A limit on what heat and age may have done to a honey: one of a law or standard, or one that the user sets.</summary>
public sealed record HeatLimit
{
    private HeatLimit(string name, string authority, string appliesTo, MassFraction? hmfAtMost, double? diastaseAtLeast, Source source)
    {
        Name = name;
        Authority = authority;
        AppliesTo = appliesTo;
        HmfAtMost = hmfAtMost;
        DiastaseAtLeast = diastaseAtLeast;
        Source = source;
    }

    /// <summary>Name as the user writes it: lower case, hyphens.</summary>
    public string Name { get; }

    /// <summary>Who set it, as printed after "the limit of"; empty for one that the user set.</summary>
    public string Authority { get; }

    /// <summary>Which honeys it is for.</summary>
    public string AppliesTo { get; }

    /// <summary>Most HMF it allows; null when it says nothing about HMF.</summary>
    public MassFraction? HmfAtMost { get; }

    /// <summary>Least diastase number (Schade scale) it allows; null when it says nothing about diastase.</summary>
    public double? DiastaseAtLeast { get; }

    /// <summary>Where it stands, and whether that was opened.</summary>
    public Source Source { get; }

    /// <summary>Whether the user set it.</summary>
    public bool IsOfTheHouse => Authority.Length == 0;

    /// <summary>A limit that the user sets, stricter or looser than a published one.</summary>
    /// <param name="hmfAtMost">Most HMF, 0 to 1000 mg/kg; null for none.</param>
    /// <param name="diastaseAtLeast">Least diastase number, 0 to 100; null for none.</param>
    /// <exception cref="ArgumentException">Neither is given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static HeatLimit House(MassFraction? hmfAtMost = null, double? diastaseAtLeast = null)
    {
        if (hmfAtMost is null && diastaseAtLeast is null)
            throw EquipmentCheck.Refused(nameof(hmfAtMost), "A limit of the house needs a most HMF, a least diastase number, or both.");
        if (hmfAtMost is { } hmf)
            EquipmentCheck.Within(hmf.MilligramsPerKilogram, 0, 1000, "mg/kg", nameof(hmfAtMost));
        if (diastaseAtLeast is { } diastase)
            EquipmentCheck.Within(diastase, 0, 100, "", nameof(diastaseAtLeast));

        return new HeatLimit("house", "", "this house's honey", hmfAtMost, diastaseAtLeast, new Source("Limit set by the user", Standing.GivenByUser));
    }

    internal static HeatLimit Published(string name, string authority, string appliesTo, double hmfAtMostMgPerKg, double diastaseAtLeast, Source source) =>
        new(name, authority, appliesTo, MassFraction.FromMilligramsPerKilogram(hmfAtMostMgPerKg), diastaseAtLeast, source);
}
