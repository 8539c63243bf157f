using System.Runtime.CompilerServices;
using FlowSim.Bottling;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.HeatDamage;
using FlowSim.OverflowRisk;
using FlowSim.Plots;
using FlowSim.Properties;
using FlowSim.Setpoints;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Warming;

namespace FlowSim.Commands;

/// <summary>The only place that touches the plots: their libraries are loaded when a figure is asked for and not before.</summary>
internal static class Figures
{
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Save(StrainingResult result, string path, UnitChoice units, string name) =>
        Draw(() => StrainingFigure.Save(result, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveViscosity(Honey honey, string path, UnitChoice units) =>
        Draw(() => ViscosityFigure.Save(HoneyProperties.Of(honey), path, Units(units)));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveWarming(WarmingBounds bounds, string path, UnitChoice units, string name) =>
        Draw(() => WarmingFigure.Save(bounds.Best, path, Units(units), name, bounds));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveMap(WarmingResult result, string path, UnitChoice units, string name) =>
        Draw(() => VesselMapFigure.Save(result, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveDamage(WarmingResult result, HeatLimit limit, string path, UnitChoice units, string name) =>
        Draw(() => DamageFigure.Save(result, path, Units(units), name, limit));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveSetpoint(SetpointAnswer answer, string path, UnitChoice units, string name) =>
        Draw(() => SetpointFigure.Save(answer, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveRisk(RiskAnswer answer, string path, UnitChoice units, string name) =>
        Draw(() => RiskFigure.Save(answer, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveRiskMap(RiskMap map, string path, UnitChoice units, string name) =>
        Draw(() => RiskMapFigure.Save(map, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveStrainTimes(RiskMap map, string path, UnitChoice units, string name) =>
        Draw(() => StrainTimesFigure.Save(map, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveCalibration(CalibrationAnswer answer, string path, UnitChoice units, string name) =>
        Draw(() => CalibrationFigure.Save(answer, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveSettling(SettlingResult result, SettlingBand? band, string path, UnitChoice units, string name) =>
        Draw(() => SettlingFigure.Save(result, path, Units(units), name, band));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveFilling(FillingBand band, string path, UnitChoice units, string name) =>
        Draw(() => FillingFigure.Save(band, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveDay(Planning.DayPlan plan, DateOnly date, string path, UnitChoice units, string name) =>
        Draw(() => DayFigure.Save(plan, date, path, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveScan(ScanTable table, string path) => Draw(() => ScanFigure.Save(table, path));

    /// <summary>The figure of a straining run as SVG.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string Svg(StrainingResult result, UnitChoice units, string name) => Drawn(() => StrainingFigure.RenderSvg(result, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfWarming(WarmingBounds bounds, UnitChoice units, string name) => Drawn(() => WarmingFigure.RenderSvg(bounds.Best, Units(units), name, bounds));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfMap(WarmingResult result, UnitChoice units, string name) => Drawn(() => VesselMapFigure.RenderSvg(result, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfDamage(WarmingResult result, HeatLimit limit, UnitChoice units, string name) => Drawn(() => DamageFigure.RenderSvg(result, Units(units), name, limit));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfSetpoint(SetpointAnswer answer, UnitChoice units, string name) => Drawn(() => SetpointFigure.RenderSvg(answer, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfPond(RiskAnswer answer, UnitChoice units, string name) => Drawn(() => PondFanFigure.RenderSvg(answer, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfAbsence(RiskAnswer answer, UnitChoice units, string name) => Drawn(() => AbsenceFigure.RenderSvg(answer, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfDrivers(RiskAnswer answer, UnitChoice units, string name) => Drawn(() => DriversFigure.RenderSvg(answer, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfCalibration(CalibrationAnswer answer, UnitChoice units, string name) => Drawn(() => CalibrationFigure.RenderSvg(answer, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfNextMeasurement(CalibrationAnswer answer, UnitChoice units, string name) => Drawn(() => NextMeasurementFigure.RenderSvg(answer, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfSettling(SettlingResult result, SettlingBand? band, UnitChoice units, string name) => Drawn(() => SettlingFigure.RenderSvg(result, Units(units), name, band));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfFilling(FillingBand band, UnitChoice units, string name) => Drawn(() => FillingFigure.RenderSvg(band, Units(units), name));

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static string SvgOfDay(Planning.DayPlan plan, DateOnly date, UnitChoice units, string name) => Drawn(() => DayFigure.RenderSvg(plan, date, Units(units), name));

    private static void Draw(Action draw) => Drawn(() =>
    {
        draw();
        return string.Empty;
    });

    private static string Drawn(Func<string> draw)
    {
        try
        {
            return draw();
        }
        catch (Exception missing) when (missing is DllNotFoundException or TypeInitializationException or BadImageFormatException)
        {
            throw new FileTroubleException("the figure cannot be drawn: the drawing library does not load on this machine (" + Printable.Of(missing.GetBaseException().Message, 200) + ")");
        }
    }

    private static DisplayUnits Units(UnitChoice units) => units == UnitChoice.Us ? DisplayUnits.UsCustomary : DisplayUnits.Metric;
}
