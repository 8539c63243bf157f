using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Output;

/// <summary>What drives an output, as bars of text.</summary>
/// <param name="page">Takes the text.</param>
internal sealed class DriverText(IPage page)
{
    private const int NameColumn = 26;
    private const int Bar = 20;
    private const int Most = 6;

    /// <summary>Share of the variance from which a driver is worth a line. Engineering choice.</summary>
    private const double From = 0.01;

    /// <summary>Writes a table of drivers, or why there is none.</summary>
    /// <param name="table">Drivers.</param>
    /// <param name="heading">Heading.</param>
    public void Write(DriverTable table, string heading)
    {
        page.Heading(heading);
        if (table.Refused is { } refused)
        {
            page.Item("", $"Not told: {refused}");
            page.Blank();
            return;
        }

        Driver[] shown = [.. table.Drivers.Where(driver => driver.Total >= From).Take(Most)];
        TextTable drivers = new(
            heading,
            new("share of the variance", NameColumn), new(string.Empty, Bar) { Pictures = true }, new("alone", 7, Right: true) { Gap = 1 }, new("with the others") { Gap = 2 });
        foreach (Driver driver in shown)
            drivers.Row(string.Join(" + ", driver.Name.Split(" + ").Select(NameOf)), BarOf(driver), Share(driver.FirstOrder), $"{Share(driver.Total)} ({Number(driver.TotalLow)} to {Number(driver.TotalHigh)})");
        page.Table(drivers);
        page.Blank();
    }

    /// <summary>An input in words.</summary>
    /// <param name="name">Name of the input.</param>
    public static string NameOf(string name) => StrainingInputs.All.FirstOrDefault(input => input.Name == name)?.Words ?? name;

    /// <summary>Full for what it does alone, light for what it does with others.</summary>
    private static string BarOf(Driver driver)
    {
        int total = (int)Math.Round(Bar * Math.Clamp(driver.Total, 0, 1));
        int alone = Math.Min(total, (int)Math.Round(Bar * Math.Clamp(driver.FirstOrder, 0, 1)));
        return new string('█', alone) + new string('░', total - alone) + new string(' ', Bar - total);
    }

    private static string Share(double share) => Number(share) + " %";

    private static string Number(double share) => (100 * Math.Clamp(share, 0, 1)).ToString("0", System.Globalization.CultureInfo.InvariantCulture);
}
