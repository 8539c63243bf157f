using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Text;
using FlowSim.Commands;

namespace FlowSim.Native;

/// <summary>The functions of flowsim.h. Nothing is thrown out of them.</summary>
internal static unsafe class Exports
{
    private static readonly Lazy<nint> s_version = new(() => (nint)Copy(Encoding.UTF8.GetBytes(FlowSimCommand.Version)));

    [UnmanagedCallersOnly(EntryPoint = "flowsim_contract", CallConvs = [typeof(CallConvCdecl)])]
    public static int Contract() => Request.Contract;

    [UnmanagedCallersOnly(EntryPoint = "flowsim_version", CallConvs = [typeof(CallConvCdecl)])]
    public static byte* Version()
    {
        try
        {
            return (byte*)s_version.Value;
        }
        catch (OutOfMemoryException)
        {
            return null;
        }
    }

    [UnmanagedCallersOnly(EntryPoint = "flowsim_answer", CallConvs = [typeof(CallConvCdecl)])]
    public static int Answer(byte* request, nuint length, byte** reply, nuint* replyLength)
    {
        if (reply is not null)
            *reply = null;
        if (replyLength is not null)
            *replyLength = 0;
        if (request is null || reply is null || replyLength is null)
            return (int)Status.Null;
        try
        {
            Reply? answer = length > Request.MostBytes ? Reply.TooLarge : Desk.Answer(new ReadOnlySpan<byte>(request, (int)length).ToArray());
            if (answer is null)
                return (int)Status.NoMemory;
            *reply = Copy(answer.Text);
            *replyLength = (nuint)answer.Text.Length;
            return (int)answer.Status;
        }
        catch (OutOfMemoryException)
        {
            return (int)Status.NoMemory;
        }
    }

    [UnmanagedCallersOnly(EntryPoint = "flowsim_free", CallConvs = [typeof(CallConvCdecl)])]
    public static void Free(byte* reply) => NativeMemory.Free(reply);

    /// <summary>Bytes outside of the collected heap, a zero behind them.</summary>
    private static byte* Copy(byte[] bytes)
    {
        byte* copy = (byte*)NativeMemory.Alloc((nuint)bytes.Length + 1);
        bytes.CopyTo(new Span<byte>(copy, bytes.Length));
        copy[bytes.Length] = 0;
        return copy;
    }
}
