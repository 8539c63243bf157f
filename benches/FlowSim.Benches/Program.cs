using BenchmarkDotNet.Running;
using FlowSim.Benches;

// `peers` compares with other libraries; anything else goes to BenchmarkDotNet.
if (args is ["peers", ..])
    PeerComparison.Run(args.Length > 1 ? args[1] : Directory.GetCurrentDirectory());
else
    BenchmarkSwitcher.FromAssembly(typeof(StrainingBenchmarks).Assembly).Run(args);
