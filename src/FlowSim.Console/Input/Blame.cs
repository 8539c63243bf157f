using System.Globalization;
using FlowSim.Console.Output;

namespace FlowSim.Console.Input;

/// <summary>Finds the key that made the library refuse a setup, so that its limits need not be stated again here.</summary>
internal static class Blame
{
    /// <summary>Names of the library's arguments, and the keys that may have filled them.</summary>
    private static readonly Dictionary<string, Key[]> s_keys = new(StringComparer.Ordinal)
    {
        ["Bore"] = [Keys.Gate.Bore],
        ["TubeLength"] = [Keys.Gate.TubeLength],
        ["Blade"] = [Keys.Gate.Blade],
        ["Outlet"] = [Keys.Gate.Outlet],
        ["OutletAboveScreen"] = [Keys.Gate.OutletAboveScreen],
        ["GateHeight"] = [Keys.Tank.GateHeight],
        ["Level"] = [Keys.Tank.Level, Keys.Tank.Fill],
        ["HeatLoss"] = [Keys.Tank.HeatLoss, Keys.Receiver.HeatLoss],
        ["AlreadyIn"] = [Keys.Receiver.AlreadyIn],
        ["Spacer"] = [Keys.Receiver.Spacer],
        ["StartTemperature"] = [Keys.Receiver.Temperature],
        ["Opening"] = [Keys.Screen.Opening, Keys.Screen.Cloths, Keys.Gate.Opening],
        ["WireDiameter"] = [Keys.Screen.Wire, Keys.Screen.Cloths],
        ["Cloths"] = [Keys.Screen.Cloths],
        ["ScreenFactor"] = [Keys.Screen.Factor],
        ["MinimumHead"] = [Keys.Screen.MinimumHead],
        ["Venting"] = [Keys.Screen.Venting],
        ["Overflow"] = [Keys.Screen.Overflow, Keys.Screen.Venting],
        ["Load"] = [Keys.Debris.Load],
        ["MedianSize"] = [Keys.Debris.MedianSize],
        ["SizeSpread"] = [Keys.Debris.SizeSpread],
        ["CaptureEfficiency"] = [Keys.Debris.Capture],
        ["Density"] = [Keys.Debris.Density],
        ["HoneyTemperature"] = [Keys.Honey.Temperature],
        ["temperature"] = [Keys.Honey.Temperature],
        ["figures"] = [Keys.Honey.Measured],
        ["RoomTemperature"] = [Keys.Room.Temperature],
        ["Longest"] = [Keys.Run.Longest],
        ["RelativeTolerance"] = [Keys.Run.Tolerance],
        ["SeriesPoints"] = [Keys.Run.Points],
        ["Widest"] = [Keys.Gate.Opening],
        ["schedule"] = [Keys.Gate.Opening],
        ["Steps"] = [Keys.Gate.Opening],
        ["At"] = [Keys.Gate.Opening],
        ["PondDepth"] = [Keys.Gate.RidePond],
        ["Recovery"] = [Keys.Scraping.Recovery],
        ["Pause"] = [Keys.Scraping.Pause],
        ["AtPondDepth"] = [Keys.Scraping.AtPondDepth],
        ["Times"] = [Keys.Scraping.Times],
        ["scraping"] = [Keys.Scraping.Times],
    };

    /// <summary>Factors between the SI value that was read and the value the library names in its message.</summary>
    private static readonly double[] s_printedPerSi = [1, 100, 1e3, 1e6];

    /// <summary>Reports a refusal of the library at the key that caused it.</summary>
    /// <param name="refusal">What the library threw.</param>
    /// <param name="document">Input.</param>
    /// <param name="journal">Values as read.</param>
    /// <param name="problems">Takes the problem.</param>
    public static void Report(ArgumentException refusal, InputDocument document, Journal journal, Problems problems)
    {
        string message = MessageOf(refusal);
        Key? key = KeyOf(refusal, message, document, journal);
        if (key is null)
        {
            problems.Add(journal.FileSpot, message);
            return;
        }

        Spot spot = EntryOf(document, key)?.Value.Spot
            ?? (document.SectionSpots.TryGetValue(key.Section, out Spot section) ? section : journal.FileSpot);
        problems.Add(spot, $"{key}: {message}");
    }

    /// <summary>A message without what the runtime hangs on to it.</summary>
    /// <param name="exception">Exception.</param>
    public static string MessageOf(ArgumentException exception)
    {
        string message = exception.Message;
        int parameter = message.LastIndexOf(" (Parameter '", StringComparison.Ordinal);
        if (parameter >= 0)
            message = message[..parameter];
        message = Printable.Of(message.Trim(), 400);

        // "must be within …" does not say of what: the value is on the exception.
        return exception is ArgumentOutOfRangeException { ActualValue: IFormattable value } && message.StartsWith("must ", StringComparison.Ordinal)
            ? value.ToString("G6", CultureInfo.InvariantCulture) + " " + message
            : message;
    }

    private static Key? KeyOf(ArgumentException refusal, string message, InputDocument document, Journal journal)
    {
        string name = (refusal.ParamName ?? string.Empty).Split('.')[^1];
        if (name == "honey")
            return message.StartsWith("lot factor", StringComparison.OrdinalIgnoreCase) ? Keys.Honey.LotFactor : Keys.Honey.Moisture;
        if (!s_keys.TryGetValue(name, out Key[]? candidates))
            return null;

        Key[] given = [.. candidates.Where(key => EntryOf(document, key) is not null)];
        if (given.Length > 1 && refusal is ArgumentOutOfRangeException { ActualValue: double actual })
        {
            Key? match = given.FirstOrDefault(key => journal.ValuesOf(key).Any(si => Matches(si, actual)));
            if (match is not null)
                return match;
        }

        return given.FirstOrDefault() ?? candidates[0];
    }

    private static bool Matches(double si, double printed) =>
        s_printedPerSi.Any(factor => Math.Abs(si * factor - printed) <= 1e-9 * Math.Abs(printed));

    private static InputEntry? EntryOf(InputDocument document, Key key) =>
        document.Sections.TryGetValue(key.Section, out Dictionary<string, InputEntry>? keys) ? keys.GetValueOrDefault(key.Name) : null;
}
