using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests;

/// <summary>The advice fits what happened.</summary>
public class NextStepsTests
{
    [Fact]
    public void A_shut_gate_is_to_be_opened() => Assert.Contains("1. Open the gate: it is shut all the time.", Steps("gate.opening=0%"), StringComparison.Ordinal);

    [Fact]
    public void A_sealed_strainer_is_to_be_vented_and_not_ridden()
    {
        string steps = Steps("screen.venting=sealed", "screen.overflow=spill");
        Assert.Contains("1. Let the air out of the receiver", steps, StringComparison.Ordinal);
        Assert.DoesNotContain("ride the gate", steps, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void The_first_step_is_no_alternative() =>
        Assert.Contains("1. Ride the gate", Steps("gate.opening=[\"0 min 40%\",\"1 min 5%\",\"3 min 60%\"]"), StringComparison.Ordinal);

    [Fact]
    public void Nobody_is_told_to_shut_the_gate_after_the_receiver_has_run_over()
    {
        string steps = Steps("receiver.capacity=15 L", "gate.opening=20%", "receiver.shut_when_full=false");
        Assert.Contains("or shut the gate before", steps, StringComparison.Ordinal);
        Assert.DoesNotContain("Shut the gate at about", steps, StringComparison.Ordinal);
    }

    [Fact]
    public void Who_scrapes_already_is_not_told_to_scrape()
    {
        string steps = Steps("debris.load=20 g/kg", "debris.capture=100%", "scraping.at_pond_depth=60 mm");
        Assert.Contains("even when scraped", steps, StringComparison.Ordinal);
        Assert.DoesNotContain("Scrape the cloth", steps, StringComparison.Ordinal);
        Assert.DoesNotContain("what is left in the tank", steps, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(30.4, "30 s")]
    [InlineData(153, "2 min 30 s")]
    [InlineData(2074, "35 min")]
    [InlineData(5300, "1 h 30 min")]
    [InlineData(109800, "31 h")]
    public void A_spread_is_not_given_to_the_second(double seconds, string text) => Assert.Equal(text, Display.RoughTime(seconds));

    private static string Steps(params string[] settings)
    {
        string text = Ran.With(["strain", "-q", .. settings.SelectMany(setting => new[] { "--set", setting })]).Out;
        string[] lines = text[text.IndexOf("What to do next", StringComparison.Ordinal)..].Split('\n');
        return string.Join(' ', lines.Select(line => line.Trim()));
    }
}
