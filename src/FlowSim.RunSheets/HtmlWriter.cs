using System.Text;

namespace FlowSim.RunSheets;

/// <summary>Writes elements, attributes and text, each escaped; there is no way to write markup past it but <see cref="Style"/>.</summary>
internal sealed class HtmlWriter
{
    private readonly StringBuilder _html = new();
    private readonly Stack<string> _open = new();

    public override string ToString() => _html.ToString();

    public HtmlWriter Doctype()
    {
        _html.Append("<!DOCTYPE html>\n");
        return this;
    }

    /// <summary>Begins an element.</summary>
    /// <param name="tag">Its name, one of ours.</param>
    /// <param name="attributes">Names and values; one whose value is null is left out, one that is empty stands without a value.</param>
    public HtmlWriter Open(string tag, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Tag(tag, attributes);
        _html.Append('>');
        _open.Push(tag);
        return this;
    }

    /// <summary>An element of HTML that holds nothing and needs no end.</summary>
    /// <param name="tag">Its name.</param>
    /// <param name="attributes">Names and values.</param>
    public HtmlWriter Void(string tag, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Tag(tag, attributes);
        _html.Append(">\n");
        return this;
    }

    /// <summary>An element of a drawing that holds nothing.</summary>
    /// <param name="tag">Its name.</param>
    /// <param name="attributes">Names and values.</param>
    public HtmlWriter Empty(string tag, params ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        Tag(tag, attributes);
        _html.Append("/>");
        return this;
    }

    /// <summary>Ends the innermost element.</summary>
    /// <param name="newLine">Whether the source goes on in a new line.</param>
    public HtmlWriter Close(bool newLine = true)
    {
        _html.Append("</").Append(_open.Pop()).Append(newLine ? ">\n" : ">");
        return this;
    }

    public HtmlWriter Text(string text, bool keepLines = false)
    {
        _html.Append(SafeText.Of(text, keepLines));
        return this;
    }

    /// <summary>An element that holds text alone.</summary>
    /// <param name="tag">Its name.</param>
    /// <param name="text">Text.</param>
    /// <param name="attributes">Names and values.</param>
    public HtmlWriter Element(string tag, string text, params ReadOnlySpan<(string Name, string? Value)> attributes) =>
        Open(tag, attributes).Text(text).Close();

    /// <summary>The style of the page, which comes from this assembly and holds no markup.</summary>
    /// <param name="css">Style.</param>
    public HtmlWriter Style(string css)
    {
        if (css.Contains("</", StringComparison.Ordinal))
            throw new ArgumentException("A style that would end its element.", nameof(css));
        _html.Append("<style>\n").Append(css).Append("</style>\n");
        return this;
    }

    private void Tag(string tag, ReadOnlySpan<(string Name, string? Value)> attributes)
    {
        _html.Append('<').Append(tag);
        foreach ((string name, string? value) in attributes)
        {
            if (value is null)
                continue;
            _html.Append(' ').Append(name);
            if (value.Length > 0)
                _html.Append("=\"").Append(SafeText.Of(value)).Append('"');
        }
    }
}
