using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using ArchUnitNET.Domain;
using ArchUnitNET.Domain.Extensions;
using ArchUnitNET.Loader;

namespace FlowSim.House.Tests;

/// <summary>
/// Keeps the direction of imports that DEVELOPERS.md draws. Read from the compiled code, so a qualified name without a
/// <c>using</c> counts too.
/// </summary>
public class ImportsPointDownTests
{
    private const string Root = "FlowSim";

    private static readonly System.Reflection.Assembly Library = typeof(Honey).Assembly;

    private static readonly Architecture House = new ArchLoader().LoadAssemblies(Library).Build();

    /// <summary>Namespaces of the library, each with those it may use besides itself.</summary>
    private static readonly Dictionary<string, string[]> MayUse = new(StringComparer.Ordinal)
    {
        [Root] = [],
        ["FlowSim.Properties"] = [Root],
        ["FlowSim.Vessels"] = [Root],
        ["FlowSim.Gates"] = [Root, "FlowSim.Vessels"],
        ["FlowSim.Screens"] = [Root, "FlowSim.Vessels"],
        ["FlowSim.HeatDamage"] = [Root],
        ["FlowSim.Heating"] = [Root],
        ["FlowSim.FieldMeasurements"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates"],
        ["FlowSim.Catalogue"] = [Root, "FlowSim.Vessels", "FlowSim.Gates", "FlowSim.Screens"],
        ["FlowSim.ShelfLife"] = [Root, "FlowSim.Properties"],
        ["FlowSim.Bottling"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates"],
        ["FlowSim.Settling"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Screens"],
        ["FlowSim.Straining"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates", "FlowSim.Screens"],
        ["FlowSim.Warming"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Heating", "FlowSim.HeatDamage"],
        ["FlowSim.OverflowRisk"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates", "FlowSim.Screens", "FlowSim.Straining"],
        ["FlowSim.Calibration"] = [Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates", "FlowSim.Screens", "FlowSim.Straining", "FlowSim.OverflowRisk"],
        ["FlowSim.Attending"] = [Root, "FlowSim.Screens", "FlowSim.Vessels", "FlowSim.Straining", "FlowSim.OverflowRisk", "FlowSim.Calibration"],
        ["FlowSim.WholeJob"] =
        [
            Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates", "FlowSim.Screens",
            "FlowSim.Warming", "FlowSim.Settling", "FlowSim.Straining", "FlowSim.Bottling", "FlowSim.OverflowRisk",
        ],
        ["FlowSim.Planning"] = [Root, "FlowSim.Properties", "FlowSim.Straining", "FlowSim.WholeJob"],
        ["FlowSim.Setpoints"] =
        [
            Root, "FlowSim.Properties", "FlowSim.Vessels", "FlowSim.Gates", "FlowSim.Screens", "FlowSim.HeatDamage",
            "FlowSim.Straining", "FlowSim.Warming", "FlowSim.OverflowRisk",
        ],
    };

    public static TheoryData<string> Namespaces => [.. MayUse.Keys];

    [Theory]
    [MemberData(nameof(Namespaces))]
    public void A_namespace_uses_only_what_lies_below_it(string name)
    {
        List<IType> types = House.Types.Where(t => Home(t) == name).ToList();
        Assert.NotEmpty(types);

        string[] strays = types
            .SelectMany(t => t.Dependencies.Select(d => (From: t, To: Home(d.Target))))
            .Where(d => d.To.StartsWith(Root, StringComparison.Ordinal)
                && !d.To.StartsWith("FlowSim.Numerics", StringComparison.Ordinal)
                && d.To != name
                && !MayUse[name].Contains(d.To))
            .Select(d => $"{d.From.FullName} uses {d.To}")
            .Distinct()
            .ToArray();
        Assert.Empty(strays);
    }

    [Fact]
    public void Every_namespace_has_its_place()
    {
        string[] homeless = House.Types
            .Select(Home)
            .Where(n => n.StartsWith(Root, StringComparison.Ordinal) && !n.StartsWith("FlowSim.Numerics", StringComparison.Ordinal))
            .Distinct()
            .Except(MayUse.Keys)
            .ToArray();
        Assert.Empty(homeless);
    }

    [Theory]
    [InlineData("FlowSim.Numerics", new string[0])]
    [InlineData("FlowSim", new[] { "FlowSim.Numerics" })]
    [InlineData("FlowSim.Plots", new[] { "FlowSim", "FlowSim.Numerics" })]
    [InlineData("FlowSim.RunSheets", new string[0])]
    [InlineData("FlowSim.Commands", new[] { "FlowSim", "FlowSim.Numerics", "FlowSim.RunSheets" })]
    public void An_assembly_refers_only_to_those_below_it(string name, string[] allowed)
    {
        string[] strays = System.Reflection.Assembly.Load(name)
            .GetReferencedAssemblies()
            .Select(a => a.Name!)
            .Where(a => a.StartsWith(Root, StringComparison.Ordinal))
            .Except(allowed)
            .ToArray();
        Assert.Empty(strays);
    }

    [Fact]
    public void The_numerics_know_no_units()
    {
        string[] references = System.Reflection.Assembly.Load("FlowSim.Numerics").GetReferencedAssemblies().Select(a => a.Name!).ToArray();
        Assert.DoesNotContain("UnitsNet", references);
    }

    /// <summary>The commands reach figures, files, terminal and environment through what they are handed, so that they run inside any program.</summary>
    [Fact]
    public void The_commands_touch_nothing_around_them()
    {
        string[] forbidden =
        [
            "System.Console", "System.Environment", "System.IO.Directory", "System.IO.DirectoryInfo", "System.IO.File", "System.IO.FileInfo", "System.IO.FileStream", "System.IO.RandomAccess",
            "System.Diagnostics.Process", "System.AppContext",
        ];
        string[] used = MembersUsedBy("FlowSim.Commands");
        Assert.Contains("System.IO.Path.Combine", used);
        Assert.DoesNotContain(used, member => forbidden.Any(type => member.StartsWith(type + ".", StringComparison.Ordinal)));
        Assert.DoesNotContain(used, member => member.StartsWith("System.Net.", StringComparison.Ordinal));
    }

    /// <summary>Full names of the members of other assemblies that the compiled code of an assembly uses, without the one that compilers put into every iterator.</summary>
    private static string[] MembersUsedBy(string assembly)
    {
        using PEReader file = new(File.OpenRead(System.Reflection.Assembly.Load(assembly).Location));
        MetadataReader metadata = file.GetMetadataReader();
        return
        [
            .. metadata.MemberReferences.Select(metadata.GetMemberReference)
                .Where(member => member.Parent.Kind == HandleKind.TypeReference)
                .Select(member => (Type: metadata.GetTypeReference((TypeReferenceHandle)member.Parent), Name: metadata.GetString(member.Name)))
                .Select(member => $"{metadata.GetString(member.Type.Namespace)}.{metadata.GetString(member.Type.Name)}.{member.Name}")
                .Where(member => member != "System.Environment.get_CurrentManagedThreadId"),
        ];
    }

    /// <summary>Namespace of a type, nested and generic ones included.</summary>
    private static string Home(IType type) => type.Namespace?.FullName ?? "";
}
