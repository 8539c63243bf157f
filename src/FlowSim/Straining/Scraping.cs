using UnitsNet;

namespace FlowSim.Straining;

/// <summary>When the cloth is scraped, and how well.</summary>
public sealed record Scraping
{
    /// <summary>The cloth is never scraped.</summary>
    public static Scraping Never { get; } = new();

    /// <summary>Set times from the start, positive and increasing, at most 1000. Default none.</summary>
    public IReadOnlyList<Duration> Times { get; init; } = [];

    /// <summary>Pond depth at which it is scraped, once 1 % of some cloth is blinded; null: not by depth. 1 mm to 10 m.</summary>
    public Length? AtPondDepth { get; init; }

    /// <summary>Share of the blinded cloth that a scrape clears. 0 to 1. Default 0.7 (engineering choice).</summary>
    public double Recovery { get; init; } = 0.7;

    /// <summary>Shortest time between two scrapes by depth. 1 s to 30 days. Default 60 s (engineering choice).</summary>
    public Duration Pause { get; init; } = Duration.FromSeconds(60);
}
