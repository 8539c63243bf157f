namespace FlowSim.Vessels;

/// <summary>Checks a jar once, before it is filled.</summary>
internal static class JarCheck
{
    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentNullException">The jar is missing.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal static void Validate(this Jar jar)
    {
        EquipmentCheck.Present(jar);
        EquipmentCheck.Within(jar.Brimful.Milliliters, 5, 30_000, "mL", nameof(Jar.Brimful));
        if (jar.SoldAs is { } mass)
            EquipmentCheck.Within(mass.Grams, 1, 45_000, "g", nameof(Jar.SoldAs));
        if (jar.Mouth is { } mouth)
            EquipmentCheck.Millimetres(mouth, 5, 500, nameof(Jar.Mouth));
    }
}
