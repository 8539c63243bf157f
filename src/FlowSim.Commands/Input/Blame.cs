using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input;

/// <summary>Finds the key that made the library refuse a setup, so that its limits need not be stated again here.</summary>
internal static partial class Blame
{
    /// <summary>Names of the library's arguments, and the keys that may have filled them.</summary>
    private static readonly Dictionary<string, Key[]> s_keys = new(StringComparer.Ordinal)
    {
        ["Bore"] = [Keys.Gate.Bore, Keys.BottlingGate.Bore],
        ["TubeLength"] = [Keys.Gate.TubeLength, Keys.BottlingGate.TubeLength],
        ["Factor"] = [Keys.Gate.Factor, Keys.BottlingGate.Factor],
        ["Blade"] = [Keys.Gate.Blade, Keys.BottlingGate.Blade],
        ["Outlet"] = [Keys.Gate.Outlet],
        ["OutletAboveScreen"] = [Keys.Gate.OutletAboveScreen],
        ["GateHeight"] = [Keys.Tank.GateHeight, Keys.BottlingTank.GateHeight],
        ["Level"] = [Keys.Vessel.Level, Keys.Vessel.Fill, Keys.Tank.Level, Keys.Tank.Fill, Keys.BottlingTank.Level, Keys.BottlingTank.Fill],
        ["HeatLoss"] = [Keys.Tank.HeatLoss, Keys.Receiver.HeatLoss, Keys.BottlingTank.HeatLoss],
        ["AlreadyIn"] = [Keys.Receiver.AlreadyIn],
        ["Spacer"] = [Keys.Receiver.Spacer],
        ["StartTemperature"] = [Keys.Warming.From, Keys.Receiver.Temperature],
        ["Opening"] = [Keys.Screen.Opening, Keys.Screen.Cloths, Keys.Gate.Opening, Keys.BottlingGate.Opening],
        ["WireDiameter"] = [Keys.Screen.Wire, Keys.Screen.Cloths],
        ["Cloths"] = [Keys.Screen.Cloths],
        ["ScreenFactor"] = [Keys.Screen.Factor],
        ["MinimumHead"] = [Keys.Screen.MinimumHead],
        ["Venting"] = [Keys.Screen.Venting],
        ["Overflow"] = [Keys.Screen.Overflow, Keys.Screen.Venting],
        ["Load"] = [Keys.Debris.Load, Keys.Settling.Bubbles],
        ["MedianSize"] = [Keys.Debris.MedianSize, Keys.Settling.BubbleSize],
        ["SizeSpread"] = [Keys.Debris.SizeSpread, Keys.Settling.BubbleSpread],
        ["CaptureEfficiency"] = [Keys.Debris.Capture],
        ["Density"] = [Keys.Debris.Density],
        ["Moisture"] = [Keys.Honey.Moisture],
        ["LotFactor"] = [Keys.Honey.LotFactor],
        ["Form"] = [Keys.Honey.Form],
        ["HoneyTemperature"] = [Keys.Honey.Temperature],
        ["temperature"] = [Keys.Warming.From, Keys.Honey.Temperature],
        ["figures"] = [Keys.Honey.Measured],
        ["RoomTemperature"] = [Keys.Warming.Room, Keys.Room.Temperature],
        ["Longest"] = [Keys.Until.Longest, Keys.Limits.Longest, Keys.Settling.Longest, Keys.Run.Longest],
        ["RelativeTolerance"] = [Keys.Run.Tolerance],
        ["SeriesPoints"] = [Keys.Run.Points],
        ["Widest"] = [Keys.Gate.Opening],
        ["schedule"] = [Keys.Gate.Opening],
        ["Steps"] = [Keys.Gate.Opening],
        ["At"] = [Keys.Thermostat.Setpoint, Keys.Gate.Opening],
        ["PondDepth"] = [Keys.Gate.RidePond],
        ["Recovery"] = [Keys.Scraping.Recovery],
        ["Pause"] = [Keys.Scraping.Pause],
        ["AtPondDepth"] = [Keys.Scraping.AtPondDepth],
        ["Times"] = [Keys.Scraping.Times],
        ["scraping"] = [Keys.Scraping.Times],

        ["StandsFor"] = [Keys.Settling.For],
        ["Depth"] = [Keys.Settling.Depth, Keys.Tank.Level, Keys.Tank.Fill],
        ["points"] = [Keys.Settling.Temperature],
        ["ClearTo"] = [Keys.Settling.ClearTo],
        ["ClearOf"] = [Keys.Settling.ClearOf, Keys.Settling.Bubbles, Keys.Debris.Load],
        ["Packing"] = [Keys.Settling.Packing],
        ["HoneyMass"] = [Keys.Tank.Level, Keys.Tank.Fill],

        ["Vessels"] = [Keys.Vessel.Count],
        ["Thickness"] = [Keys.Vessel.Wall, Keys.Vessel.Insulation],
        ["Wall"] = [Keys.Vessel.Wall, Keys.Vessel.Insulation],
        ["Emissivity"] = [Keys.Vessel.Emissivity],
        ["Share"] = [Keys.Warming.Crystals],
        ["MeltFrom"] = [Keys.Warming.MeltFrom, Keys.Warming.Granulation],
        ["MeltTo"] = [Keys.Warming.MeltTo, Keys.Warming.Granulation],
        ["AirSpeed"] = [Keys.Warming.AirSpeed],
        ["WaterLevel"] = [Keys.Warming.WaterLevel],
        ["WaterCoefficient"] = [Keys.Warming.WaterCoefficient],
        ["ContactCoefficient"] = [Keys.Warming.Contact],
        ["From"] = [Keys.Warming.LowerEnd],
        ["To"] = [Keys.Warming.UpperEnd],
        ["Radius"] = [Keys.Warming.ElementRadius],
        ["HeaterPower"] = [Keys.Warming.Power],
        ["BodyStart"] = [Keys.Warming.BodyStart],
        ["BodyHeatCapacity"] = [Keys.Warming.BodyHeatCapacity],
        ["LossArea"] = [Keys.Warming.LossArea],
        ["LossCoefficient"] = [Keys.Warming.LossCoefficient],
        ["Heating"] = [Keys.Warming.By],
        ["Schedule"] = [Keys.Thermostat.Setpoint],
        ["Setpoint"] = [Keys.Thermostat.Setpoint],
        ["Hysteresis"] = [Keys.Thermostat.Hysteresis],
        ["Sensor"] = [Keys.Thermostat.Sensor],
        ["SensorRadius"] = [Keys.Thermostat.SensorRadius],
        ["SensorHeight"] = [Keys.Thermostat.SensorHeight],
        ["Lag"] = [Keys.Thermostat.Lag],
        ["CutOut"] = [Keys.Thermostat.CutOut],
        ["Temperature"] = [Keys.Until.Mean, Keys.Until.Coldest, Keys.Until.CooledTo, Keys.Settling.Temperature, Keys.Filling.Temperature, Keys.Honey.Temperature],
        ["Viscosity"] = [Keys.Until.Thin, Keys.Until.Thick],
        ["Targets"] = [Keys.Until.Mean, Keys.Until.Coldest, Keys.Until.Thin, Keys.Until.NoCrystals, Keys.Until.CooledTo, Keys.Until.Thick],
        ["HoldAfter"] = [Keys.Until.Hold],
        ["Hmf"] = [Keys.Heat.Hmf],
        ["DiastaseNumber"] = [Keys.Heat.Diastase],
        ["FloralMultiplier"] = [Keys.Heat.FloralMultiplier],
        ["hmfAtMost"] = [Keys.Limits.Hmf],
        ["diastaseAtLeast"] = [Keys.Limits.Diastase],
        ["Confidence"] = [Keys.Limits.Confidence, Keys.Filling.Confidence],
        ["Ceiling"] = [Keys.Limits.Ceiling],
        ["HottestWall"] = [Keys.Limits.Wall],
        ["WarmestAtStrainer"] = [Keys.Limits.AtStrainer],
        ["WarmestForHands"] = [Keys.Limits.ForHands],
        ["LongestStraining"] = [Keys.Limits.LongestStraining],
        ["Lowest"] = [Keys.Limits.LowestSetpoint],
        ["ColdestStraining"] = [Keys.Limits.ColdestStraining],
        ["RadialCells"] = [Keys.Run.RadialCells],
        ["AxialCells"] = [Keys.Run.AxialCells],
        ["Tolerance"] = [Keys.Risk.Tolerance, Keys.Run.StepError],
        ["MassThatMatters"] = [Keys.Risk.MassThatMatters],
        ["LookEvery"] = [Keys.Risk.LookEvery],
        ["tolerance"] = [Keys.Limits.OverflowTolerance],
        ["Runs"] = [Keys.Risk.Runs],
        ["Correlations"] = [Keys.Risk.Correlated],
        ["correlation"] = [Keys.Risk.Correlated],
        ["Strength"] = [Keys.Risk.Correlated],
        ["MapTimes"] = [Keys.Run.Maps],
        ["ClockOffset"] = [Keys.Fit.Clock],
        ["ZeroOffset"] = [Keys.Fit.LevelZero, Keys.Fit.MassZero, Keys.Fit.VolumeZero],
        ["Resolution"] = [Keys.Fit.LevelResolution, Keys.Fit.MassResolution, Keys.Fit.VolumeResolution],

        ["Brimful"] = [Keys.Filling.Brimful],
        ["Mouth"] = [Keys.Filling.Mouth],
        ["LabelledMass"] = [Keys.Filling.NetWeight, Keys.Filling.Jar],
        ["FallHeight"] = [Keys.Filling.Fall],
        ["ClosingTime"] = [Keys.Filling.Closing],
        ["ChangeOver"] = [Keys.Filling.ChangeOver],
        ["Lip"] = [Keys.Filling.Lip],
        ["DripLimit"] = [Keys.Filling.DripLimit],
        ["LongestWait"] = [Keys.Filling.LongestWait],
        ["FillScatter"] = [Keys.Filling.Scatter],
        ["ScatterFrom"] = [Keys.Filling.ScatterFrom],
        ["TolerableShortfall"] = [Keys.Filling.TolerableShortfall],
        ["Lot"] = [Keys.Filling.Lot],
        ["HottestStore"] = [Keys.Filling.Hottest],
        ["LeastHeadspace"] = [Keys.Filling.Headspace],
        ["JarsPerCase"] = [Keys.Filling.PerCase],
        ["LongestFill"] = [Keys.Filling.LongestFill],
        ["MostJars"] = [Keys.Filling.Jars],
        ["WorkDay"] = [Keys.Filling.WorkDay],
        ["Clearance"] = [Keys.Filling.Clearance],
        ["BladeSeat"] = [Keys.Filling.Seat],
        ["Night"] = [Keys.Filling.Night],
        ["YeastsPerGram"] = [Keys.Shelf.Yeasts],
        ["Glucose"] = [Keys.Shelf.Glucose],
        ["Crystals"] = [Keys.Shelf.Crystals],
    };

