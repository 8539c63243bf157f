using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

internal static partial class Keys
{
    public static class Vessel
    {
        public static readonly Key Use = Word("vessel", "use", "a vessel of the catalogue, in place of shape and lengths");
        public static readonly Key Shape = Word("vessel", "shape", "shape of the inside");
        public static readonly Key Level = Quantity("vessel", "level", Dimension.Length, "honey above the lowest point");
        public static readonly Key Fill = Quantity("vessel", "fill", Dimension.Volume, "honey in it, as a volume or a mass, in place of level");
        public static readonly Key Count = Number("vessel", "count", "vessels alike that share the heat");
        public static readonly Key Wall = Text("vessel", "wall", "material and thickness of the wall");
        public static readonly Key Insulation = List("vessel", "insulation", "what is wrapped around it, material and thickness");
        public static readonly Key Emissivity = Number("vessel", "emissivity", "of the outside: bare metal 0.1 to 0.4, paint and plastic 0.9");
        public static readonly Key Lid = Word("vessel", "lid", "closed, open or insulated");
        public static readonly Key StandsOn = Word("vessel", "stands_on", "rack or insulated");
    }

    public static class Warming
    {
        public static readonly Key By = Word("warming", "by", "what warms or cools the honey");
        public static readonly Key From = Quantity("warming", "from", Dimension.Temperature, "honey at the start of the warming");
        public static readonly Key Granulation = Word("warming", "granulation", "size of the crystals: fine or coarse");
        public static readonly Key Crystals = Quantity("warming", "crystals", Dimension.Share, "crystals in it, share of mass");
        public static readonly Key MeltFrom = Quantity("warming", "melt_from", Dimension.Temperature, "at which the first crystals melt");
        public static readonly Key MeltTo = Quantity("warming", "melt_to", Dimension.Temperature, "at which the last crystals are gone");
        public static readonly Key AirSpeed = Quantity("warming", "air_speed", Dimension.Speed, "of air that a fan moves");
        public static readonly Key WaterLevel = Quantity("warming", "water_level", Dimension.Length, "of a bath, above the vessel's floor");
        public static readonly Key WaterCoefficient = Quantity("warming", "water_coefficient", Dimension.HeatTransfer, "from water to wall");
        public static readonly Key Contact = Quantity("warming", "contact", Dimension.HeatTransfer, "from a band to the wall");
        public static readonly Key LowerEnd = Quantity("warming", "lower_end", Dimension.Length, "of a jacket, band or element, above the floor");
        public static readonly Key UpperEnd = Quantity("warming", "upper_end", Dimension.Length, "of a jacket, band or element, above the floor");
        public static readonly Key HeatsFloor = Flag("warming", "heats_floor", "a jacket heats the floor too");
        public static readonly Key ElementRadius = Quantity("warming", "element_radius", Dimension.Length, "of an immersion heater");
        public static readonly Key Power = Quantity("warming", "power", Dimension.Power, "most the heater gives");
        public static readonly Key BodyStart = Quantity("warming", "body_start", Dimension.Temperature, "air, water or element at the start");
        public static readonly Key BodyHeatCapacity = Quantity("warming", "body_heat_capacity", Dimension.HeatCapacity, "of air, water or element");
        public static readonly Key LossArea = Quantity("warming", "loss_area", Dimension.Area, "through which air or water loses heat to the room");
        public static readonly Key LossCoefficient = Quantity("warming", "loss_coefficient", Dimension.HeatTransfer, "of that loss");
        public static readonly Key Room = Quantity("warming", "room", Dimension.Temperature, "air outside, when it is not that of [room]");
    }

    public static class Thermostat
    {
        public static readonly Key Setpoint = new("thermostat", "setpoint", KeyKind.QuantityOrList, "temperature held, or a list of steps", Dimension.Temperature);
        public static readonly Key Hysteresis = Quantity("thermostat", "hysteresis", Dimension.TemperatureDifference, "from switching on to switching off");
        public static readonly Key Sensor = Word("thermostat", "sensor", "where the sensor is: body, wall or honey");
        public static readonly Key SensorRadius = Quantity("thermostat", "sensor_radius", Dimension.Share, "of a sensor in the honey: distance from the axis");
        public static readonly Key SensorHeight = Quantity("thermostat", "sensor_height", Dimension.Share, "of a sensor in the honey or on the wall: height");
        public static readonly Key Lag = Quantity("thermostat", "lag", Dimension.Duration, "by which the probe lags");
        public static readonly Key CutOut = Quantity("thermostat", "cut_out", Dimension.Temperature, "of the body, at which the heater goes off for good");
    }

