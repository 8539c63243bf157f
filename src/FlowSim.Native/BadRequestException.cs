namespace FlowSim.Native;

/// <summary>A request that is none of the contract.</summary>
/// <param name="status">What is wrong.</param>
/// <param name="message">The same in words.</param>
internal sealed class BadRequestException(Status status, string message) : Exception(message)
{
    /// <summary>What is wrong.</summary>
    public Status Status { get; } = status;
}
