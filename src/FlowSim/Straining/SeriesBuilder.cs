using FlowSim.Gates;
using FlowSim.Numerics.Events;
using MathNet.Numerics.RootFinding;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>Collects the series of a run on an even grid of times, with a row on either side of each event.</summary>
/// <remarks>It reads the continuous extension of the steps, so the grid cannot change them.</remarks>
internal sealed class SeriesBuilder
{
    private readonly int _points;
    private readonly double _endS;
    private readonly double[] _state;
    private readonly List<double>[] _columns;
    private readonly List<double>[] _openShares;
    private int _next = 1;

    /// <summary>Prepares a series.</summary>
    /// <param name="points">Evenly spaced points, at least 2.</param>
    /// <param name="endS">End of the run, s.</param>
    /// <param name="cloths">Number of cloths.</param>
    public SeriesBuilder(int points, double endS, int cloths)
    {
        _points = points;
        _endS = endS;
        _state = new double[FirstOpenShare + cloths];
        _columns = NewColumns(15, points + 32);
        _openShares = NewColumns(cloths, points + 32);
    }

    /// <summary>Adds the grid's rows inside a step.</summary>
    public void NoteStep(StrainingSystem system, in DenseStep step)
    {
        // The last point is the end itself, whatever the division rounds to.
        while (_next < _points && TimeOf(_next) <= step.End)
        {
            double t = TimeOf(_next++);
            step.Evaluate(Math.Max(t, step.Start), _state);
            Add(system, t, _state);
        }
    }

    private double TimeOf(int point) => point == _points - 1 ? _endS : _endS * point / (_points - 1);

    /// <summary>Adds a row.</summary>
    public void Add(StrainingSystem system, double t, ReadOnlySpan<double> y)
    {
        StrainingHydraulics.Evaluate(system.Parameters, system.Mode, t, y, out StrainingFlows f);
        PondBalance pond = PondBalance.Of(system.Parameters, system.Mode.Pond, y, f);
        ReadOnlySpan<double> row =
        [
            t, f.TankLevelM, f.PondDepthM, f.ReceiverLevelM, OpeningInUse(system, f, pond),
            pond.GateKgPerS, f.ClothKgPerS, pond.OverRimKgPerS,
            y[TankKg], y[PondKg], y[StrainedKg], y[OverRimKg], y[TankK], y[PondK], y[ReceiverK],
        ];
        for (int i = 0; i < row.Length; i++)
        {
            if (!double.IsFinite(row[i]))
                throw new SimulationException(FormattableString.Invariant($"The series has a figure at {t:0.###} s that is not a number. {SimulationException.OwnPartsMayBeTheCause}"));
            _columns[i].Add(row[i]);
        }

        for (int j = 0; j < _openShares.Length; j++)
            _openShares[j].Add(Math.Clamp(y[FirstOpenShare + j], 0, 1)); // A step may leave a rounding beyond.
    }

    /// <summary>The series as it stands.</summary>
    public StrainingSeries Build() => new()
    {
        TimeS = _columns[0],
        TankLevelM = _columns[1],
        PondDepthM = _columns[2],
        ReceiverLevelM = _columns[3],
        Opening = _columns[4],
        GateFlowKgPerS = _columns[5],
        ClothFlowKgPerS = _columns[6],
        OverRimFlowKgPerS = _columns[7],
        TankMassKg = _columns[8],
        PondMassKg = _columns[9],
        StrainedKg = _columns[10],
        OverRimKg = _columns[11],
        TankTemperatureK = _columns[12],
        PondTemperatureK = _columns[13],
        ReceiverTemperatureK = _columns[14],
        OpenShare = _openShares,
    };

    private static List<double>[] NewColumns(int count, int capacity)
    {
        var columns = new List<double>[count];
        for (int i = 0; i < count; i++)
            columns[i] = new List<double>(capacity);
        return columns;
    }

    private static double OpeningInUse(StrainingSystem system, StrainingFlows f, PondBalance pond)
    {
        double widest = system.Parameters.Openings[system.Mode.OpeningStep];
        if (system.Mode.Pond != PondMode.Ridden || f.GateCapacityKgPerS <= pond.GateKgPerS)
            return widest;

        double Excess(double opening) =>
            f.GateFlowKgPerS(GateFlow.GeometryOf(system.Parameters.Setup.Gate, opening)) - pond.GateKgPerS;
        return Brent.TryFindRoot(Excess, 0, widest, 1e-9, 200, out double found) ? found : widest;
    }
}