    private const double ZeroCelsiusK = 273.15;

    /// <summary>Factors between the SI value that was read and the value the library names in its message.</summary>
    private static readonly double[] s_printedPerSi = [1, 100, 1e3, 1e6, 1e-3, 1 / 60.0, 1 / 3600.0, 1 / 86400.0];

    /// <summary>Reports a refusal of the library at the key that caused it.</summary>
    /// <param name="refusal">What the library threw.</param>
    /// <param name="document">Input.</param>
    /// <param name="journal">Values as read.</param>
    /// <param name="problems">Takes the problem.</param>
    public static void Report(ArgumentException refusal, InputDocument document, Journal journal, Problems problems)
    {
        string message = MessageOf(refusal);
        Key? key = KeyOf(refusal, document, journal);
        if (key is null)
        {
            problems.Add(journal.FileSpot, message);
            return;
        }

        InputValue? written = EntryOf(document, key)?.Value;
        Spot spot = written?.Spot
            ?? (document.SectionSpots.TryGetValue(key.Section, out Spot section) ? section : journal.FileSpot);
        problems.Add(spot, $"{key}: {InTheUsersWords(refusal, message, key.Dimension, written)}");
    }

    /// <summary>The library's sentence about an argument as one about what stands in the input.</summary>
    /// <param name="refusal">What the library threw.</param>
    /// <param name="message">Its message, by <see cref="MessageOf"/>.</param>
    /// <param name="dimension">What was to be measured; null for a plain number.</param>
    /// <param name="written">What stands in the input; null when it was assumed.</param>
    public static string InTheUsersWords(ArgumentException refusal, string message, Quantities.Dimension? dimension, InputValue? written)
    {
        string? said = written?.Kind switch
        {
            ValueKind.Text or ValueKind.Bare => "\"" + Printable.Of(written.Text.Trim()) + "\"",
            ValueKind.Number => Printable.Of(written.Text),
            _ => null,
        };
        Match interval = Interval().Match(message);
        if (!interval.Success)
            return said is not null && Bare().IsMatch(message) ? said + ": " + message : message;

        string range = interval.Groups["range"].Value;
        string read = interval.Groups["value"].Value;
        if (written?.Kind == ValueKind.List && refusal.ParamName is "Steps" or "Times")
            return $"has {read} entries; allowed: {range}";
        string unit = read.Contains(' ', StringComparison.Ordinal) ? read[read.IndexOf(' ', StringComparison.Ordinal)..] : string.Empty;
        if (refusal is ArgumentOutOfRangeException { ActualValue: double number })
            read = number.ToString("G6", CultureInfo.InvariantCulture) + unit;
        if (said is null)
            return message;
        if (unit.Length == 0 && dimension == Quantities.Dimension.Share)
        {
            double[] ends = [.. range.Split(" to ").Select(end => 100 * double.Parse(end, CultureInfo.InvariantCulture))];
            return string.Create(CultureInfo.InvariantCulture, $"{said} is outside what is allowed, {ends[0]:0.######} to {ends[1]:0.######} %");
        }

        string converted = unit.Length == 0 || said.EndsWith(unit + "\"", StringComparison.Ordinal) ? string.Empty : $" ({read})";
        return $"{said}{converted} is outside what is allowed, {range}";
    }

