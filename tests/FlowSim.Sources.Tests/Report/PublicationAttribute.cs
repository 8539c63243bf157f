namespace FlowSim.Sources.Tests;

/// <summary>What a class of tests holds our numbers against, or one test of it that takes its figures from elsewhere.</summary>
/// <param name="name">Author and year, or what else it is known by; the report's heading.</param>
/// <param name="place">Title and place, as a reader would look it up.</param>
/// <param name="standing">How the figures were read.</param>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Method)]
internal sealed class PublicationAttribute(string name, string place, Standing standing) : Attribute
{
    public string Name { get; } = name;

    public string Place { get; } = place;

    public Standing Standing { get; } = standing;

    /// <summary>What has to be said of how it was read: which copy, which part from memory.</summary>
    public string Remark { get; init; } = "";
}
