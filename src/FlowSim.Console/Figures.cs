using System.Runtime.CompilerServices;
using FlowSim.Commands;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Plots;
using FlowSim.Properties;

namespace FlowSim.Console;

/// <summary>Draws with ScottPlot, which is loaded when a figure is asked for and not before.</summary>
internal sealed class Figures : IFigures
{
    public byte[] Draw(Figure figure, UnitChoice units, string name, string path)
    {
        try
        {
            return Drawn(figure, units, name, path);
        }
        catch (Exception missing) when (missing is DllNotFoundException or TypeInitializationException or BadImageFormatException)
        {
            throw new FileTroubleException("the figure cannot be drawn: the drawing library does not load on this machine (" + Printable.Of(missing.GetBaseException().Message, 200) + ")");
        }
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static byte[] Drawn(Figure figure, UnitChoice choice, string name, string path)
    {
        FigureFormat format = FigureFormats.OfPath(path);
        DisplayUnits units = choice == UnitChoice.Us ? DisplayUnits.UsCustomary : DisplayUnits.Metric;
        return figure switch
        {
            Figure.Run run => StrainingFigure.Encode(run.Result, format, units, name),
            Figure.Viscosity viscosity => ViscosityFigure.Encode(HoneyProperties.Of(viscosity.Honey), format, units),
            Figure.Warming warming => WarmingFigure.Encode(warming.Bounds.Best, format, units, name, warming.Bounds),
            Figure.VesselMap map => VesselMapFigure.Encode(map.Result, format, units, name),
            Figure.Damage damage => DamageFigure.Encode(damage.Result, format, units, name, damage.Limit),
            Figure.Setpoint setpoint => SetpointFigure.Encode(setpoint.Answer, format, units, name),
            Figure.Risk risk => RiskFigure.Encode(risk.Answer, format, units, name),
            Figure.Pond pond => PondFanFigure.Encode(pond.Answer, format, units, name),
            Figure.Absence absence => AbsenceFigure.Encode(absence.Answer, format, units, name),
            Figure.Drivers drivers => DriversFigure.Encode(drivers.Answer, format, units, name),
            Figure.ChanceMap map => RiskMapFigure.Encode(map.Map, format, units, name),
            Figure.StrainTimes times => StrainTimesFigure.Encode(times.Map, format, units, name),
            Figure.Fit fit => CalibrationFigure.Encode(fit.Answer, format, units, name),
            Figure.NextMeasurement next => NextMeasurementFigure.Encode(next.Answer, format, units, name),
            Figure.Settling settling => SettlingFigure.Encode(settling.Result, format, units, name, settling.Band),
            Figure.Filling filling => FillingFigure.Encode(filling.Band, format, units, name),
            Figure.Day day => DayFigure.Encode(day.Plan, day.Date, format, units, name),
            Figure.Scan scan => ScanFigure.Encode(TableOf(scan, name), format),
            _ => throw new InvalidOperationException($"Nobody draws {figure.GetType().Name}."),
        };
    }

    private static ScanTable TableOf(Figure.Scan scan, string name) => new()
    {
        Title = "Scan of " + string.Join(" and ", scan.Keys),
        Subtitle = name,
        XName = scan.Keys[0],
        XUnit = scan.XUnit,
        X = scan.X,
        Nominal = scan.Nominal,
        Series = [.. scan.Curves.Select(curve => new ScanSeries
        {
            Name = curve.Name,
            Unit = curve.Unit,
            Values = curve.Values,
            Low = curve.Low,
            High = curve.High,
            BandName = curve.BandName,
            Limit = curve.Limit,
            LimitName = curve.LimitName,
        })],
    };
}
