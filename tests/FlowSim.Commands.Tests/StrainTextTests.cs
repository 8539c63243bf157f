using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests;

/// <summary>The text of a run: what comes last, how wide it is, what it never says.</summary>
public partial class StrainTextTests
{
    public static TheoryData<string[]> Many { get; } =
    [
        ["strain"],
        ["strain", "--units", "us"],
        ["strain", "--set", "gate.opening=10%"],
        ["strain", "--set", "gate.ride_pond=60 mm"],
        ["strain", "--set", "gate.opening=[\"0 min 40%\", \"5 min 25%\"]"],
        ["strain", "--set", "receiver.capacity=10 L"],
        ["strain", "--set", "receiver.capacity=10 L", "--set", "receiver.shut_when_full=false"],
        ["strain", "--set", "run.longest=1 min", "--set", "gate.opening=5%"],
        ["strain", "--set", "gate.opening=0%"],
        ["strain", "--set", "honey.temperature=58 °C"],
        ["strain", "--set", "debris.load=20 g/kg", "--set", "debris.capture=100%", "--set", "scraping.at_pond_depth=60 mm"],
        ["strain", "--set", "screen.venting=sealed", "--set", "screen.overflow=spill", "--set", "receiver.capacity=20 L"],
        ["warm"],
        ["warm", "--units", "us"],
        ["warm", "--set", "warming.by=bath", "--set", "warming.water_level=250 mm", "--set", "vessel.count=12"],
        ["warm", "--set", "warming.by=immersion", "--set", "warming.lower_end=50 mm", "--set", "warming.upper_end=150 mm", "--set", "warming.element_radius=8 mm", "--set", "warming.power=2 kW", "--set", "thermostat.sensor=honey", "--set", "until.longest=3 h"],
        ["warm", "--set", "warming.granulation=coarse", "--set", "until.no_crystals=true", "--set", "until.longest=2 d"],
        ["warm", "--set", "warming.from=45 °C", "--set", "thermostat.setpoint=8 °C", "--set", "until.thick=20 Pa.s"],
        ["warm", "--set", "limits.ceiling=38 °C", "--set", "heat.hmf=39.99 mg/kg"],
        ["warm", "--help"],
        ["setpoint", "--help"],
        ["honey"],
        ["honey", "--table"],
        ["honey", "--table", "--units", "us", "--property", "thermal-expansion"],
        ["kit"],
        ["kit", "--units", "us"],
        ["--help"],
        ["strain", "--help"],
        ["honey", "--help"],
        ["new", "--help"],
        ["kit", "--help"],
        [],
        ["--version"],
        ["strain", "nothing.toml"],
        ["strain", "--set", "gate.bore=1 mm"],
    ];

    [Theory]
    [MemberData(nameof(Many))]
    public void It_never_says_that_word(string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.DoesNotMatch(SafeWord(), ran.Out + ran.Error + FlowSim.Commands.Input.Demo.Text);
    }

    [Theory]
    [MemberData(nameof(Many))]
    public void It_fits_the_terminal_and_has_no_escapes_without_colour(string[] arguments)
    {
        foreach (int width in new[] { Surroundings.Narrowest, Surroundings.Widest })
        {
            Ran ran = Ran.On(arguments, colour: false, width);
            Assert.DoesNotContain('\u001b', ran.Out);
            Assert.DoesNotContain("NaN", ran.Out, StringComparison.Ordinal);
            if (!arguments.Contains("--help", StringComparer.Ordinal) && arguments.Length > 0)
                Assert.All(ran.Out.Split('\n'), line => Assert.True(line.Length <= (arguments.Contains("--table", StringComparer.Ordinal) || width < Surroundings.Widest ? Math.Max(width, Surroundings.Widest) : width), line));
        }
    }

    [Fact]
    public void Paragraphs_fold_to_a_narrow_terminal()
    {
        string[] lines = Ran.On(["strain", "-q"], colour: false, Surroundings.Narrowest).Out.Split('\n');
        Assert.All(lines, line => Assert.InRange(line.Length, 0, Surroundings.Narrowest));
    }

    [Fact]
    public void Colour_adds_nothing_but_colour()
    {
        Ran plain = Ran.On(["strain"], colour: false);
        Ran coloured = Ran.On(["strain"], colour: true);
        Assert.Contains('\u001b', coloured.Out);
        Assert.True(plain.Out == Escape().Replace(coloured.Out, string.Empty), coloured.Out);
    }

