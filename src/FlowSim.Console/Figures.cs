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
        DrawnFigure drawn = figure switch
        {
            Figure.Run run => StrainingFigure.Of(run.Result, units, name),
            Figure.Viscosity viscosity => ViscosityFigure.Of(HoneyProperties.Of(viscosity.Honey), units),
            Figure.Warming warming => WarmingFigure.Of(warming.Bounds.Best, units, name, warming.Bounds),
            Figure.VesselMap map => VesselMapFigure.Of(map.Result, units, name),
            Figure.Damage damage => DamageFigure.Of(damage.Result, units, name, damage.Limit),
            Figure.Setpoint setpoint => SetpointFigure.Of(setpoint.Answer, units, name),
            Figure.Risk risk => RiskFigure.Of(risk.Answer, units, name),
            Figure.Pond pond => PondFanFigure.Of(pond.Answer, units, name),
            Figure.Absence absence => AbsenceFigure.Of(absence.Answer, units, name),
            Figure.Drivers drivers => DriversFigure.Of(drivers.Answer, units, name),
            Figure.ChanceMap map => RiskMapFigure.Of(map.Map, units, name),
            Figure.StrainTimes times => StrainTimesFigure.Of(times.Map, units, name),
            Figure.Fit fit => CalibrationFigure.Of(fit.Answer, units, name),
            Figure.NextMeasurement next => NextMeasurementFigure.Of(next.Answer, units, name),
            Figure.Settling settling => SettlingFigure.Of(settling.Result, units, name, settling.Band),
            Figure.Filling filling => FillingFigure.Of(filling.Band, units, name),
            Figure.Day day => DayFigure.Of(day.Plan, day.Date, units, name),
            Figure.Scan scan => ScanFigure.Of(TableOf(scan, name)),
            _ => throw new InvalidOperationException($"Nobody draws {figure.GetType().Name}."),
        };
        return drawn.Encode(format);
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
