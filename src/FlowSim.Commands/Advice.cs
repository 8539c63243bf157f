namespace FlowSim.Commands;

/// <summary>Questions asked beside the one that was put.</summary>
internal static class Advice
{
    /// <summary>Advice that the library refuses, at the edge of a range, is advice not given.</summary>
    /// <param name="ask">Asks the library.</param>
    public static T? OrNull<T>(Func<T> ask)
        where T : class
    {
        try
        {
            return ask();
        }
        catch (Exception refused) when (refused is ArgumentException or SimulationException)
        {
            return null;
        }
    }
}
