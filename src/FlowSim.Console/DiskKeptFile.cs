using System.Text;
using FlowSim.Commands;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Console;

/// <summary>
/// A file on the disk that one process keeps. A hidden file beside it is held meanwhile and goes with the process; the file itself stays free for others to read, as <c>flowsim fit</c> does.
/// </summary>
internal sealed class DiskKeptFile : IKeptFile
{
    private readonly IFiles _files;
    private readonly string _path;
    private readonly FileStream _alone;
    private FileStream _stream;

    public DiskKeptFile(IFiles files, string path, string? begin)
    {
        (_files, _path, _alone) = (files, path, BeAlone(path));
        try
        {
            if (begin is not null)
                _files.Write(path, force: false, begin);
            _stream = Open(path);
        }
        catch
        {
            _alone.Dispose();
            throw;
        }
    }

    public byte[] Read(int most)
    {
        if (_stream.Length > most)
            throw InputFile.TooLarge(Printable.Of(_path, 200), most);
        byte[] bytes = new byte[_stream.Length];
        _stream.Seek(0, SeekOrigin.Begin);
        _stream.ReadExactly(bytes);
        return bytes;
    }

    public void Append(long at, byte[] added)
    {
        try
        {
            // What an earlier attempt on a full disk left is taken off first.
            if (_stream.Length != at)
                _stream.SetLength(at);
            _stream.Seek(at, SeekOrigin.Begin);
            _stream.Write(added);
            _stream.Flush(flushToDisk: true);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentOutOfRangeException)
        {
            throw new FileTroubleException($"{Printable.Of(_path, 200)} cannot be written: {Printable.Of(trouble.Message, 200)}; the entry is not kept");
        }
    }

    public void Replace(string text)
    {
        _stream.Dispose();
        try
        {
            _files.Write(_path, force: true, Encoding.UTF8.GetBytes(text));
        }
        finally
        {
            _stream = Open(_path);
        }
    }

    public void Dispose()
    {
        _stream.Dispose();
        _alone.Dispose();
    }

    private static FileStream BeAlone(string path)
    {
        string shown = Printable.Of(path, 200);
        if (Directory.Exists(path))
            throw new FileTroubleException($"{shown} is a folder; give a file name");
        if (FileKind.IsNotRegular(path) && File.Exists(path))
            throw new FileTroubleException($"{shown} is a device or a pipe and not a file; give a file name");
        string full = Path.GetFullPath(path);
        try
        {
            string beside = Path.Combine(Path.GetDirectoryName(full)!, "." + Path.GetFileName(full) + ".watched");
            return new FileStream(beside, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new FileTroubleException($"{shown} cannot be kept: {Printable.Of(trouble.Message, 200)}; does another flowsim watch keep it?");
        }
    }

    private static FileStream Open(string path)
    {
        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new FileTroubleException($"{Printable.Of(path, 200)} cannot be opened for writing: {Printable.Of(trouble.Message, 200)}");
        }
    }
}
