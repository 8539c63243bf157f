using System.Runtime.CompilerServices;
using FlowSim.Gates;
using FlowSim.Vessels;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>Levels and flows that follow from a state: the algebraic half of the model.</summary>
internal struct StrainingFlows
{
    public double TankDensity;
    public double TankLevelM;
    public double FilmM3;

    /// <summary>What the gate passes at its present opening, kg/s; less flows when it is ridden.</summary>
    public double GateCapacityKgPerS;

    /// <summary>Pressure that drives the gate, Pa; 0 when nothing does.</summary>
    public double GatePressurePa;

    public double TankViscosity;
    public double PondDensity;
    public double PondM3;
    public double PondDepthM;
    public double WettedClothM2;

    /// <summary>Receiver's level above the cloth's lowest point, m; negative below it.</summary>
    public double BackUpM;

    /// <summary>Height up to which the cloth does not pass: back-up or minimum head, m.</summary>
    public double HeldBackM;

    /// <summary>Trapped air as a depth of pond, m.</summary>
    public double AirHeadM;

    public double ClothKgPerS;
    public double ReceiverM3;
    public double ReceiverLevelM;

    /// <summary>Head that drives the pond through the cloth, m; negative when it does not run.</summary>
    public readonly double DrivingHeadM => PondDepthM - AirHeadM - HeldBackM;

    /// <summary>What the gate would pass now at another opening, kg/s.</summary>
    public readonly double GateFlowKgPerS(GateGeometry gate) => gate.IsShut || GatePressurePa <= 0
        ? 0
        : TankDensity * GateFlow.VolumeFlowM3PerS(GatePressurePa, TankViscosity * gate.ViscousPerM3, TankDensity * gate.InertialPerM4);
}

/// <summary>Computes <see cref="StrainingFlows"/> from a state: equations 1 to 5 and 8 of the model, in that order.</summary>
internal static class StrainingHydraulics
{
    public static void Evaluate(
        StrainingParameters p,
        StrainingMode mode,
        double t,
        ReadOnlySpan<double> y,
        out StrainingFlows f)
    {
        Unsafe.SkipInit(out f);
        Receiver(p, mode, y, ref f);
        Pond(p, y, ref f);
        Tank(p, mode, t, y, ref f);
        Cloth(p, mode, y, ref f);
    }

    /// <summary>Evaluates anew what follows from one unknown, or from the time when it is negative: the same as <see cref="Evaluate"/> when nothing else has moved.</summary>
    public static void Reevaluate(
        StrainingParameters p,
        StrainingMode mode,
        double t,
        ReadOnlySpan<double> y,
        int moved,
        ref StrainingFlows f)
    {
        switch (moved)
        {
            case < 0 or TankKg or TankK:
                Tank(p, mode, t, y, ref f);
                break;
            case PondKg or PondK:
                Pond(p, y, ref f);
                if (p.SubmergedOutlet)
                    Tank(p, mode, t, y, ref f);
                Cloth(p, mode, y, ref f);
                break;
            case StrainedKg or OverRimKg or ReceiverK:
                Receiver(p, mode, y, ref f);
                Cloth(p, mode, y, ref f);
                break;
            default:
                Cloth(p, mode, y, ref f);
                break;
        }
    }

    /// <summary>Level in the receiver: V_R = m_R/ρ(T_R), at most its brim.</summary>
    private static void Receiver(StrainingParameters p, StrainingMode mode, ReadOnlySpan<double> y, ref StrainingFlows f)
    {
        f.ReceiverM3 = mode.ReceiverKg(p, y) / p.Honey.DensityKgPerM3(y[ReceiverK]);
        f.ReceiverLevelM = p.Receiver.LevelM(f.ReceiverM3);
    }

    /// <summary>Depth of the pond: V_P = m_P/ρ(T_P), at most the rim.</summary>
    private static void Pond(StrainingParameters p, ReadOnlySpan<double> y, ref StrainingFlows f)
    {
        f.PondDensity = p.Honey.DensityKgPerM3(y[PondK]);
        f.PondM3 = y[PondKg] / f.PondDensity;
        f.PondDepthM = p.Form.PondDepthM(f.PondM3);
        f.WettedClothM2 = p.Form.WettedClothAreaM2(f.PondDepthM);
    }

