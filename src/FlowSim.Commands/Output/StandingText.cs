namespace FlowSim.Commands.Output;

/// <summary>How far a figure can be trusted, in two or three words.</summary>
internal static class StandingText
{
    public static string Of(Standing standing) => standing switch
    {
        Standing.Opened => "source read",
        Standing.SecondaryCopy => "read in a copy",
        Standing.AbstractOnly => "abstract read",
        Standing.Derived => "computed from sources",
        Standing.FromMemory => "from memory",
        Standing.EngineeringChoice => "engineering choice",
        Standing.CommonPractice => "common practice",
        Standing.GivenByUser => "given by you",
        _ => standing.ToString(),
    };
}
