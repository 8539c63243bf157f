using System.Globalization;
using System.Text;
using FlowSim.Commands;
using FlowSim.Commands.Reference;

namespace FlowSim.Docs;

/// <summary>The manual page, in the man(7) macros of roff.</summary>
internal static class ManPage
{
    /// <summary>Day of the page; moves with the program's version.</summary>
    private const string Day = "2026-11-29";

    private const int LongestLine = 78;

    /// <summary>More words than this are left to the description; a line could not be broken.</summary>
    private const int MostWords = 4;

    /// <summary>The page.</summary>
    /// <param name="program">The program.</param>
    public static string Of(CommandInfo program)
    {
        StringBuilder text = new();
        text.Append(".\\\" Made by docs/generate from the program itself; change it there.\n")
            .Append(CultureInfo.InvariantCulture, $".TH FLOWSIM 1 {Day} \"flowsim {FlowSimCommand.Version}\" \"User Commands\"\n")
            .Append(".SH NAME\nflowsim \\- warm, strain and fill honey on paper first\n")
            .Append(".SH SYNOPSIS\n.B flowsim\n.I COMMAND\n.RI [ FILE ]\n.RI [ OPTIONS ]\n")
            .Append(".SH DESCRIPTION\n").Append(Paragraph(program.Description)).Append('\n')
            .Append(".PP\nEach command reads a TOML file, or the built-in example without one.\n.B flowsim new\n.I FILE\nwrites that example with every key explained.\n")
            .Append("Quantities carry their unit, as in \"95 F\", 25% or \"1 1/2 in\".\n")
            .Append(".SH COMMANDS\n");
        foreach (CommandInfo command in program.Leaves)
            Section(text, command);
        text.Append(".SH EXIT STATUS\n");
        foreach ((int code, string meaning) in ExitCode.All)
            text.Append(CultureInfo.InvariantCulture, $".TP\n.B {code}\n{Paragraph(Capital(meaning) + ".")}\n");
        text.Append(".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nWhen set, nothing is printed in colour.\n");
        text.Append(".SH NOTES\nFlowSim says what lies within the limits you set.\nIt defers to local food law, electrical and labelling rules\nand licensed practice.\n");
        return text.ToString();
    }

    private static void Section(StringBuilder text, CommandInfo command)
    {
        text.Append(CultureInfo.InvariantCulture, $".SS {Text(command.Usage)}\n{Paragraph(command.Description)}\n");
        foreach (ArgumentInfo argument in command.Arguments)
            text.Append(CultureInfo.InvariantCulture, $".TP\n.I {Text(argument.Name)}\n{Paragraph(argument.Description)}\n");
        foreach (OptionInfo option in command.Options)
        {
            string names = string.Join(", ", option.Names.Select(name => $"\\fB{Text(name)}\\fR"));
            string value = option.Hint == ValueHint.None ? string.Empty : $" \\fI{Text(option.Words.Count is > 0 and <= MostWords ? string.Join('|', option.Words) : option.Value)}\\fR";
            string taken = option.Default is { } word ? $" Without it: {word}." : string.Empty;
            text.Append(CultureInfo.InvariantCulture, $".TP\n{names}{value}\n{Paragraph(option.Description + taken)}\n");
        }

        IReadOnlyList<string> examples = CommandFacts.ExamplesOf(command);
        if (examples.Count == 0)
            return;
        text.Append(".PP\n.EX\n");
        foreach (string example in examples)
            text.Append(Text(example)).Append('\n');
        text.Append(".EE\n");
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>A text that is filled, in short lines.</summary>
    private static string Paragraph(string text)
    {
        StringBuilder lines = new();
        int column = 0;
        foreach (string word in Text(text).Split(' '))
        {
            bool breaks = column > 0 && column + word.Length >= LongestLine;
            if (column > 0)
                lines.Append(breaks ? '\n' : ' ');
            if (breaks && word[0] == '.')
                lines.Append("\\&");
            lines.Append(word);
            column = breaks ? word.Length : column + word.Length + 1;
        }

        return lines.ToString();
    }

    /// <summary>A text that roff prints as it is.</summary>
    private static string Text(string text)
    {
        StringBuilder result = new();
        foreach (Rune rune in text.EnumerateRunes())
        {
            result.Append(rune.Value switch
            {
                '\\' => "\\e",
                '-' => "\\-",
                '\'' => "\\(aq",
                '`' => "\\(ga",
                '~' => "\\(ti",
                '^' => "\\(ha",
                '"' => "\\(dq",
                < 128 => rune.ToString(),
                _ => string.Create(CultureInfo.InvariantCulture, $"\\[u{rune.Value:X4}]"),
            });
        }

        return result.Length > 0 && result[0] == '.' ? "\\&" + result : result.ToString();
    }
}
