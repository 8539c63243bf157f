using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace FlowSim.Console;

/// <summary>Tells files from named pipes, sockets and devices, which the runtime does not.</summary>
internal static class FileKind
{
    // statx(2) and inode(7): of all calls that tell, the one whose answer is laid out alike on every architecture.
    private const int CurrentFolder = -100;
    private const int FollowLinks = 0;
    private const uint WantType = 1;
    private const int AnswerBytes = 256;
    private const int ModeAt = 28;
    private const int TypeMask = 0xF000;
    private const int RegularFile = 0x8000;

    /// <summary>Whether something is there that is neither a file nor a folder. False where it cannot be told: elsewhere than on Linux, or without leave to look.</summary>
    /// <param name="path">Path; links are followed.</param>
    public static bool IsNotRegular(string path)
    {
        if (!OperatingSystem.IsLinux() || Directory.Exists(path))
            return false;

        byte[] answer = new byte[AnswerBytes];
        try
        {
            return StatX(CurrentFolder, Path.GetFullPath(path), FollowLinks, WantType, answer) == 0
                && (BinaryPrimitives.ReadUInt16LittleEndian(answer.AsSpan(ModeAt)) & TypeMask) != RegularFile;
        }
        catch (EntryPointNotFoundException)
        {
            return false;
        }
    }

    // Not LibraryImport: that would need unsafe code in the whole project.
    [DllImport("libc", EntryPoint = "statx", ExactSpelling = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int StatX(int folder, [MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags, uint mask, [Out] byte[] answer);
}
