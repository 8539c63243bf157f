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

// A signal ends a run in good order; a second one ends the process, should it hang in reading a pipe.
int? ended = null;
using PosixSignalRegistration interrupt = EndOn(PosixSignal.SIGINT, ExitCode.Cancelled);
using PosixSignalRegistration terminate = EndOn(PosixSignal.SIGTERM, ExitCode.Terminated);
using PosixSignalRegistration hangUp = EndOn(PosixSignal.SIGHUP, ExitCode.HungUp);
try
{
    int code = FlowSimCommand.Run(args, ProcessSurroundings.Of(output, error), cancellation.Token);
    output.Flush();
    return code == ExitCode.Cancelled ? ended ?? code : code;
}
catch (Exception trouble) when (ForgivingWriter.IsStreamTrouble(trouble))
{
    error.Write("flowsim: the output cannot be written: " + Printable.Of(trouble.Message, 200) + "\n");
    return ExitCode.FileTrouble;
}

PosixSignalRegistration EndOn(PosixSignal which, int code) => PosixSignalRegistration.Create(which, signal =>
{
    signal.Cancel = !cancellation.IsCancellationRequested;
    ended ??= code;
    cancellation.Cancel();
});
