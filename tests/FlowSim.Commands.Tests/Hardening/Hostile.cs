namespace FlowSim.Commands.Tests.Hardening;

/// <summary>Text that nobody should send, in one place: every writer is tried with all of it.</summary>
public static class Hostile
{
    /// <summary>What steers a terminal, turns the direction of writing or is not seen.</summary>
    public static IReadOnlyList<string> Steering { get; } =
    [
        "\u001b[2J\u001b[31mred", "\u001b]0;title\u0007", "\u009b31m", "\u0007bell", "back\b\b\bspace", "over\rwritten", "two\nlines", "a\tb", "\u007f", "nul\u0000byte",
        "\u202Eright to left\u202C", "\u2066isolate\u2069", "\u200Fmark", "\u061Cmark", "in\u200Bvisible", "soft\u00ADhyphen", "\uFEFFmark", "\u2028line\u2029paragraph", "private\uE000use",
        "tag\U000E0041", "\U000F0000plane 15",
    ];

    /// <summary>What a spreadsheet would take for a formula.</summary>
    public static IReadOnlyList<string> Formulas { get; } =
    [
        "=1+1", "=HYPERLINK(\"http://x\",\"y\")", "+1+1", "-1+1", "@SUM(1)", "\t=1+1", "\r=1+1", "  =1+1", "\uFF1D1+1", "\uFF0B1", "\uFF0D1", "\uFF201", "=cmd|' /C x'!A0", "\",=1+1",
    ];

    /// <summary>Markup.</summary>
    public static IReadOnlyList<string> Markup { get; } =
    [
        "</script><script>alert(1)</script>", "<img src=x onerror=alert(1)>", "\" onmouseover=\"alert(1)", "]]><!--", "--><svg onload=alert(1)>", "&lt;b&gt;&#0;", "</text></svg><script>x</script>",
    ];

    /// <summary>All of it.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Steering, .. Formulas, .. Markup];
}
