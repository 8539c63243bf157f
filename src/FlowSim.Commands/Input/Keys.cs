using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>Every key that is read, apart from those of the shapes, which the library's shape lists name.</summary>
internal static partial class Keys
{
    public static class Honey
    {
        public static readonly Key Moisture = Quantity("honey", "moisture", Dimension.Share, "water, share of mass");
        public static readonly Key Temperature = Quantity("honey", "temperature", Dimension.Temperature, "honey in the tank at the start");
        public static readonly Key LotFactor = Number("honey", "lot_factor", "this honey's viscosity over the correlation's");
        public static readonly Key Form = Word("honey", "form", "liquid, granulated or gelling");
        public static readonly Key Viscosity = Word("honey", "viscosity", "viscosity correlation");
        public static readonly Key Conductivity = Word("honey", "conductivity", "thermal-conductivity correlation");
        public static readonly Key Measured = List("honey", "measured", "your own figures: \"35 °C, 3 Pa.s\"");
    }

    public static class Room
    {
        public static readonly Key Temperature = Quantity("room", "temperature", Dimension.Temperature, "air around tank, strainer and receiver");
    }

    public static class Tank
    {
        public static readonly Key Use = Word("tank", "use", "a vessel of the catalogue, in place of shape and lengths");
        public static readonly Key Shape = Word("tank", "shape", "shape of the inside");
        public static readonly Key Level = Quantity("tank", "level", Dimension.Length, "honey above the lowest point at the start");
        public static readonly Key Fill = Quantity("tank", "fill", Dimension.Volume, "honey at the start, as a volume or a mass, in place of level");
        public static readonly Key GateHeight = Quantity("tank", "gate_height", Dimension.Length, "gate's axis above the lowest point");
        public static readonly Key WallFilm = Flag("tank", "wall_film", "count the film that clings to the wall");
        public static readonly Key Held = Flag("tank", "held", "a jacket holds the tank at its temperature");
        public static readonly Key HeatLoss = Quantity("tank", "heat_loss", Dimension.HeatTransfer, "heat lost through wall and surface");
    }

    public static class Gate
    {
        public static readonly Key Use = Word("gate", "use", "a gate of the catalogue, in place of bore and tube_length");
        public static readonly Key Bore = Quantity("gate", "bore", Dimension.Length, "inside diameter");
        public static readonly Key TubeLength = Quantity("gate", "tube_length", Dimension.Length, "from the tank's wall to the outlet");
        public static readonly Key Factor = Number("gate", "factor", "this gate's resistance over the computed one");
        public static readonly Key Opening = new("gate", "opening", KeyKind.QuantityOrList, "travel of the blade as a share of the bore, or a list of steps", Dimension.Share);
        public static readonly Key RidePond = Quantity("gate", "ride_pond", Dimension.Length, "depth of pond that somebody holds by hand");
        public static readonly Key Blade = Word("gate", "blade", "edge of the blade: straight or round-holed");
        public static readonly Key Outlet = Word("gate", "outlet", "free or submerged");
        public static readonly Key OutletAboveScreen = Quantity("gate", "outlet_above_screen", Dimension.Length, "height of a submerged outlet above the cloth's lowest point");
    }

    public static class Screen
    {
        public static readonly Key Form = Word("screen", "form", "form of the cloth");
        public static readonly Key Opening = Quantity("screen", "opening", Dimension.Length, "clear opening between wires");
        public static readonly Key Wire = Quantity("screen", "wire", Dimension.Length, "wire diameter");
        public static readonly Key Cloths = List("screen", "cloths", "cloths in series, in place of opening and wire");
        public static readonly Key Factor = Number("screen", "factor", "clean cloth's resistance over the published one");
        public static readonly Key Venting = Word("screen", "venting", "vented or sealed onto the receiver");
        public static readonly Key Overflow = Word("screen", "overflow", "where honey goes that runs over: bypass or spill");
        public static readonly Key MinimumHead = Quantity("screen", "minimum_head", Dimension.Length, "head the wet cloth holds back");
    }

    public static class Debris
    {
        public static readonly Key Load = Quantity("debris", "load", Dimension.Share, "mass of wax and bits per mass of honey");
        public static readonly Key MedianSize = Quantity("debris", "median_size", Dimension.Length, "median size by mass");
        public static readonly Key SizeSpread = Number("debris", "size_spread", "standard deviation of ln size");
        public static readonly Key Capture = Quantity("debris", "capture", Dimension.Share, "share of the oversize bits that a cloth catches");
        public static readonly Key Density = Quantity("debris", "density", Dimension.Density, "density of the bits");
        public static readonly Key Law = Word("debris", "law", "how bits close the cloth");
        public static readonly Key After = Word("debris", "after", "what comes before straining and takes some of it away: nothing or settling");
    }

    public static class Scraping
    {
        public static readonly Key Times = List("scraping", "times", "when the cloth is scraped");
        public static readonly Key AtPondDepth = Quantity("scraping", "at_pond_depth", Dimension.Length, "depth of pond at which it is scraped");
        public static readonly Key Recovery = Quantity("scraping", "recovery", Dimension.Share, "share of the blinded cloth that a scrape clears");
        public static readonly Key Pause = Quantity("scraping", "pause", Dimension.Duration, "shortest time between two scrapes by depth");
    }

