using FlowSim.Commands.Input;

namespace FlowSim.Commands;

/// <summary>A file that is added to bit by bit while no other process may; what was added is on the disk at once.</summary>
internal interface IKeptFile : IDisposable
{
    /// <summary>What is in it.</summary>
    /// <param name="most">Most that is read, bytes.</param>
    /// <exception cref="FileTroubleException">It is larger.</exception>
    byte[] Read(int most);

    /// <summary>Puts bytes at a place and cuts off what stood behind it.</summary>
    /// <param name="at">Place from the beginning, bytes.</param>
    /// <param name="added">Bytes.</param>
    /// <exception cref="FileTroubleException">They cannot be written; what stands before the place is as it was.</exception>
    void Append(long at, byte[] added);

    /// <summary>Puts another text in the place of the whole file, at once.</summary>
    /// <param name="text">Text.</param>
    /// <exception cref="FileTroubleException">It cannot be written; the file is as it was.</exception>
    void Replace(string text);
}
