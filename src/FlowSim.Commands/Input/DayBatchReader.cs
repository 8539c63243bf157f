using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A batch of a day as it was read, its models not yet run.</summary>
/// <param name="Section">Where it stands.</param>
/// <param name="Vessel">One vessel of it; what the models say is filled in later.</param>
/// <param name="Count">Vessels.</param>
/// <param name="File">Its batch file, or <see cref="DayKeys.Example"/>; null for none.</param>
/// <param name="Settings">Keys set in that file.</param>
/// <param name="IsWarm">Whether it is said not to be warmed.</param>
/// <param name="SetUp">Time to set up before the gate opens.</param>
internal sealed record DayBatch(Section Section, PlannedBatch Vessel, int Count, string? File, IReadOnlyList<string> Settings, bool IsWarm, Duration SetUp)
{
    /// <summary>Whether it is said not to settle in its vessel.</summary>
    public bool SettlesNot { get; init; }

    /// <summary>Whether it is said to stay in the tank.</summary>
    public bool StaysInTank { get; init; }

    /// <summary>Time to strain as given; null where the model says.</summary>
    public StepTimes? Strain { get; init; }

    /// <summary>Volume as given; null where the model says.</summary>
    public Volume? Volume { get; init; }
}

/// <summary>Reads the batches of a day and lets the models say how long they take.</summary>
/// <param name="files">Files.</param>
/// <param name="loaded">The day's file.</param>
/// <param name="path">Its path; null for the example.</param>
/// <param name="date">The day.</param>
/// <param name="begin">From when anything may be done, min.</param>
internal sealed class DayBatchReader(IFiles files, Loaded loaded, string? path, DateOnly date, int begin)
{
    private const int MostVessels = 40;
    private const string FillExample = "\"40 min\", or \"none\" if it stays in the tank";

    /// <summary>Engineering choices: bubbles of half a millimetre rise some 0.06 mm/s in honey of 3 Pa·s, 0.3 m in little over an hour; the slow ones are smaller.</summary>
    private static readonly StepTimes s_stand = new(Duration.FromHours(1), Duration.FromHours(2), Duration.FromHours(4));

    private static readonly Duration s_setUp = Duration.FromMinutes(10);

    /// <summary>Reads one batch.</summary>
    /// <param name="section">Section.</param>
    /// <param name="places">Names of the warming places.</param>
    /// <returns>The batch; null when something is wrong.</returns>
    public DayBatch? Read(Section section, IReadOnlyList<string> places)
    {
        string? name = DayReader.NameOf(section, DayKeys.Batch.Name, "\"spring\"");
        string? file = DayReader.TextOf(section, DayKeys.Batch.File);
        string[] settings = [.. (section.List(DayKeys.Batch.Set, "[\"tank.level=250 mm\"]") ?? []).Select(item => section.Text(DayKeys.Batch.Set.Name, item)).OfType<string>()];
        int vessels = section.WholeNumber(DayKeys.Batch.Vessels) ?? 1;
        if (vessels is < 1 or > MostVessels)
            section.Wrong(DayKeys.Batch.Vessels.Name, section.Entry(DayKeys.Batch.Vessels.Name)!.Value.Spot, FormattableString.Invariant($"{vessels} is outside what is allowed, 1 to {MostVessels}"));
        bool join = section.Flag(DayKeys.Batch.Join) ?? false;
        string[]? wanted = section.List(DayKeys.Batch.Places, "[\"warm cabinet\"]") is { } items
            ? [.. items.Select(item => Place(section, item, places)).OfType<string>()]
            : null;
        int? earliest = DayReader.MomentOf(section, DayKeys.Batch.Earliest, date);
        int? due = DayReader.MomentOf(section, DayKeys.Batch.Due, date);
        double? hold = section.Quantity(DayKeys.Batch.LongestHold);
        double? setUp = section.Quantity(DayKeys.Batch.SetUp);
        double? volume = section.Quantity(DayKeys.Batch.Volume);
        (StepTimes? warm, bool isWarm) = Times(section, DayKeys.Batch.Warm);
        (StepTimes? settle, bool noSettle) = Times(section, DayKeys.Batch.Settle);
        (StepTimes? strain, _) = Times(section, DayKeys.Batch.Strain);
        (StepTimes? stand, bool noStand) = Times(section, DayKeys.Batch.Stand);
        (StepTimes? fill, bool noFill) = Times(section, DayKeys.Batch.Fill);
        if (file is null && !section.Has(DayKeys.Batch.Fill))
            section.Missing(DayKeys.Batch.Fill, FillExample);
        if (file is null && strain is null && !section.Has(DayKeys.Batch.Strain))
            section.Missing(DayKeys.Batch.File, "\"my-run.toml\", or strain and volume in its place");
        if (file is null && strain is not null && !section.Has(DayKeys.Batch.Volume))
            section.Missing(DayKeys.Batch.Volume, "\"18 L\"");
        string? honey = DayReader.TextOf(section, DayKeys.Batch.Honey);
        string? setting = DayReader.TextOf(section, DayKeys.Batch.Setting);
        section.RefuseStrangers();
        if (name is null || loaded.Problems.Any)
            return null;

        // The time to strain is put in, or replaced, where the models are run.
        Assume(section, name, noStand);
        PlannedBatch vessel = new()
        {
            Name = name,
            Honey = honey ?? name,
            Steps = new PlannedSteps { Warm = warm, Settle = settle, Strain = strain ?? s_stand, Stand = noStand ? null : stand ?? s_stand, Fill = fill },
            Volume = Volume.FromCubicMeters(volume ?? 0),
            Places = wanted,
            Setting = setting,
            Earliest = Duration.FromMinutes(Math.Max(begin, earliest ?? begin)),
            Due = due is { } at ? Duration.FromMinutes(at) : null,
            Joined = join && vessels > 1 ? name : null,
        };
        if (hold is { } longest)
            vessel = vessel with { LongestHold = Duration.FromSeconds(longest) };
        return new DayBatch(section, vessel, vessels, file, settings, isWarm, setUp is { } up ? Duration.FromSeconds(up) : s_setUp)
        {
            SettlesNot = noSettle,
            StaysInTank = noFill,
            Strain = strain,
            Volume = volume is { } m3 ? Volume.FromCubicMeters(m3) : null,
        };
    }