    public static class Until
    {
        public static readonly Key Mean = Quantity("until", "mean", Dimension.Temperature, "the mean is at least this warm");
        public static readonly Key Coldest = Quantity("until", "coldest", Dimension.Temperature, "the coldest is at least this warm");
        public static readonly Key Thin = Quantity("until", "thin", Dimension.Viscosity, "at most this viscous, crystals gone");
        public static readonly Key NoCrystals = Flag("until", "no_crystals", "the crystals are gone");
        public static readonly Key CooledTo = Quantity("until", "cooled_to", Dimension.Temperature, "the mean is at most this warm");
        public static readonly Key Thick = Quantity("until", "thick", Dimension.Viscosity, "at least this viscous: no longer workable");
        public static readonly Key Hold = Quantity("until", "hold", Dimension.Duration, "how long it goes on after that");
        public static readonly Key Longest = Quantity("until", "longest", Dimension.Duration, "longest time of warming simulated");
    }

    public static class Heat
    {
        public static readonly Key Hmf = Quantity("heat", "hmf", Dimension.Content, "HMF at the start");
        public static readonly Key Diastase = Number("heat", "diastase", "diastase number at the start, Schade scale");
        public static readonly Key Law = Word("heat", "law", "rate law of HMF");
        public static readonly Key FloralMultiplier = Number("heat", "floral_multiplier", "this honey's rate of HMF over the law's");
        public static readonly Key FloralSpread = Flag("heat", "floral_spread", "the band covers not knowing the floral type");
    }

    public static class Limits
    {
        public static readonly Key Heat = Word("limits", "heat", "published limit on HMF and diastase");
        public static readonly Key Hmf = Quantity("limits", "hmf", Dimension.Content, "your own limit: most HMF");
        public static readonly Key Diastase = Number("limits", "diastase", "your own limit: least diastase number");
        public static readonly Key Confidence = Word("limits", "confidence", "how surely the heat limit is kept");
        public static readonly Key Ceiling = Quantity("limits", "ceiling", Dimension.Temperature, "highest setpoint, and hottest honey anywhere");
        public static readonly Key Wall = Quantity("limits", "wall", Dimension.Temperature, "hottest surface that touches honey");
        public static readonly Key AtStrainer = Quantity("limits", "at_strainer", Dimension.Temperature, "warmest honey on the strainer, for the wax");
        public static readonly Key ForHands = Quantity("limits", "for_hands", Dimension.Temperature, "warmest honey that people strain");
        public static readonly Key LongestStraining = Quantity("limits", "longest_straining", Dimension.Duration, "longest time of straining, while somebody stands by");
        public static readonly Key Longest = Quantity("limits", "longest", Dimension.Duration, "longest time for warming and straining");
        public static readonly Key LowestSetpoint = Quantity("limits", "lowest_setpoint", Dimension.Temperature, "lowest setpoint tried");
        public static readonly Key ColdestStraining = Quantity("limits", "coldest_straining", Dimension.Temperature, "coldest mean at which straining is tried");
        public static readonly Key OverflowTolerance = Quantity("limits", "overflow_tolerance", Dimension.Share, "chance of an overflow that is put up with");
    }

    private static IReadOnlyList<Key> OfWarming =>
    [
        Vessel.Use, Vessel.Shape, Vessel.Level, Vessel.Fill, Vessel.Count, Vessel.Wall, Vessel.Insulation, Vessel.Emissivity, Vessel.Lid, Vessel.StandsOn,
        Warming.By, Warming.From, Warming.Granulation, Warming.Crystals, Warming.MeltFrom, Warming.MeltTo,
        Warming.AirSpeed, Warming.WaterLevel, Warming.WaterCoefficient, Warming.Contact, Warming.LowerEnd, Warming.UpperEnd, Warming.HeatsFloor, Warming.ElementRadius,
        Warming.Power, Warming.BodyStart, Warming.BodyHeatCapacity, Warming.LossArea, Warming.LossCoefficient, Warming.Room,
        Thermostat.Setpoint, Thermostat.Hysteresis, Thermostat.Sensor, Thermostat.SensorRadius, Thermostat.SensorHeight, Thermostat.Lag, Thermostat.CutOut,
        Until.Mean, Until.Coldest, Until.Thin, Until.NoCrystals, Until.CooledTo, Until.Thick, Until.Hold, Until.Longest,
        Heat.Hmf, Heat.Diastase, Heat.Law, Heat.FloralMultiplier, Heat.FloralSpread,
        Limits.Heat, Limits.Hmf, Limits.Diastase, Limits.Confidence, Limits.Ceiling, Limits.Wall, Limits.AtStrainer, Limits.ForHands, Limits.LongestStraining, Limits.Longest, Limits.LowestSetpoint, Limits.ColdestStraining, Limits.OverflowTolerance,
    ];

    private static Key Text(string section, string name, string meaning) => new(section, name, KeyKind.Text, meaning);
}
