using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Watching;
using FlowSim.Straining;

namespace FlowSim.Commands.Tests.Watching;

/// <summary>What people type beside a tank.</summary>
public class EntryGrammarTests
{
    private static readonly EntryGrammar s_metric = Of("time [s]", "tank level [mm]", "pond depth [mm]", "receiver mass [kg]", "note");
    private static readonly EntryGrammar s_us = Of("time [s]", "tank level [in]", "pond depth [in]", "receiver mass [lb]", "note");

    private static EntryGrammar Of(params string[] headings) => new([.. headings.Select(heading =>
    {
        Assert.Null(HeadingGrammar.Read(new CsvCell(heading, 1, 1), out RunHeading read));
        return read;
    })]);

    private static Entry Read(string line, EntryGrammar? grammar = null)
    {
        Assert.Null((grammar ?? s_metric).Read(line, out Entry entry));
        return entry;
    }

    // The inch and the pound of 1959: 0.0254 m and 0.45359237 kg.
    [Theory]
    [InlineData("level 247", "TankLevel", 0.247)]
    [InlineData("l 24.7 cm", "TankLevel", 0.247)]
    [InlineData("L247", "TankLevel", 0.247)]
    [InlineData("tank 247 mm", "TankLevel", 0.247)]
    [InlineData("tank level 247mm", "TankLevel", 0.247)]
    [InlineData("t 10 in", "TankLevel", 0.254)]
    [InlineData("  Level =  247 ", "TankLevel", 0.247)]
    [InlineData("level: 247", "TankLevel", 0.247)]
    [InlineData("pond 40", "PondDepth", 0.040)]
    [InlineData("p 1.5 in", "PondDepth", 0.0381)]
    [InlineData("mass 3.9 kg", "ReceiverMass", 3.9)]
    [InlineData("m 3900 g", "ReceiverMass", 3.9)]
    [InlineData("weight 10 lb", "ReceiverMass", 4.5359237)]
    [InlineData("receiver 3.9", "ReceiverMass", 3.9)]
    public void A_reading_is_read(string line, string quantity, double si)
    {
        ReadingEntry reading = Assert.IsType<ReadingEntry>(Read(line));
        Assert.Equal(Enum.Parse<StrainingObservable>(quantity), reading.Quantity);
        Assert.Equal(si, reading.Si, 1e-12);
        Assert.Null(reading.AtS);
    }

    [Fact]
    public void A_bare_number_is_in_the_unit_of_the_log() => Assert.Equal(9.7 * 0.0254, Assert.IsType<ReadingEntry>(Read("level 9.7", s_us)).Si, 1e-12);

    [Theory]
    [InlineData("scrape", null)]
    [InlineData("S", null)]
    [InlineData("gate 40 %", 0.4)]
    [InlineData("gate 40", 0.4)]
    [InlineData("g40%", 0.4)]
    [InlineData("open to 40 %", 0.4)]
    [InlineData("gate 0", 0.0)]
    [InlineData("shut", 0.0)]
    public void What_was_done_is_read(string line, double? opening)
    {
        StepEntry step = Assert.IsType<StepEntry>(Read(line));
        Assert.Equal(opening is null, step.Opening is null);
        Assert.Equal(opening ?? 0, step.Opening ?? 0, 1e-12);
    }

    [Theory]
    [InlineData("@4:30 level 247", 270)]
    [InlineData("@1:04:30 level 247", 3870)]
    [InlineData("@270s level 247", 270)]
    [InlineData("@0:00.5 l247", 0.5)]
    public void A_moment_in_front_is_read(string line, double seconds) => Assert.Equal(seconds, Read(line).AtS!.Value, 1e-9);

    [Theory]
    [InlineData("undo", WatchWord.Undo)]
    [InlineData("?", WatchWord.Help)]
    [InlineData("WHY", WatchWord.Why)]
    [InlineData("open", WatchWord.Opened)]
    [InlineData("exit", WatchWord.Quit)]
    [InlineData("   ", WatchWord.Nothing)]
    public void Words_are_read(string line, object word) => Assert.Equal(word, Assert.IsType<WordEntry>(Read(line)).Word);

    [Theory]
    [InlineData("levle 247", "nearest: \"level\"")]
    [InlineData("scarpe", "nearest: \"scrape\"")]
    [InlineData("247", "say what it is, as in \"level 247\"")]
    [InlineData("level", "how much?")]
    [InlineData("level 24,7", "\"level 24.7\"")]
    [InlineData("level -5", "below 0")]
    [InlineData("level 3 kg", "a mass")]
    [InlineData("level 247 mn", "nearest: \"mm\"")]
    [InlineData("level 1e999", "")]
    [InlineData("level nan", "")]
    [InlineData("gate", "how far?")]
    [InlineData("gate 140 %", "allowed: 0 to 100 %")]
    [InlineData("gate 0.4", "\"gate 40 %\" is 40 % of the bore")]
    [InlineData("gate wide", "an opening is typed as \"gate 40 %\"")]
    [InlineData("scrape twice", "says all by itself")]
    [InlineData("note gate 40 %", "more than a remark")]
    [InlineData("note scrape", "more than a remark")]
    [InlineData("note", "a remark is 1 to 200 characters long")]
    [InlineData("@4:30", "what was at 4:30")]
    [InlineData("@4:90 level 3", "")]
    [InlineData("@soon level 3", "minutes and seconds since the opening")]
    [InlineData("@٤:٣٠ level 3", "minutes and seconds since the opening")]
    [InlineData("@4:30 undo", "goes with a reading")]
    [InlineData("\u001b[2J", "say what it is")]
    [InlineData("lev\u001b[2J", "is not understood")]
    public void What_cannot_be_read_is_answered_with_what_can(string line, string said)
    {
        string? wrong = s_metric.Read(line, out _);
        Assert.NotNull(wrong);
        Assert.Contains(said, wrong, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', wrong);
    }

    [Fact]
    public void Anything_typed_is_read_or_refused()
    {
        const string Signs = "level pond mass gate scrape @0123456789.,:%-+eE=\"'#;kgmin \t\u00e9\ud83d\ude00\u0007";
        Random random = new(5);
        for (int i = 0; i < 20_000; i++)
        {
            string line = string.Concat(Enumerable.Range(0, random.Next(14)).Select(_ => Signs[random.Next(Signs.Length)]));
            if (s_metric.Read(line, out Entry entry) is null && entry is ReadingEntry reading)
                Assert.True(double.IsFinite(reading.Si) && reading.Si >= 0, line);
        }
    }
}
