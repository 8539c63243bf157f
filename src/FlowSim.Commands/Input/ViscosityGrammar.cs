using FlowSim.Calibration;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A viscosity measured by itself: <c>35 °C, 2.6 Pa.s x/ 1.06</c>.</summary>
internal static class ViscosityGrammar
{
    /// <summary>Standard deviation of ln μ where none is given, as of a measured viscosity elsewhere (engineering choice: a ball timed in the honey house).</summary>
    private const double CommonLogSd = 0.10;

    private const string Example = "\"35 °C, 2.6 Pa.s x/ 1.06\"";

    /// <summary>Reads a measurement.</summary>
    /// <param name="text">As it was given.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="echoes">Takes what was assumed.</param>
    public static ViscositySpot? Read(string text, Problems problems, List<string> echoes)
    {
        Spot spot = new("--viscosity " + text, 0, 0);
        int comma = text.IndexOf(',', StringComparison.Ordinal);
        if (comma < 0)
        {
            problems.Add(spot, $"is not a temperature and a viscosity with one comma between, as in {Example}");
            return null;
        }

        string viscosity = text[(comma + 1)..].Trim();
        if (QuantityGrammar.Read(text[..comma], Dimension.Temperature, out Quantities.Quantity temperature) is { } cold)
        {
            problems.Add(spot, $"\"{Printable.Of(text[..comma].Trim())}\" {cold.What}");
            return null;
        }

        (double Middle, double LogSd)? read = SpreadGrammar.IsSpread(viscosity) ? ReadSpread(viscosity, spot, problems) : ReadPlain(viscosity, spot, problems);
        if (read is not { } found)
            return null;
        if (!SpreadGrammar.IsSpread(viscosity))
            echoes.Add($"--viscosity \"{Printable.Of(text)}\": taken as known within x/ {Display.Figures(Math.Exp(CommonLogSd), 3)}, as a ball timed in the honey house; write how well you know it, as in {Example}");
        if (found.LogSd is >= 0.001 and <= 2)
            return new ViscositySpot(Printable.Of(text.Trim()), Temperature.FromKelvins(temperature.Si), DynamicViscosity.FromPascalSeconds(found.Middle), found.LogSd);
        problems.Add(spot, $"\"{Printable.Of(viscosity)}\" has a spread outside what is allowed, x/ 1.001 to x/ {Display.Figures(Math.Exp(2), 3)}");
        return null;
    }

    private static (double Middle, double LogSd)? ReadPlain(string text, Spot spot, Problems problems)
    {
        if (QuantityGrammar.Read(text, Dimension.Viscosity, out Quantities.Quantity viscosity) is { } fault)
            problems.Add(spot, $"\"{Printable.Of(text)}\" {fault.What}");
        else if (viscosity.Si > 0)
            return (viscosity.Si, CommonLogSd);
        else
            problems.Add(spot, $"\"{Printable.Of(text)}\" is no viscosity; it is above 0");
        return null;
    }

    private static (double Middle, double LogSd)? ReadSpread(string text, Spot spot, Problems problems)
    {
        if (SpreadGrammar.Read(text, Dimension.Viscosity, signed: false, out Spread? spread) is { } fault)
        {
            problems.Add(spot, $"\"{Printable.Of(text)}\" {fault.What}");
            return null;
        }

        if (spread!.Kind == SpreadKind.LogNormal && spread.Values[0] > 0)
            return (spread.Values[0], Math.Log(spread.Values[1]));
        if (spread.Kind == SpreadKind.Normal && spread.Values[0] > 0)
            return (spread.Values[0], spread.Values[1] / spread.Values[0]);
        problems.Add(spot, $"\"{Printable.Of(text)}\" is not written as a viscosity above 0 with \"x/\" and a factor or \"±\" and a standard deviation, as in {Example}");
        return null;
    }
}
