using System.Text.Json;
using System.Text.Unicode;
using FlowSim.Commands;
using FlowSim.Commands.Output;
using static System.FormattableString;

namespace FlowSim.Native;

/// <summary>A request: a command with its arguments, and texts in the place of files.</summary>
internal sealed class Request
{
    /// <summary>Number of the contract.</summary>
    public const int Contract = 1;

    /// <summary>Longest request, bytes.</summary>
    public const int MostBytes = 64 << 20;

    /// <summary>Most arguments.</summary>
    public const int MostArguments = 1000;

    /// <summary>Longest argument, characters.</summary>
    public const int LongestArgument = 10_000;

    /// <summary>Most texts.</summary>
    public const int MostFiles = 100;

    /// <summary>Longest run, s.</summary>
    public const double MostSeconds = 86_400;

    // An object, one of its members, and what is in that.
    private const int Depth = 3;

    private static readonly string[] s_known = ["contract", "command", "arguments", "files", "seconds", "form"];

    /// <summary>Command and arguments as on a command line.</summary>
    public required IReadOnlyList<string> Arguments { get; init; }

    /// <summary>Texts.</summary>
    public required NamedTexts Files { get; init; }

    /// <summary>Longest that it may take.</summary>
    public required TimeSpan Limit { get; init; }

    /// <summary>Reads a request.</summary>
    /// <param name="bytes">Its bytes.</param>
    /// <exception cref="BadRequestException">It is none.</exception>
    public static Request Read(byte[] bytes)
    {
        if (!Utf8.IsValid(bytes))
            throw new BadRequestException(Status.NotUtf8, "the request is not UTF-8 text");
        try
        {
            using var document = JsonDocument.Parse(bytes, new JsonDocumentOptions { MaxDepth = Depth, AllowDuplicateProperties = false });
            return Of(document.RootElement);
        }
        catch (JsonException wrong)
        {
            throw new BadRequestException(Status.NotJson, $"the request is not JSON as it is wanted: {Printable.Of(wrong.Message, 200)}");
        }
        catch (InvalidOperationException)
        {
            // Half of a surrogate pair, written as an escape.
            throw new BadRequestException(Status.NotUtf8, "the request holds a string that is not Unicode text");
        }
    }

    private static Request Of(JsonElement root)
    {
        Require(root.ValueKind == JsonValueKind.Object, "is not an object", "the request");
        foreach (JsonProperty member in root.EnumerateObject())
            Require(s_known.Contains(member.Name), "is not a member of a request; known: " + string.Join(", ", s_known), Printable.Of(member.Name));
        Require(root.TryGetProperty("contract", out JsonElement contract) && contract.ValueKind == JsonValueKind.Number && contract.TryGetInt32(out int number) && number == Contract, Invariant($"must be {Contract}"), "contract");
        List<string> arguments = [.. TextOf(root, "command", required: true)!.Split(' ', StringSplitOptions.RemoveEmptyEntries), .. ArgumentsOf(root)];
        string form = TextOf(root, "form", required: false) ?? "json";
        Require(form is "json" or "text", "must be \"json\" or \"text\"", "form");
        if (form == "json" && !arguments.Contains("--json"))
            arguments.Insert(FirstAfterCommand(arguments), "--json");
        return new Request { Arguments = arguments, Files = FilesOf(root), Limit = LimitOf(root) };
    }

    /// <summary>Before what is the command's own, where a "--" may stand.</summary>
    private static int FirstAfterCommand(List<string> arguments) => Math.Min(arguments.Count, arguments[0] == "measure" ? 2 : 1);

    private static IEnumerable<string> ArgumentsOf(JsonElement root)
    {
        if (!root.TryGetProperty("arguments", out JsonElement given))
            yield break;
        Require(given.ValueKind == JsonValueKind.Array && given.GetArrayLength() <= MostArguments, Invariant($"must be an array of strings, at most {MostArguments}"), "arguments");
        foreach (JsonElement item in given.EnumerateArray())
        {
            string? argument = item.ValueKind == JsonValueKind.String ? item.GetString() : null;
            Require(argument?.Length <= LongestArgument, Invariant($"must hold strings, each at most {LongestArgument} characters long"), "arguments");
            yield return argument!;
        }
    }

    private static NamedTexts FilesOf(JsonElement root)
    {
        NamedTexts texts = new();
        if (!root.TryGetProperty("files", out JsonElement given))
            return texts;
        Require(given.ValueKind == JsonValueKind.Object && given.GetPropertyCount() <= MostFiles, Invariant($"must be an object of texts by their names, at most {MostFiles}"), "files");
        foreach (JsonProperty file in given.EnumerateObject())
        {
            Require(file.Value.ValueKind == JsonValueKind.String, $"must hold texts; \"{Printable.Of(file.Name)}\" is none", "files");
            texts.Add(file.Name, file.Value.GetString()!);
        }

        return texts;
    }

    private static TimeSpan LimitOf(JsonElement root)
    {
        if (!root.TryGetProperty("seconds", out JsonElement given))
            return TimeSpan.FromSeconds(MostSeconds);
        double seconds = given.ValueKind == JsonValueKind.Number && given.TryGetDouble(out double number) ? number : double.NaN;
        Require(seconds is > 0 and <= MostSeconds, Invariant($"must be a number above 0, at most {MostSeconds}"), "seconds");
        return TimeSpan.FromSeconds(seconds);
    }

    private static string? TextOf(JsonElement root, string name, bool required)
    {
        if (!root.TryGetProperty(name, out JsonElement given))
        {
            Require(!required, "is missing", name);
            return null;
        }

        string? text = given.ValueKind == JsonValueKind.String ? given.GetString() : null;
        Require(text is { Length: > 0 and <= LongestArgument } && !string.IsNullOrWhiteSpace(text), "must be a string that is not empty", name);
        return text;
    }

    private static void Require(bool holds, string what, string where)
    {
        if (!holds)
            throw new BadRequestException(Status.BadRequest, $"{where} {what}");
    }
}