    [GeneratedRegex(@"^[\w ]+? is (?<value>[^;]+); it must be within (?<range>[^;]+?)\.?$", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Interval();

    /// <summary>A sentence that gives limits but not the value.</summary>
    [GeneratedRegex(@"^[a-z][\w ]* must be within ", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Bare();

    /// <summary>A message without what the runtime hangs on to it.</summary>
    /// <param name="exception">Exception.</param>
    public static string MessageOf(ArgumentException exception)
    {
        string message = exception.Message;
        int parameter = message.LastIndexOf(" (Parameter '", StringComparison.Ordinal);
        if (parameter >= 0)
            message = message[..parameter];
        message = Argument().Replace(Printable.Of(message.Trim(), 400), name => InWords(name.Value), 1);

        // "must be within …" does not say of what: the value is on the exception.
        return exception is ArgumentOutOfRangeException { ActualValue: IFormattable value } && message.StartsWith("must ", StringComparison.Ordinal)
            ? value.ToString("G6", CultureInfo.InvariantCulture) + " " + message
            : message;
    }

    /// <summary>The name of an argument as words: WireDiameter is a wire diameter.</summary>
    private static string InWords(string name) =>
        string.Concat(name.Select((c, i) => char.IsAsciiLetterUpper(c) ? (i == 0 ? "" : " ") + char.ToLowerInvariant(c) : c.ToString()));

    [GeneratedRegex(@"^\w+(?= is )", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Argument();

    private static Key? KeyOf(ArgumentException refusal, InputDocument document, Journal journal)
    {
        string name = (refusal.ParamName ?? string.Empty).Split('.')[^1];
        if (!s_keys.TryGetValue(name, out Key[]? all))
            return null;

        // A command reads only some sections; the others cannot be to blame.
        Key[] candidates = [.. all.Where(key => journal.HasRead(key.Section))];
        if (candidates.Length == 0)
            return all[0];
        Key[] given = [.. candidates.Where(key => EntryOf(document, key) is not null)];
        if (given.Length > 1 && refusal is ArgumentOutOfRangeException { ActualValue: double actual })
        {
            Key? match = given.FirstOrDefault(key => journal.ValuesOf(key).Any(si => Matches(si, actual)));
            if (match is not null)
                return match;
        }

        return given.FirstOrDefault() ?? candidates[0];
    }

    internal static bool Matches(double si, double printed) =>
        s_printedPerSi.Any(factor => Math.Abs(si * factor - printed) <= 1e-9 * Math.Abs(printed)) || Math.Abs(si - ZeroCelsiusK - printed) <= 1e-9 * Math.Abs(si);

    private static InputEntry? EntryOf(InputDocument document, Key key) =>
        document.Sections.TryGetValue(key.Section, out Dictionary<string, InputEntry>? keys) ? keys.GetValueOrDefault(key.Name) : null;
}
