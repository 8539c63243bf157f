using FlowSim.Commands.Output;

namespace FlowSim.Commands.Scanning;

/// <summary>Units of the curves of a scan.</summary>
internal static class CurveUnit
{
    private const double InchM = 0.0254;

    /// <summary>The unit of a measure.</summary>
    /// <param name="measure">Measure.</param>
    /// <param name="display">Units.</param>
    /// <param name="largest">Largest value to be shown, SI.</param>
    /// <returns>The unit, and what turns SI into it.</returns>
    public static (string Unit, Func<double, double> Shown) Of(CurveMeasure measure, Display display, double largest)
    {
        bool us = display.System == UnitChoice.Us;
        return measure switch
        {
            CurveMeasure.Time when largest > 3 * 3600 => ("h", si => si / 3600),
            CurveMeasure.Time => ("min", si => si / 60),
            CurveMeasure.Length => us ? ("in", si => si / InchM) : ("mm", si => si * 1000),
            CurveMeasure.Temperature => us ? ("°F", si => (si - 273.15) * 1.8 + 32) : ("°C", si => si - 273.15),
            CurveMeasure.Share => ("%", si => si * 100),
            CurveMeasure.Energy => ("kWh", si => si / 3.6e6),
            _ => ("mg/kg", si => si),
        };
    }
}
