namespace FlowSim.Sources.Tests;

/// <summary>One test: what it says, whose figures it takes, and what it compared; nothing where it checks something else than a figure.</summary>
/// <param name="Sentence">Its name as a sentence.</param>
/// <param name="Publication">Its own, or that of its class.</param>
/// <param name="Comparisons">In the order of the data.</param>
internal sealed record CheckedTest(string Sentence, PublicationAttribute Publication, IReadOnlyList<Comparison> Comparisons);
