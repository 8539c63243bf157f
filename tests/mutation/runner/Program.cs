using System.Globalization;
using System.Runtime.Loader;

namespace FlowSim.Mutation;

/// <summary>
/// Tries changes of a library on its tests. Called by tests/mutation/run, from a folder that holds the tests, the library as Stryker changed it, and this program:
/// <list type="bullet">
/// <item><c>rewrite FROM TO LIBRARY REPORT FOLDER…</c>: the library with quick switches, and those of some folders only;</item>
/// <item><c>cover LIBRARY TESTS,… REPORT COVERAGE LANE LANES</c>: which changes each test comes to; ends with 3 where it has to be called again to go on;</item>
/// <item><c>try LIBRARY TESTS,… REPORT COVERAGE RESULTS SECONDS LANES FOLDER…</c>: what comes of the changes of some folders;</item>
/// <item><c>worker LIBRARY TESTS,… REPORT COVERAGE ACTIVE</c>: called by itself.</item>
/// </list>
/// </summary>
internal static class Program
{
    private const int NotDone = 3;

    private static int Main(string[] arguments)
    {
        AssemblyLoadContext.Default.Resolving += (context, name) =>
            Path.Combine(AppContext.BaseDirectory, name.Name + ".dll") is var file && File.Exists(file) ? context.LoadFromAssemblyPath(file) : null;
        switch (arguments)
        {
            case ["rewrite", string from, string to, string library, string report, .. string[] folders]:
                Switches.Rewrite(from, to, Change.Of(report).Where(change => change.IsTried && folders.Any(folder => change.IsIn(library, folder))).Select(change => change.Id).ToHashSet());
                return 0;
            case ["cover", string library, string tests, string report, string coverage, string lane, string lanes]:
                return Coverage.Write(Load(library, tests, report, Switches.None), coverage, int.Parse(lane, CultureInfo.InvariantCulture), int.Parse(lanes, CultureInfo.InvariantCulture)) ? 0 : NotDone;
            case ["try", string library, string tests, string report, string coverage, string results, string seconds, string lanes, .. string[] folders]:
                Trial.Run(
                    [library, tests, report, coverage],
                    Coverage.Read(coverage),
                    double.Parse(seconds, CultureInfo.InvariantCulture),
                    int.Parse(lanes, CultureInfo.InvariantCulture),
                    Change.Of(report).Where(change => folders.Any(folder => change.IsIn(library, folder))),
                    results);
                return 0;
            case ["worker", string library, string tests, string report, string coverage, string active]:
                // What tests print must not get between the answers.
                TextWriter answers = Console.Out;
                Console.SetOut(TextWriter.Null);
                int always = int.Parse(active, CultureInfo.InvariantCulture);
                Worker.Serve(Load(library, tests, report, always), Coverage.Read(coverage), always, answers);
                return 0;
            default:
                Console.Error.WriteLine("called by tests/mutation/run");
                return 2;
        }
    }

    private static Laboratory Load(string library, string tests, string report, int active) =>
        new(library, tests.Split(','), Change.Of(report).Max(change => change.Id) + 1, active);
}
