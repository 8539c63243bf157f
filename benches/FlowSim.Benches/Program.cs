using BenchmarkDotNet.Running;
using FlowSim.Benches;

// `peers` compares with other libraries (`peers straining` or `peers warming` one half of it); anything else goes to BenchmarkDotNet.
if (args is ["peers", ..])
{
    string repository = args.Skip(1).FirstOrDefault(Directory.Exists) ?? Directory.GetCurrentDirectory();
    if (!args.Contains("warming"))
        PeerComparison.Run(repository);
    if (!args.Contains("straining"))
        WarmingPeerComparison.Run(repository);
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(StrainingBenchmarks).Assembly).Run(args);
}
