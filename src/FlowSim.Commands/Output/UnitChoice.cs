namespace FlowSim.Commands.Output;

/// <summary>The units results are printed in.</summary>
internal enum UnitChoice
{
    Metric,
    Us,
}
