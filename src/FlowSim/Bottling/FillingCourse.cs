using static System.FormattableString;

namespace FlowSim.Bottling;

/// <summary>One jar of a run.</summary>
/// <param name="StartS">When its gate was opened, s.</param>
/// <param name="FillS">Time its gate was open, s.</param>
/// <param name="WaitS">Time it stood under the shut gate, s.</param>
/// <param name="LevelM">Level in the tank when it was full, m.</param>
/// <param name="FlowM3PerS">Flow when the gate began to shut, m³/s.</param>
/// <param name="TemperatureK">Temperature of the tank, K.</param>
/// <param name="DripsKg">What dripped beside the jars after it, kg.</param>
internal readonly record struct JarMoment(double StartS, double FillS, double WaitS, double LevelM, double FlowM3PerS, double TemperatureK, double DripsKg);

/// <summary>Empties a tank jar after jar. A jar's time is exact for the density, viscosity and temperature it begins with.</summary>
internal sealed class FillingCourse
{
    private const int FilmRounds = 50;

    private readonly FillingParameters _p;
    private double _timeS;

    private FillingCourse(FillingParameters p)
    {
        _p = p;
        MassKg = p.StartKg;
        TemperatureK = p.StartK;
    }

    /// <summary>The jars, first to last.</summary>
    public List<JarMoment> Jars { get; } = [];

    /// <summary>Why it ended.</summary>
    public FillingStatus Status { get; private set; } = FillingStatus.JarsDone;

    /// <summary>Honey in the tank at the end, film included, kg.</summary>
    public double MassKg { get; private set; }

    /// <summary>Temperature of the tank at the end, K.</summary>
    public double TemperatureK { get; private set; }

    /// <summary>When it ended, s.</summary>
    public double EndS => _timeS;

    /// <summary>Fill time of the jar that was not begun because it would have taken too long, s; NaN if there is none.</summary>
    public double RefusedFillS { get; private set; } = double.NaN;

    /// <summary>Runs it.</summary>
    /// <param name="p">Parameters.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    public static FillingCourse Run(FillingParameters p, CancellationToken cancellation)
    {
        var course = new FillingCourse(p);
        while (course.Jars.Count < p.MostJars && course.Next())
            cancellation.ThrowIfCancellationRequested();
        return course;
    }

    private bool Next()
    {
        double density = _p.Honey.DensityKgPerM3(TemperatureK), viscosity = _p.Honey.ViscosityPaS(TemperatureK);
        double nu = viscosity / density;
        double waitS = Math.Min(_p.LongestWaitS, LipDrip.TimeUntilLeftJeffreys1930S(nu, _p.LipM, _p.RadiusM, _p.DripLimitKg / density));
        double drips = density * (LipDrip.LeftM3(nu, _p.LipM, _p.RadiusM, waitS) - LipDrip.LeftM3(nu, _p.LipM, _p.RadiusM, waitS + _p.ChangeOverS));
        double outKg = Number(_p.TargetKg + drips);
        GateHoney gate = GateHoney.Of(_p.Gate, viscosity, density);
        if (Draw(density, nu, outKg, gate) is not { } drawn)
        {
            Status = FillingStatus.Emptied;
            return false;
        }

        double levelM = Number(_p.Shape.LevelM(drawn.BulkM3));
        double flow = Number(gate.FlowM3PerS(levelM - _p.GateHeightM));

        // While the gate shuts half its flow is missing; the level is taken as it is then.
        double fillS = drawn.TimeS + _p.ClosingS / 2;
        if (!(fillS <= _p.LongestFillS))
        {
            Status = FillingStatus.TooSlow;
            RefusedFillS = fillS;
            return false;
        }

        Jars.Add(new JarMoment(_timeS, fillS, waitS, levelM, flow, TemperatureK, drips));
        double cycleS = fillS + waitS + _p.ChangeOverS;
        MassKg -= outKg;
        TemperatureK = Number(_p.CooledK(TemperatureK, MassKg, levelM, cycleS));
        _timeS += cycleS;
        return true;
    }

    /// <summary>The checks ask a shape or correlation of the user's own at a few points only; what it answers elsewhere ends here.</summary>
    /// <param name="figure">A figure of the jar that is begun, or of the tank after the last.</param>
    public double Number(double figure) => double.IsNaN(figure)
        ? throw new SimulationException(Invariant($"The filling ended after {Jars.Count} jars with a figure that is not a number. {SimulationException.OwnPartsMayBeTheCause}"))
        : figure;

    /// <summary>
    /// Time to let a mass out, and the bulk left; null when the heel would be reached before. The film at the end depends on the
    /// time that is looked for: a fixed point, which converges at once, for the film changes slowly.
    /// </summary>
    private (double TimeS, double BulkM3)? Draw(double density, double nu, double outKg, in GateHoney gate)
    {
        double before = MassKg / density, after = (MassKg - outKg) / density, outM3 = outKg / density;
        double film = _p.FilmM3(before, nu, _timeS);
        double bulk = before - film, end = after - film, time = 0;
        for (int i = 0; i < FilmRounds; i++)
        {
            if (!(end > _p.HeelM3))
                return null;
            double next = Number(JarDraw.TimeS(_p.Shape, _p.GateHeightM, outM3, bulk, end, gate));
            bool settled = Math.Abs(next - time) <= 1e-13 * next;
            time = next;
            if (settled)
                break;
            end = after - _p.FilmM3(after, nu, _timeS + time);
        }

        return (time, end);
    }
}
