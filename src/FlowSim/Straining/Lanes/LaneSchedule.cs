using FlowSim.Gates;

namespace FlowSim.Straining;

/// <summary>What one lane does at set times, and how often it has scraped.</summary>
internal sealed class LaneSchedule(int openings)
{
    private readonly GateGeometry[] _geometries = new GateGeometry[openings];
    private double[] _openingTimesS = [];
    private double[] _scrapeTimesS = [];
    private double _pauseS;
    private bool _byDepth;

    public int OpeningStep { get; private set; }

    public int NextScrape { get; private set; }

    public int Scrapes { get; private set; }

    /// <summary>When the pause after a scrape ends; +∞ outside one.</summary>
    public double LookAgainAtS { get; private set; }

    public double Recovery { get; private set; }

    public GateGeometry Gate => _geometries[OpeningStep];

    /// <summary>Whether nothing is due any more.</summary>
    public bool IsOver => double.IsPositiveInfinity(Next);

    public double Next
    {
        get
        {
            double next = LookAgainAtS;
            if (OpeningStep + 1 < _openingTimesS.Length)
                next = Math.Min(next, _openingTimesS[OpeningStep + 1]);
            return NextScrape < _scrapeTimesS.Length ? Math.Min(next, _scrapeTimesS[NextScrape]) : next;
        }
    }

    /// <summary>Begins a run.</summary>
    public void Take(StrainingParameters p)
    {
        p.OpeningGeometries.CopyTo(_geometries, 0);
        (_openingTimesS, _scrapeTimesS) = (p.OpeningTimesS, p.ScrapeTimesS);
        (_pauseS, Recovery) = (p.ScrapePauseS, p.ScrapeRecovery);
        _byDepth = !double.IsPositiveInfinity(p.ScrapeDepthM);
        (OpeningStep, NextScrape, Scrapes) = (0, 0, 0);
        LookAgainAtS = double.PositiveInfinity;
    }

    /// <summary>Moves to the opening in force at a time.</summary>
    /// <returns>Whether it is another.</returns>
    public bool MoveGate(double t)
    {
        int before = OpeningStep;
        while (OpeningStep + 1 < _openingTimesS.Length && _openingTimesS[OpeningStep + 1] <= t)
            OpeningStep++;
        return OpeningStep != before;
    }

    /// <summary>Whether a scrape at a set time is due; it counts as begun.</summary>
    public bool TakeScrape(double t)
    {
        int before = NextScrape;
        while (NextScrape < _scrapeTimesS.Length && _scrapeTimesS[NextScrape] <= t)
            NextScrape++;
        return NextScrape != before;
    }

    /// <summary>Whether the pause after a scrape is over; it then is none any more.</summary>
    public bool TakeEndOfPause(double t)
    {
        if (LookAgainAtS > t)
            return false;
        LookAgainAtS = double.PositiveInfinity;
        return true;
    }

    /// <summary>Notes a scrape.</summary>
    public void NoteScrape(double t)
    {
        Scrapes++;
        if (_byDepth)
            LookAgainAtS = t + _pauseS;
    }
}