    /// <summary>The vessels of a batch with the times that the models give them.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="notices">Takes what the models say.</param>
    /// <param name="cancellation">Ends the models early.</param>
    public IEnumerable<PlannedBatch> Plan(DayBatch batch, List<Notice> notices, CancellationToken cancellation)
    {
        PlannedBatch vessel = batch.Vessel;
        StepTimes? strain = batch.Strain;
        if (batch.File is { } file && AsksModels(batch))
        {
            (BatchSteps steps, string? setting) = Model(file, batch, cancellation);
            if (steps.Refusal is { } refusal)
            {
                batch.Section.Wrong(DayKeys.Batch.File.Name, batch.Section.Entry(DayKeys.Batch.File.Name)!.Value.Spot, $"{refusal}; \"flowsim yield\" with this file shows why");
                return [];
            }

            notices.AddRange(steps.Notices.Select(notice => notice with { Seen = $"\"{vessel.Name}\": {notice.Seen}" }));
            strain ??= steps.Strain;
            vessel = vessel with
            {
                Volume = batch.Volume ?? steps.Volume,
                Mass = steps.Mass,
                Setting = vessel.Setting ?? setting,
                Steps = vessel.Steps with { Warm = vessel.Steps.Warm ?? steps.Warm, Settle = vessel.Steps.Settle ?? steps.Settle, Fill = vessel.Steps.Fill ?? steps.Fill, Scrapes = [.. steps.Scrapes.Select(scrape => batch.SetUp + scrape)] },
            };
        }

        if (vessel.Steps.Fill is null && !batch.StaysInTank)
        {
            batch.Section.Missing(DayKeys.Batch.Fill, FillExample + "; or a section [filling] in the batch's file");
            return [];
        }

        vessel = vessel with { Steps = vessel.Steps with { Strain = With(strain!, batch.SetUp) } };
        return batch.Count == 1 ? [vessel]
            : Enumerable.Range(1, batch.Count).Select(number => vessel with { Name = FormattableString.Invariant($"{vessel.Name} {number}") });
    }

    /// <summary>Whether something is asked of its file: what the day says itself, the models need not.</summary>
    private static bool AsksModels(DayBatch batch)
    {
        PlannedSteps said = batch.Vessel.Steps;
        return batch.Strain is null || batch.Volume is null || (said.Warm is null && !batch.IsWarm) || (said.Settle is null && !batch.SettlesNot) || (said.Fill is null && !batch.StaysInTank);
    }

