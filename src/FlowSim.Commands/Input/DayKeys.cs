using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>Every key of a day's file.</summary>
internal static class DayKeys
{
    /// <summary>Word of <c>file</c> for the example batch.</summary>
    public const string Example = "example";

    /// <summary>Word for a step that is left out.</summary>
    public const string None = "none";

    public static IReadOnlyList<string> Sections { get; } = ["day", "changeover"];

    public static IReadOnlyList<string> Lists { get; } = ["person", "warming_place", "strainer", "bottling_tank", "batch"];

    public static IReadOnlyList<Key> All { get; } =
    [
        Day.Date, Day.Begin, Day.Days, Day.Opens, Day.Closes, Day.Pace,
        Changeover.Strainer, Changeover.Tank, Changeover.AtTheEnd,
        Person.Name, Person.From, Person.To, Person.Breaks,
        Place.Name, Place.Vessels, Place.Timer, Place.DrainedInPlace,
        Strainer.Name,
        Tank.Name, Tank.Capacity, Tank.KeepFree,
        Batch.Name, Batch.File, Batch.Set, Batch.Vessels, Batch.Join, Batch.Honey, Batch.Places, Batch.Setting, Batch.Earliest, Batch.Due, Batch.LongestHold,
        Batch.Warm, Batch.Settle, Batch.SetUp, Batch.Strain, Batch.Stand, Batch.Fill, Batch.Volume,
    ];

    public static class Day
    {
        public static readonly Key Date = Text("day", "date", "the day that times of day belong to");
        public static readonly Key Begin = Text("day", "begin", "from when anything may be done");
        public static readonly Key Days = Number("day", "days", "days that may be worked, from the date on");
        public static readonly Key Opens = Text("day", "opens", "when the house opens");
        public static readonly Key Closes = Text("day", "closes", "when it closes");
        public static readonly Key Pace = Text("day", "pace", "times that the plan counts with: quick, likely or slow");
    }

    public static class Changeover
    {
        public static readonly Key Strainer = Quantity("changeover", "strainer", Dimension.Duration, "time to clean a strainer");
        public static readonly Key Tank = Quantity("changeover", "bottling_tank", Dimension.Duration, "time to clean a bottling tank");
        public static readonly Key AtTheEnd = Flag("changeover", "at_the_end", "clean everything used at the end too");
    }

    public static class Person
    {
        public static readonly Key Name = Text("person", "name", "name or letter");
        public static readonly Key From = Text("person", "from", "when this person comes");
        public static readonly Key To = Text("person", "to", "when this person goes");
        public static readonly Key Breaks = List("person", "breaks", "when this person is away: \"12:00 to 12:30\"");
    }

    public static class Place
    {
        public static readonly Key Name = Text("warming_place", "name", "what it is called");
        public static readonly Key Vessels = Number("warming_place", "vessels", "vessels that it takes at a time");
        public static readonly Key Timer = Flag("warming_place", "timer", "each vessel there has heat and a timer of its own");
        public static readonly Key DrainedInPlace = Flag("warming_place", "drained_in_place", "honey is strained from where it stands");
    }

    public static class Strainer
    {
        public static readonly Key Name = Text("strainer", "name", "what it is called");
    }

    public static class Tank
    {
        public static readonly Key Name = Text("bottling_tank", "name", "what it is called");
        public static readonly Key Capacity = Quantity("bottling_tank", "capacity", Dimension.Volume, "what it holds to the brim");
        public static readonly Key KeepFree = Quantity("bottling_tank", "keep_free", Dimension.Volume, "what stays free below the brim");
    }

    public static class Batch
    {
        public static readonly Key Name = Text("batch", "name", "what it is called");
        public static readonly Key File = Text("batch", "file", "its batch file, beside the day's file");
        public static readonly Key Set = List("batch", "set", "keys set in that file: \"tank.level=250 mm\"");
        public static readonly Key Vessels = Number("batch", "vessels", "vessels alike");
        public static readonly Key Join = Flag("batch", "join", "its vessels go into one bottling tank together");
        public static readonly Key Honey = Text("batch", "honey", "which honey it is; kit is cleaned between two");
        public static readonly Key Places = List("batch", "places", "warming places that will do");
        public static readonly Key Setting = Text("batch", "setting", "what its warming place is set to");
        public static readonly Key Earliest = Text("batch", "earliest", "from when its honey is there");
        public static readonly Key Due = Text("batch", "due", "by when it has to be ready");
        public static readonly Key LongestHold = Quantity("batch", "longest_hold", Dimension.Duration, "longest time kept warm before straining");
        public static readonly Key Warm = Times("warm", "time to warm it, in place of the file's");
        public static readonly Key Settle = Times("settle", "time to settle in its vessel");
        public static readonly Key SetUp = Quantity("batch", "set_up", Dimension.Duration, "time to carry a vessel and set up, before its gate opens");
        public static readonly Key Strain = Times("strain", "time to strain a vessel, in place of the file's");
        public static readonly Key Stand = Times("stand", "time in the bottling tank until bubbles are up");
        public static readonly Key Fill = Times("fill", "time to fill what a vessel gives");
        public static readonly Key Volume = Quantity("batch", "volume", Dimension.Volume, "what a vessel gives, in place of the file's");

        private static Key Times(string name, string meaning) => new("batch", name, KeyKind.QuantityOrList, meaning, Dimension.Duration);
    }

    private static Key Quantity(string section, string name, Dimension dimension, string meaning) => new(section, name, KeyKind.Quantity, meaning, dimension);

    private static Key Number(string section, string name, string meaning) => new(section, name, KeyKind.Number, meaning);

    private static Key Text(string section, string name, string meaning) => new(section, name, KeyKind.Text, meaning);

    private static Key Flag(string section, string name, string meaning) => new(section, name, KeyKind.Flag, meaning);

    private static Key List(string section, string name, string meaning) => new(section, name, KeyKind.List, meaning);
}
