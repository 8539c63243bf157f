using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim new</c> was asked for.</summary>
internal sealed record NewRequest
{
    public required string File { get; init; }

    public bool Day { get; init; }

    public bool Force { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static NewRequest Of(CommandOptions options) => new()
    {
        File = options.Needed("FILE", "File to write."),
        Day = options.Flag("--day", "Write the example of a day, for flowsim plan."),
        Force = options.Force(),
    };
}

/// <summary>Writes an example file, every key explained.</summary>
internal static class NewCommand
{
    public static int Run(NewRequest request, Surroundings around)
    {
        around.Files.Write(request.File, request.Force, request.Day ? Demo.Day : Demo.Text);
        string shown = Printable.Of(request.File, 200);
        if (request.Day)
        {
            around.Error.Write($"wrote {shown}; change it and run: flowsim plan {shown}\n");
            return ExitCode.Done;
        }

        around.Error.Write($"wrote {shown}; change it and run: flowsim strain {shown}, flowsim warm {shown} or flowsim setpoint {shown}\n");
        return ExitCode.Done;
    }
}
