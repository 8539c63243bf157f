using System.Globalization;
using System.Runtime.CompilerServices;
using UnitsNet;

namespace FlowSim;

/// <summary>Checks of equipment at the public edge: each failure names the argument, the value, the allowed interval and the unit.</summary>
internal static class EquipmentCheck
{
    /// <summary>Returns <paramref name="value"/> or throws. NaN fails.</summary>
    /// <param name="value">Value in <paramref name="unit"/>.</param>
    /// <param name="low">Lowest allowed value.</param>
    /// <param name="high">Highest allowed value.</param>
    /// <param name="unit">Unit, as printed; empty for a plain number.</param>
    /// <param name="name">Name of the argument.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is outside the interval.</exception>
    public static double Within(double value, double low, double high, string unit, string name)
    {
        if (IsWithin(value, low, high))
            return value;

        string suffix = unit.Length == 0 ? "" : " " + unit;
        throw new ArgumentOutOfRangeException(
            name,
            value,
            string.Create(CultureInfo.InvariantCulture, $"{name} is {Plain(value)}{suffix}; it must be within {Plain(low)} to {Plain(high)}{suffix}."));
    }

    /// <summary>
    /// Whether a value is within limits that belong to the interval. A limit given in another unit may come out a last digit
    /// beyond: 20 µm is 0.019999999999999997 mm.
    /// </summary>
    public static bool IsWithin(double value, double low, double high) =>
        value >= low - UnitRounding * Math.Abs(low) && value <= high + UnitRounding * Math.Abs(high);

    /// <summary>A number as people write it; an exponent where that would be a row of zeros or nothing but zeros.</summary>
    private static string Plain(double value) =>
        value.ToString(value == 0 || Math.Abs(value) is >= 1e-5 and < 1e10 ? "0.######" : "0.#####e0", CultureInfo.InvariantCulture);

    private const double UnitRounding = 1e-14;

    /// <summary>Checks a length against limits given in millimetres and returns metres.</summary>
    public static double Millimetres(Length value, double low, double high, string name)
    {
        Within(value.Millimeters, low, high, "mm", name);
        return value.Meters;
    }

    /// <summary>Checks that a value of an enumeration is one of its members.</summary>
    public static void Defined<T>(T value, string name)
        where T : struct, Enum
    {
        if (!Enum.IsDefined(value))
            throw new ArgumentOutOfRangeException(name, value, $"{name} must be one of {string.Join(", ", Enum.GetNames<T>())}.");
    }

    /// <summary>The exception for a value that no plain interval describes.</summary>
    public static ArgumentOutOfRangeException OutOfRange(string name, object? value, string message) => new(name, value, message);

    /// <summary>The exception for settings that do not go together.</summary>
    public static ArgumentException Refused(string name, string message) => new(message, name);

    /// <summary>Checks that a required part is there.</summary>
    public static T Present<T>(T? value, [CallerArgumentExpression(nameof(value))] string name = "")
        where T : class
        => value ?? throw new ArgumentNullException(name);
}
