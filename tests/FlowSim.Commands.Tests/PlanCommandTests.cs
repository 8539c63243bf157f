using System.Text.Json;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests;

/// <summary>The plan of a day from its file to page, JSON, table and figure.</summary>
public sealed class PlanCommandTests : IDisposable
{
    private readonly Folder _folder = new();

    /// <summary>A small day without models: quick to plan.</summary>
    private const string Small = """
        [day]
        date = "2026-03-14"
        begin = "2026-03-13 16:00"
        opens = "08:00"
        closes = "17:00"
        [[person]]
        name = "A"
        from = "8:00 am"
        to = "5:00 pm"
        breaks = ["12:00 to 12:30"]
        [[warming_place]]
        name = "cabinet"
        [[strainer]]
        name = "cone"
        [[bottling_tank]]
        name = "tank"
        capacity = "40 L"
        [[batch]]
        name = "lime"
        warm = ["9 h", "10 h", "14 h"]
        strain = ["20 min", "30 min", "50 min"]
        set_up = "0 min"
        volume = "20 L"
        stand = "1 h"
        fill = "45 min"
        """;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_example_is_planned_without_conflicts_and_ends_with_the_result()
    {
        Ran ran = Ran.With("plan");
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Empty(ran.Error);
        Assert.Contains("\nResult\nPLANNED: ", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Friday 2026-03-13", ran.Out, StringComparison.Ordinal);
        Assert.All(ran.Out.Split('\n'), line => Assert.True(line.Length <= 80, line));
        Assert.EndsWith(Ran.With("plan", "--quiet").Out, ran.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("safe", ran.Out, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void A_day_is_told_line_by_line()
    {
        Ran ran = Plan(Small);
        Assert.Equal(ExitCode.Done, ran.Code);

        // By hand: warm at the latest when the house closes, ready at 03:00, or at 07:00 if slow: strained at 08:00; cleaned; 1 h for the bubbles; jars; tank.
        Assert.All(
            new[]
            {
                "16:00 to Sat 02:00  -  warm lime in cabinet [6 h]",
                "02:00 to 08:00  -  lime waits warm in cabinet",
                "08:00 to 08:30  A  strain lime through cone into tank [0 min]",
                "08:30 to 08:50  A  clean cone [40 min]",
                "09:30 to 10:15  A  fill lime from tank [0 min]",
                "10:15 to 10:45  A  clean tank [1 h 15 min]",
                "lime  10:15 (if quick 10:05, if slow 10:35)",
                "PLANNED: all that is planned is done by 10:45.",
                "No plan of these steps is sooner done.",
            },
            said => Assert.Contains(said, ran.Out, StringComparison.Ordinal));
        Assert.Contains("8:00 am to 8:30 am", Plan(Small, "--units", "us").Out, StringComparison.Ordinal);
        Assert.Contains("done by 11:05", Plan(Small, "--pace", "slow").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_has_local_times_and_seconds()
    {
        JsonElement plan = JsonDocument.Parse(Plan(Small, "--json").Out).RootElement;
        Assert.Equal("planned", plan.GetProperty("status").GetString());
        Assert.Equal("2026-03-14T10:45", plan.GetProperty("finish").GetString());
        Assert.True(plan.GetProperty("isProven").GetBoolean());
        JsonElement strain = plan.GetProperty("entries").EnumerateArray().Single(e => e.GetProperty("task").GetString() == "strain");
        Assert.Equal("A", strain.GetProperty("who").GetString());
        Assert.Equal(0, strain.GetProperty("slackSeconds").GetDouble());
        Assert.Equal("tank", strain.GetProperty("bottlingTank").GetString());
        Assert.Equal("2026-03-14T10:15", plan.GetProperty("ready")[0].GetProperty("at").GetString());
        Assert.NotEmpty(plan.GetProperty("assumptions").EnumerateArray());
    }

    [Fact]
    public void Files_are_written_once_and_not_over_others()
    {
        string csv = _folder["day.csv"];
        string svg = _folder["day.svg"];
        Assert.Equal(ExitCode.Done, Plan(Small, "--csv", csv, "--plot", svg).Code);
        string[] rows = File.ReadAllText(csv).Split("\r\n");
        Assert.Equal("from,to,task,batches,place,strainer,bottling_tank,who,slack_s", rows[0]);
        Assert.Contains("2026-03-14T08:00,2026-03-14T08:30,strain,lime,,cone,tank,A,0", rows);
        Assert.StartsWith("<?xml", File.ReadAllText(svg), StringComparison.Ordinal);
        Assert.Equal(ExitCode.FileTrouble, Plan(Small, "--csv", csv).Code);
        Assert.Equal(ExitCode.BadInput, Plan(Small, "--plot", _folder["day.gif"]).Code);
    }

    [Fact]
    public void Conflicts_come_first_and_have_an_exit_code()
    {
        Ran ran = Plan(Small.Replace("\"20 L\"", "\"50 L\"", StringComparison.Ordinal));
        Assert.Equal(ExitCode.PlanConflicts, ran.Code);
        Assert.Contains("\nConflicts\n! \"lime\" cannot be strained – it gives 50 L", ran.Out, StringComparison.Ordinal);
        Assert.Contains("NOTHING CAN BE PLANNED", ran.Out, StringComparison.Ordinal);
        Assert.Equal("nothing-planned", JsonDocument.Parse(Plan(Small.Replace("\"20 L\"", "\"50 L\"", StringComparison.Ordinal), "--json").Out).RootElement.GetProperty("status").GetString());

        Ran late = Plan(Small + "\ndue = \"09:00\"\n");
        Assert.Equal(ExitCode.PlanConflicts, late.Code);
        Assert.Contains("PLANNED, BUT LATE", late.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_batch_file_beside_the_day_gives_the_times()
    {
        _folder.Write("batch.toml", Demo.Text);
        string day = Small[..Small.IndexOf("[[batch]]", StringComparison.Ordinal)] + "[[batch]]\nname = \"mine\"\nfile = \"batch.toml\"\nvessels = 2\njoin = true\nsettle = \"none\"\nfill = \"30 min\"\nset = [\"gate.opening=15 %\"]\n";
        Ran ran = Plan(day.Replace("capacity = \"40 L\"", "capacity = \"60 L\"", StringComparison.Ordinal).Replace("name = \"cabinet\"", "name = \"cabinet\"\nvessels = 2", StringComparison.Ordinal));
        Assert.True(ran.Code == ExitCode.Done, ran.Error + ran.Out);
        Assert.Contains("fill mine 1, mine 2 from tank", ran.Out, StringComparison.Ordinal);
        Assert.Contains("holds 26", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Settling_and_filling_come_from_the_batch_file_unless_the_day_says()
    {
        _folder.Write("batch.toml", Demo.Text);
        string head = Small[..Small.IndexOf("[[batch]]", StringComparison.Ordinal)].Replace("closes = ", "days = 3\ncloses = ", StringComparison.Ordinal);
        const string Batch = "[[batch]]\nname = \"mine\"\nfile = \"batch.toml\"\nset = [\"gate.opening=15 %\", \"settling.for=6h\"]\n";
        Ran ran = Plan(head + Batch);
        Assert.True(ran.Code == ExitCode.Done, ran.Error + ran.Out);
        Assert.Contains("mine settles in cabinet", ran.Out, StringComparison.Ordinal);
        Assert.Contains("fill mine from tank", ran.Out, StringComparison.Ordinal);

        Ran own = Plan(head + Batch + "settle = \"none\"\nfill = \"none\"\n");
        Assert.True(own.Code == ExitCode.Done, own.Error + own.Out);
        Assert.DoesNotContain("settles", own.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("fill mine", own.Out, StringComparison.Ordinal);

        File.Delete(_folder["batch.toml"]);
        _folder.Write("batch.toml", Demo.Text.Split("\n[filling]")[0]);
        Ran missing = Plan(head + Batch);
        Assert.Equal(ExitCode.BadInput, missing.Code);
        Assert.Contains("batch 1.fill is missing", missing.Error, StringComparison.Ordinal);
        Assert.Contains("[filling]", missing.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("date = \"2026-03-14\"", "date = \"14.3.2026\"", "line 2, column 8: day.date: \"14.3.2026\" is not a date; write it as \"2026-03-14\"")]
    [InlineData("opens = \"08:00\"", "opens = \"25:00\"", "is not a time of day")]
    [InlineData("closes = \"17:00\"", "closes = \"07:00\"", "the house closes before it opens")]
    [InlineData("begin = \"2026-03-13 16:00\"", "begin = \"2026-01-13 16:00\"", "lies more than two weeks from 2026-03-14")]
    [InlineData("begin = \"2026-03-13 16:00\"", "begin = \"18:00\"", "begin earlier")]
    [InlineData("begin = \"2026-03-13 16:00\"", "days = 9", "9 is outside what is allowed, 1 to 7")]
    [InlineData("to = \"5:00 pm\"", "", "person 1.to is missing")]
    [InlineData("to = \"5:00 pm\"", "to = \"7:00 am\"", "goes before coming")]
    [InlineData("breaks = [\"12:00 to 12:30\"]", "breaks = [\"noon\"]", "\"noon\" is not a break; write \"12:00 to 12:30\"")]
    [InlineData("breaks = [\"12:00 to 12:30\"]", "breaks = [\"07:00 to 18:00\"]", "is never there")]
    [InlineData("[[strainer]]", "[strainer]", "stands once for each; write [[strainer]]")]
    [InlineData("[[strainer]]\nname = \"cone\"", "", "[[strainer]] is missing")]
    [InlineData("[[strainer]]", "[[strainers]]", "[[strainers]] is a list of sections")]
    [InlineData("[[strainer]]", "[honey]\n[[strainer]]", "[honey] is not a section of a day")]
    [InlineData("capacity = \"40 L\"", "capacity = \"40\"", "\"40\" has no unit; a volume needs one")]
    [InlineData("capacity = \"40 L\"", "capacity = \"40 mL\"", "bottling_tank 1.capacity: \"40 mL\" (0.04 L) is outside what is allowed, 0.1 to 100000 L")]
    [InlineData("capacity = \"40 L\"", "capacity = \"40 L\"\nkep_free = \"1 L\"", "nearest: \"keep_free\"")]
    [InlineData("stand = \"1 h\"", "stand = [\"2 h\", \"1 h\", \"3 h\"]", "a quick, a likely and a slow one")]
    [InlineData("stand = \"1 h\"", "stand = \"10 s\"", "batch 1.stand: ")]
    [InlineData("fill = \"45 min\"", "", "batch 1.fill is missing")]
    [InlineData("volume = \"20 L\"", "", "batch 1.volume is missing")]
    [InlineData("strain = [\"20 min\", \"30 min\", \"50 min\"]", "", "batch 1.file is missing")]
    [InlineData("stand = \"1 h\"", "places = [\"cabinat\"]", "is not a warming place; nearest: \"cabinet\"")]
    [InlineData("stand = \"1 h\"", "vessels = 41", "41 is outside what is allowed, 1 to 40")]
    [InlineData("name = \"lime\"", "name = \"\"", "1 to 40 characters")]
    [InlineData("[[strainer]]\nname = \"cone\"", "[[strainer]]\nname = \"cone\"\n[[strainer]]\nname = \"cone\"", "Two are called 'cone'")]
    [InlineData("begin = \"2026-03-13 16:00\"", "pace = \"fast\"", "is not a pace; nearest: ")]
    public void Mistakes_are_answered_with_place_and_what_is_right(string good, string bad, string said)
    {
        Assert.Contains(good, Small, StringComparison.Ordinal);
        Ran ran = Plan(Small.Replace(good, bad, StringComparison.Ordinal), "--csv", _folder["no.csv"]);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
        Assert.False(File.Exists(_folder["no.csv"]));
    }

    [Fact]
    public void Files_that_are_not_there_or_not_right_are_named()
    {
        Assert.Equal(ExitCode.FileTrouble, Ran.With("plan", _folder["none.toml"]).Code);
        Assert.Contains("flowsim new --day", Ran.With("plan", _folder["none.toml"]).Error, StringComparison.Ordinal);
        string day = Small.Replace("volume = \"20 L\"", "file = \"lost.toml\"", StringComparison.Ordinal);
        Assert.Equal(ExitCode.FileTrouble, Plan(day).Code);
        _folder.Write("lost.toml", Demo.Text.Replace("moisture = ", "moistre = ", StringComparison.Ordinal));
        Ran ran = Plan(day);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("lost.toml, line", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_batch_that_never_gets_warm_is_refused_at_its_file()
    {
        Ran ran = Plan(Small.Replace("warm = [\"9 h\", \"10 h\", \"14 h\"]", "file = \"example\"\nset = [\"thermostat.setpoint=30 °C\", \"until.longest=2 h\"]", StringComparison.Ordinal));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("batch 1.file: warming does not come to its end", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_example_is_written_and_mentions_every_key()
    {
        string path = _folder["day.toml"];
        Assert.Equal(ExitCode.Done, Ran.With("new", "--day", path).Code);
        Assert.Equal(Demo.Day, File.ReadAllText(path));
        Assert.Equal(ExitCode.Done, Ran.With("plan", path, "--quiet").Code);
        string section = string.Empty;
        HashSet<string> mentioned = new(StringComparer.Ordinal);
        foreach (string raw in Demo.Day.Split('\n'))
        {
            string line = raw.TrimStart('#', ' ');
            if (raw.StartsWith('['))
                section = raw.Trim('[', ']', ' ');
            else if (line.IndexOf(" = ", StringComparison.Ordinal) is > 0 and int equals && line[..equals].All(c => char.IsAsciiLetterLower(c) || c == '_'))
                mentioned.Add(section + "." + line[..equals]);
        }

        Assert.Equal(DayKeys.All.Select(key => key.ToString()).Order(StringComparer.Ordinal), mentioned.Order(StringComparer.Ordinal));
    }

    private Ran Plan(string day, params string[] options)
    {
        File.Delete(_folder["a-day.toml"]);
        return Ran.With(["plan", _folder.Write("a-day.toml", day), .. options]);
    }
}
