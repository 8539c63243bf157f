using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Straining;

/// <summary>
/// What is continuous in a setup, as SI doubles: what may vary from run to run while its parts stay the same. The one place
/// where the quantities of a setup become numbers; <see cref="StrainingInputs"/> names the fields.
/// </summary>
internal struct StrainingNumbers
{
    public double MoisturePercent;
    public double LotFactor;
    public double StartTankK;
    public double RoomK;

    /// <summary>NaN: the receiver starts at the room's.</summary>
    public double StartReceiverK;

    public VesselShape Tank;
    public double StartLevelM;
    public double GateHeightM;
    public double TankHeatLossWPerM2K;

    public double BoreM;
    public double TubeLengthM;
    public double GateFactor;

    /// <summary>The widest opening that the control uses; its other openings keep their ratio to it.</summary>
    public double WidestOpening;

    /// <summary>+∞ when nobody rides the gate.</summary>
    public double RideDepthM;

    public double OutletAboveScreenM;

    public ScreenShape Form;

    /// <summary>Height of the rim; that of the form unless it varies.</summary>
    public double RimHeightM;

    /// <summary>Opening and wire of the first cloth; further cloths are as they are.</summary>
    public double ClothOpeningM;

    public double WireM;
    public double ScreenFactor;
    public double MinimumHeadM;

    public DebrisNumbers Debris;

    public double ScrapeRecovery;

    /// <summary>+∞ when nobody scrapes by depth.</summary>
    public double ScrapeDepthM;

    public double ScrapePauseS;

    public VesselShape Receiver;
    public double StartReceiverM3;
    public double SpacerM;
    public double ReceiverHeatLossWPerM2K;

    /// <summary>The numbers of a setup as it stands.</summary>
    /// <param name="setup">Setup, already checked.</param>
    public static StrainingNumbers Of(StrainingSetup setup) => new()
    {
        MoisturePercent = setup.Honey.Moisture.Percent,
        LotFactor = setup.Honey.LotFactor,
        StartTankK = setup.HoneyTemperature.Kelvins,
        RoomK = setup.RoomTemperature.Kelvins,
        StartReceiverK = setup.Receiver.StartTemperature?.Kelvins ?? double.NaN,
        Tank = setup.Tank.Shape,
        StartLevelM = setup.Tank.Level.Meters,
        GateHeightM = setup.Tank.GateHeight.Meters,
        TankHeatLossWPerM2K = setup.Tank.HeatLoss.WattsPerSquareMeterKelvin,
        BoreM = setup.Gate.Bore.Meters,
        TubeLengthM = setup.Gate.TubeLength.Meters,
        GateFactor = setup.Gate.Factor,
        WidestOpening = setup.Control switch
        {
            FixedOpening left => left.Opening.DecimalFractions,
            RiddenGate ridden => ridden.Widest.DecimalFractions,
            OpeningSchedule schedule => schedule.Steps.Max(step => step.Opening.DecimalFractions),
            _ => throw new ArgumentException($"Unknown gate control {setup.Control.GetType().Name}.", nameof(setup)),
        },
        RideDepthM = setup.Control is RiddenGate gate ? gate.PondDepth.Meters : double.PositiveInfinity,
        OutletAboveScreenM = setup.Gate.OutletAboveScreen.Meters,
        Form = setup.Strainer.Shape,
        RimHeightM = setup.Strainer.Shape.RimHeightM,
        ClothOpeningM = setup.Strainer.Cloths[0].Opening.Meters,
        WireM = setup.Strainer.Cloths[0].WireDiameter.Meters,
        ScreenFactor = setup.Strainer.ScreenFactor,
        MinimumHeadM = setup.Strainer.MinimumHead.Meters,
        Debris = DebrisNumbers.Of(setup.Debris),
        ScrapeRecovery = setup.Scraping.Recovery,
        ScrapeDepthM = setup.Scraping.AtPondDepth?.Meters ?? double.PositiveInfinity,
        ScrapePauseS = setup.Scraping.Pause.Seconds,
        Receiver = setup.Receiver.Shape,
        StartReceiverM3 = setup.Receiver.AlreadyIn.CubicMeters,
        SpacerM = setup.Receiver.Spacer.Meters,
        ReceiverHeatLossWPerM2K = setup.Receiver.HeatLoss.WattsPerSquareMeterKelvin,
    };
}
