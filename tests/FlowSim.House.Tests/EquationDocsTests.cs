using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace FlowSim.House.Tests;

/// <summary>
/// Each published equation – a method named author and year – documents in one order, and the test file it names is there and
/// speaks of it.
/// </summary>
public partial class EquationDocsTests
{
    private static readonly string[] Headings = ["Equation", "Range", "Error", "Source", "Checked by"];

    private static readonly List<Documented> Methods = [.. SourceFiles().SelectMany(MethodsOf)];

    [GeneratedRegex(@"[A-Z][a-z]+(1[6-9]|20)\d\d", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex AuthorAndYear();

    [GeneratedRegex(@"^\s*(?:(?:public|internal|protected|private|static|readonly|override)\s+)+[\w<>\[\]?(), ]+?\s(?<name>[A-Z]\w*)\(", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Declaration();

    [GeneratedRegex(@"[\w/]+Tests\.cs", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex TestFile();

    [Fact]
    public void Every_equation_named_after_author_and_year_has_the_five_headings_in_order()
    {
        Documented[] equations = [.. Methods.Where(method => AuthorAndYear().IsMatch(method.Name))];
        Assert.InRange(equations.Length, 12, int.MaxValue);
        Assert.All(equations, equation => Assert.True(equation.Headings.SequenceEqual(Headings), $"{equation}: {string.Join(", ", equation.Headings)}"));
    }

    [Fact]
    public void Whoever_has_one_of_the_headings_has_all_in_order()
    {
        Documented[] equations = [.. Methods.Where(method => method.Headings.Intersect(["Equation", "Range", "Checked by"]).Any())];
        Assert.InRange(equations.Length, 20, int.MaxValue);
        Assert.All(equations, equation => Assert.True(equation.Headings.SequenceEqual(Headings), $"{equation}: {string.Join(", ", equation.Headings)}"));
    }

    [Fact]
    public void No_paragraph_of_an_equation_is_empty() => Assert.All(
        Methods.SelectMany(method => method.Paragraphs.Select(paragraph => (method, paragraph))),
        item => Assert.True(item.paragraph.Value.Trim().Length > 3, $"{item.method}: {item.paragraph.Key} says nothing"));

    [Fact]
    public void Every_file_named_as_checking_is_there_and_checks_it()
    {
        string[] tests = [.. Directory.EnumerateFiles(Path.Combine(Repository.Root, "tests"), "*Tests.cs", SearchOption.AllDirectories)];
        int named = 0;
        foreach (Documented method in Methods.Where(method => method.Paragraphs.ContainsKey("Checked by")))
        {
            string[] files = [.. TestFile().Matches(method.Paragraphs["Checked by"]).Select(match => match.Value)];
            Assert.True(files.Length > 0, $"{method} names no test file");
            named += files.Length;
            foreach (string file in files)
            {
                string? found = Array.Find(tests, path => path.EndsWith("/" + file, StringComparison.Ordinal));
                Assert.True(found is not null, $"{method} names {file}, which is not there");
                Assert.True(Calls(File.ReadAllText(found), method), $"{method}: {file} does not call it");
            }
        }

        Assert.InRange(named, 20, int.MaxValue);
    }

    /// <summary>Whether a test calls a kernel by name, or through a public door to it.</summary>
    private static bool Calls(string test, Documented method) =>
        test.Contains(method.Name, StringComparison.Ordinal)
        || (Doors.TryGetValue(method.Name, out string? door) && test.Contains(door, StringComparison.Ordinal));

    /// <summary>Kernels that their tests reach through the public member in front of them.</summary>
    private static readonly Dictionary<string, string> Doors = new(StringComparer.Ordinal)
    {
        ["IndexAt20C"] = "MoistureReading.FromRefractiveIndex(",
        ["LiquidMoisturePercent"] = "CrystalLiquor.MoistureOfLiquid(",
    };

    private static IEnumerable<string> SourceFiles() =>
        new[] { "FlowSim", "FlowSim.Numerics" }
            .SelectMany(project => Directory.EnumerateFiles(Path.Combine(Repository.Root, "src", project), "*.cs", SearchOption.AllDirectories))
            .Where(path => !path.Contains("/obj/", StringComparison.Ordinal) && !path.Contains("/bin/", StringComparison.Ordinal));

    /// <summary>Methods of a file, with the documentation that stands right above each.</summary>
    private static IEnumerable<Documented> MethodsOf(string path)
    {
        List<string> doc = [];
        foreach (string line in File.ReadLines(path))
        {
            string trimmed = line.TrimStart();
            if (trimmed.StartsWith("///", StringComparison.Ordinal))
            {
                doc.Add(trimmed[3..]);
                continue;
            }

            if (Declaration().Match(line) is { Success: true } declaration)
                yield return new Documented(Path.GetFileName(path), declaration.Groups["name"].Value, ParagraphsOf(doc));
            if (!trimmed.StartsWith('['))
                doc.Clear();
        }
    }

    private static List<KeyValuePair<string, string>> ParagraphsOf(List<string> doc) =>
    [
        .. XElement.Parse("<doc>" + string.Join('\n', doc) + "</doc>").Descendants("para")
            .Where(para => para.Element("b") is not null)
            .Select(para => KeyValuePair.Create(para.Element("b")!.Value, TextAfterHeading(para))),
    ];

    /// <summary>What follows the heading; a reference counts as text.</summary>
    private static string TextAfterHeading(XElement para) => string.Concat(para.Element("b")!.NodesAfterSelf()
        .Select(node => node is XElement element ? element.Value + element.Attribute("cref")?.Value : node.ToString()));

    private sealed class Documented(string file, string name, List<KeyValuePair<string, string>> paragraphs)
    {
        public string Name { get; } = name;

        public IEnumerable<string> Headings { get; } = [.. paragraphs.Select(paragraph => paragraph.Key)];

        public Dictionary<string, string> Paragraphs { get; } = paragraphs.DistinctBy(paragraph => paragraph.Key).ToDictionary(p => p.Key, p => p.Value);

        public override string ToString() => file + ": " + Name;
    }
}
