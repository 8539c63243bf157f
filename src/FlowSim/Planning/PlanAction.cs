using System.Runtime.InteropServices;

namespace FlowSim.Planning;

/// <summary>Something that somebody does.</summary>
internal enum ActionKind
{
    Strain,
    Fill,
    CleanStrainer,
    CleanTank,
}

/// <summary>One decision of a plan: what is done with which kit by whom. A vessel's warming belongs to its straining.</summary>
/// <param name="Kind">What is done.</param>
/// <param name="Item">Batch, load, strainer or tank.</param>
/// <param name="Person">Who does it.</param>
/// <param name="Spot">Spot of a warming place; -1 for none.</param>
/// <param name="Strainer">Strainer; -1 for none.</param>
/// <param name="Tank">Tank; -1 for none.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct PlanAction(ActionKind Kind, int Item, int Person, int Spot = -1, int Strainer = -1, int Tank = -1);

/// <summary>When a decision is carried out.</summary>
/// <param name="Action">The decision.</param>
/// <param name="Start">Begin, min.</param>
/// <param name="End">End, min.</param>
/// <param name="WarmFrom">When the vessel is put to warm, min; never where it is not.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct TimedAction(PlanAction Action, int Start, int End, int WarmFrom);
