using System.Runtime.CompilerServices;
using FlowSim.Console.Output;
using FlowSim.Plots;
using FlowSim.Properties;
using FlowSim.Straining;

namespace FlowSim.Console.Commands;

/// <summary>The only place that touches the plots: their libraries are loaded when a figure is asked for and not before.</summary>
internal static class Figures
{
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Save(StrainingResult result, string path, UnitChoice units, string name) =>
        StrainingFigure.Save(result, path, Units(units), name);

    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void SaveViscosity(Honey honey, string path, UnitChoice units) =>
        ViscosityFigure.Save(HoneyProperties.Of(honey), path, Units(units));

    private static DisplayUnits Units(UnitChoice units) => units == UnitChoice.Us ? DisplayUnits.UsCustomary : DisplayUnits.Metric;
}
