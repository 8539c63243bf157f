using FlowSim.Bottling;
using FlowSim.Calibration;
using FlowSim.HeatDamage;
using FlowSim.OverflowRisk;
using FlowSim.Planning;
using FlowSim.Settling;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Warming;

namespace FlowSim.Commands;

/// <summary>A figure that a command asks for: what it shows, not how it is drawn.</summary>
internal abstract record Figure
{
    /// <summary>A straining run over time.</summary>
    public sealed record Run(StrainingResult Result) : Figure;

    /// <summary>Viscosity over temperature.</summary>
    public sealed record Viscosity(Honey Honey) : Figure;

    /// <summary>Temperatures and heater over time.</summary>
    public sealed record Warming(WarmingBounds Bounds) : Figure;

    /// <summary>Cuts through the vessel.</summary>
    public sealed record VesselMap(WarmingResult Result) : Figure;

    /// <summary>What the heat costs, against the limit.</summary>
    public sealed record Damage(WarmingResult Result, HeatLimit Limit) : Figure;

    /// <summary>Damage against time over the setpoints.</summary>
    public sealed record Setpoint(SetpointAnswer Answer) : Figure;

    /// <summary>Pond, chance over time and drivers of an overflow.</summary>
    public sealed record Risk(RiskAnswer Answer) : Figure;

    /// <summary>The pond over time, as bands.</summary>
    public sealed record Pond(RiskAnswer Answer) : Figure;

    /// <summary>The chance over time.</summary>
    public sealed record Absence(RiskAnswer Answer) : Figure;

    /// <summary>What drives the chance and the time.</summary>
    public sealed record Drivers(RiskAnswer Answer) : Figure;

    /// <summary>The chance over openings and temperatures.</summary>
    public sealed record ChanceMap(RiskMap Map) : Figure;

    /// <summary>The time to strain over temperatures.</summary>
    public sealed record StrainTimes(RiskMap Map) : Figure;

    /// <summary>Readings beside their fit.</summary>
    public sealed record Fit(CalibrationAnswer Answer) : Figure;

    /// <summary>What each possible measurement would leave uncertain.</summary>
    public sealed record NextMeasurement(CalibrationAnswer Answer) : Figure;

    /// <summary>What rises out of standing honey.</summary>
    public sealed record Settling(SettlingResult Result, SettlingBand? Band) : Figure;

    /// <summary>Jars over time.</summary>
    public sealed record Filling(FillingBand Band) : Figure;

    /// <summary>Who and what is at work when.</summary>
    public sealed record Day(DayPlan Plan, DateOnly Date) : Figure;

    /// <summary>What came out of a scan, in the units it is to be shown in.</summary>
    /// <param name="Keys">Keys that were scanned; the first is the horizontal axis.</param>
    /// <param name="XUnit">Unit of the first; empty for none.</param>
    /// <param name="X">Values of the first.</param>
    /// <param name="Nominal">The value that the input gives it; null for none.</param>
    /// <param name="Curves">Curves.</param>
    public sealed record Scan(IReadOnlyList<string> Keys, string XUnit, IReadOnlyList<double> X, double? Nominal, IReadOnlyList<ScanCurve> Curves) : Figure;

    /// <summary>One curve of a scan.</summary>
    /// <param name="Name">Name.</param>
    /// <param name="Unit">Unit; empty for none.</param>
    /// <param name="Values">One value for each of the horizontal axis; NaN where there is none.</param>
    public sealed record ScanCurve(string Name, string Unit, IReadOnlyList<double> Values)
    {
        /// <summary>Low end of a band at each value; null for no band.</summary>
        public IReadOnlyList<double>? Low { get; init; }

        /// <summary>High end.</summary>
        public IReadOnlyList<double>? High { get; init; }

        /// <summary>What the band is, in a few words.</summary>
        public required string BandName { get; init; }

        /// <summary>A level to draw; null for none.</summary>
        public double? Limit { get; init; }

        /// <summary>Its name, in a word.</summary>
        public required string LimitName { get; init; }
    }
}
