using System.Globalization;
using FlowSim.Plots.Drawing;
using FlowSim.Warming;
using ScottPlot;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>Maps of the vessel at the times that were asked for: temperatures on one colour scale, the coldest place, and the crystals that are left.</summary>
/// <remarks>A run without <see cref="WarmingOptions.MapTimes"/> gives a sheet that says so.</remarks>
public static class VesselMapFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    // More maps than these would be too small to read; they are then chosen evenly, first and last included.
    private const int MostMaps = 8;

    private const float TextPx = 24;
    private const float TickPx = 20;
    private const float AxisPx = 84;
    private const float GapPx = 44;
    private const float CaptionRowPx = 29;
    private const float BelowMapPx = 52;
    private const float NarrowestPx = 186;
    private const float MapsHeightPx = 900;
    private const float ScalePx = 108;

    // What the setup counts as gone (CrystalsGone): below this share of them.
    private const double CrystalsGone = 0.01;

    private static readonly Frame s_frame = new(Width, 0, TextPx, 0);
    private static readonly LineLook s_wall = new(OkabeIto.Black, 4f);
    private static readonly LineLook s_heated = new(OkabeIto.Vermillion, 9f);
    private static readonly LineLook s_water = new(OkabeIto.SkyBlue, 9f);

    /// <summary>The figure.</summary>
    /// <param name="result">The run.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(WarmingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        VesselMap[] maps = Chosen([.. result.Maps.Where(IsDrawable)]);
        TimeScale time = TimeScale.For(maps.Select(m => m.At.Seconds).DefaultIfEmpty(0).Max());
        string title = Title(maps, units, time);
        string subtitle = FigureText.Clean(name);
        string[] under = [.. new[] { subtitle, result.Maps.Count > maps.Length && maps.Length > 0 ? Invariant($"{maps.Length} of {result.Maps.Count} maps") : "" }.Where(l => l.Length > 0)];
        Layout layout = Layout.For(maps, result.Setup.Crystals is not null, 62 + 32 * under.Length + LegendRows.RowPx * LegendRowCount(result, maps, units));
        return FigureSheet.Of(Width, layout.Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, result, maps, layout, units, time, title, under));
    }

    private static bool IsDrawable(VesselMap map) =>
        map.RadialCells > 0 && map.AxialCells > 0 && map.TemperatureK.Count == map.RadialCells * map.AxialCells && map.TemperatureK.All(double.IsFinite)
        && map.Radius.Meters > 0 && map.Level.Meters > 0;

    private static VesselMap[] Chosen(VesselMap[] maps) =>
        maps.Length <= MostMaps ? maps : [.. Enumerable.Range(0, MostMaps).Select(i => maps[(int)Math.Round(i * (maps.Length - 1) / (MostMaps - 1.0))])];

    private static string Title(VesselMap[] maps, DisplayUnits units, TimeScale time)
    {
        if (maps.Length == 0)
            return "No map was kept for this run";

        string Coldest(VesselMap map) => UnitScales.TemperatureText(units, Temperature.FromKelvins(map.TemperatureK.Min()));
        string At(VesselMap map) => Coldest(map) + (map.At.Seconds > 0 ? " at " : " ") + Moment(map, time);
        return "Coldest honey " + At(maps[0]) + (maps.Length == 1 ? "" : ", " + At(maps[^1]));
    }

    private static string Moment(VesselMap map, TimeScale time) => map.At.Seconds > 0 ? time.Moment(map.At.Seconds) : "at the start";

    private static void Draw(FigureSheet sheet, WarmingResult result, VesselMap[] maps, Layout layout, DisplayUnits units, TimeScale time, string title, string[] under)
    {
        float top = s_frame.DrawHeadings(sheet, title, under);
        if (maps.Length == 0)
            return;

        ColourScale colours = Colours(maps, units);
        LegendRows.Draw(sheet, false, "Maps", Legend(result, maps, colours, units), Frame.MarginPx, Width - Frame.MarginPx, top, TextPx);
        for (int i = 0; i < maps.Length; i++)
        {
            PixelRect place = layout.PlaceOf(i);
            DrawCaption(sheet, maps[i], place, layout, units, time);
            DrawMap(sheet, maps[i], place, colours, units);
            DrawKit(sheet, result.Setup, maps[i], place);
            DrawAxes(sheet, maps[i], place, units, i % layout.Columns == 0);
        }

        string across = "Distance from the axis, " + UnitScales.Length(units).Unit;
        sheet.Text(across, Math.Max(Frame.MarginPx, layout.Middle - sheet.Measure(across, TextPx) / 2), layout.Height - ScalePx - 24, TextPx);
        colours.DrawBar(sheet, AxisPx, layout.Height - ScalePx + 14, Width - 60, "Temperature, " + UnitScales.TemperatureUnit(units), TextPx);
    }

    private static ColourScale Colours(VesselMap[] maps, DisplayUnits units) => new(
        UnitScales.TemperatureOfK(units, maps.Min(m => m.TemperatureK.Min())), UnitScales.TemperatureOfK(units, maps.Max(m => m.TemperatureK.Max())));

    private static int LegendRowCount(WarmingResult result, VesselMap[] maps, DisplayUnits units) => maps.Length == 0
        ? 0
        : FigureSheet.Tried(Width, sheet => LegendRows.Draw(sheet, true, "Maps", Legend(result, maps, Colours(maps, units), units), Frame.MarginPx, Width - Frame.MarginPx, 0, TextPx));

    private static List<LegendEntry> Legend(WarmingResult result, VesselMap[] maps, ColourScale colours, DisplayUnits units)
    {
        string step = UnitScales.DifferenceText(units, TemperatureDelta.FromKelvins(units == DisplayUnits.UsCustomary ? colours.Step / 1.8 : colours.Step));
        List<LegendEntry> entries = [new("coldest", null, MarkerShape.OpenDiamond), new("a line every " + step, new("#777777", 1.8f))];
        if (maps.Any(HasCrystals))
            entries.Add(new("hatched: crystals left, dense: over half", new("#777777", 1.5f, 2, 3)));
        HeatingKit kit = result.Setup.Heating;
        if (kit is HeatedBath)
            entries.Add(new("water", s_water));
        else if (kit is HeatedJacket or BandHeater or ImmersionHeater)
            entries.Add(new(WarmingFigure.Body(kit), s_heated));
        if (kit.Thermostat.Sensor != SensorPlace.Body)
            entries.Add(new("probe", null, MarkerShape.OpenSquare));
        return entries;
    }

    private static bool HasCrystals(VesselMap map) => map.CrystalsLeft.Count == map.TemperatureK.Count && map.CrystalsLeft.Any(c => c > CrystalsGone);

    private static void DrawCaption(FigureSheet sheet, VesselMap map, PixelRect place, Layout layout, DisplayUnits units, TimeScale time)
    {
        double low = UnitScales.TemperatureOfK(units, map.TemperatureK.Min());
        double high = UnitScales.TemperatureOfK(units, map.TemperatureK.Max());
        List<(string Text, bool Bold)> lines = [(Moment(map, time), true), (Invariant($"{low:0.0}") + (Invariant($"{low:0.0}") == Invariant($"{high:0.0}") ? "" : Invariant($"–{high:0.0}")) + " " + UnitScales.TemperatureUnit(units), false)];
        if (layout.CaptionRows > 2)
        {
            double left = map.CrystalsLeft.Count == map.TemperatureK.Count ? new MirroredField(map.CrystalsLeft, map.RadialCells, map.AxialCells).MeanByVolume() : 0;
            lines.Add((Invariant($"crystals {100 * left:0} % left"), false));
        }

        for (int i = 0; i < lines.Count; i++)
            sheet.Text(lines[i].Text, place.HorizontalCenter - sheet.Measure(lines[i].Text, TextPx, lines[i].Bold) / 2, place.Top - 10 - (lines.Count - i - 0.5f) * CaptionRowPx, TextPx, lines[i].Bold);
    }

    private static void DrawMap(FigureSheet sheet, VesselMap map, PixelRect place, ColourScale colours, DisplayUnits units)
    {
        MirroredField field = new([.. map.TemperatureK.Select(k => UnitScales.TemperatureOfK(units, k))], map.RadialCells, map.AxialCells);
        float X(double x) => place.HorizontalCenter + (float)x * place.Width / 2;
        float Y(double z) => place.Bottom - (float)z * place.Height;

        // Two pixels of the sheet to one of the picture: the field is smooth.
        int columns = Math.Max(2, (int)(place.Width / 2));
        int rows = Math.Max(2, (int)(place.Height / 2));
        sheet.Picture(place, columns, rows, (column, row) => colours.Of(field.At((column + 0.5) / columns * 2 - 1, 1 - (row + 0.5) / rows)));
        if (HasCrystals(map))
            DrawHatching(sheet, new MirroredField(map.CrystalsLeft, map.RadialCells, map.AxialCells), place);
        foreach (double level in colours.Levels)
            sheet.Pieces([.. field.Contour(level).Select(p => (X(p.X1), Y(p.Z1), X(p.X2), Y(p.Z2)))], new(colours.InkOn(level), 1.6f));

        sheet.Line(place.Left, place.Top, place.Right, place.Top, new(OkabeIto.Black, 1.2f));
        sheet.Pieces(
            [(place.Left - 2, place.Top - 8, place.Left - 2, place.Bottom + 2), (place.Left - 2, place.Bottom + 2, place.Right + 2, place.Bottom + 2), (place.Right + 2, place.Bottom + 2, place.Right + 2, place.Top - 8)],
            s_wall);
        (double x, double z, double value) = field.Lowest();
        if (map.TemperatureK.Max() - map.TemperatureK.Min() >= 0.05)
            DrawHaloed(sheet, X(x), Y(z), MarkerShape.OpenDiamond, colours.InkOn(value));
    }

    /// <summary>Draws a marker in one ink on a wider one in the other, so that it shows on any colour.</summary>
    private static void DrawHaloed(FigureSheet sheet, float x, float y, MarkerShape shape, string hex)
    {
        sheet.Marker(x, y, shape, 19, hex == OkabeIto.Black ? "#FFFFFF" : OkabeIto.Black, 6);
        sheet.Marker(x, y, shape, 19, hex, 3);
    }

    /// <summary>Slanted lines where crystals are left, twice as dense where half of them are, dark beside light, so that they show on any colour.</summary>
    private static void DrawHatching(FigureSheet sheet, MirroredField crystals, PixelRect place)
    {
        const float Apart = 15;
        const float StepPx = 3;
        List<(float X1, float Y1, float X2, float Y2)> pieces = [];
        for (int line = -(int)(place.Height / Apart); line * Apart < place.Width; line++)
        {
            float start = line * Apart;
            double least = line % 2 == 0 ? CrystalsGone : 0.5;
            float? from = null;
            for (float y = 0; y <= place.Height + StepPx; y += StepPx)
            {
                float x = start + y;
                bool inside = y <= place.Height && x >= 0 && x <= place.Width && crystals.At(2 * x / place.Width - 1, y / place.Height) > least;
                if (inside)
                {
                    from ??= y;
                }
                else if (from is { } began)
                {
                    float ended = y - StepPx;
                    if (ended > began)
                        pieces.Add((place.Left + start + began, place.Bottom - began, place.Left + start + ended, place.Bottom - ended));
                    from = null;
                }
            }
        }

        sheet.Pieces([.. pieces.Select(p => (p.X1 + 1.2f, p.Y1 + 1.2f, p.X2 + 1.2f, p.Y2 + 1.2f))], new("#A0000000", 1.2f));
        sheet.Pieces(pieces, new("#D0FFFFFF", 1.2f));
    }

    private static void DrawKit(FigureSheet sheet, WarmingSetup setup, VesselMap map, PixelRect place)
    {
        float Y(Length height) => place.Bottom - (float)Math.Clamp(height.Meters / map.Level.Meters, 0, 1) * place.Height;
        void Sides(Length from, Length to, LineLook look)
        {
            sheet.Line(place.Left - 9, Y(from), place.Left - 9, Y(to), look);
            sheet.Line(place.Right + 9, Y(from), place.Right + 9, Y(to), look);
        }

        void Floor(LineLook look) => sheet.Line(place.Left, place.Bottom + 9, place.Right, place.Bottom + 9, look);

        switch (setup.Heating)
        {
            case BandHeater band:
                Sides(band.From, band.To, s_heated);
                break;
            case HeatedJacket jacket:
                Sides(jacket.From, jacket.To, s_heated);
                if (jacket.HeatsFloor)
                    Floor(s_heated);
                break;
            case HeatedBath bath:
                Sides(Length.Zero, bath.WaterLevel, s_water);
                if (setup.Vessel.Base == VesselBase.Rack)
                    Floor(s_water);
                break;
            case ImmersionHeater element:
                float half = Math.Max(2, (float)(element.Radius / map.Radius) * place.Width / 2);
                sheet.Fill(place.HorizontalCenter - half - 2, Y(element.To), place.HorizontalCenter + half + 2, Y(element.From), "#FFFFFF");
                sheet.Fill(place.HorizontalCenter - half, Y(element.To), place.HorizontalCenter + half, Y(element.From), OkabeIto.Vermillion);
                break;
        }

        Thermostat thermostat = setup.Heating.Thermostat;
        if (thermostat.Sensor == SensorPlace.Body)
            return;

        double x = thermostat.Sensor == SensorPlace.Wall ? 1 : thermostat.SensorRadius.DecimalFractions;
        DrawHaloed(sheet, place.HorizontalCenter + (float)x * place.Width / 2, place.Bottom - (float)thermostat.SensorHeight.DecimalFractions * place.Height, MarkerShape.OpenSquare, OkabeIto.Black);
    }

    private static void DrawAxes(FigureSheet sheet, VesselMap map, PixelRect place, DisplayUnits units, bool withHeights)
    {
        Scale length = UnitScales.Length(units);
        LineLook tick = new(OkabeIto.Black, 1.5f);
        double radius = length.Of(map.Radius.Meters);
        double pxPerUnit = place.Width / (2 * radius);
        double step = ColourScale.NiceStep(58 / pxPerUnit);
        for (int i = -(int)(radius * (1 + 1e-9) / step); i * step <= radius * (1 + 1e-9); i++)
        {
            float x = place.HorizontalCenter + (float)(i * step * pxPerUnit);
            string words = (Math.Abs(i) * step).ToString("0.####", CultureInfo.InvariantCulture);
            sheet.Line(x, place.Bottom + 4, x, place.Bottom + 11, tick);
            sheet.Text(words, x - sheet.Measure(words, TickPx) / 2, place.Bottom + 26, TickPx);
        }

        if (!withHeights)
            return;

        double level = length.Of(map.Level.Meters);
        double stepUp = ColourScale.NiceStep(44 / pxPerUnit);
        for (int i = 0; i * stepUp <= level * (1 + 1e-9); i++)
        {
            float y = place.Bottom - (float)(i * stepUp * pxPerUnit);
            string words = (i * stepUp).ToString("0.####", CultureInfo.InvariantCulture);
            sheet.Line(place.Left - 20, y, place.Left - 13, y, tick);
            sheet.Text(words, place.Left - 26 - sheet.Measure(words, TickPx), y, TickPx);
        }

        string up = "Height, " + length.Unit;

        // A flat vessel is lower than these words are long: they may reach past it, between the rows.
        float wordsPx = sheet.Measure(up, TextPx);
        sheet.TextUpward(up, place.Left - AxisPx + 6, wordsPx <= place.Height ? place.VerticalCenter : place.Bottom + 40 - wordsPx / 2, TextPx);
    }

    /// <summary>Where the maps stand: all at one scale, as large as the sheet allows.</summary>
    private sealed record Layout(int Columns, float MapWidth, float MapHeight, int CaptionRows, float Top, int Height)
    {
        private static float WidestSlot(int columns) => (Width - AxisPx - Frame.MarginPx - 16 - (columns - 1) * GapPx) / columns;

        private float RowPx => 10 + CaptionRows * CaptionRowPx + MapHeight + BelowMapPx;

        public static Layout For(VesselMap[] maps, bool crystals, float top)
        {
            if (maps.Length == 0)
                return new(1, 0, 0, 0, top, (int)top + 40);

            int captionRows = crystals ? 3 : 2;
            double aspect = maps.Max(m => m.Level / m.Radius) / 2;
            Layout? best = null;
            for (int columns = 1; columns <= maps.Length; columns++)
            {
                int rows = (maps.Length + columns - 1) / columns;
                float slot = WidestSlot(columns);
                if (columns > 1 && slot < NarrowestPx)
                    break;

                float tallest = Math.Max(90, MapsHeightPx / rows - captionRows * CaptionRowPx - BelowMapPx - 10);
                float width = Math.Min(slot, (float)(tallest / aspect));
                if (best is null || width > 1.02f * best.MapWidth)
                    best = new(columns, width, (float)(width * aspect), captionRows, top, 0);
            }

            int rowCount = (maps.Length + best!.Columns - 1) / best.Columns;
            return best with { Height = (int)(top + rowCount * best.RowPx + 52 + ScalePx) };
        }

        private float SlotPx => Math.Max(MapWidth, Math.Min(NarrowestPx, WidestSlot(Columns)));

        private float LeftPx => Math.Max(AxisPx + 16, (Width - Columns * SlotPx - (Columns - 1) * GapPx) / 2);

        /// <summary>Middle of the row of maps.</summary>
        public float Middle => LeftPx + (Columns * SlotPx + (Columns - 1) * GapPx) / 2;

        public PixelRect PlaceOf(int index)
        {
            float left = LeftPx + index % Columns * (SlotPx + GapPx) + (SlotPx - MapWidth) / 2;
            float mapTop = Top + index / Columns * RowPx + 10 + CaptionRows * CaptionRowPx;
            return new(left, left + MapWidth, mapTop + MapHeight, mapTop);
        }
    }
}