    public static class Receiver
    {
        public static readonly Key Use = Word("receiver", "use", "a vessel of the catalogue, in place of shape and lengths");
        public static readonly Key Shape = Word("receiver", "shape", "shape of the inside");
        public static readonly Key AlreadyIn = Quantity("receiver", "already_in", Dimension.Volume, "honey in it at the start, as a volume or a mass");
        public static readonly Key Temperature = Quantity("receiver", "temperature", Dimension.Temperature, "receiver and what is in it at the start");
        public static readonly Key Spacer = Quantity("receiver", "spacer", Dimension.Length, "strainer's lowest point above the brim; negative when it hangs inside") with { MayBeNegative = true };
        public static readonly Key ShutWhenFull = Flag("receiver", "shut_when_full", "somebody shuts the gate when it is full");
        public static readonly Key HeatLoss = Quantity("receiver", "heat_loss", Dimension.HeatTransfer, "heat lost through wall and surface");
    }

    public static class Run
    {
        public static readonly Key Longest = Quantity("run", "longest", Dimension.Duration, "longest time simulated");
        public static readonly Key Tolerance = Number("run", "tolerance", "relative tolerance of the integration");
        public static readonly Key Points = Number("run", "points", "evenly spaced points in the series");
        public static readonly Key RadialCells = Number("run", "radial_cells", "cells of a warming run from axis to wall");
        public static readonly Key AxialCells = Number("run", "axial_cells", "cells of a warming run from floor to surface");
        public static readonly Key StepError = Quantity("run", "step_error", Dimension.TemperatureDifference, "error allowed in a step of a warming run");
        public static readonly Key Maps = List("run", "maps", "when the vessel is mapped");
    }

    public static class Risk
    {
        public static readonly Key Tolerance = Quantity("risk", "tolerance", Dimension.Share, "chance of an overflow that is put up with");
        public static readonly Key MassThatMatters = Quantity("risk", "mass_that_matters", Dimension.Mass, "bypass and spill above this are counted");
        public static readonly Key LookEvery = Quantity("risk", "look_every", Dimension.Duration, "how late somebody at the gate may notice what the pond does");
        public static readonly Key Runs = new("risk", "runs", KeyKind.Text, "runs to make, or auto");
        public static readonly Key Seed = new("risk", "seed", KeyKind.Text, "number that the draws come from");
        public static readonly Key Defaults = Flag("risk", "defaults", "take the common spread for what gives none");
        public static readonly Key Correlated = List("risk", "correlated", "inputs that go together: \"honey.moisture, debris.load, 0.5\"");
    }

    /// <summary>The sections, in the order of the example file.</summary>
    public static IReadOnlyList<string> Sections { get; } =
        ["honey", "room", "tank", "gate", "screen", "debris", "scraping", "receiver", "settling", "vessel", "warming", "thermostat", "until", "heat", "limits", "bottling_tank", "bottling_gate", "filling", "shelf", "risk", "fit", "calibration", "run"];

    /// <summary>All keys, in the order of the example file.</summary>
    public static IReadOnlyList<Key> All { get; } =
    [
        Honey.Moisture, Honey.Temperature, Honey.LotFactor, Honey.Form, Honey.Viscosity, Honey.Conductivity, Honey.Measured,
        Room.Temperature,
        Tank.Use, Tank.Shape, Tank.Level, Tank.Fill, Tank.GateHeight, Tank.WallFilm, Tank.Held, Tank.HeatLoss,
        Gate.Use, Gate.Bore, Gate.TubeLength, Gate.Factor, Gate.Opening, Gate.RidePond, Gate.Blade, Gate.Outlet, Gate.OutletAboveScreen,
        Screen.Form, Screen.Opening, Screen.Wire, Screen.Cloths, Screen.Factor, Screen.Venting, Screen.Overflow, Screen.MinimumHead,
        Debris.Load, Debris.MedianSize, Debris.SizeSpread, Debris.Capture, Debris.Density, Debris.Law, Debris.After,
        Scraping.Times, Scraping.AtPondDepth, Scraping.Recovery, Scraping.Pause,
        Receiver.Use, Receiver.Shape, Receiver.AlreadyIn, Receiver.Temperature, Receiver.Spacer, Receiver.ShutWhenFull, Receiver.HeatLoss,
        .. OfSettling,
        .. OfWarming,
        .. OfFilling,
        Risk.Tolerance, Risk.MassThatMatters, Risk.LookEvery, Risk.Runs, Risk.Seed, Risk.Defaults, Risk.Correlated,
        .. OfCalibration,
        Run.Longest, Run.Tolerance, Run.Points, Run.RadialCells, Run.AxialCells, Run.StepError, Run.Maps,
    ];

    private static Key Quantity(string section, string name, Dimension dimension, string meaning) => new(section, name, KeyKind.Quantity, meaning, dimension);

    private static Key Number(string section, string name, string meaning) => new(section, name, KeyKind.Number, meaning);

    private static Key Word(string section, string name, string meaning) => new(section, name, KeyKind.Word, meaning);

    private static Key Flag(string section, string name, string meaning) => new(section, name, KeyKind.Flag, meaning);

    private static Key List(string section, string name, string meaning) => new(section, name, KeyKind.List, meaning);
}
