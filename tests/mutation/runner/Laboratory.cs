using System.Reflection;
using System.Runtime.CompilerServices;
using System.Runtime.Loader;

namespace FlowSim.Mutation;

/// <summary>A library with all its changes, and its tests, in this process.</summary>
internal sealed class Laboratory
{
    /// <summary>Loads both from the folder of this program.</summary>
    /// <param name="library">The library.</param>
    /// <param name="tests">The assemblies of its tests.</param>
    /// <param name="count">One more than the highest number of a change.</param>
    /// <param name="active">The change that is on from the start.</param>
    public Laboratory(string library, string[] tests, int count, int active)
    {
        Assembly changed = Load(library);
        Switches = new Switches(changed, count) { Active = active };
        Assembly[] suites = [.. tests.Select(Load)];
        // What a process makes once is made now, so that no change gets into it that is tried later.
        foreach (Type type in suites.Prepend(changed).SelectMany(assembly => assembly.GetTypes()).Where(type => !type.ContainsGenericParameters))
        {
            try
            {
                RuntimeHelpers.RunClassConstructor(type.TypeHandle);
            }
            catch (TypeInitializationException)
            {
                // Thrown again at the tests that need the type, which is where it is looked for.
            }
        }

        foreach (FieldInfo field in suites.SelectMany(suite => suite.GetTypes()).Where(type => !type.ContainsGenericParameters).SelectMany(type => type.GetFields(BindingFlags.Static | BindingFlags.NonPublic | BindingFlags.Public)))
        {
            if (field.FieldType.IsGenericType && field.FieldType.GetGenericTypeDefinition() == typeof(Lazy<>))
                field.FieldType.GetProperty("Value")!.GetValue(field.GetValue(null));
        }

        AtStart = Switches.TakeHits();
        Tests = new TestSuites(suites);
    }

    /// <summary>The library's switches.</summary>
    public Switches Switches { get; }

    /// <summary>The changes in what a process makes once.</summary>
    public int[] AtStart { get; }

    /// <summary>The tests.</summary>
    public TestSuites Tests { get; }

    private static Assembly Load(string name) => AssemblyLoadContext.Default.LoadFromAssemblyPath(Path.Combine(AppContext.BaseDirectory, name + ".dll"));
}
