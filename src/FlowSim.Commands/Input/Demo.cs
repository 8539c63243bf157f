namespace FlowSim.Commands.Input;

/// <summary>The examples that travel with the program.</summary>
internal static class Demo
{
    /// <summary>Name shown for it.</summary>
    public const string Name = "demo.toml";

    /// <summary>Its text, as <c>flowsim new</c> writes it.</summary>
    public static string Text => TextOf(Name);

    /// <summary>The example of a day, as <c>flowsim new --day</c> writes it.</summary>
    public static string Day => TextOf("demo-day.toml");

    private static string TextOf(string name)
    {
        using Stream stream = typeof(Demo).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException("The example file is missing from the program.");
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
