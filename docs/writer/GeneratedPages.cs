using FlowSim.Commands;
using FlowSim.Commands.Reference;

namespace FlowSim.Docs;

/// <summary>The pages that are made from the program itself, by their path below <c>docs</c>.</summary>
internal static class GeneratedPages
{
    /// <summary>The program's commands.</summary>
    public static CommandInfo Program { get; } =
        CommandInfo.Of(FlowSimCommand.Build(new Surroundings(TextWriter.Null, TextWriter.Null), CancellationToken.None));

    /// <summary>All of them.</summary>
    public static IReadOnlyDictionary<string, string> All() => new SortedDictionary<string, string>(StringComparer.Ordinal)
    {
        ["commands.md"] = CommandPage.Of(Program),
        ["man/flowsim.1"] = ManPage.Of(Program),
        ["file-format.md"] = FileFormatPage.Text(),
        ["schema/flowsim-batch.schema.json"] = Json.Text(BatchSchema.Make()),
        ["schema/flowsim-day.schema.json"] = Json.Text(DaySchema.Make()),
    };
}
