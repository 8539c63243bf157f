using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using FlowSim.Commands;
using FlowSim.Commands.Input;
using static System.FormattableString;

namespace FlowSim.Native;

/// <summary>A reply.</summary>
/// <param name="Status">What the call returns.</param>
/// <param name="Text">The reply, JSON in UTF-8.</param>
internal sealed record Reply(Status Status, byte[] Text)
{
    private static readonly JsonWriterOptions s_options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>To a request that is not looked at.</summary>
    public static Reply TooLarge => Refusal(Status.TooLarge, Invariant($"the request is longer than {Request.MostBytes} bytes"));

    /// <summary>To a request that no command was run for.</summary>
    /// <param name="status">What is wrong.</param>
    /// <param name="message">The same in words.</param>
    public static Reply Refusal(Status status, string message) => new(status, Written(exitCode: null, [new Problem(new Spot("request", 0, 0), message)], string.Empty, string.Empty, string.Empty));

    /// <summary>To a command that was run.</summary>
    /// <param name="exitCode">Its exit code.</param>
    /// <param name="wrong">What was wrong with its input.</param>
    /// <param name="messages">What it said beside its answer, line by line.</param>
    /// <param name="text">Its answer as text; empty for none.</param>
    /// <param name="json">Its answer as JSON; empty for none.</param>
    public static Reply Of(int exitCode, IEnumerable<Problem> wrong, string messages, string text, string json) => new(Status.Ok, Written(exitCode, wrong, messages, text, json));

    private static byte[] Written(int? exitCode, IEnumerable<Problem> wrong, string messages, string text, string json)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter writer = new(stream, s_options))
        {
            writer.WriteStartObject();
            writer.WriteNumber("contract", Request.Contract);
            writer.WriteString("version", FlowSimCommand.Version);
            if (exitCode is { } code)
                writer.WriteNumber("exitCode", code);
            else
                writer.WriteNull("exitCode");
            writer.WriteStartArray("problems");
            foreach (Problem problem in wrong)
                Write(writer, problem);
            writer.WriteEndArray();
            writer.WriteStartArray("messages");
            foreach (string line in messages.Split('\n', StringSplitOptions.RemoveEmptyEntries))
                writer.WriteStringValue(line);
            writer.WriteEndArray();
            if (text.Length > 0)
                writer.WriteString("text", text);
            else
                writer.WriteNull("text");

            // Last, and as the command wrote it, byte for byte.
            writer.WritePropertyName("answer");
            if (json.Length > 0)
                writer.WriteRawValue(Encoding.UTF8.GetBytes(json.TrimEnd('\n')), skipInputValidation: true);
            else
                writer.WriteNullValue();
            writer.WriteEndObject();
        }

        return stream.ToArray();
    }

    private static void Write(Utf8JsonWriter writer, Problem problem)
    {
        writer.WriteStartObject();
        writer.WriteString("source", problem.Spot.Source);
        if (problem.Spot.Line > 0)
        {
            writer.WriteNumber("line", problem.Spot.Line);
            writer.WriteNumber("column", problem.Spot.Column);
        }
        else
        {
            writer.WriteNull("line");
            writer.WriteNull("column");
        }

        writer.WriteString("what", problem.What);
        writer.WriteEndObject();
    }
}
