using UnitsNet;

namespace FlowSim;

/// <summary>A temperature over time, straight between the points given.</summary>
public sealed class TemperatureHistory
{
    internal const double ColdestK = 233.15;
    internal const double HottestK = 423.15;

    private const double LongestDays = 36525;

    private readonly double[] _timesS;
    private readonly double[] _temperaturesK;

    /// <summary>Creates a history.</summary>
    /// <param name="points">Times, each later than the one before, within 100 years, and temperatures, −40 to 150 °C; at least two points.</param>
    /// <exception cref="ArgumentNullException">No points.</exception>
    /// <exception cref="ArgumentException">Fewer than two points.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A time or temperature is outside its range, or a time is not later than the one before.</exception>
    public TemperatureHistory(IReadOnlyList<(Duration Time, Temperature Temperature)> points)
    {
        EquipmentCheck.Present(points);
        if (points.Count < 2)
            throw EquipmentCheck.Refused(nameof(points), "A history needs at least two points.");

        _timesS = new double[points.Count];
        _temperaturesK = new double[points.Count];
        for (int i = 0; i < points.Count; i++)
        {
            EquipmentCheck.Within(points[i].Time.Days, -LongestDays, LongestDays, "d", nameof(points));
            _timesS[i] = points[i].Time.Seconds;
            if (i > 0 && !(_timesS[i] > _timesS[i - 1]))
                throw EquipmentCheck.OutOfRange(nameof(points), _timesS[i], FormattableString.Invariant($"Point {i + 1} at {_timesS[i]} s must be later than the one before, at {_timesS[i - 1]} s."));

            _temperaturesK[i] = CheckedK(points[i].Temperature, nameof(points));
        }
    }

    /// <summary>Honey held at one temperature.</summary>
    /// <param name="temperature">Temperature, −40 to 150 °C.</param>
    /// <param name="duration">How long, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static TemperatureHistory Hold(Temperature temperature, Duration duration) =>
        new([(Duration.Zero, temperature), (duration, temperature)]);

    /// <summary>Times, s.</summary>
    internal ReadOnlySpan<double> TimesS => _timesS;

    /// <summary>Temperatures, K.</summary>
    internal ReadOnlySpan<double> TemperaturesK => _temperaturesK;

    private static double CheckedK(Temperature temperature, string name)
    {
        EquipmentCheck.Within(temperature.DegreesCelsius, ColdestK - Physical.ZeroCelsiusK, HottestK - Physical.ZeroCelsiusK, "°C", name);
        return temperature.Kelvins;
    }
}
