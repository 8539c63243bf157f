namespace FlowSim.Console.Input;

/// <summary>The example that travels with the program.</summary>
internal static class Demo
{
    /// <summary>Name shown for it.</summary>
    public const string Name = "demo.toml";

    /// <summary>Its text, as <c>flowsim new</c> writes it.</summary>
    public static string Text
    {
        get
        {
            using Stream stream = typeof(Demo).Assembly.GetManifestResourceStream(Name)
                ?? throw new InvalidOperationException("The example file is missing from the program.");
            using StreamReader reader = new(stream);
            return reader.ReadToEnd();
        }
    }
}
