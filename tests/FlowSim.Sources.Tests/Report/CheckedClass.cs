using System.Reflection;
using Xunit.Sdk;

namespace FlowSim.Sources.Tests;

/// <summary>One class of tests, run for what it compares.</summary>
internal sealed class CheckedClass
{
    private CheckedClass(Type type)
    {
        Name = type.Name;
        Publication = type.GetCustomAttribute<PublicationAttribute>()!;
        Tests = [.. TestsOf(type).Select(method => new CheckedTest(Sentence(method.Name), method.GetCustomAttribute<PublicationAttribute>() ?? Publication, Run(type, method)))];
    }

    public string Name { get; }

    public PublicationAttribute Publication { get; }

    public IReadOnlyList<CheckedTest> Tests { get; }

    /// <summary>All classes of this project that hold tests of a publication.</summary>
    public static IEnumerable<Type> Types =>
        typeof(CheckedClass).Assembly.GetTypes().Where(type => type != typeof(ValidationReportTests) && TestsOf(type).Any());

    public static CheckedClass Of(Type type) => new(type);

    /// <summary>Tests in the order of the file.</summary>
    private static IEnumerable<MethodInfo> TestsOf(Type type) =>
        type.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
            .Where(method => method.IsDefined(typeof(FactAttribute), inherit: true))
            .OrderBy(method => method.MetadataToken);

    /// <summary>Every case of a test, one after the other, in the order of its data.</summary>
    private static List<Comparison> Run(Type type, MethodInfo method)
    {
        DataAttribute[] data = [.. method.GetCustomAttributes<DataAttribute>()];
        IEnumerable<object?[]> cases = data.Length == 0 ? [[]] : data.SelectMany(rows => rows.GetData(method)!);
        return [.. cases.SelectMany(arguments => Published.ComparisonsOf(() => Call(type, method, arguments)))];
    }

    private static void Call(Type type, MethodInfo method, object?[] arguments) =>
        method.Invoke(Activator.CreateInstance(type), BindingFlags.DoNotWrapExceptions, binder: null, method.ResolveMethodArguments(arguments), culture: null);

    /// <summary>A test's name as a sentence: The_line_meets_0_5_percent becomes "The line meets 0.5 percent".</summary>
    private static string Sentence(string name)
    {
        string[] words = name.Split('_');
        string sentence = words[0];
        for (int i = 1; i < words.Length; i++)
        {
            bool decimals = char.IsAsciiDigit(words[i][0]) && char.IsAsciiDigit(sentence[^1]);
            sentence += (decimals ? "." : words[i] == "s" ? "'" : " ") + words[i];
        }

        return sentence;
    }
}
