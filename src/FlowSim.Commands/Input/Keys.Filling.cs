using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

internal static partial class Keys
{
    public static class BottlingTank
    {
        public static readonly Key Use = Word("bottling_tank", "use", "a vessel of the catalogue, in place of shape and lengths");
        public static readonly Key Shape = Word("bottling_tank", "shape", "shape of the inside");
        public static readonly Key Level = Quantity("bottling_tank", "level", Dimension.Length, "honey above the lowest point when the first jar is filled");
        public static readonly Key Fill = Quantity("bottling_tank", "fill", Dimension.Volume, "that honey as a volume or a mass, in place of level");
        public static readonly Key GateHeight = Quantity("bottling_tank", "gate_height", Dimension.Length, "gate's axis above the lowest point");
        public static readonly Key WallFilm = Flag("bottling_tank", "wall_film", "count the film that clings to the wall");
        public static readonly Key Held = Flag("bottling_tank", "held", "a jacket holds the tank at its temperature");
        public static readonly Key HeatLoss = Quantity("bottling_tank", "heat_loss", Dimension.HeatTransfer, "heat lost through wall and surface");
    }

    public static class BottlingGate
    {
        public static readonly Key Use = Word("bottling_gate", "use", "a gate of the catalogue, in place of bore and tube_length");
        public static readonly Key Bore = Quantity("bottling_gate", "bore", Dimension.Length, "inside diameter");
        public static readonly Key TubeLength = Quantity("bottling_gate", "tube_length", Dimension.Length, "from the tank's wall to the outlet");
        public static readonly Key Factor = Number("bottling_gate", "factor", "this gate's resistance over the computed one");
        public static readonly Key Blade = Word("bottling_gate", "blade", "edge of the blade: straight or round-holed");
        public static readonly Key Opening = Quantity("bottling_gate", "opening", Dimension.Share, "travel of the blade as a share of the bore, while a jar fills");
    }

    public static class Filling
    {
        public static readonly Key Jar = Word("filling", "jar", "a jar of the catalogue, in place of brimful");
        public static readonly Key Brimful = Quantity("filling", "brimful", Dimension.Volume, "volume of the jar to the brim");
        public static readonly Key Mouth = Quantity("filling", "mouth", Dimension.Length, "inside diameter of the jar's neck");
        public static readonly Key NetWeight = Quantity("filling", "net_weight", Dimension.Mass, "net weight on the label");
        public static readonly Key Temperature = Quantity("filling", "temperature", Dimension.Temperature, "honey in the bottling tank when the first jar is filled");
        public static readonly Key Fall = Quantity("filling", "fall", Dimension.Length, "from the gate to the honey in a jar that is nearly full");
        public static readonly Key Closing = Quantity("filling", "closing", Dimension.Duration, "time to shut the gate");
        public static readonly Key ChangeOver = Quantity("filling", "change_over", Dimension.Duration, "between two jars without honey: one away, the next one under");
        public static readonly Key Lip = Quantity("filling", "lip", Dimension.Length, "wetted height below the blade, from which it drips");
        public static readonly Key DripLimit = Quantity("filling", "drip_limit", Dimension.Mass, "what may still hang on the gate when the jar is taken away");
        public static readonly Key LongestWait = Quantity("filling", "longest_wait", Dimension.Duration, "longest that somebody waits for that");
        public static readonly Key Scatter = Quantity("filling", "scatter", Dimension.Mass, "standard deviation of one fill");
        public static readonly Key ScatterFrom = Number("filling", "scatter_from", "jars that the scatter was found from");
        public static readonly Key Rule = Word("filling", "rule", "what the law asks of net weights");
        public static readonly Key TolerableShortfall = Quantity("filling", "tolerable_shortfall", Dimension.Mass, "what one jar may be short, in place of the rule's own");
        public static readonly Key Confidence = Quantity("filling", "confidence", Dimension.Share, "chance that a lot meets every part of the rule");
        public static readonly Key Lot = Number("filling", "lot", "jars in a lot");
        public static readonly Key Hottest = Quantity("filling", "hottest", Dimension.Temperature, "hottest place a jar will stand");
        public static readonly Key Headspace = Quantity("filling", "headspace", Dimension.Share, "room above the honey asked for then, share of the jar");
        public static readonly Key PerCase = Number("filling", "per_case", "jars in a case");
        public static readonly Key Jars = Number("filling", "jars", "most jars to fill");
        public static readonly Key LongestFill = Quantity("filling", "longest_fill", Dimension.Duration, "longest time that filling one jar is put up with");
        public static readonly Key WorkDay = Quantity("filling", "work_day", Dimension.Duration, "time at work in a day");
        public static readonly Key Clearance = Quantity("filling", "clearance", Dimension.Length, "gap that a loose blade leaves when shut");
        public static readonly Key Seat = Quantity("filling", "seat", Dimension.Length, "length of that gap along the flow");
        public static readonly Key Night = Quantity("filling", "night", Dimension.Duration, "how long the shut tank stands");
    }

    public static class Shelf
    {
        public static readonly Key Yeasts = Number("shelf", "yeasts", "living yeasts in a gram, counted by a laboratory");
        public static readonly Key Glucose = Quantity("shelf", "glucose", Dimension.Share, "glucose, share of mass, measured by a laboratory");
        public static readonly Key Crystals = Quantity("shelf", "crystals", Dimension.Share, "crystals in it already, share of mass");
    }

    private static IReadOnlyList<Key> OfFilling =>
    [
        BottlingTank.Use, BottlingTank.Shape, BottlingTank.Level, BottlingTank.Fill, BottlingTank.GateHeight, BottlingTank.WallFilm, BottlingTank.Held, BottlingTank.HeatLoss,
        BottlingGate.Use, BottlingGate.Bore, BottlingGate.TubeLength, BottlingGate.Factor, BottlingGate.Blade, BottlingGate.Opening,
        Filling.Jar, Filling.Brimful, Filling.Mouth, Filling.NetWeight, Filling.Temperature, Filling.Fall, Filling.Closing, Filling.ChangeOver, Filling.Lip, Filling.DripLimit,
        Filling.LongestWait, Filling.Scatter, Filling.ScatterFrom, Filling.Rule, Filling.TolerableShortfall, Filling.Confidence, Filling.Lot, Filling.Hottest, Filling.Headspace,
        Filling.PerCase, Filling.Jars, Filling.LongestFill, Filling.WorkDay, Filling.Clearance, Filling.Seat, Filling.Night,
        Shelf.Yeasts, Shelf.Glucose, Shelf.Crystals,
    ];
}
