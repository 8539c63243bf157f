using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>Writes an example file, every key explained.</summary>
internal static class NewCommand
{
    public static int Run(string path, bool day, bool force, Surroundings around)
    {
        around.Files.Write(path, force, day ? Demo.Day : Demo.Text);
        string shown = Printable.Of(path, 200);
        if (day)
        {
            around.Error.Write($"wrote {shown}; change it and run: flowsim plan {shown}\n");
            return ExitCode.Done;
        }

        around.Error.Write($"wrote {shown}; change it and run: flowsim strain {shown}, flowsim warm {shown} or flowsim setpoint {shown}\n");
        return ExitCode.Done;
    }
}
