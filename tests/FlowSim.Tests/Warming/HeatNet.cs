using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>
/// The honey, the body and the room as points between which heat passes through resistances in series: the picture of the model written down once, from areas
/// and thicknesses, with nothing of how the equations are laid out. Fixed films only.
/// </summary>
internal sealed class HeatNet
{
    private readonly WarmingParameters _p;
    private readonly double[] _conductivity;
    private readonly List<Link> _links = [];

    /// <summary>Lays the net at given temperatures of the cells.</summary>
    /// <param name="p">Parameters.</param>
    /// <param name="cellK">Temperatures of the cells, K.</param>
    /// <param name="more">Factor on the conductivity of each cell; null for 1.</param>
    public HeatNet(WarmingParameters p, double[] cellK, double[]? more = null)
    {
        _p = p;
        _conductivity = [.. cellK.Select((kelvins, c) => p.Honey.ConductivityWPerMK(kelvins) * (more?[c] ?? 1))];
        (Rings, Layers) = (p.Grid.RadialCells, p.Grid.AxialCells);
        Width = p.Grid.RadiusM / Rings;
        Height = p.Grid.HeightM / Layers;
        for (int i = 0; i < Rings; i++)
        {
            for (int k = 0; k < Layers; k++)
            {
                int c = (i * Layers) + k;
                if (i + 1 < Rings)
                    Join(c, c + Layers, Part.Radius, 2 * Math.PI * (i + 1) * Width * Height, (Width / 2 / _conductivity[c]) + (Width / 2 / _conductivity[c + Layers]));
                if (k + 1 < Layers)
                    Join(c, c + 1, Part.Height, Ring(i), (Height / 2 / _conductivity[c]) + (Height / 2 / _conductivity[c + 1]));
            }
        }

        KitContacts contacts = p.Contacts;
        for (int k = 0; k < Layers; k++)
        {
            int c = ((Rings - 1) * Layers) + k;
            double touched = BodyShare(k), side = 2 * Math.PI * p.Grid.RadiusM * Height;
            Face(c, Body, Part.Radius, side * touched, contacts.BodySide, p.SideWallM2KPerW, Width);
            Face(c, Room, Part.Radius, side * (1 - touched), contacts.RoomSide, p.SideWallM2KPerW, Width);
            double length = Overlap(k, contacts.ElementFromM, contacts.ElementToM), radius = contacts.ElementRadiusM;
            if (radius > 0 && length > 0)
                Join(k, Body, Part.Radius, 2 * Math.PI * length, Mixed ? 1 / (100 * radius) : Math.Log((radius + (Width / 2)) / radius) / _conductivity[k]);
        }

        for (int i = 0; i < Rings; i++)
        {
            Face(i * Layers, contacts.FloorFacesBody ? Body : Room, Part.Height, Ring(i), contacts.Floor, p.FloorWallM2KPerW, Height);
            Face((i * Layers) + Layers - 1, contacts.TopFacesBody ? Body : Room, Part.Height, Ring(i), contacts.Top, p.TopWallM2KPerW, Height);
        }
    }

    /// <summary>Which of the three factors of the matrix a link belongs to by its cell.</summary>
    public enum Part
    {
        Radius,
        Height,
    }

    public int Rings { get; }

    public int Layers { get; }

    public int Body => Rings * Layers;

    public int Room => Body + 1;

    private double Width { get; }

    private double Height { get; }

    private bool Mixed => _p.Inside == InsideHeat.WellMixed;

    /// <summary>Heat that flows into cells, body and room, W: of one vessel into the cells, of all into the others.</summary>
    public double[] Flows(double[] cellK, double bodyK)
    {
        double[] kelvins = [.. cellK, bodyK, _p.RoomK], into = new double[kelvins.Length];
        foreach (Link link in _links)
            Carry(into, link, link.WPerK * (kelvins[link.From] - kelvins[link.To]));
        into[Body] -= _p.BodyLossWPerK * (bodyK - _p.RoomK);
        into[Room] += _p.BodyLossWPerK * (bodyK - _p.RoomK);
        return into;
    }

    /// <summary>What a kelvin more in a cell moves through the links of a part, with the body and all else as it is.</summary>
    public double[] PerKelvin(int cell, Part part)
    {
        double[] into = new double[Room + 1];
        foreach (Link link in _links.Where(link => link.Part == part))
        {
            if (link.From == cell)
                Carry(into, link, link.WPerK);
            else if (link.To == cell)
                Carry(into, link, -link.WPerK);
        }

        return into;
    }

    /// <summary>What a kelvin more in the body moves.</summary>
    public double[] PerKelvinOfBody()
    {
        double[] into = new double[Room + 1];
        foreach (Link link in _links.Where(link => link.To == Body))
            Carry(into, link, -link.WPerK);
        into[Body] -= _p.BodyLossWPerK;
        into[Room] += _p.BodyLossWPerK;
        return into;
    }

    /// <summary>Temperature on the inside of the wall where a cell touches it towards body or room, K; null where nothing is touched.</summary>
    public double? WallK(int cell, int outside, Part part, double[] cellK, double bodyK)
    {
        foreach (Link link in _links.Where(link => link.From == cell && link.To == outside && link.Part == part && link.HalfM2KPerW is not null))
        {
            // Of the whole drop from outside to the middle of the cell, the share that is left at the wall.
            double outsideK = outside == Body ? bodyK : _p.RoomK;
            return cellK[cell] + ((outsideK - cellK[cell]) * link.HalfM2KPerW!.Value / link.M2KPerW);
        }

        return null;
    }

    /// <summary>Share of a layer's side that the body touches.</summary>
    public double BodyShare(int layer) => Overlap(layer, _p.Contacts.BodySideFromM, _p.Contacts.BodySideToM) / Height;

    private double Overlap(int layer, double fromM, double toM) => Math.Max(0, Math.Min(toM, (layer + 1) * Height) - Math.Max(fromM, layer * Height));

    private double Ring(int i) => Math.PI * ((Math.Pow((i + 1) * Width, 2)) - Math.Pow(i * Width, 2));

    private void Face(int c, int outside, Part part, double areaM2, Film film, double wallM2KPerW, double thicknessM)
    {
        if (!(areaM2 > 1e-12) || film.Kind == FilmKind.None)
            return;
        double half = Mixed ? 0 : thicknessM / 2 / _conductivity[c], wider = part == Part.Radius ? _p.SideRadiusRatio : 1;
        double m2KPerW = (1 / (_p.FilmFactor * film.FixedWPerM2K * wider)) + wallM2KPerW + half;
        _links.Add(new Link(c, outside, areaM2 / m2KPerW, part, half, m2KPerW));
    }

    private void Join(int from, int to, Part part, double areaM2, double m2KPerW) => _links.Add(new Link(from, to, areaM2 / m2KPerW, part, null, m2KPerW));

    private void Carry(double[] into, Link link, double watts)
    {
        into[link.From] -= watts;
        into[link.To] += link.To >= Body ? _p.Vessels * watts : watts;
    }

    private sealed record Link(int From, int To, double WPerK, Part Part, double? HalfM2KPerW, double M2KPerW);
}
