using FlowSim.Plots.Drawing;
using FlowSim.Straining;

namespace FlowSim.Plots;

/// <summary>What happened in a run, in one line.</summary>
internal static class StrainingTitle
{
    public static string Of(StrainingResult result, TimeScale time) => What(result, time) + "; " + Times(result, time);

    private static string What(StrainingResult result, TimeScale time) => result.Status switch
    {
        StrainingStatus.Drained => "Ran through without overflow",
        StrainingStatus.ReceiverFull => "Receiver full, gate shut",
        StrainingStatus.TimeLimit => "Stopped at the time limit",
        StrainingStatus.Stalled => "Stalled",
        StrainingStatus.ReceiverOverfilled => "Receiver ran over",
        StrainingStatus.Overflowed => result.FirstOverflow is { } first ? "Ran over the rim at " + time.Moment(first.Seconds) : "Ran over the rim",
        _ => result.Status.ToString(),
    };

    private static string Times(StrainingResult result, TimeScale time)
    {
        if (result.Drain.To95 is not { } drained)
        {
            string end = time.Moment(result.Elapsed.Seconds);
            return result.Status == StrainingStatus.Overflowed && result.Ending == StrainingStatus.ReceiverFull
                ? "receiver full at " + end + ", not 95 % drained"
                : "not 95 % drained in " + end;
        }

        return "95 % drained in " + time.Moment(drained.Seconds)
            + (result.Strain.To95 is { } strained ? ", strained in " + time.Moment(strained.Seconds) : ", not 95 % strained");
    }
}
