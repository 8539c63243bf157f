namespace FlowSim.House.Tests;

/// <summary>The checkout that the tests run in.</summary>
internal static class Repository
{
    /// <summary>Its top folder: the nearest one above the tests that holds FlowSim.sln.</summary>
    public static string Root { get; } = Find(new DirectoryInfo(AppContext.BaseDirectory));

    public static string Read(params string[] path) => File.ReadAllText(Path.Combine([Root, .. path]));

    private static string Find(DirectoryInfo? folder)
    {
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "FlowSim.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("FlowSim.sln is not above the tests.");
    }
}
