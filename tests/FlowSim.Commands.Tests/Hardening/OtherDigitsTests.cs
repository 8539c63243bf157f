using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests.Hardening;

/// <summary>Digits of other scripts are digits to Unicode but not to a number's parser: they are refused where a time is read.</summary>
public sealed class OtherDigitsTests : IDisposable
{
    /// <summary>0730 in Arabic-Indic, Devanagari and full-width digits.</summary>
    private static readonly string[] s_hours = ["٠٧:٣٠", "०७:३०", "０７:３０"];

    private readonly Folder _folder = new();

    public static TheoryData<string> Hours => [.. s_hours];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Hours))]
    public void In_a_day(string hour)
    {
        Assert.Contains("opens = \"07:00\"", Demo.Day, StringComparison.Ordinal);
        Ran ran = Ran.With("plan", _folder.Write("day.toml", Demo.Day.Replace("opens = \"07:00\"", $"opens = \"{hour}\"", StringComparison.Ordinal)));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("is not a time of day", ran.Error, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Hours))]
    public void In_a_table_of_readings(string hour)
    {
        Ran ran = Ran.With("fit", _folder.Write("run.csv", $"clock,tank level [mm]\n{hour},293\n07:31,204\n07:32,141\n"), "--batch", _folder.Write("run.toml", Demo.Text));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("run.csv, line 2, column 1", ran.Error, StringComparison.Ordinal);
    }
}
