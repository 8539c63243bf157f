using FlowSim.Bottling;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>What could be had back of the honey that is not sold.</summary>
internal static class Recoveries
{
    /// <summary>How much longer a wall is left to drain, h (engineering choice).</summary>
    private const double LongerHours = 1;

    /// <summary>Less than this is not worth a word, kg (engineering choice).</summary>
    private const double LeastKg = 0.005;

    /// <summary>The most first.</summary>
    public static IReadOnlyList<Recovery> Of(JobAccount account, StrainingResult straining, FillingResult? filling)
    {
        List<Recovery> all =
        [
            new(JobPlace.Scum, account.Of(JobPlace.Scum), "Let the scum stand warm in a narrow pail and draw the honey off below it."),
            new(JobPlace.TankHeel, account.Of(JobPlace.TankHeel), "Tip the tank, or take one whose gate drains the floor."),
            new(JobPlace.TankFilm, Longer(account.Of(JobPlace.TankFilm), straining.Elapsed), "Leave the gate open over the strainer for another hour, somebody standing by."),
            new(JobPlace.Cloth, account.Of(JobPlace.Cloth), "Let the strainer drip, or leave it wet for the next batch of the same honey."),
            new(JobPlace.Floor, account.Of(JobPlace.Floor), "Open the gate less and stay with it: what was on the floor is lost."),
            new(JobPlace.BottlingHeel, account.Of(JobPlace.BottlingHeel), "Tip the bottling tank and fill the last jars by hand, or keep it for the next batch of the same honey."),
            new(JobPlace.Drips, account.Of(JobPlace.Drips), "A clean tray under the gate catches what drips between two jars."),
        ];
        if (filling is not null)
        {
            all.Add(new Recovery(JobPlace.BottlingFilm, Longer(account.Of(JobPlace.BottlingFilm), filling.Elapsed), "Let the bottling tank drain for another hour before it is washed."));
            if (filling.GivenAwayPerDay > Mass.Zero)
                all.Add(new Recovery(JobPlace.GivenAway, account.Of(JobPlace.GivenAway) * (filling.SavedPerDayAtHalfScatter / filling.GivenAwayPerDay), "Weigh more evenly: with half the scatter of fills the target may lie so much lower."));
        }

        return [.. all.Where(recovery => recovery.Mass.Kilograms >= LeastKg).OrderByDescending(recovery => recovery.Mass)];
    }

    /// <summary>What a wall gives up in more time: its film thins as 1/√t (Jeffreys 1930; see <see cref="Vessels.WallFilm"/>).</summary>
    private static Mass Longer(Mass film, Duration drained) =>
        film * (1 - Math.Sqrt(drained.Hours / (drained.Hours + LongerHours)));
}
