using System.Globalization;
using System.Text;

namespace FlowSim.Sources.Tests;

/// <summary>
/// What the tests of this project compare, as a page for a reader: written from the tests themselves, by running them, so that no
/// figure stands in two places.
/// </summary>
internal static class ValidationReport
{
    /// <summary>Longer tables are folded away.</summary>
    private const int LongTable = 16;

    /// <summary>The page, in Markdown.</summary>
    public static string Write()
    {
        CheckedClass[] classes = [.. CheckedClass.Types.Select(CheckedClass.Of).OrderBy(c => c.Publication.Name, StringComparer.Ordinal)];
        var page = new StringBuilder();
        WriteHead(page, classes);
        WriteSummary(page, classes);
        WriteDeviations(page, classes);
        foreach (CheckedClass item in classes) WriteClass(page, item);
        return page.ToString().TrimEnd('\n') + '\n';
    }

    private static void WriteHead(StringBuilder page, CheckedClass[] classes)
    {
        CheckedTest[] tests = [.. classes.SelectMany(item => item.Tests)];
        int values = tests.Sum(test => test.Comparisons.Count);
        int derived = tests.Where(test => test.Publication.Standing == Standing.Derived).Sum(test => test.Comparisons.Count);
        int others = tests.Count(test => test.Comparisons.Count == 0);
        page.Append(CultureInfo.InvariantCulture, $"""
            # Validation against publications

            Numbers of FlowSim beside numbers that others have published: {values} comparisons in {classes.Length} groups, {derived} of them with figures worked out
            by hand or by another program. {others} further tests check something else than a figure, an inequality or a limit, and are named in their group.

            This page is written by the tests themselves, which fail when a figure lies outside what is allowed. `tests/FlowSim.Sources.Tests/report`
            writes it anew; a test fails when it is not what the tests give.

            How to read it:

            * **read** says how the published figures were got: *opened* (the publication itself), *in a copy* (a reprint or a page that quotes it),
              *abstract only*, *derived* (worked out from what is named), *from memory* (confirm before you rely on it), *common practice*.
            * **error** is FlowSim less the published figure, as a share of it or in its unit; *× 0.95* is FlowSim over the published figure. Errors below a
              millionth are given as such: their digits differ between machines.
            * **allowed** is what the test asks for, with the reason.


            """);
    }

    private static void WriteSummary(StringBuilder page, CheckedClass[] classes)
    {
        page.Append("""
            ## Summary

            | group | read | values | worst error | other tests |
            |---|---|---|---|---|

            """);
        foreach (CheckedClass item in classes)
        {
            Comparison[] all = [.. item.Tests.SelectMany(test => test.Comparisons)];
            page.Append(CultureInfo.InvariantCulture, $"| [{item.Publication.Name}](#{Anchor(item)}) | {Words(item.Publication.Standing)} | {all.Length} | {Worst(all)} | {item.Tests.Count(test => test.Comparisons.Count == 0)} |\n");
        }

        page.Append("""

            The worst error is the largest share of a published figure that FlowSim differs by, those that are not met left out; a dash where only ranges and classes are compared.


            """);
    }

    private static void WriteDeviations(StringBuilder page, CheckedClass[] classes)
    {
        page.Append("## Figures that are not met\n\n");
        foreach (CheckedClass item in classes)
        {
            Comparison[] deviations = [.. item.Tests.SelectMany(test => test.Comparisons).Where(comparison => comparison.Deviation is not null)];
            foreach (Comparison deviation in deviations)
                page.Append(CultureInfo.InvariantCulture, $"* [{item.Publication.Name}](#{Anchor(item)}), {deviation.What}: published {deviation.Published}, FlowSim {deviation.Ours} ({deviation.Error}). {Capital(deviation.Deviation!)}.\n");
        }

        page.Append('\n');
    }

