using System.Globalization;
using BenchmarkDotNet.Running;
using FlowSim.Benches;

// `peers` compares with other libraries (`peers straining` or `peers warming` one half of it); `peers ensemble [rounds]` does so with many
// runs, `peers fit` with fits to readings, and `ensemble [runs]` measures ours alone (`ensemble loop [seconds]` only runs, for a profiler); `rare [draws [opening %]]` compares subset
// simulation with brute force; anything else goes to BenchmarkDotNet.
if (args is ["ensemble", "loop", ..])
{
    EnsembleMeasurement.Loop(TimeSpan.FromSeconds(args.Length > 2 ? double.Parse(args[2], CultureInfo.InvariantCulture) : 10));
}
else if (args is ["ensemble", ..])
{
    EnsembleMeasurement.Run(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1_000_000);
}
else if (args is ["peers", "ensemble", ..])
{
    EnsemblePeerComparison.Run(Directory.GetCurrentDirectory(), args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : 5);
}
else if (args is ["peers", "fit", ..])
{
    FitPeerComparison.Run(Directory.GetCurrentDirectory());
}
else if (args is ["peers", ..])
{
    string repository = args.Skip(1).FirstOrDefault(Directory.Exists) ?? Directory.GetCurrentDirectory();
    if (!args.Contains("warming"))
        PeerComparison.Run(repository);
    if (!args.Contains("straining"))
        WarmingPeerComparison.Run(repository);
}
else if (args is ["rare", ..])
{
    RareOverflowComparison.Run(
        args.Length > 1 ? long.Parse(args[1], CultureInfo.InvariantCulture) : 10_000_000,
        args.Length > 2 ? double.Parse(args[2], CultureInfo.InvariantCulture) : 18);
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(StrainingBenchmarks).Assembly).Run(args);
}
