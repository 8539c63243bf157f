using System.Runtime.InteropServices;
using System.Text;
using FlowSim.Commands;
using FlowSim.Commands.Output;
using FlowSim.Console;

// Plain streams: UTF-8 whatever the machine is set to, and less to start up than Console.Out.
UTF8Encoding encoding = new(encoderShouldEmitUTF8Identifier: false);
using StreamWriter output = new(Console.OpenStandardOutput(), encoding);
using StreamWriter plainError = new(Console.OpenStandardError(), encoding) { AutoFlush = true };
using ForgivingWriter error = new(plainError);
using CancellationTokenSource cancellation = new();

// Ctrl-C ends a run in good order; a second one ends the process, should it hang in reading a pipe.
using PosixSignalRegistration interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, signal =>
{
    signal.Cancel = !cancellation.IsCancellationRequested;
    cancellation.Cancel();
});
try
{
    int code = FlowSimCommand.Run(args, ProcessSurroundings.Of(output, error), cancellation.Token);
    output.Flush();
    return code;
}
catch (Exception trouble) when (ForgivingWriter.IsStreamTrouble(trouble))
{
    error.Write("flowsim: the output cannot be written: " + Printable.Of(trouble.Message, 200) + "\n");
    return ExitCode.FileTrouble;
}
