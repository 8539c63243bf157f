using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Straining;

namespace FlowSim.Commands.Tests.Input;

/// <summary>Tables of timed readings in the forms people write.</summary>
public class RunCsvTests
{
    private static RunFile Read(string text)
    {
        Problems problems = new();
        RunFile? file = RunCsvReader.Read("run.csv", text, problems);
        Assert.Empty(problems.All.Select(problem => problem.ToString()));
        return file!;
    }

    private static double[] Times(RunFile file, int column = 0) => [.. file.Columns[column].Readings.Select(reading => Math.Round(reading.At.Seconds, 9))];

    private static double[] Values(RunFile file, int column = 0) => [.. file.Columns[column].Readings.Select(reading => Math.Round(reading.Value, 12))];

    [Theory]
    [InlineData("pond depth [mm]", ",,40,", "\"pond depth [mm]\" has 1 readings")]
    [InlineData("pond depth [mm]", ",,,", "\"pond depth [mm]\" has no reading below it")]
    [InlineData("receiver mass [kg]", "5,5,5,5", "\"receiver mass [kg]\" does not change: nothing can be fitted to it")]
    public void A_column_that_tells_nothing_is_left_out_with_a_word_beside_one_that_does(string heading, string cells, string said)
    {
        string[] cell = cells.Split(',');
        RunFile file = Read($"time [min],tank level [mm],{heading}\n" + string.Concat(Enumerable.Range(0, 4).Select(i => $"{i},{298 - (40 * i)},{cell[i]}\n")));
        Assert.Equal(StrainingObservable.TankLevel, Assert.Single(file.Columns).Quantity);
        Assert.Contains(file.Echoes, echo => echo.StartsWith(said, StringComparison.Ordinal) && echo.EndsWith(": left out", StringComparison.Ordinal));
    }

    [Theory]
    // Factors by definition of the units: inch 25.4 mm, pound 0.45359237 kg, US gallon 231 cubic inches.
    [InlineData("tank level [mm]", StrainingObservable.TankLevel, 0.001)]
    [InlineData("tank level (mm)", StrainingObservable.TankLevel, 0.001)]
    [InlineData("Tank_Level_in", StrainingObservable.TankLevel, 0.0254)]
    [InlineData("\"tank level, in\"", StrainingObservable.TankLevel, 0.0254)]
    [InlineData("tank level in mm", StrainingObservable.TankLevel, 0.001)]
    [InlineData("TANK LEVEL cm", StrainingObservable.TankLevel, 0.01)]
    [InlineData("tank_depth_m", StrainingObservable.TankLevel, 1)]
    [InlineData("tank mass [kg]", StrainingObservable.TankMass, 1)]
    [InlineData("tank weight (lb)", StrainingObservable.TankMass, 0.45359237)]
    [InlineData("tank_volume_L", StrainingObservable.TankVolume, 0.001)]
    [InlineData("tank volume [US gal]", StrainingObservable.TankVolume, 0.003785411784)]
    [InlineData("pond depth [mm]", StrainingObservable.PondDepth, 0.001)]
    [InlineData("pond level (in)", StrainingObservable.PondDepth, 0.0254)]
    [InlineData("receiver mass [kg]", StrainingObservable.ReceiverMass, 1)]
    [InlineData("receiver_weight_lb", StrainingObservable.ReceiverMass, 0.45359237)]
    [InlineData("receiver level (mm)", StrainingObservable.ReceiverLevel, 0.001)]
    [InlineData("Receiver volume mL", StrainingObservable.ReceiverVolume, 1e-6)]
    public void Headings(string heading, StrainingObservable quantity, double factor)
    {
        RunFile file = Read($"time [min],{heading}\n0,4\n1,3\n2,2\n3,1\n");
        Assert.Equal(quantity, file.Columns.Single().Quantity);
        Assert.Equal([0, 60, 120, 180], Times(file));
        Assert.Equal(new[] { 4, 3, 2, 1 }.Select(value => Math.Round(value * factor, 12)), Values(file));
    }

