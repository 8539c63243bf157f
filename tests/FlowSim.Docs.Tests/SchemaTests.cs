using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FlowSim.Commands;
using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;
using FsCheck.Xunit;

namespace FlowSim.Docs.Tests;

/// <summary>
/// The schemas are held to the reader: what a schema refuses, the reader refuses. The other way round it is bounded: of what the reader
/// refuses for the way it is written, a schema finds most.
/// </summary>
public partial class SchemaTests
{
    /// <summary>What the reader says of a value that is written wrongly, and not only too large, out of place or missing.</summary>
    [GeneratedRegex("has no unit|is not known|is wanted|does not begin with a number|is not a key of|is not a section|is not a (form|viscosity|conductivity|vessel|gate|blade|outlet|venting|way|blocking|matter|lid|base|granulation|place|rate|published|confidence|jar|net-weight|cloth|material)|nothing may follow|where a unit should stand|is neither|has a comma|digits are not grouped|is empty;|is a list, but|is a number, but|is a text, but|is true or false, but", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex WrittenWrongly();

    [Fact]
    public void Both_examples_pass()
    {
        Assert.True(SchemaFixture.Batch.Takes(Read(Demo.Text, Dialect.Batch)));
        Assert.True(SchemaFixture.Day.Takes(Read(Demo.Day, Dialect.Day)));
    }

    /// <summary>Each line of the example that is commented out, taken in.</summary>
    [Fact]
    public void Every_line_of_the_examples_passes_once_it_is_read()
    {
        int seen = 0;
        foreach ((string text, Dialect dialect, SchemaFixture schema) in new[] { (Demo.Text, Dialect.Batch, SchemaFixture.Batch), (Demo.Day, Dialect.Day, SchemaFixture.Day) })
        {
            foreach (DemoLine line in DemoLine.Of(text).Where(line => !line.IsActive))
            {
                JsonObject file = Read(text, dialect);
                JsonNode? section = dialect.Lists.Contains(line.Section, StringComparer.Ordinal) ? file[line.Section]![0] : file[line.Section];
                section![line.Key] = TomlJson.OfValue(line.Value);
                Assert.True(schema.Takes(file), $"{line.Section}.{line.Key} = {line.Value}");
                seen++;
            }
        }

        Assert.InRange(seen, 150, 500);
    }

    [Property(MaxTest = 1500)]
    public void What_the_schema_refuses_the_reader_refuses(int seed)
    {
        JsonObject batch = new RandomBatch(new Random(seed)).Next();
        if (SchemaFixture.Batch.Takes(batch))
            return;
        Assert.True(Problems(batch).Count > 0, "refused by the schema alone:\n" + RandomBatch.Toml(batch));
    }

    /// <summary>Not all: within a spread the schema leaves units to the reader.</summary>
    [Fact]
    public void Of_what_is_written_wrongly_the_schema_finds_most()
    {
        int wrong = 0, found = 0, passed = 0, refused = 0;
        List<string> missed = [];
        for (int seed = 0; seed < 1500; seed++)
        {
            JsonObject batch = new RandomBatch(new Random(seed)).Next();
            bool takes = SchemaFixture.Batch.Takes(batch);
            string[] said = [.. Problems(batch).Where(problem => WrittenWrongly().IsMatch(problem) && !IsOfAnotherShape(problem))];
            passed += takes ? 1 : 0;
            refused += takes ? 0 : 1;
            wrong += said.Length > 0 ? 1 : 0;
            found += said.Length > 0 && !takes ? 1 : 0;
            if (said.Length > 0 && takes)
                missed.AddRange(said);
        }

        Assert.InRange(passed, 100, 1400);
        Assert.InRange(refused, 100, 1400);
        Assert.True(found >= 0.95 * wrong, $"{found} of {wrong}; missed:\n{string.Join('\n', missed.Distinct(StringComparer.Ordinal).Take(40))}");
    }

    /// <summary>Whether a key is refused because it goes with another shape than the one that is named, which no list of keys can tell.</summary>
    private static bool IsOfAnotherShape(string problem) => Keys.Sections.SelectMany(section => ShapeKeys.Of(section).Select(parameter => $"\"{parameter.Key}\" is not a key of [{section}]"))
        .Any(said => problem.StartsWith(said, StringComparison.Ordinal));

    /// <summary>Spelt in any way that the reader takes, and in many that it does not.</summary>
    [Property(MaxTest = 3000)]
    public void A_quantity_that_the_reader_takes_matches_its_pattern(int seed)
    {
        Random random = new(seed);
        Dimension dimension = Enum.GetValues<Dimension>()[random.Next(Enum.GetValues<Dimension>().Length)];
        RandomBatch spelling = new(random);
        string text = random.Next(3) == 0 ? spelling.Quantity(dimension) + " " + spelling.Quantity(dimension) : spelling.Quantity(dimension);
        bool matches = Regex.IsMatch(text, Patterns.Whole(Patterns.Quantity(dimension)), RegexOptions.ECMAScript, TimeSpan.FromSeconds(1));
        bool taken = QuantityGrammar.Read(text, dimension, out _) is null;
        Assert.True(matches || !taken, $"{dimension}: \"{text}\" is read but does not match");
        if (matches && !taken)
            Assert.Matches("is below|is too large|from the larger unit|not one whole number over another", QuantityGrammar.Read(text, dimension, out _)!.What);
    }

    public static TheoryData<string> WordKeys => [.. Keys.All.Where(key => key.Kind == KeyKind.Word).Select(key => key.ToString())];

    /// <summary>Asked for a word that nobody knows, the reader lists those it does.</summary>
    [Theory]
    [MemberData(nameof(WordKeys))]
    public void The_words_of_a_key_are_those_that_the_reader_lists(string name)
    {
        Key key = Keys.All.Single(key => key.ToString() == name);
        string[] words = [.. KeyForms.Of(key).Schema["anyOf"]![0]!["enum"]!.AsArray().Select(word => word!.GetValue<string>())];
        JsonObject batch = Read(Demo.Text, Dialect.Batch);
        if (batch[key.Section] is not JsonObject)
            batch[key.Section] = new JsonObject();
        if (key.Name == Keys.Tank.Shape.Name)
            ((JsonObject)batch[key.Section]!).Remove(Keys.Tank.Use.Name);
        batch[key.Section]![key.Name] = "zzz";
        if (key == Keys.Calibration.Use)
            (batch[key.Section]!["date"], batch[key.Section]!["runs"]) = ("2026-11-27", new JsonArray());
        string said = Problems(batch).First(problem => problem.StartsWith($"{name}: \"zzz\"", StringComparison.Ordinal));
        Assert.EndsWith("known: " + string.Join(", ", words), said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"honey.lot_factor\" = \"1.12 x/ 1.05\"", true)]
    [InlineData("\"honey.lot_factor\" = 1.12", false)]
    [InlineData("\"honey.temperature\" = \"35 ± 1 °C\"", false)]
    [InlineData("\"screen.factor\" = \"0.9 x/ 1.1\"", true)]
    public void A_calibration_is_judged_alike(string line, bool passes)
    {
        string toml = Demo.Text.Replace("[calibration]\n", $"[calibration]\ndate = \"2026-11-27\"\nruns = [\"pail.csv, 2026-11-20, 0123456789abcdef\"]\n{line}\n", StringComparison.Ordinal);
        JsonObject batch = Read(toml, Dialect.Batch);
        Assert.Equal(passes, SchemaFixture.Batch.Takes(batch));
        Assert.Equal(passes, Problems(batch).Count == 0);
    }

    /// <summary>Days: wrong by one key each.</summary>
    [Theory]
    [InlineData("opens = \"07:00\"", "opens = \"7:30 am\"", true)]
    [InlineData("opens = \"07:00\"", "opens = \"seven\"", false)]
    [InlineData("date = \"2026-03-14\"", "date = \"14.3.2026\"", false)]
    [InlineData("begin = \"2026-03-13 15:00\"", "begin = \"yesterday\"", false)]
    [InlineData("# pace = \"likely\"", "pace = \"Slow\"", true)]
    [InlineData("# pace = \"likely\"", "pace = \"brisk\"", false)]
    [InlineData("strainer = \"20 min\"", "strainer = \"20\"", false)]
    [InlineData("breaks = [\"12:00 to 12:30\"]", "breaks = [\"noon\"]", false)]
    [InlineData("capacity = \"70 L\"", "capacity = \"70 kg\"", false)]
    [InlineData("capacity = \"70 L\"", "capacitance = \"70 L\"", false)]
    [InlineData("warm = [\"9 h\", \"11 h\", \"14 h\"]", "warm = \"11 h\"", true)]
    [InlineData("warm = [\"9 h\", \"11 h\", \"14 h\"]", "warm = [\"9 h\", \"9 h\", \"9 h\", \"9 h\"]", false)]
    [InlineData("stand = \"none\"", "stand = \"never\"", false)]
    public void A_day_is_judged_alike(string line, string replacement, bool passes)
    {
        string toml = Demo.Day.Replace(line, replacement, StringComparison.Ordinal);
        Assert.NotEqual(Demo.Day, toml);

        // The batch with a file is taken out: it would be computed.
        int from = toml.IndexOf("[[batch]]", StringComparison.Ordinal), to = toml.LastIndexOf("[[batch]]", StringComparison.Ordinal);
        toml = toml.Remove(from, to - from);
        Assert.Equal(passes, SchemaFixture.Day.Takes(Read(toml, Dialect.Day)));
        Problems problems = new();
        InputDocument document = TomlReader.Read(toml, "day.toml", problems, Dialect.Day);
        Loaded loaded = new(document, new Journal(new Spot("day.toml", 1, 1)), problems, "day.toml");
        if (passes)
            Assert.NotNull(DayReader.Read(new NamedTexts(), loaded, null, null, CancellationToken.None));
        else
            Assert.Throws<BadInputException>(() => DayReader.Read(new NamedTexts(), loaded, null, null, CancellationToken.None));
    }

    private static JsonObject Read(string toml, Dialect dialect)
    {
        Problems problems = new();
        JsonObject file = TomlJson.Of(TomlReader.Read(toml, "file.toml", problems, dialect), dialect);
        Assert.Empty(problems.All);
        return file;
    }

    /// <summary>What all readers of a batch together say of it.</summary>
    private static List<string> Problems(JsonObject batch)
    {
        List<string> all = [];
        foreach ((string command, Func<Loaded, object?> read) in BatchReaders.All)
        {
            try
            {
                read(Loader.Load(RandomBatch.Toml(batch), "random.toml", [], null));
            }
            catch (BadInputException bad)
            {
                all.AddRange(bad.Problems.All.Select(problem => problem.What));
            }
            catch (RefusedHoneyException refused)
            {
                all.Add($"{command}: {refused.Message}");
            }
        }

        return all;
    }
}
