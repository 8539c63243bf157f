using FlowSim.Docs;

// Writes every generated page below the folder that is given; see docs/generate.
if (args is not [string folder])
{
    Console.Error.WriteLine("usage: FlowSim.Docs FOLDER");
    return 2;
}

foreach ((string path, string text) in GeneratedPages.All())
{
    string file = Path.Combine(folder, path);
    Directory.CreateDirectory(Path.GetDirectoryName(file)!);
    File.WriteAllText(file, text);
    Console.WriteLine(file);
}

return 0;
