using System.Text;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>Draws the figures that commands ask for.</summary>
internal interface IFigures
{
    /// <summary>Draws a figure.</summary>
    /// <param name="figure">What it shows.</param>
    /// <param name="units">Units.</param>
    /// <param name="name">Name of the input, for people.</param>
    /// <param name="path">File it is for; its ending, .png or .svg, names the format.</param>
    /// <returns>The file's content.</returns>
    /// <exception cref="FileTroubleException">It cannot be drawn on this machine.</exception>
    byte[] Draw(Figure figure, UnitChoice units, string name, string path);

    /// <summary>A figure as the text of an SVG.</summary>
    /// <param name="figure">What it shows.</param>
    /// <param name="units">Units.</param>
    /// <param name="name">Name of the input, for people.</param>
    /// <exception cref="FileTroubleException">It cannot be drawn on this machine.</exception>
    string Svg(Figure figure, UnitChoice units, string name) => Encoding.UTF8.GetString(Draw(figure, units, name, ".svg"));
}