    private static void WriteClass(StringBuilder page, CheckedClass item)
    {
        page.Append(CultureInfo.InvariantCulture, $"""
            <a id="{Anchor(item)}"></a>

            ## {item.Publication.Name}

            {item.Publication.Place}. Read: {Reading(item.Publication)}. Tests: `{item.Name}`.


            """);
        foreach (CheckedTest test in item.Tests.Where(test => test.Comparisons.Count > 0)) WriteTest(page, item, test);
        string[] others = [.. item.Tests.Where(test => test.Comparisons.Count == 0).Select(test => test.Sentence)];
        if (others.Length > 0) page.Append(CultureInfo.InvariantCulture, $"Tested besides: {string.Join("; ", others)}.\n\n");
    }

    private static void WriteTest(StringBuilder page, CheckedClass item, CheckedTest test)
    {
        IReadOnlyList<Comparison> rows = test.Comparisons;
        page.Append(CultureInfo.InvariantCulture, $"**{test.Sentence}.**");
        if (test.Publication != item.Publication) page.Append(CultureInfo.InvariantCulture, $" Held against {test.Publication.Name} ({test.Publication.Place}; {Reading(test.Publication)}).");
        string[] bounds = [.. rows.Where(row => row.Deviation is null).Select(row => row.Allowed).Distinct()];
        string[] reasons = [.. rows.Where(row => row.Deviation is null).GroupBy(row => row.Why).Select(group => Bounds([.. group.Select(row => row.Allowed).Distinct()], group.Key))];
        if (reasons.Length > 0) page.Append(CultureInfo.InvariantCulture, $" Allowed: {string.Join("; ", reasons)}.");
        page.Append("\n\n");

        bool folded = rows.Count > LongTable;
        if (folded) page.Append(CultureInfo.InvariantCulture, $"<details><summary>{rows.Count} values, worst error {Worst(rows)}</summary>\n\n");
        bool own = bounds.Length > 1;
        string theirs = test.Publication.Standing == Standing.Derived ? "worked out" : "published";
        page.Append(CultureInfo.InvariantCulture, $"| quantity | {theirs} | FlowSim | error |{(own ? " allowed |" : "")}\n|---|---|---|---|{(own ? "---|" : "")}\n");
        foreach (Comparison row in rows)
        {
            string error = row.Deviation is null ? row.Error : $"{row.Error}, not met";
            page.Append(CultureInfo.InvariantCulture, $"| {row.What} | {row.Published} | {row.Ours} | {error} |{(own ? $" {(row.Deviation is null ? row.Allowed : "")} |" : "")}\n");
        }

        page.Append(folded ? "\n</details>\n\n" : "\n");
    }

    private static string Reading(PublicationAttribute publication) => Words(publication.Standing) + (publication.Remark.Length > 0 ? "; " + publication.Remark : "");

    /// <summary>The bounds that one reason stands for; more than two are read off the table.</summary>
    private static string Bounds(string[] allowed, string why)
    {
        string bounds = allowed.Length > 2 ? "as listed" : string.Join(" and ", allowed);
        return why.Length > 0 ? $"{bounds} ({why})" : bounds;
    }

    private static string Worst(IEnumerable<Comparison> comparisons)
    {
        double[] errors = [.. comparisons.Where(comparison => comparison is { Deviation: null, Relative: not null }).Select(comparison => Math.Abs(comparison.Relative!.Value))];
        return errors.Length == 0 ? "–" : errors.Max() < 1e-6 ? "< 0.0001 %" : $"{Digits.Of(100 * errors.Max(), 2)} %";
    }

    private static string Anchor(CheckedClass item) => item.Name.Replace("Tests", "", StringComparison.Ordinal).ToLowerInvariant();

    private static string Capital(string sentence) => char.ToUpperInvariant(sentence[0]) + sentence[1..];

    private static string Words(Standing standing) => standing switch
    {
        Standing.Opened => "opened",
        Standing.SecondaryCopy => "in a copy",
        Standing.AbstractOnly => "abstract only",
        Standing.Derived => "derived",
        Standing.FromMemory => "from memory",
        Standing.CommonPractice => "common practice",
        _ => throw new ArgumentOutOfRangeException(nameof(standing), standing, "no publication has this standing"),
    };
}
