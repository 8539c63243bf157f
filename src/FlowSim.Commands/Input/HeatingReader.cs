using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads what warms or cools the honey.</summary>
internal static class HeatingReader
{
    private const string Air = "warm-air";
    private const string Bath = "bath";
    private const string Jacket = "jacket";
    private const string Band = "band";
    private const string Immersion = "immersion";

    /// <summary>A power is kept as a decimal, which overflows where the library would refuse by name.</summary>
    private const double MostWattsOfAQuantity = 1e20;

    /// <summary>Kits with the keys that are their own.</summary>
    private static (string Name, string Description, Key[] Own)[] Kits =>
    [
        (Air, "a warm room, cabinet or cold store: air all around", [Keys.Warming.AirSpeed]),
        (Bath, "warm water around the side and under the floor", [Keys.Warming.WaterLevel, Keys.Warming.WaterCoefficient]),
        (Jacket, "a jacket on the side, a heated base, or both", [Keys.Warming.LowerEnd, Keys.Warming.UpperEnd, Keys.Warming.HeatsFloor, Keys.Warming.WaterCoefficient]),
        (Band, "an electric band around part of the side", [Keys.Warming.LowerEnd, Keys.Warming.UpperEnd, Keys.Warming.Contact]),
        (Immersion, "an element that stands in the honey, on the axis", [Keys.Warming.LowerEnd, Keys.Warming.UpperEnd, Keys.Warming.ElementRadius]),
    ];

    /// <summary>Names of the kits, each with a few words.</summary>
    public static IEnumerable<(string Name, string Description)> All => Kits.Select(kit => (kit.Name, kit.Description));

    /// <summary>Reads the kit in <c>[warming]</c>.</summary>
    /// <param name="section">The section; strangers are refused by the caller.</param>
    /// <param name="thermostat">What steers it; null when it could not be read.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static HeatingKit? Read(Section section, Thermostat? thermostat, Journal journal)
    {
        string? name = section.Word(Keys.Warming.By, [.. Kits.Select(kit => kit.Name)], "way of warming");
        if (name is null && section.Has(Keys.Warming.By))
        {
            section.KnowAll();
            return null;
        }

        if (name is null)
        {
            name = Air;
            journal.Assume(Keys.Warming.By.ToString(), "warmed by air all around", Standing.EngineeringChoice);
        }

        RefuseForeign(section, name);
        HeatingKit? kit = ReadKit(section, name, thermostat ?? Thermostat.At(ThermostatReader.Fallback), journal);
        double? powerW = section.Quantity(Keys.Warming.Power);
        double? startK = section.Quantity(Keys.Warming.BodyStart);
        double? capacity = section.Quantity(Keys.Warming.BodyHeatCapacity);
        double? areaM2 = section.Quantity(Keys.Warming.LossArea);
        double? loss = section.Quantity(Keys.Warming.LossCoefficient);
        if (kit is null)
            return null;

        if (powerW is { } power)
            kit = kit with { HeaterPower = Power.FromWatts(Math.Clamp(power, -MostWattsOfAQuantity, MostWattsOfAQuantity)) };
        if (startK is { } start)
            kit = kit with { BodyStart = Temperature.FromKelvins(start) };
        if (capacity is { } body)
            kit = kit with { BodyHeatCapacity = Entropy.FromJoulesPerKelvin(body) };
        if (areaM2 is { } area)
            kit = kit with { LossArea = Area.FromSquareMeters(area) };
        if (loss is { } k)
            kit = kit with { LossCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(k) };
        Note(section, kit, BodyOf(name), journal);
        return kit;
    }

    /// <summary>What the body of a kit is called.</summary>
    /// <param name="kit">Kit.</param>
    public static string BodyOf(HeatingKit kit) => BodyOf(kit switch { WarmAir => Air, HeatedBath => Bath, HeatedJacket => Jacket, BandHeater => Band, _ => Immersion });

    private static string BodyOf(string name) => name switch { Air => "air", Bath or Jacket => "water", Band => "band", _ => "element" };

