using FlowSim.Commands;
using FlowSim.Commands.Tests;

namespace FlowSim.Culture.Tests;

/// <summary>Everything that the commands write, run inside this process.</summary>
internal static class Everything
{
    private const string Readings = "# date = 2026-11-20\n# gate.opening = \"20 %\"\ntime [min],tank level [mm],receiver mass [kg]\n0,293,0.00\n0.5,247,1.25\n1,204,3.90\n1.5,170,7.00\n2,141,9.90\n3,94,14.85\n4,61,18.60\n5,40,21.15\n";

    private static readonly string[] s_files = [".csv", ".svg", ".html", ".toml"];

    /// <summary>Command lines; pail.csv and batch.toml are there.</summary>
    private static readonly string[][] s_lines =
    [
        ["strain", "--csv", "A.csv", "--plot", "A.svg", "--report", "A.html"],
        ["strain", "--units", "us", "--plot", "B.svg", "--report", "B.html"],
        ["strain", "--json", "--set", "gate.opening=25.5 %"],
        ["strain", "--scan", "honey.temperature=30.5 °C..40 °C:3", "--csv", "C.csv", "--plot", "C.svg"],
        ["strain", "--scan", "honey.temperature=30.5 °C..40 °C:3", "--json"],
        ["risk", "--runs", "1024", "--csv", "D.csv", "--plot", "D.svg", "--report", "D.html"],
        ["risk", "--runs", "1024", "--json"],
        ["settle", "--csv", "E.csv", "--plot", "E.svg", "--report", "E.html"],
        ["settle", "--json"],
        ["warm", "--csv", "F.csv", "--plot", "F.svg", "--map", "F-map.svg", "--damage", "F-damage.svg", "--report", "F.html"],
        ["warm", "--json"],
        ["warm", "--units", "us", "--set", "warming.granulation=fine"],
        ["setpoint", "--plot", "G.svg", "--report", "G.html"],
        ["setpoint", "--json"],
        ["plan", "--csv", "H.csv", "--plot", "H.svg", "--report", "H.html"],
        ["plan", "--json"],
        ["fit", "pail.csv", "--batch", "batch.toml", "--no-sampler", "--save-as", "I.toml", "--csv", "I.csv", "--plot", "I.svg", "--report", "I.html"],
        ["fit", "pail.csv", "--batch", "batch.toml", "--no-sampler", "--json", "--viscosity", "35 °C, 2.6 Pa.s x/ 1.06"],
        ["watch", "batch.toml", "--log", "pail.csv", "--at", "100.5 s"],
        ["watch", "batch.toml", "--log", "pail.csv", "--at", "100.5 s", "--json"],
        ["fill", "--csv", "J.csv", "--plot", "J.svg", "--report", "J.html"],
        ["fill", "--json", "--units", "us"],
        ["yield"],
        ["yield", "--json"],
        ["shelf"],
        ["shelf", "--json"],
        ["honey", "--table", "--plot", "K.svg"],
        ["honey", "--json"],
        ["measure", "ball", "--ball", "3 ± 0.01 mm", "--jar", "50 mm", "--distance", "100 mm", "--time", "10.9 s", "--time", "11.2 s", "--temperature", "35 °C", "--moisture", "17.8%"],
        ["measure", "jar", "--net-weight", "5 kg", "--time", "35 s", "--level", "298 mm", "--opening", "20%", "--temperature", "35 °C", "--batch", "batch.toml", "--json"],
        ["measure", "refractometer", "--index", "1.4921", "--temperature", "24 °C"],
        ["kit"],
        ["new", "L.toml"],
        ["new", "--day", "M.toml"],
        ["--help"],
        ["strain", "--set", "gate.bore=1.25 mm", "--set", "honey.moisture=-17.8 %"],
        ["strain", "--set", "honey.moisture=17,8 %"],
        ["warm", "--set", "thermostat.setpoint=-41.5 °C"],
        ["risk", "--tolerance", "-1.5 %"],
        ["strain", "--set", "gate.opening=1234.5 %"],
        ["STRAIN", "--Quiet"],
        ["strain", "--set", "HONEY.İI=1", "--set", "honey.form=LIQUID"],
        ["strain", "--set", "gate.bore=1.5 IN"],
    ];

    /// <summary>The command lines, as one shows them.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. s_lines.Select(line => string.Join(' ', line))];

    /// <summary>Those that take a second or more.</summary>
    /// <param name="name">Command line.</param>
    public static bool IsLong(string name) => name.Split(' ')[0] is "risk" or "fit" or "watch" or "setpoint" or "plan";

    /// <summary>What each of them writes: streams, code and files, by name.</summary>
    /// <param name="name">Command line.</param>
    public static SortedDictionary<string, string> Of(string name)
    {
        string[] line = s_lines[Names.ToList().IndexOf(name)];
        using Folder folder = new();
        folder.Write("pail.csv", Readings);
        Assert.Equal(ExitCode.Done, Ran.With("new", folder["batch.toml"]).Code);
        string[] before = Directory.GetFiles(folder.Path);
        Ran ran = Ran.With([.. line.Select(word => s_files.Contains(Path.GetExtension(word)) ? folder[word] : word)]);
        SortedDictionary<string, string> written = new(StringComparer.Ordinal)
        {
            ["code"] = ran.Code.ToString(System.Globalization.CultureInfo.InvariantCulture),
            ["output"] = ran.Out.Replace(folder.Path, "", StringComparison.Ordinal),
            ["error"] = ran.Error.Replace(folder.Path, "", StringComparison.Ordinal),
        };
        foreach (string path in Directory.GetFiles(folder.Path).Except(before, StringComparer.Ordinal))
            written[Path.GetFileName(path)] = File.ReadAllText(path).Replace(folder.Path, "", StringComparison.Ordinal);
        return written;
    }
}
