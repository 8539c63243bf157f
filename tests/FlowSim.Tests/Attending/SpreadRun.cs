using FlowSim.Attending;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>The small pail where some runs run over and others do not, and what a forecast's runs are counted and ranked by.</summary>
internal static class SpreadRun
{
    /// <summary>Runs of a forecast.</summary>
    public const int Runs = 1024;

    /// <summary>A rim and an opening of the small pail, the lot factor known to a third, looked at for a minute unless it is said: what runs over has done so by then.</summary>
    public static AttendedRun Run(double rimMm = 38, double openPercent = 30, double load = 1e-3, double longestS = 60)
    {
        StrainingSetup setup = SmallRun.Pail with
        {
            Strainer = SmallRun.Pail.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(rimMm)) },
            Debris = new Debris { Load = Ratio.FromDecimalFractions(load) },
            Control = GateControl.LeaveAt(Ratio.FromPercent(openPercent)),
            Longest = Duration.FromSeconds(longestS),
        };
        return new AttendedRun { Setup = setup, Threads = 1, Priors = [new UncertainInput(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.3), new Source("invented", Standing.GivenByUser))] };
    }

    public static AttendedRun WithReceiver(AttendedRun run, double heightMm) => run with { Setup = run.Setup with { Receiver = run.Setup.Receiver with { Shape = new UprightCylinder(Length.FromMillimeters(180), Length.FromMillimeters(heightMm)) } } };

    public static NextAction? Action(RunForecast forecast, NextActionKind kind) => forecast.At(forecast.Run.LastEntry).NextActions.SingleOrDefault(action => action.Kind == kind);

    /// <summary>The value of a rank among values in order.</summary>
    public static double Ranked(IEnumerable<double> values, double share)
    {
        double[] sorted = [.. values.Order()];
        return sorted[(int)Math.Round(share * (sorted.Length - 1))];
    }

    public static void Same(double expected, Duration told) => Assert.Equal(expected, told.Seconds, 1e-9 * expected);
}
