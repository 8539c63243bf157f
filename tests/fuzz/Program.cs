using SharpFuzz;

namespace FlowSim.Fuzz;

/// <summary>Feeds one target with what the fuzzer sends: <c>FlowSim.Fuzz NAME</c>; with file names behind it each of them once, to look at a finding.</summary>
internal static class Program
{
    private static int Main(string[] arguments)
    {
        if (arguments.Length == 0 || FuzzTarget.All.FirstOrDefault(target => target.Name == arguments[0]) is not { } target)
        {
            Console.Error.WriteLine($"give the name of a target: {string.Join(", ", FuzzTarget.All.Select(one => one.Name))}");
            return 2;
        }

        if (arguments.Length == 1)
        {
            Fuzzer.Run(stream =>
            {
                using MemoryStream bytes = new();
                stream.CopyTo(bytes);
                target.Run(bytes.ToArray());
            });
            return 0;
        }

        foreach (string file in arguments[1..])
            target.Run(File.ReadAllBytes(file));
        return 0;
    }
}
