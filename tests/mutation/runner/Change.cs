using System.Globalization;
using System.Text.Json;

namespace FlowSim.Mutation;

/// <summary>A change of a source file.</summary>
/// <param name="Id">Its number.</param>
/// <param name="File">The file.</param>
/// <param name="IsTried">Whether it compiles and is not left out.</param>
internal sealed record Change(int Id, string File, bool IsTried)
{
    /// <summary>Whether the file is in a folder of a library, or in one below that; <c>.</c> are the files that are in none.</summary>
    public bool IsIn(string library, string folder)
    {
        string path = File.Replace('\\', '/');
        return folder == "." ? Path.GetDirectoryName(path)!.EndsWith($"src/{library}", StringComparison.Ordinal) : path.Contains($"src/{library}/{folder}/", StringComparison.Ordinal);
    }

    /// <summary>The changes of a report of Stryker's.</summary>
    public static IReadOnlyList<Change> Of(string report)
    {
        using JsonDocument document = JsonDocument.Parse(System.IO.File.ReadAllText(report));
        return
        [
            .. from file in document.RootElement.GetProperty("files").EnumerateObject()
               from change in file.Value.GetProperty("mutants").EnumerateArray()
               select new Change(
                   int.Parse(change.GetProperty("id").GetString()!, CultureInfo.InvariantCulture),
                   file.Name,
                   change.GetProperty("status").GetString() is not ("Ignored" or "CompileError")),
        ];
    }
}