    [Fact]
    public void The_result_and_what_to_do_come_last()
    {
        string text = Ran.With("strain").Out;
        int notices = text.IndexOf("\nNotices\n", StringComparison.Ordinal);
        int cautions = text.IndexOf("\nMind\n", StringComparison.Ordinal);
        int result = text.IndexOf("\nResult\n", StringComparison.Ordinal);
        int next = text.IndexOf("\nWhat to do next\n", StringComparison.Ordinal);
        Assert.True(0 < notices && notices < cautions && cautions < result && result < next);
        Assert.EndsWith(Ran.With("strain", "--quiet").Out, text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_opening_it_advises_does_not_run_over_and_one_percent_more_does()
    {
        Match advice = Advice().Match(Ran.With("strain", "-q").Out.Replace('\n', ' '));
        double percent = double.Parse(advice.Groups["percent"].Value, CultureInfo.InvariantCulture);
        Assert.Equal(ExitCode.Done, Opened(percent));
        Assert.Equal(ExitCode.RanOver, Opened(percent + 1));

        static int Opened(double percent) => Ran.With("strain", "--fail-on-overflow", "--set", FormattableString.Invariant($"gate.opening={percent}%")).Code;
    }

    [Fact]
    public void Us_units_are_the_metric_figures_converted()
    {
        // 38 mm = 1.496 in, 35 °C = 95 °F, 25 L = 6.604 US gal (231 in³).
        string text = Ran.With("strain", "--units", "us").Out;
        Assert.Contains("1.5 in bore", text, StringComparison.Ordinal);
        Assert.Contains("at 95 °F", text, StringComparison.Ordinal);
        Assert.Contains("6.6 gal to the brim", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_language_of_the_machine_does_not_matter()
    {
        Ran before = Ran.With("strain", "--json");
        Ran text = Ran.With("strain");
        CultureInfo own = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo(string.Empty) { NumberFormat = { NumberDecimalSeparator = ",", NumberGroupSeparator = ".", NegativeSign = "~" } };
            Assert.Equal(before, Ran.With("strain", "--json"));
            Assert.Equal(text, Ran.With("strain"));
        }
        finally
        {
            CultureInfo.CurrentCulture = own;
        }
    }

    [Fact]
    public void A_line_never_breaks_within_a_quantity()
    {
        string[] kept = ["6 h 20 min", "2 d 3 h", "35 °C", "1 h", "7"];
        string text = string.Join(" to ", kept);
        for (int columns = 10; columns < 40; columns++)
        {
            string[] lines = [.. Page.Fold(text, columns)];
            Assert.Equal(text, string.Join(' ', lines));
            Assert.All(kept, amount => Assert.Contains(lines, line => line.Contains(amount, StringComparison.Ordinal)));
        }
    }

    [Theory]
    [InlineData(0.0997, 2, "0.10")] // rounding gains a digit in front
    [InlineData(9.96, 2, "10")]
    [InlineData(0.073, 2, "0.073")]
    [InlineData(1407.4, 4, "1407")]
    public void Figures(double value, int figures, string text) => Assert.Equal(text, Display.Figures(value, figures));

    [Theory]
    [InlineData(0.04, "0 s")]
    [InlineData(9.94, "9.9 s")]
    [InlineData(59.4, "59 s")]
    [InlineData(59.6, "1 min 00 s")]
    [InlineData(200, "3 min 20 s")]
    [InlineData(3599.7, "1 h 00 min")]
    [InlineData(5400, "1 h 30 min")]
    [InlineData(259200, "3 d 0 h")]
    public void Times(double seconds, string text) => Assert.Equal(text, Display.Time(seconds));

    [GeneratedRegex(@"\bsafe\w*", RegexOptions.IgnoreCase | RegexOptions.NonBacktracking)]
    private static partial Regex SafeWord();

    [GeneratedRegex("\u001b\\[[0-9;]*m", RegexOptions.NonBacktracking)]
    private static partial Regex Escape();

    [GeneratedRegex(@"at most (?<percent>[0-9.]+) %", RegexOptions.NonBacktracking)]
    private static partial Regex Advice();
}
