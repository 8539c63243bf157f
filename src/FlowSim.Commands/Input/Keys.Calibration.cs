using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

internal static partial class Keys
{
    public static class Fit
    {
        public static readonly Key Clock = Quantity("fit", "clock", Dimension.Duration, "how far the clock of the readings may be off against the opening of the gate, one standard deviation");
        public static readonly Key LevelZero = Quantity("fit", "level_zero", Dimension.Length, "how far the zero of levels and depths may be off, one standard deviation");
        public static readonly Key MassZero = Quantity("fit", "mass_zero", Dimension.Mass, "how far the zero of a scale may be off, one standard deviation");
        public static readonly Key VolumeZero = Quantity("fit", "volume_zero", Dimension.Volume, "how far the zero of volumes may be off, one standard deviation");
        public static readonly Key LevelResolution = Quantity("fit", "level_resolution", Dimension.Length, "smallest difference of levels that is read");
        public static readonly Key MassResolution = Quantity("fit", "mass_resolution", Dimension.Mass, "smallest difference that the scale shows");
        public static readonly Key VolumeResolution = Quantity("fit", "volume_resolution", Dimension.Volume, "smallest difference of volumes that is read");
    }

    /// <summary>Beside these the section holds what was learnt, by the names of the inputs: <c>"honey.lot_factor" = "1.12 x/ 1.05"</c>.</summary>
    public static class Calibration
    {
        public static readonly Key Date = new("calibration", "date", KeyKind.Text, "the day of the fit");
        public static readonly Key Runs = List("calibration", "runs", "the runs it rests on: name, day and fingerprint");
        public static readonly Key Use = Word("calibration", "use", "what is taken of it: all, kit or none");
        public static readonly Key Correlated = List("calibration", "correlated", "what goes together: \"honey.lot_factor, screen.factor, -0.92\"");
    }

    private static IReadOnlyList<Key> OfCalibration =>
    [
        Fit.Clock, Fit.LevelZero, Fit.MassZero, Fit.VolumeZero, Fit.LevelResolution, Fit.MassResolution, Fit.VolumeResolution,
        Calibration.Date, Calibration.Runs, Calibration.Use, Calibration.Correlated,
    ];
}
