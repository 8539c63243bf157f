using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace FlowSim.RunSheets;

/// <summary>Puts a drawing into a page: only what draws is let in, and its ids get a prefix, for two drawings may use the same.</summary>
internal static class InlineSvg
{
    private const string Namespace = "http://www.w3.org/2000/svg";
    private const string XLink = "http://www.w3.org/1999/xlink";

    private static readonly HashSet<string> s_elements = new(StringComparer.Ordinal)
    {
        "svg", "g", "defs", "use", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan", "clipPath", "image",
        "linearGradient", "radialGradient", "stop", "pattern", "mask",
    };

    private static readonly HashSet<string> s_attributes = new(StringComparer.Ordinal)
    {
        "id", "d", "x", "y", "x1", "y1", "x2", "y2", "dx", "dy", "cx", "cy", "r", "rx", "ry", "fx", "fy", "width", "height", "points", "offset", "viewBox", "transform", "href",
        "fill", "fill-opacity", "fill-rule", "stroke", "stroke-width", "stroke-opacity", "stroke-linecap", "stroke-linejoin", "stroke-miterlimit", "stroke-dasharray", "stroke-dashoffset",
        "opacity", "clip-path", "clip-rule", "mask", "stop-color", "stop-opacity", "color", "visibility", "display",
        "font-family", "font-size", "font-weight", "font-style", "text-anchor", "text-decoration", "letter-spacing", "textLength", "lengthAdjust", "rotate",
        "preserveAspectRatio", "gradientUnits", "gradientTransform", "spreadMethod", "patternUnits", "patternContentUnits", "patternTransform", "clipPathUnits", "maskUnits", "maskContentUnits",
    };

    /// <summary>Writes a figure's drawing.</summary>
    /// <param name="html">Takes it.</param>
    /// <param name="figure">Figure.</param>
    /// <param name="prefix">Prefix of its ids.</param>
    /// <exception cref="FormatException">It is no SVG, has no view box, or holds what does not draw.</exception>
    public static void Write(HtmlWriter html, FigureBlock figure, string prefix)
    {
        XElement root = Parse(figure.Svg);
        if (root.Name != XName.Get("svg", Namespace) || root.Attribute("viewBox") is not { } box)
            throw Refused("its root is not an SVG with a view box");
        html.Open("svg", ("xmlns", Namespace), ("viewBox", box.Value), ("role", "img"), ("aria-labelledby", prefix + "title"), ("aria-describedby", prefix + "desc"));
        html.Element("title", figure.Caption, ("id", prefix + "title"));
        html.Element("desc", figure.Alternative, ("id", prefix + "desc"));
        foreach (XNode node in root.Nodes())
            Write(html, node, prefix);
        html.Close();
    }

    private static XElement Parse(string svg)
    {
        XmlReaderSettings settings = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, IgnoreComments = true, IgnoreProcessingInstructions = true };
        try
        {
            using XmlReader reader = XmlReader.Create(new StringReader(svg), settings);
            return XDocument.Load(reader, LoadOptions.PreserveWhitespace).Root!;
        }
        catch (XmlException bad)
        {
            throw Refused("it is not XML: " + bad.Message);
        }
    }

    private static void Write(HtmlWriter html, XNode node, string prefix)
    {
        if (node is XText text)
        {
            html.Text(text.Value);
            return;
        }

        // Comments and the like were left out in reading.
        var element = (XElement)node;
        string name = element.Name.LocalName;
        if (name is "title" or "desc" && element.Name.NamespaceName == Namespace)
            return;
        if (element.Name.NamespaceName != Namespace || !s_elements.Contains(name))
            throw Refused($"it holds <{name}>");
        (string, string?)[] attributes = [.. element.Attributes().Where(attribute => !attribute.IsNamespaceDeclaration).Select(attribute => Attribute(attribute, prefix))];
        if (!element.Nodes().Any())
        {
            html.Empty(name, attributes);
            return;
        }

        html.Open(name, attributes);
        foreach (XNode child in element.Nodes())
            Write(html, child, prefix);
        html.Close(newLine: false);
    }

    private static (string Name, string? Value) Attribute(XAttribute attribute, string prefix)
    {
        string name = attribute.Name.LocalName;
        string value = attribute.Value;
        string space = attribute.Name.NamespaceName;
        if (space == XNamespace.Xml.NamespaceName)
            return (name, null);
        if ((space.Length > 0 && (space != XLink || name != "href")) || !s_attributes.Contains(name))
            throw Refused($"it holds the attribute {name}");
        return (name, name switch
        {
            "id" => prefix + value,
            "href" when value.StartsWith('#') => "#" + prefix + value[1..],
            "href" when value.StartsWith("data:image/png;base64,", StringComparison.Ordinal) || value.StartsWith("data:image/jpeg;base64,", StringComparison.Ordinal) => value,
            "href" => throw Refused("it points outside of itself"),
            _ => Within(value, prefix),
        });
    }

    /// <summary>A value whose pointers, of the form <c>url(#id)</c>, stay within the drawing.</summary>
    private static string Within(string value, string prefix)
    {
        const string Pointer = "url(";
        StringBuilder within = new();
        int from = 0;
        for (int at; (at = value.IndexOf(Pointer, from, StringComparison.OrdinalIgnoreCase)) >= 0; from = at + Pointer.Length + 1)
        {
            if (at + Pointer.Length >= value.Length || value[at + Pointer.Length] != '#')
                throw Refused("it points outside of itself");
            within.Append(value, from, at - from).Append("url(#").Append(prefix);
        }

        return within.Append(value, from, value.Length - from).ToString();
    }

    private static FormatException Refused(string why) => new("A figure cannot stand in a page: " + why + ".");
}
