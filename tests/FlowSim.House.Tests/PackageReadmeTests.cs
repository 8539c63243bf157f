namespace FlowSim.House.Tests;

/// <summary>The README of each library package: short, with what the package is for first, and one program, which is one that runs here.</summary>
public class PackageReadmeTests
{
    [Theory]
    [InlineData("FlowSim", "FlowSimReadme.cs")]
    [InlineData("FlowSim.Numerics", "NumericsReadme.cs")]
    [InlineData("FlowSim.Plots", "PlotsReadme.cs")]
    [InlineData("FlowSim.RunSheets", "RunSheetsReadme.cs")]
    public void Shows_the_program_that_is_tested(string package, string file)
    {
        string readme = Repository.Read("src", package, "README.md");
        string[] paragraphs = readme.Split("\n\n");
        Assert.Equal($"# {package}", paragraphs[0]);
        Assert.Matches(@"^\w", paragraphs[1]);
        Assert.InRange(readme.Split('\n').Length, 10, 80);

        string tested = Repository.Read("tests", "FlowSim.House.Tests", "PackageReadmes", file);
        string shown = Assert.Single(ShownCode.Blocks(readme, "csharp"));
        Assert.Equal(ShownCode.Usings(tested), ShownCode.Usings(shown));
        Assert.Equal(ShownCode.Undent(ShownCode.Marked(tested)), ShownCode.Undent(ShownCode.WithoutUsings(shown)));
    }
}
