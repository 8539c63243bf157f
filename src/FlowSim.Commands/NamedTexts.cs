using System.Text;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>Texts with names in the place of files: what is not among them does not exist, and nothing is written.</summary>
internal sealed class NamedTexts : IFiles
{
    private readonly Dictionary<string, byte[]> _files = new(StringComparer.Ordinal);

    /// <summary>Adds a text.</summary>
    /// <param name="name">Name.</param>
    /// <param name="text">Text.</param>
    public void Add(string name, string text) => _files[name] = Encoding.UTF8.GetBytes(text);

    public byte[] Read(string path, TextKind kind)
    {
        string shown = Printable.Of(path, 200);
        if (string.IsNullOrWhiteSpace(path))
            throw InputFile.NoName(shown, kind);
        if (!_files.TryGetValue(path, out byte[]? content))
            throw new FileTroubleException($"{shown} does not exist: no text of that name is given");
        return content.Length > kind.MostBytes ? throw InputFile.TooLarge(shown, kind.MostBytes) : content;
    }

    public bool IsThere(string path) => _files.ContainsKey(path);

    public bool AreOne(string one, string other) => string.Equals(one, other, StringComparison.Ordinal);

    public void RequireFree(string path, bool force) => throw NotWritten(path);

    public void Write(string path, bool force, byte[] content) => throw NotWritten(path);

    public void Replace(string path, byte[] before, string text) => throw NotWritten(path);

    public IKeptFile Keep(string path, string? begin = null) => throw NotWritten(path);

    private static FileTroubleException NotWritten(string path) => new($"{Printable.Of(path, 200)} cannot be written: no files are written here");
}