    [Theory]
    [InlineData("time [s]", 1)]
    [InlineData("time_min", 60)]
    [InlineData("Time (h)", 3600)]
    [InlineData("time s", 1)]
    public void Units_of_time(string heading, double factor) =>
        Assert.Equal([0, 0.5 * factor, factor, 2 * factor], Times(Read($"{heading},tank level [mm]\n0,4\n0.5,3\n1,2\n2,1\n")));

    [Theory]
    [InlineData("time", "0 s;30 s;2 min;1 h 5 min", new double[] { 0, 30, 120, 3900 })]
    [InlineData("time", "0:00;0:05;0:30;1:10", new double[] { 0, 300, 1800, 4200 })]
    [InlineData("time", "0:00:00;0:00:30;0:01:00.5;0:02:00", new double[] { 0, 30, 60.5, 120 })]
    [InlineData("time [m:ss]", "0:00;0:30;1:05;75:10", new double[] { 0, 30, 65, 4510 })]
    [InlineData("time", "14:05;14:06;14:06;15:05", new double[] { 0, 60, 60, 3600 })]
    [InlineData("clock", "0:05;0:06;0:10;1:05", new double[] { 0, 60, 300, 3600 })]
    [InlineData("clock [h:mm]", "23:58;23:59;0:01;0:10", new double[] { 0, 60, 180, 720 })]
    [InlineData("clock", "11:58 am;12:00 pm;12:30 PM;1:05 p.m.", new double[] { 0, 120, 1920, 4020 })]
    [InlineData("clock", "11:58 pm;12:01 am;12:30 AM;1:00 a.m.", new double[] { 0, 180, 1920, 3720 })]
    public void Ways_of_telling_the_time(string heading, string times, double[] seconds)
    {
        string[] all = times.Split(';');
        RunFile file = Read($"{heading},tank level [mm]\n" + string.Concat(all.Select((time, i) => $"{time},{9 - i}\n")));
        Assert.Equal(seconds, Times(file));
        if (times.Contains(':', StringComparison.Ordinal))
            Assert.Contains(file.Echoes, echo => echo.Contains("are read as", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(",", "\n")]
    [InlineData(";", "\r\n")]
    [InlineData("\t", "\n")]
    public void Delimiters_and_line_ends(string delimiter, string end)
    {
        string[] rows = ["time [min]|\"tank level [mm]\"|note", "0|298|", "1|250|\"gate 40 %; scrape\"", "2||\"said \"\"slow\"\", then tea\"", "3|200|", "4|150|", "||", ""];
        RunFile file = Read("\uFEFF".TrimStart('\uFEFF') + string.Join(end, rows).Replace("|", delimiter, StringComparison.Ordinal) + end + end);
        Assert.Equal([0, 60, 180, 240], Times(file));
        Assert.Equal([(60d, 0.4), (60, null)], file.Notes.Select(note => (note.TimeS, note.Opening)));
    }

    [Fact]
    public void An_empty_scale_shows_nothing_with_either_sign()
    {
        RunFile file = Read("time [s],receiver mass [kg]\n+0,-0.0\n10,+1.0\n20,+2e0\n30,3\n");
        Assert.Equal([0, 10, 20, 30], Times(file));
        Assert.Equal([0, 1, 2, 3], Values(file));
        Assert.False(double.IsNegative(file.Columns[0].Readings[0].Value));
    }

    [Fact]
    public void Several_columns_keep_their_gaps_to_themselves()
    {
        RunFile file = Read("time [s],tank level [mm],receiver mass [kg]\n0,298,\n10,,1.0\n20,250,\n30,240,2.0\n40,230,3\n50,,4\n");
        Assert.Equal([0, 20, 30, 40], Times(file, 0));
        Assert.Equal([10, 30, 40, 50], Times(file, 1));
    }

    [Theory]
    [InlineData("gate 40 %", 0.4)]
    [InlineData("open 40%", 0.4)]
    [InlineData("Opened to 25 %", 0.25)]
    [InlineData("gate opened to 12.5 %", 0.125)]
    [InlineData("shut", 0.0)]
    [InlineData("gate shut.", 0.0)]
    [InlineData("scrape", null)]
    [InlineData("Scraped", null)]
    public void Notes(string note, double? opening)
    {
        RunFile file = Read($"time [s],tank level [mm],note\n0,4,\n10,3,{note}\n20,2,\n30,1,looked in and had tea\n");
        Assert.Equal([(10d, opening)], file.Notes.Select(read => (read.TimeS, read.Opening)));
    }

    [Fact]
    public void Comments_above_the_headings_are_the_runs_own_keys()
    {
        RunFile file = Read("# a pail, by the window\n# honey.temperature = \"33 °C\"\n\"# tank.level = \"\"290 mm\"\"\",,\n# date = 2026-11-20,,\n\ntime [s],tank level [mm],note\n0,4,\n# tea\n10,3,\n20,2,\n30,1,\n");
        Assert.Equal(["honey.temperature=\"33 °C\"", "tank.level=\"290 mm\""], file.Settings.Select(setting => setting.Setting));
        Assert.Equal([2, 3], file.Settings.Select(setting => setting.Spot.Line));
        Assert.Equal(new DateOnly(2026, 11, 20), file.Date);
        Assert.Equal(4, file.Columns[0].Readings.Count);
    }

    [Fact]
    public void The_same_readings_in_other_units_are_the_same_run()
    {
        double[] millimetres = [298, 250.5, 200, 123.4];
        string metric = Fingerprint("time [min],tank level [mm]\n" + string.Concat(millimetres.Select((mm, i) => FormattableString.Invariant($"{i},{mm}\n"))));
        string us = Fingerprint("time_s;tank_level_in\r\n" + string.Concat(millimetres.Select((mm, i) => (60 * i).ToString(CultureInfo.InvariantCulture) + ";" + (mm / 25.4).ToString("R", CultureInfo.InvariantCulture) + "\r\n")));
        Assert.Equal(metric, us);
        Assert.Equal(16, metric.Length);
        Assert.NotEqual(metric, Fingerprint("time [min],tank level [mm]\n0,298\n1,250.5\n2,200\n3,123.5\n"));

        static string Fingerprint(string text) =>
            TimedRunReader.Read(Read(text), new BatchSource("demo.toml", Demo.Text, []), null, []).Fingerprint;
    }

    [Fact]
    public void What_was_noted_is_what_was_done()
    {
        RunFile file = Read("# honey.temperature = \"33 ± 1 °C\"\ntime [min],tank level [mm],note\n0,298,\n2,250,gate 20 %\n3,240,scrape\n5,200,shut\n9,100,\n");
        List<string> echoes = [];
        TimedRun run = TimedRunReader.Read(file, new BatchSource("demo.toml", Demo.Text.Replace("# at_pond_depth", "at_pond_depth", StringComparison.Ordinal), ["honey.temperature=40 °C", "fit.level_zero=4 mm", "fit.clock=7 s"]), null, echoes);
        var schedule = Assert.IsType<OpeningSchedule>(run.Setup.Control);
        Assert.Equal([(0d, 30d), (120, 20), (300, 0)], schedule.Steps.Select(step => (step.At.Seconds, Math.Round(step.Opening.Percent, 9))));
        Assert.Equal([180d], run.Setup.Scraping.Times.Select(time => time.Seconds));
        Assert.Null(run.Setup.Scraping.AtPondDepth);
        Assert.Equal(33, run.Setup.HoneyTemperature.DegreesCelsius, 1e-9);
        Assert.Equal((7d, 0.004), (run.Series[0].ClockOffset.Seconds, Math.Round(run.Series[0].ZeroOffset!.Value, 12)));
        Assert.Equal("tank level [mm]", run.Series[0].Name);
        Assert.Contains(echoes, echo => echo.Contains("30 % from 0 s, 20 % from 2 min 00 s, 0 % from 5 min 00 s", StringComparison.Ordinal));
        Assert.Contains(echoes, echo => echo.Contains("scraped as noted, after 3 min 00 s", StringComparison.Ordinal));
        Assert.Contains(echoes, echo => echo.Contains("honey.temperature is taken at 33 °C", StringComparison.Ordinal));
    }
}
