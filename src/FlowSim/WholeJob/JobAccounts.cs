using FlowSim.Bottling;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>Writes the account of a job from those of its steps.</summary>
internal static class JobAccounts
{
    /// <summary>The account.</summary>
    /// <param name="start">Honey at the start, in the tank and the bottling tank.</param>
    /// <param name="arrived">Honey in the bottling tank before it was filled from.</param>
    /// <param name="scum">Honey that was skimmed.</param>
    /// <param name="straining">The straining.</param>
    /// <param name="filling">The filling; null when there was none.</param>
    public static JobAccount Of(Mass start, Mass arrived, Mass scum, StrainingResult straining, FillingResult? filling)
    {
        MassAccount strained = straining.Masses;
        List<AccountLine> lines =
        [
            new(JobPlace.Scum, scum),
            new(JobPlace.TankHeel, strained.HeldInTank),
            new(JobPlace.TankFilm, strained.HeldInFilm),
            new(JobPlace.Cloth, strained.HeldOnCloth),
            new(JobPlace.Floor, strained.Spilled),
        ];
        if (filling is null)
        {
            lines.Add(new AccountLine(JobPlace.BottlingTank, arrived));
        }
        else
        {
            FillingMasses filled = filling.Masses;
            lines.Add(new AccountLine(JobPlace.BottlingHeel, filled.Rest + filled.Heel));
            lines.Add(new AccountLine(JobPlace.BottlingFilm, filled.Film));
            lines.Add(new AccountLine(JobPlace.Drips, filled.Drips));
            lines.Add(new AccountLine(JobPlace.InJars, filled.InJars - filled.GivenAway));
            lines.Add(new AccountLine(JobPlace.GivenAway, filled.GivenAway));
        }

        Mass sum = lines.Aggregate(Mass.Zero, (all, line) => all + line.Mass);
        return new JobAccount
        {
            Start = start,
            Lines = lines,
            Unstrained = strained.Bypassed,
            BalanceRelative = (sum - start) / start,
        };
    }
}
