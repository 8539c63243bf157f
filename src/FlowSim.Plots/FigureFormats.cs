namespace FlowSim.Plots;

/// <summary>File endings of figures.</summary>
public static class FigureFormats
{
    /// <summary>The format that a file's ending names; case does not matter.</summary>
    /// <param name="path">File name or path.</param>
    /// <exception cref="ArgumentException">The ending is neither <c>.png</c> nor <c>.svg</c>.</exception>
    public static FigureFormat OfPath(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string ending = Path.GetExtension(path);
        if (ending.Equals(".png", StringComparison.OrdinalIgnoreCase))
            return FigureFormat.Png;
        if (ending.Equals(".svg", StringComparison.OrdinalIgnoreCase))
            return FigureFormat.Svg;

        throw new ArgumentException("A figure's file must end in .png or .svg, not '" + ending + "'.", nameof(path));
    }
}
