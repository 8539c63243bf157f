namespace FlowSim.Commands.Tests;

/// <summary>What the program returns.</summary>
public class ExitCodeTests
{
    [Theory]
    [InlineData(ExitCode.Done)]
    [InlineData(ExitCode.Done, "strain")]
    [InlineData(ExitCode.Done, "strain", "--set", "gate.opening=10%", "--fail-on-overflow")]
    [InlineData(ExitCode.RanOver, "strain", "--fail-on-overflow")]
    [InlineData(ExitCode.RanOver, "strain", "--fail-on-overflow", "--set", "gate.opening=10%", "--set", "receiver.capacity=10 L", "--set", "receiver.shut_when_full=false")]
    [InlineData(ExitCode.Done, "warm")]
    [InlineData(ExitCode.Done, "warm", "--fail-on-miss")]
    [InlineData(ExitCode.Done, "warm", "--set", "until.longest=1 h")]
    [InlineData(ExitCode.TargetMissed, "warm", "--set", "until.longest=1 h", "--fail-on-miss")]
    [InlineData(ExitCode.TargetMissed, "warm", "--json", "--set", "thermostat.setpoint=34 °C", "--set", "until.longest=1 d", "--fail-on-miss")]
    [InlineData(ExitCode.BadInput, "warm", "--fail-on-overflow")]
    [InlineData(ExitCode.BadInput, "setpoint", "--csv", "a.csv")]
    [InlineData(ExitCode.BadInput, "warm", "--set", "honey.form=granulated")]
    [InlineData(ExitCode.HoneyRefused, "warm", "--set", "honey.form=gelling")]
    [InlineData(ExitCode.FileTrouble, "warm", "none.toml")]
    [InlineData(ExitCode.Done, "honey")]
    [InlineData(ExitCode.Done, "kit")]
    [InlineData(ExitCode.Done, "--version")]
    [InlineData(ExitCode.Done, "strain", "--help")]
    [InlineData(ExitCode.BadInput, "strian")]
    [InlineData(ExitCode.BadInput, "strain", "--unit", "us")]
    [InlineData(ExitCode.BadInput, "strain", "--units", "uk")]
    [InlineData(ExitCode.BadInput, "strain", "a.toml", "b.toml")]
    [InlineData(ExitCode.BadInput, "new")]
    [InlineData(ExitCode.BadInput, "strain", "--set", "gate.bore=1 mm")]
    [InlineData(ExitCode.FileTrouble, "strain", "none.toml")]
    [InlineData(ExitCode.FileTrouble, "strain", "@none.rsp")]
    [InlineData(ExitCode.HoneyRefused, "strain", "--set", "honey.form=gelling")]
    [InlineData(ExitCode.HoneyRefused, "strain", "--set", "honey.form=granulated", "--set", "tank.fill=20 kg")]
    [InlineData(ExitCode.HoneyRefused, "honey", "--set", "honey.form=gelling")]
    public void Codes(int code, params string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.True(code == ran.Code, FormattableString.Invariant($"{ran.Code}: {ran.Error}"));
    }

    [Theory]
    [InlineData("strain")]
    [InlineData("warm")]
    public void A_cancelled_run(string command)
    {
        Ran ran = Ran.On([command], colour: false, cancellation: new CancellationToken(canceled: true));
        Assert.Equal(ExitCode.Cancelled, ran.Code);
        Assert.Empty(ran.Out);
        Assert.Contains("cancelled", ran.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("strian", "nearest: strain")]
    [InlineData("strain --unit us", "nearest: --units")]
    [InlineData("strain --forse", "nearest: --force")]
    [InlineData("setpiont", "nearest: setpoint")]
    [InlineData("setpoint --cieling", "nearest: --ceiling")]
    [InlineData("rsik", "nearest: risk")]
    [InlineData("warm --demage d.png", "nearest: --damage")]
    public void The_nearest_word_is_named(string line, string said) =>
        Assert.Contains(said, Ran.With(line.Split(' ')).Error, StringComparison.Ordinal);

    [Theory]
    [InlineData("--help")]
    [InlineData("strain", "--help")]
    [InlineData("warm", "--help")]
    [InlineData("setpoint", "--help")]
    [InlineData("risk", "--help")]
    [InlineData("honey", "--help")]
    public void Every_code_stands_in_the_help_under_the_programs_own_name(params string[] arguments)
    {
        string help = Ran.With(arguments).Out;
        // Whatever the process is called that runs it.
        Assert.Contains(arguments.Length > 1 ? $"\n  flowsim {arguments[0]} " : "\n  flowsim [", help, StringComparison.Ordinal);
        Assert.All(ExitCode.All, entry => Assert.Contains(FormattableString.Invariant($"{entry.Code,-4} {entry.Meaning}"), help, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_code_has_its_meaning() => Assert.Equal(
        typeof(ExitCode).GetFields().Where(field => field.IsLiteral).Select(field => (int)field.GetRawConstantValue()!).Order(),
        ExitCode.All.Select(entry => entry.Code).Order());
}