    /// <summary>
    /// Film, level and gate. The wall holds F = ⅔ √(ν z/(g t)) · W, W the wall bared since the gate was first opened, z the fall
    /// of the level and t the time since then (<see cref="Vessels.WallFilm"/>); what is left stands at the level h. The gate sees
    /// Δp = ρ g (h − z_gate), less the pond over a submerged outlet, and passes Q = 2Δp/(R + √(R² + 4BΔp)) with R = μR̂,
    /// B = ρB̂ (<see cref="GateFlow"/>).
    /// </summary>
    private static void Tank(StrainingParameters p, StrainingMode mode, double t, ReadOnlySpan<double> y, ref StrainingFlows f)
    {
        double density = p.Honey.DensityKgPerM3(y[TankK]);
        double viscosity = p.Honey.ViscosityPaS(y[TankK]);
        double volume = y[TankKg] / density;
        f.TankDensity = density;
        f.TankViscosity = viscosity;
        f.TankLevelM = p.Tank.LevelM(volume);
        f.FilmM3 = 0;

        double fallen = mode.OpenedAtLevelM - f.TankLevelM;
        double sinceOpened = t - mode.OpenedAtS;
        if (p.WallFilm && fallen > 0 && sinceOpened > 0)
        {
            double bared = mode.OpenedAtWettedM2 - p.Tank.WettedAreaM2(f.TankLevelM);
            f.FilmM3 = Math.Min(
                volume,
                Vessels.WallFilm.VolumeM3(viscosity / density, fallen, Physical.StandardGravity, sinceOpened, bared));
            f.TankLevelM = p.Tank.LevelM(volume - f.FilmM3);
        }

        double head = f.TankLevelM - p.GateHeightM;
        if (p.SubmergedOutlet)
            head -= Math.Max(0, f.PondDepthM - p.OutletAboveScreenM);
        f.GatePressurePa = density * Physical.StandardGravity * Math.Max(0, head);
        f.GateCapacityKgPerS = mode.AtHeel ? 0 : f.GateFlowKgPerS(mode.Gate);
    }

    /// <summary>
    /// Flow through the cloth: Darcy's law at each point of it, Δp = μ r f U/φ for every cloth in series, summed over the wetted
    /// area: Q = (ρ g/(μ f)) · [I(d − a) − I(ℓ)] / Σ(r_j/φ_j), I the form's head integral, a what trapped air takes away, ℓ the
    /// height up to which honey stands outside or the wet cloth holds back.
    /// </summary>
    private static void Cloth(StrainingParameters p, StrainingMode mode, ReadOnlySpan<double> y, ref StrainingFlows f)
    {
        f.BackUpM = f.ReceiverLevelM - (p.Receiver.HeightM + p.SpacerM);
        f.HeldBackM = Math.Max(f.BackUpM, p.MinimumHeadM);
        f.AirHeadM = p.SealedOn ? TrappedAirHeadM(p, y[StrainedKg], f.PondDensity) : 0;

        double headIntegral = p.Form.HeadIntegralM3(f.PondDepthM - f.AirHeadM) - p.Form.HeadIntegralM3(f.HeldBackM);
        if (headIntegral <= 0 || mode.ClothRests)
        {
            f.ClothKgPerS = 0;
            return;
        }

        double resistance = 0;
        double[] clothResistances = p.ClothResistancesPerM;
        for (int j = 0; j < clothResistances.Length; j++)
            resistance += clothResistances[j] / Math.Max(y[FirstOpenShare + j], MinimumOpenShare);

        double density = f.PondDensity;
        double viscosity = p.Honey.ViscosityPaS(y[PondK]);
        f.ClothKgPerS = density * density * Physical.StandardGravity * headIntegral / (viscosity * p.ScreenFactor * resistance);
    }

    /// <summary>Least trapped air, share of the receiver's capacity: it keeps its pressure finite.</summary>
    public const double LeastAirShare = 1e-6;

    /// <summary>Keeps a fully blinded cloth from dividing by zero.</summary>
    public const double MinimumOpenShare = 1e-12;

    /// <summary>
    /// Boyle's law for what air was there at the start, squeezed by the honey that has come in. What warming does to air and
    /// honey is left out: it would be of one size for both, and the air's temperature is not known.
    /// </summary>
    private static double TrappedAirHeadM(StrainingParameters p, double strainedKg, double pondDensity)
    {
        // The least air holds at the start too: a receiver fuller than that would else begin below the pressure of the room.
        double least = LeastAirShare * p.ReceiverCapacityM3;
        double airAtStart = Math.Max(least, p.ReceiverCapacityM3 - p.StartReceiverM3);
        double air = Math.Max(least, airAtStart - (strainedKg / p.StartDensityKgPerM3));
        return Physical.StandardAtmospherePa / (pondDensity * Physical.StandardGravity) * ((airAtStart / air) - 1);
    }
}
