using UnitsNet;

namespace FlowSim.Properties;

/// <summary>One property over a grid of moistures and temperatures.</summary>
/// <param name="Property">Which property.</param>
/// <param name="Unit">Unit of the values.</param>
/// <param name="Moistures">Moistures, one per row.</param>
/// <param name="Temperatures">Temperatures, one per column.</param>
/// <param name="Cells">Values, row by row.</param>
public sealed record PropertyTable(
    HoneyProperty Property,
    string Unit,
    IReadOnlyList<Ratio> Moistures,
    IReadOnlyList<Temperature> Temperatures,
    IReadOnlyList<IReadOnlyList<PropertyTable.Cell>> Cells)
{
    /// <summary>Fills the grid. Beyond a correlation's outer range a cell stays empty; between supported and outer range it says so.</summary>
    /// <param name="honey">The honey; its own moisture is replaced by each row's. The lot factor and correlations stay.</param>
    /// <param name="property">Which property.</param>
    /// <param name="moistures">Moistures, one per row; at least one.</param>
    /// <param name="temperatures">Temperatures, one per column; at least one.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such property.</exception>
    /// <exception cref="ArgumentException">A list is empty, or the honey is refused (see <see cref="HoneyProperties.Of"/>).</exception>
    public static PropertyTable Of(Honey honey, HoneyProperty property, IEnumerable<Ratio> moistures, IEnumerable<Temperature> temperatures)
    {
        ArgumentNullException.ThrowIfNull(honey);
        ArgumentNullException.ThrowIfNull(moistures);
        ArgumentNullException.ThrowIfNull(temperatures);
        Ratio[] rows = [.. moistures];
        Temperature[] columns = [.. temperatures];
        if (rows.Length == 0)
            throw new ArgumentException("At least one moisture is needed.", nameof(moistures));
        if (columns.Length == 0)
            throw new ArgumentException("At least one temperature is needed.", nameof(temperatures));

        string unit = HoneyProperties.UnitOf(property);
        var cells = new List<IReadOnlyList<Cell>>(rows.Length);
        foreach (Ratio moisture in rows)
        {
            Honey at = honey with { Moisture = moisture };
            HoneyProperties? properties = HoneyProperties.AdmitsMoisture(at) ? HoneyProperties.Of(at) : null;
            cells.Add([.. columns.Select(t => CellAt(properties, property, t))]);
        }

        return new PropertyTable(property, unit, rows, columns, cells);
    }

    private static Cell CellAt(HoneyProperties? properties, HoneyProperty property, Temperature temperature)
    {
        if (properties is null)
            return new Cell(null, Supported: false);

        PropertyLine line = properties.LineAt(property, temperature);
        return new Cell(line.Value, line.Notices.Count == 0);
    }

    /// <summary>One value of the grid.</summary>
    /// <param name="Value">Value in the table's unit; null beyond the outer range.</param>
    /// <param name="Supported">Whether data support it.</param>
    public sealed record Cell(double? Value, bool Supported);
}
