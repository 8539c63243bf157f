using System.Runtime.CompilerServices;
using FlowSim.Console.Output;
using FlowSim.Plots;
using FlowSim.Straining;

namespace FlowSim.Console.Commands;

/// <summary>The only place that touches the plots: their libraries are loaded when a figure is asked for and not before.</summary>
internal static class Figures
{
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Save(StrainingResult result, string path, UnitSystem units, string name) =>
        StrainingFigure.Save(result, path, Units(units), name);

    private static DisplayUnits Units(UnitSystem units) => units == UnitSystem.Us ? DisplayUnits.UsCustomary : DisplayUnits.Metric;
}
