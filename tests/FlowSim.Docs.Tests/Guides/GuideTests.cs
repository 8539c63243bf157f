using System.Text.RegularExpressions;
using FlowSim.Commands.Input;
using FlowSim.Commands.Reference;
using FlowSim.House.Tests;
using FlowSim.Screens;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Docs.Tests.Guides;

/// <summary>What the guides show is compiled, runs and is understood.</summary>
public partial class GuideTests
{
    private static readonly (string File, string Text)[] Guides =
        [.. Directory.EnumerateFiles(Path.Combine(Repository.Root, "docs", "guides"), "*.md").Select(file => (Path.GetFileName(file), File.ReadAllText(file)))];

    private static readonly string[] Sources =
        [.. new[] { "src", "tests" }.SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.cs", SearchOption.AllDirectories)).Where(file => !file.Contains("/obj/", StringComparison.Ordinal)).Select(file => Lines(File.ReadAllText(file)))];

    [GeneratedRegex("```csharp\n(?<code>.*?)```", RegexOptions.Singleline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Code();

    [GeneratedRegex("`flowsim (?<words>[a-z]+( [a-z]+)?)[^`]*`", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Command();


    /// <summary>Every block of C# stands word by word in a file that is compiled; the one of the example in this folder.</summary>
    [Fact]
    public void Every_block_of_code_is_compiled()
    {
        int seen = 0;
        foreach ((string file, string text) in Guides)
        {
            foreach (string code in Code().Matches(text).Select(match => Lines(match.Groups["code"].Value)))
            {
                Assert.True(Sources.Any(source => source.Contains(code, StringComparison.Ordinal)), $"{file}: in no file that is compiled:\n{code}");
                seen++;
            }
        }

        Assert.InRange(seen, 5, 100);
    }

    [Fact]
    public void Every_command_that_is_named_exists()
    {
        string[] known = [.. GeneratedPages.Program.All.Select(command => command.Path)];
        int seen = 0;
        foreach ((string file, string text) in Guides)
        {
            foreach (string words in Command().Matches(text).Select(match => match.Groups["words"].Value))
            {
                Assert.True(known.Contains(words, StringComparer.Ordinal) || known.Contains(words.Split(' ')[0], StringComparer.Ordinal), $"{file}: flowsim {words}");
                seen++;
            }
        }

        Assert.InRange(seen, 15, 500);
    }

    /// <summary>The form that the guide adds fulfils what each form must: its areas are the slopes of its volumes.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.05)]
    [InlineData(0.099)]
    public void The_tray_of_the_guide_is_a_sound_form(double depthM)
    {
        TrayScreen tray = new(Length.FromMillimeters(400), Length.FromMillimeters(300), Length.FromMillimeters(100));
        const double Step = 1e-6;
        Assert.Equal(depthM, tray.PondDepthM(tray.PondVolumeM3(depthM)), 12);
        Assert.Equal(tray.SurfaceAreaM2(depthM), (tray.PondVolumeM3(depthM + Step) - tray.PondVolumeM3(depthM - Step)) / (2 * Step), 8);
        Assert.Equal(tray.WettedClothAreaM2(depthM), (tray.HeadIntegralM3(depthM + Step) - tray.HeadIntegralM3(depthM - Step)) / (2 * Step), 8);
        Assert.Equal(0.4 * 0.3, tray.WettedClothAreaM2(depthM), 12);
    }

    [Fact]
    public void Its_entry_makes_it_from_the_keys_of_a_file()
    {
        Dictionary<string, double> given = new(StringComparer.Ordinal) { ["length"] = 0.4, ["width"] = 0.3, ["rim_height"] = 0.1 };
        ScreenShape tray = TrayScreen.Entry.Create(key => given.TryGetValue(key, out double value) ? value : null);
        Assert.Equal(0.012, tray.PondVolumeM3(1), 12);
        ArgumentException missing = Assert.Throws<ArgumentException>(() => TrayScreen.Entry.Create(_ => null));
        Assert.Contains("length", missing.Message, StringComparison.Ordinal);
    }

    /// <summary>A tray of as much cloth as the disc of the example strains as it does.</summary>
    [Fact]
    public void It_strains_the_example()
    {
        StrainingSetup disc = Loader.ReadRun(Loader.Load(Demo.Text, "demo.toml", [], null)).Setup;
        double side = Math.Sqrt(Math.PI) / 2 * 0.240;
        StrainingSetup tray = disc with { Strainer = disc.Strainer with { Shape = new TrayScreen(Length.FromMeters(side), Length.FromMeters(side), disc.Strainer.Shape.RimHeight) } };
        StrainingResult one = StrainingRun.Simulate(disc), other = StrainingRun.Simulate(tray);
        Assert.Equal(one.Drain.To95!.Value.Seconds, other.Drain.To95!.Value.Seconds, 6);
        Assert.Equal(one.PeakPond.Meters, other.PeakPond.Meters, 9);
        Assert.InRange(one.PeakPond.Meters, 0.001, 0.1);
    }

    private static string Lines(string text) => string.Join('\n', text.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0));
}
