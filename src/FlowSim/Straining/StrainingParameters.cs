using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Straining;

/// <summary>What the equations of a run need: the parts of a setup, and what follows from its numbers.</summary>
internal sealed class StrainingParameters
{
    private readonly double[] _baseOpenings;
    private readonly double _widestBase;
    private readonly double[] _clothOpenings;
    private readonly double[] _wires;
    private HoneyProperties? _honey;
    private double _moisturePercent;
    private double _lotFactor;

    /// <summary>Checks a setup and converts it.</summary>
    /// <param name="setup">Setup to run.</param>
    /// <exception cref="ArgumentException">Something is out of its range.</exception>
    public StrainingParameters(StrainingSetup setup)
        : this(setup, check: true)
    {
    }

    private StrainingParameters(StrainingSetup setup, bool check)
    {
        if (check)
            StrainingSetupCheck.Require(setup);
        Setup = setup;
        Viscosity = setup.Honey.Viscosity ?? ViscosityCorrelations.Default;
        WallFilm = setup.Tank.WallFilm;
        SubmergedOutlet = setup.Gate.Outlet == GateOutlet.Submerged;
        (_baseOpenings, OpeningTimesS) = setup.Control switch
        {
            FixedOpening f => ([f.Opening.DecimalFractions], [0.0]),
            RiddenGate r => ([r.Widest.DecimalFractions], [0.0]),
            OpeningSchedule s => (
                s.Steps.Select(step => step.Opening.DecimalFractions).ToArray(),
                s.Steps.Select(step => step.At.Seconds).ToArray()),
            _ => throw new ArgumentException($"Unknown gate control {setup.Control.GetType().Name}.", nameof(setup)),
        };
        _widestBase = _baseOpenings.Max();
        Openings = new double[_baseOpenings.Length];
        OpeningGeometries = new GateGeometry[_baseOpenings.Length];
        Bypass = setup.Strainer.Overflow == OverflowPath.Bypass;
        SealedOn = setup.Strainer.Venting == Venting.Sealed;
        _clothOpenings = setup.Strainer.Cloths.Select(c => c.Opening.Meters).ToArray();
        _wires = setup.Strainer.Cloths.Select(c => c.WireDiameter.Meters).ToArray();
        ClothResistancesPerM = new double[_clothOpenings.Length];
        BlindingPerM = new double[_clothOpenings.Length];
        Law = setup.Debris.Law;
        ScrapeTimesS = setup.Scraping.Times.Select(d => d.Seconds).ToArray();
        ShutWhenFull = setup.Receiver.ShutWhenFull;
        LongestS = setup.Longest.Seconds;
        Fill(StrainingNumbers.Of(setup));
    }

    /// <summary>A copy to be filled with other numbers, as each thread of an ensemble needs one.</summary>
    public StrainingParameters Another() => new(Setup, check: false);

    /// <summary>Takes new numbers; the parts and everything discrete stay. Allocates nothing, but a form whose rim is another.</summary>
    /// <param name="n">Numbers, each within what a setup allows.</param>
    public void Fill(in StrainingNumbers n)
    {
        _honey = null;
        _moisturePercent = n.MoisturePercent;
        _lotFactor = n.LotFactor;
        StartTankK = n.StartTankK;
        RoomK = n.RoomK;
        StartReceiverK = double.IsNaN(n.StartReceiverK) ? n.RoomK : n.StartReceiverK;

        Tank = n.Tank;
        StartLevelM = n.StartLevelM;
        GateHeightM = n.GateHeightM;
        TankLossWPerM2K = Setup.Tank.HeldAtTemperature ? 0 : n.TankHeatLossWPerM2K;
        PondLossWPerM2K = n.TankHeatLossWPerM2K;
        double startDensity = HoneyDensity.DensityKgPerM3(n.MoisturePercent, n.StartTankK);
        StartDensityKgPerM3 = startDensity;
        StartTankKg = startDensity * Tank.VolumeM3(StartLevelM);
        HeelLevelM = TankHeel.LevelM(Tank, n.GateHeightM, n.BoreM);
        CanDrainKg = StartTankKg - (startDensity * Tank.VolumeM3(HeelLevelM));
        TankThermalKg = 0.001 * StartTankKg;
        StallKgPerS = CanDrainKg / StallHorizonS;

        OutletAboveScreenM = n.OutletAboveScreenM;
        for (int i = 0; i < _baseOpenings.Length; i++)
        {
            Openings[i] = _widestBase > 0 ? Math.Min(1, _baseOpenings[i] / _widestBase * n.WidestOpening) : n.WidestOpening;
            OpeningGeometries[i] = GateFlow.GeometryOf(Setup.Gate.Blade, Setup.Gate.Outlet, n.BoreM / 2, n.TubeLengthM, Openings[i], n.GateFactor);
        }

        RideDepthM = n.RideDepthM;

        Form = n.RimHeightM == n.Form.RimHeightM ? n.Form : n.Form.WithRimM(n.RimHeightM) ?? n.Form;
        RimVolumeM3 = Form.PondVolumeM3(Form.RimHeightM);
        MinimumHeadM = n.MinimumHeadM;
        ScreenFactor = n.ScreenFactor;
        (_clothOpenings[0], _wires[0]) = (n.ClothOpeningM, n.WireM);
        for (int j = 0; j < _clothOpenings.Length; j++)
            ClothResistancesPerM[j] = SquareCloth.ResistancePerMArmourCannon1968(_clothOpenings[j], _wires[j]);
        Clogging.BlindedAreaPerVolumePerM(n.Debris, startDensity, _clothOpenings, BlindingPerM);
        PondThermalKg = startDensity * Math.Max(MinimumHeadM, 0.001) * Form.WettedClothAreaM2(Form.RimHeightM);

        ScrapeDepthM = n.ScrapeDepthM;
        ScrapeRecovery = n.ScrapeRecovery;
        ScrapePauseS = n.ScrapePauseS;

        Receiver = n.Receiver;
        ReceiverCapacityM3 = Receiver.CapacityM3;
        SpacerM = n.SpacerM;
        StartReceiverM3 = n.StartReceiverM3;
        StartReceiverKg = HoneyDensity.DensityKgPerM3(n.MoisturePercent, StartReceiverK) * StartReceiverM3;
        ReceiverLossWPerM2K = n.ReceiverHeatLossWPerM2K;
        ReceiverThermalKg = 0.001 * startDensity * ReceiverCapacityM3;
    }

