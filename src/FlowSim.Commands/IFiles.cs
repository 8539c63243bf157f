using System.Text;
using FlowSim.Commands.Input;

namespace FlowSim.Commands;

/// <summary>The files that a command can reach.</summary>
internal interface IFiles
{
    /// <summary>The bytes of a file.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="kind">What it is to be.</param>
    /// <exception cref="FileTroubleException">It cannot be read or is too large.</exception>
    byte[] Read(string path, TextKind kind);

    /// <summary>Whether something of that name is there, a file or a folder.</summary>
    /// <param name="path">Path as the user gave it.</param>
    bool IsThere(string path);

    /// <summary>Whether two paths name one file.</summary>
    /// <param name="one">Path as the user gave it.</param>
    /// <param name="other">Another.</param>
    bool AreOne(string one, string other);

    /// <summary>Checks early, before a long run, what would refuse the writing of a file later.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <exception cref="FileTroubleException">It is a folder, is in no folder, or exists and may not be replaced.</exception>
    void RequireFree(string path, bool force);

    /// <summary>Writes a file, whole or not at all; it is on the disk when this returns.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <param name="content">Content.</param>
    /// <exception cref="FileTroubleException">It could not be written.</exception>
    void Write(string path, bool force, byte[] content);

    /// <summary>Writes a text as UTF-8 without a byte-order mark, whole or not at all.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="force">Whether a file of that name may be replaced.</param>
    /// <param name="text">Text.</param>
    /// <exception cref="FileTroubleException">It could not be written.</exception>
    void Write(string path, bool force, string text) => Write(path, force, Encoding.UTF8.GetBytes(text));

    /// <summary>Writes a file anew, if it still is what was read.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="before">Its bytes as they were read.</param>
    /// <param name="text">Its new text.</param>
    /// <exception cref="FileTroubleException">It has changed meanwhile, or cannot be written.</exception>
    void Replace(string path, byte[] before, string text);

    /// <summary>Opens a file to be added to, for this process alone.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="begin">Text to begin a new file with; null to go on with one that is there.</param>
    /// <exception cref="FileTroubleException">It cannot be opened or written, another process keeps it, or a new one would take the place of one that is there.</exception>
    IKeptFile Keep(string path, string? begin = null);
}
