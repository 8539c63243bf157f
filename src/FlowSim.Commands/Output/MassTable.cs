using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>Where the honey is at the end, place by place.</summary>
/// <param name="display">Units.</param>
/// <param name="whole">What the shares are of.</param>
/// <param name="valueColumn">Column of the masses.</param>
internal sealed class MassTable(Display display, Mass whole, int valueColumn)
{
    private readonly TextTable _table = new(
        "Where the honey is at the end",
        new("where the honey is", valueColumn), new(string.Empty, 10, Right: true) { Spoken = "mass" }, new(string.Empty, 9, Right: true) { Spoken = "share" });

    /// <summary>Adds a place; one without honey is left out.</summary>
    /// <param name="place">Place.</param>
    /// <param name="mass">Honey there.</param>
    public void Row(string place, Mass mass)
    {
        if (mass > Mass.Zero)
            _table.Row(place, display.MassInColumn(mass.Kilograms), Display.ShareInColumn(mass / whole));
    }

    /// <summary>Writes the table and ends what belongs to it.</summary>
    /// <param name="page">Takes it.</param>
    public void WriteTo(IPage page)
    {
        page.Table(_table);
        page.Blank();
    }
}