    /// <summary>Driving head on the cloth at which the strainer counts as run through, m (engineering choice).</summary>
    public const double RunThroughHeadM = 0.001;

    /// <summary>
    /// Driving head at which honey that has come to rest on the cloth runs again, m (engineering choice). It keeps a pond that
    /// rests on trapped air from starting and stopping without end.
    /// </summary>
    public const double RunAgainHeadM = 0.0001;

    /// <summary>Share of what can drain that may stay on the strainer when it counts as run through (engineering choice).</summary>
    public const double RunThroughShare = 0.001;

    /// <summary>Blinded share of some cloth below which nobody scrapes by depth (engineering choice).</summary>
    public const double WorthScraping = 0.01;

    /// <summary>Most scrapes by depth in a run (engineering choice): an attendant who achieves nothing gives up.</summary>
    public const int MostScrapesByDepth = 1000;

    /// <summary>A flow that would take longer than this to move what can drain counts as stalled, s: 7 days (engineering choice).</summary>
    public const double StallHorizonS = 7 * 86400.0;

    /// <summary>Level at which the tank counts as drained.</summary>
    public static double HeelLevel(StrainingSetup setup) =>
        TankHeel.LevelM(setup.Tank.Shape, setup.Tank.GateHeight.Meters, setup.Gate.Bore.Meters);

    public StrainingSetup Setup { get; }

    /// <summary>The correlation in use.</summary>
    public ViscosityCorrelation Viscosity { get; }

    /// <summary>The honey's properties; made when they are first asked for.</summary>
    public HoneyProperties Honey => _honey ??= HoneyProperties.OfNumbers(Setup.Honey, _moisturePercent, _lotFactor);

    public double MoisturePercent => _moisturePercent;
    public double LotFactor => _lotFactor;
    public double StartTankK { get; private set; }
    public double RoomK { get; private set; }
    public double StartReceiverK { get; private set; }
    public VesselShape Tank { get; private set; } = null!;
    public double StartLevelM { get; private set; }
    public double GateHeightM { get; private set; }
    public bool WallFilm { get; }
    public double TankLossWPerM2K { get; private set; }
    public double PondLossWPerM2K { get; private set; }
    public double StartDensityKgPerM3 { get; private set; }
    public double StartTankKg { get; private set; }
    public double HeelLevelM { get; private set; }
    public double CanDrainKg { get; private set; }
    public double TankThermalKg { get; private set; }
    public bool SubmergedOutlet { get; }
    public double OutletAboveScreenM { get; private set; }
    public double[] Openings { get; }
    public double[] OpeningTimesS { get; }
    public GateGeometry[] OpeningGeometries { get; }
    public double RideDepthM { get; private set; }
    public ScreenShape Form { get; private set; } = null!;
    public double RimVolumeM3 { get; private set; }
    public double MinimumHeadM { get; private set; }
    public bool Bypass { get; }
    public bool SealedOn { get; }
    public double ScreenFactor { get; private set; }
    public double[] ClothResistancesPerM { get; }
    public double[] BlindingPerM { get; }
    public BlockingLaw Law { get; }
    public double PondThermalKg { get; private set; }
    public double[] ScrapeTimesS { get; }
    public double ScrapeDepthM { get; private set; }
    public double ScrapeRecovery { get; private set; }
    public double ScrapePauseS { get; private set; }
    public VesselShape Receiver { get; private set; } = null!;
    public double ReceiverCapacityM3 { get; private set; }
    public double SpacerM { get; private set; }
    public double StartReceiverM3 { get; private set; }
    public double StartReceiverKg { get; private set; }
    public bool ShutWhenFull { get; }
    public double ReceiverLossWPerM2K { get; private set; }
    public double ReceiverThermalKg { get; private set; }
    public double LongestS { get; }
    public double StallKgPerS { get; private set; }
}