    private static StepTimes With(StepTimes times, Duration more) => new(times.Quick + more, times.Likely + more, times.Slow + more);

    private (BatchSteps Steps, string? Setting) Model(string file, DayBatch batch, CancellationToken cancellation)
    {
        string? from = file == DayKeys.Example ? null : Path.Combine(Path.GetDirectoryName(path) ?? string.Empty, file);
        Loaded its = Loader.Load(files, from, batch.Settings);
        PlannedSteps said = batch.Vessel.Steps;
        JobSetup all = JobReader.Read(its, cancellation);
        JobSetup job = all with
        {
            Warming = batch.IsWarm || said.Warm is not null ? null : all.Warming,
            Settling = batch.SettlesNot || said.Settle is not null ? null : all.Settling,
            Filling = batch.StaysInTank || said.Fill is not null ? null : all.Filling,
        };
        BatchSteps steps = Loader.Guard(its, () => BatchSteps.Of(job, cancellation: cancellation));
        Warming.WarmingSetup? warming = job.Warming;
        string? setting = warming is null ? null : new Display(UnitChoice.Metric).Temperature(warming.Heating.Thermostat.Schedule[^1].Setpoint.Kelvins);
        return (steps, setting);
    }

    private void Assume(Section section, string name, bool noStand)
    {
        if (!section.Has(DayKeys.Batch.Honey))
            loaded.Journal.Assume($"{section.Name}.{DayKeys.Batch.Honey.Name}", $"\"{Printable.Of(name)}\" is a honey of its own: kit is cleaned before and after it", Standing.EngineeringChoice);
        if (!section.Has(DayKeys.Batch.Stand) && !noStand)
            loaded.Journal.Assume("batch.stand", "bubbles are up after 2 h in the bottling tank, 1 h to 4 h", Standing.EngineeringChoice);
        if (!section.Has(DayKeys.Batch.SetUp))
            loaded.Journal.Assume("batch.set_up", FormattableString.Invariant($"{s_setUp.Minutes:0} min to carry a vessel and set up before its gate opens"), Standing.EngineeringChoice);
        if (!section.Has(DayKeys.Batch.LongestHold))
            loaded.Journal.Assume("batch.longest_hold", "honey is kept warm for a night, 12 h, and no longer", Standing.EngineeringChoice);
    }

    private static string? Place(Section section, InputValue item, IReadOnlyList<string> places)
    {
        if (section.Text(DayKeys.Batch.Places.Name, item) is not { } text)
            return null;
        if (places.Count > 0)
            return section.WordOf(DayKeys.Batch.Places.Name, item.Spot, text.Trim(), places, "warming place");
        section.Wrong(DayKeys.Batch.Places.Name, item.Spot, "there is no [[warming_place]]");
        return null;
    }

    /// <summary>A time, or quick, likely and slow ones; and whether the step is said to be left out.</summary>
    private static (StepTimes? Times, bool IsNone) Times(Section section, Key key)
    {
        if (section.Entry(key.Name) is not { } entry)
            return (null, false);
        InputValue value = entry.Value;
        if (value is { Kind: ValueKind.Text or ValueKind.Bare } && value.Text.Trim() == DayKeys.None)
            return (null, true);
        double?[] seconds = value.Kind == ValueKind.List
            ? [.. value.Items.Select(item => section.Quantity(key.Name, item, Dimension.Duration))]
            : [section.Quantity(key.Name, value, Dimension.Duration)];
        if (seconds.Contains(null))
            return (null, false);
        if (seconds is not ([_] or [_, _, _]) || (seconds.Length == 3 && !(seconds[0] <= seconds[1] && seconds[1] <= seconds[2])))
        {
            section.Wrong(key.Name, value.Spot, $"write one time, as in {key.Name} = \"2 h\", or a quick, a likely and a slow one, as in {key.Name} = [\"1 h\", \"2 h\", \"4 h\"]");
            return (null, false);
        }

        return (new StepTimes(At(0), At(seconds.Length / 2), At(seconds.Length - 1)), false);

        Duration At(int index) => Duration.FromSeconds(seconds[index]!.Value);
    }
}