    private static void RefuseForeign(Section section, string name)
    {
        Key[] own = Kits.First(kit => kit.Name == name).Own;
        foreach (Key key in Kits.SelectMany(kit => kit.Own).Distinct().Except(own))
        {
            // An option that chooses another kit takes the place of the keys that went with the one in the file.
            if (section.IsFromOption(Keys.Warming.By))
                section.DropFromFile(key.Name);
            if (section.Entry(key.Name) is { } entry)
                section.Wrong(key.Name, entry.KeySpot, $"plays no part with {Keys.Warming.By.Name} = \"{name}\"; it goes with {string.Join(" or ", Kits.Where(kit => kit.Own.Contains(key)).Select(kit => $"\"{kit.Name}\""))}");
        }
    }

    private static HeatingKit? ReadKit(Section section, string name, Thermostat thermostat, Journal journal)
    {
        switch (name)
        {
            case Bath:
                double? waterM = Required(section, Keys.Warming.WaterLevel, "\"250 mm\"");
                HeatTransferCoefficient? film = Coefficient(section, Keys.Warming.WaterCoefficient);
                if (waterM is null)
                    return null;
                HeatedBath bath = new() { Thermostat = thermostat, WaterLevel = Length.FromMeters(waterM.Value) };
                return film is { } given ? bath with { WaterCoefficient = given } : Assumed(bath, bath.WaterCoefficient, Keys.Warming.WaterCoefficient, "still water on the wall", journal);
            case Jacket:
                double? jacketFromM = section.Quantity(Keys.Warming.LowerEnd);
                double? jacketToM = Required(section, Keys.Warming.UpperEnd, "\"250 mm\"");
                bool? floor = section.Flag(Keys.Warming.HeatsFloor);
                HeatTransferCoefficient? jacketFilm = Coefficient(section, Keys.Warming.WaterCoefficient);
                if (jacketToM is null)
                    return null;
                HeatedJacket jacket = new() { Thermostat = thermostat, To = Length.FromMeters(jacketToM.Value) };
                jacket = jacketFromM is { } lower ? jacket with { From = Length.FromMeters(lower) } : jacket;
                jacket = floor is { } heats ? jacket with { HeatsFloor = heats } : jacket;
                return jacketFilm is { } set ? jacket with { WaterCoefficient = set } : Assumed(jacket, jacket.WaterCoefficient, Keys.Warming.WaterCoefficient, "still water in the jacket", journal);
            case Band:
                double? bandFromM = Required(section, Keys.Warming.LowerEnd, "\"50 mm\"");
                double? bandToM = Required(section, Keys.Warming.UpperEnd, "\"150 mm\"");
                HeatTransferCoefficient? contact = Coefficient(section, Keys.Warming.Contact);
                if (bandFromM is null || bandToM is null)
                    return null;
                BandHeater band = new() { Thermostat = thermostat, From = Length.FromMeters(bandFromM.Value), To = Length.FromMeters(bandToM.Value) };
                return contact is { } tight ? band with { ContactCoefficient = tight } : Assumed(band, band.ContactCoefficient, Keys.Warming.Contact, "a strapped band with some air under it", journal);
            case Immersion:
                double? fromM = Required(section, Keys.Warming.LowerEnd, "\"50 mm\"");
                double? toM = Required(section, Keys.Warming.UpperEnd, "\"250 mm\"");
                double? radiusM = Required(section, Keys.Warming.ElementRadius, "\"8 mm\"; of a coil, that of a rod with as much surface");
                return fromM is null || toM is null || radiusM is null
                    ? null
                    : new ImmersionHeater { Thermostat = thermostat, From = Length.FromMeters(fromM.Value), To = Length.FromMeters(toM.Value), Radius = Length.FromMeters(radiusM.Value) };
            default:
                double? speed = section.Quantity(Keys.Warming.AirSpeed);
                if (!section.Has(Keys.Warming.AirSpeed))
                    journal.Assume(Keys.Warming.AirSpeed.ToString(), "still air: no fan", Standing.EngineeringChoice);
                return new WarmAir { Thermostat = thermostat, AirSpeed = Speed.FromMetersPerSecond(speed ?? 0) };
        }
    }

    private static double? Required(Section section, Key key, string example)
    {
        if (!section.Has(key))
            section.Missing(key, example);
        return section.Quantity(key);
    }

    private static HeatTransferCoefficient? Coefficient(Section section, Key key) =>
        section.Quantity(key) is { } si ? HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(si) : null;

    private static HeatingKit Assumed(HeatingKit kit, HeatTransferCoefficient used, Key key, string why, Journal journal)
    {
        journal.Assume(key.ToString(), FormattableString.Invariant($"{used.WattsPerSquareMeterKelvin:0.##} W/m2K: {why}"), Standing.EngineeringChoice);
        return kit;
    }

    private static void Note(Section section, HeatingKit kit, string body, Journal journal)
    {
        if (!section.Has(Keys.Warming.Power))
        {
            journal.Assume(Keys.Warming.Power.ToString(), $"the heater gives what it takes: the {body} is at the setpoint at every moment", Standing.EngineeringChoice);
            foreach (Key key in new[] { Keys.Warming.BodyStart, Keys.Warming.BodyHeatCapacity }.Where(section.Has))
                journal.Echo($"{key} plays no part: without {Keys.Warming.Power} the {body} is at the setpoint at every moment");
        }
        else
        {
            if (!section.Has(Keys.Warming.BodyHeatCapacity))
                journal.Assume(Keys.Warming.BodyHeatCapacity.ToString(), FormattableString.Invariant($"the {body} and what belongs to it hold {kit.BodyHeatCapacity.KilojoulesPerKelvin:0.##} kJ/K"), Standing.EngineeringChoice);
            if (!section.Has(Keys.Warming.BodyStart))
                journal.Assume(Keys.Warming.BodyStart.ToString(), $"the {body} starts at the room's temperature", Standing.EngineeringChoice);
        }

        if (!section.Has(Keys.Warming.LossArea))
            journal.Assume(Keys.Warming.LossArea.ToString(), $"what the {body} loses to the room past the vessel is not counted in the energy", Standing.EngineeringChoice);
        else if (!section.Has(Keys.Warming.LossCoefficient))
            journal.Assume(Keys.Warming.LossCoefficient.ToString(), FormattableString.Invariant($"that loss by {kit.LossCoefficient.WattsPerSquareMeterKelvin:0.##} W/m2K: a cabinet with some insulation"), Standing.EngineeringChoice);
    }
}
