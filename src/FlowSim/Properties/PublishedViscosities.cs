namespace FlowSim.Properties;

/// <summary>Published viscosities of honey, for plots and checks. The first 25 are what <see cref="VogelViscosity"/> and <see cref="ArrheniusViscosity"/> were fitted to.</summary>
public static class PublishedViscosities
{
    private static readonly Source s_handbook335 = new(
        "White, Honey, in Beekeeping in the United States, USDA Agriculture Handbook 335, after Munro 1943, J. Econ. Entomol. 36:769, and Oppen & Schuette 1939; printed in poise",
        Standing.FromMemory);

    private static readonly Source s_portugal2018 = new(
        "Temperature Effect on Rheological Behavior of Portuguese Honeys, Pol. J. Food Nutr. Sci. 2018, 68(3):217-222, abstract",
        Standing.AbstractOnly);

    private static readonly Source s_dictionary = new(
        "Table of honey viscosity at 45 °C in a Ukrainian dictionary of beekeeping; the unit, poise, is inferred from its text",
        Standing.SecondaryCopy);

    /// <summary>All figures.</summary>
    public static IReadOnlyList<PublishedViscosity> All { get; } =
    [
        new("moisture", "white clover", 13.7, 25, 42.0, s_handbook335),
        new("moisture", "white clover", 14.2, 25, 26.9, s_handbook335),
        new("moisture", "white clover", 15.5, 25, 13.8, s_handbook335),
        new("moisture", "white clover", 17.1, 25, 6.90, s_handbook335),
        new("moisture", "white clover", 18.2, 25, 4.81, s_handbook335),
        new("moisture", "white clover", 19.1, 25, 3.49, s_handbook335),
        new("moisture", "white clover", 20.2, 25, 2.04, s_handbook335),
        new("moisture", "white clover", 21.5, 25, 1.36, s_handbook335),
        new("floral", "sage", 16.5, 25, 11.5, s_handbook335),
        new("floral", "white clover", 16.5, 25, 9.40, s_handbook335),
        new("floral", "sweet clover", 16.5, 25, 8.75, s_handbook335),
        new("temperature", "sweet clover", 16.1, 13.7, 60.0, s_handbook335),
        new("temperature", "sweet clover", 16.1, 20.6, 18.96, s_handbook335),
        new("temperature", "sweet clover", 16.1, 29.0, 6.84, s_handbook335),
        new("temperature", "sweet clover", 16.1, 39.4, 2.14, s_handbook335),
        new("temperature", "sweet clover", 16.1, 48.1, 1.07, s_handbook335),
        new("temperature", "sweet clover", 16.1, 71.1, 0.26, s_handbook335),
        new("shape", "sage", null, 11.7, 72.96, s_handbook335),
        new("shape", "sage", null, 20.2, 18.48, s_handbook335),
        new("shape", "sage", null, 30.7, 5.52, s_handbook335),
        new("shape", "sage", null, 40.9, 1.92, s_handbook335),
        new("shape", "sage", null, 50.7, 0.95, s_handbook335),
        new("shape", "rosemary", null, 30, 6.12, s_portugal2018),
        new("shape", "rosemary", null, 50, 0.603, s_portugal2018),
        new("shape", "rosemary", null, 70, 0.145, s_portugal2018),
        new("moisture at 45 °C", "not stated", 16.6, 45, 0.9436, s_dictionary),
        new("moisture at 45 °C", "not stated", 18, 45, 0.6064, s_dictionary),
        new("moisture at 45 °C", "not stated", 19, 45, 0.4393, s_dictionary),
        new("moisture at 45 °C", "not stated", 20, 45, 0.3313, s_dictionary),
        new("moisture at 45 °C", "not stated", 22, 45, 0.1985, s_dictionary),
        new("moisture at 45 °C", "not stated", 25, 45, 0.1051, s_dictionary),
    ];
}
