namespace FlowSim.Fuzz;

/// <summary>The kept corpus, and what findings were made of, through every target on every commit.</summary>
public class CorpusTests
{
    public static TheoryData<string> Names => [.. FuzzTarget.All.Select(target => target.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_corpus_is_read_as_documented(string name)
    {
        FuzzTarget target = FuzzTarget.All.Single(one => one.Name == name);
        string[] files = Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "corpus", name));
        Assert.NotEmpty(files);
        Assert.All(files, file => target.Run(File.ReadAllBytes(file)));
    }
}
