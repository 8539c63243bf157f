using System.Text;
using FlowSim.Commands.Output;
using FlowSim.Console;

namespace FlowSim.Commands.Tests;

/// <summary>What the program did with some arguments, run inside the test.</summary>
internal sealed record Ran(int Code, string Out, string Error)
{
    public static Ran With(params string[] arguments) => On(arguments, colour: false);

    public static Ran On(string[] arguments, bool colour, int width = Surroundings.Widest, TimeProvider? clock = null, CancellationToken cancellation = default)
    {
        StringWriter output = new();
        StringWriter error = new();
        int code = FlowSimCommand.Run(arguments, new Surroundings(output, error) { Files = Disk.Files, Figures = new Figures(), Colour = colour, Width = width, Clock = clock ?? TimeProvider.System }, cancellation);
        return new Ran(code, output.ToString(), error.ToString());
    }
}

/// <summary>The disk.</summary>
internal static class Disk
{
    public static IFiles Files { get; } = new DiskFiles();
}

/// <summary>A folder of one test, removed after it.</summary>
public sealed class Folder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("flowsim-test-").FullName;

    public string this[string name] => System.IO.Path.Combine(Path, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(this[name], text, new UTF8Encoding(false));
        return this[name];
    }

    public string Write(string name, byte[] bytes)
    {
        File.WriteAllBytes(this[name], bytes);
        return this[name];
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
