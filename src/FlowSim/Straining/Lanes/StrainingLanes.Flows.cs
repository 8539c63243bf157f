using FlowSim.Numerics.Ensemble;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Straining;

/// <content>Levels, flows and rates: equations 1 to 8 of the model in docs/guides/model.md, as in <see cref="StrainingHydraulics"/>.</content>
internal sealed partial class StrainingLanes<TLanes>
{
    private static TLanes Zero => TLanes.Of(0);

    private static TLanes One => TLanes.Of(1);

    /// <inheritdoc/>
    public void Derivative(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative)
    {
        Evaluate(t, y, out LaneFlows<TLanes> f);
        Balance(y, f, out LaneBalance<TLanes> pond);
        Rates(y, f, pond, derivative);
    }

    /// <inheritdoc/>
    public void DerivativeAndEvents(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative, Span<TLanes> events)
    {
        Evaluate(t, y, out LaneFlows<TLanes> f);
        Balance(y, f, out LaneBalance<TLanes> pond);
        Rates(y, f, pond, derivative);
        Events(t, y, f, pond, events);
    }

    /// <inheritdoc/>
    public void Events(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> events)
    {
        Evaluate(t, y, out LaneFlows<TLanes> f);
        Balance(y, f, out LaneBalance<TLanes> pond);
        Events(t, y, f, pond, events);
    }

    /// <inheritdoc/>
    /// <remarks>Difference quotients as in <see cref="StrainingSystem.Jacobian"/>, evaluating for each unknown what follows from it.</remarks>
    public void Jacobian(TLanes t, ReadOnlySpan<TLanes> y, ReadOnlySpan<TLanes> derivative, Span<TLanes> jacobian, Span<TLanes> timeDerivative)
    {
        const double Shift = StrainingSystem.Shift;
        int n = Dimension;
        Span<TLanes> shifted = Shifted;
        y.CopyTo(shifted);
        Evaluate(t, y, out LaneFlows<TLanes> unmoved);
        ref LaneParameters<TLanes> p = ref P;
        TLanes overNow = OverRimRate(y, unmoved);
        Span<TLanes> rates = Moved;
        for (int j = 0; j < n; j++)
        {
            TLanes least = j < TankK ? p.StartTankKg * TLanes.Of(1e-3) : j < FirstOpenShare ? TLanes.Of(0.3) : TLanes.Of(1e-3);
            TLanes moved = TLanes.MultiplyAdd(TLanes.Of(Shift), TLanes.Max(TLanes.Abs(y[j]), least), y[j]);
            shifted[j] = moved;
            LaneFlows<TLanes> f = unmoved;
            switch (j)
            {
                case TankKg:
                    if (_bypass)
                    {
                        Receiver(shifted, ref f);
                        Cloth(shifted, ref f);
                    }

                    Tank(t, shifted, ref f);
                    break;
                case TankK:
                    Tank(t, shifted, ref f);
                    break;
                case PondKg or PondK:
                    if (_bypass && j == PondKg)
                        Receiver(shifted, ref f);
                    Pond(shifted, ref f);
                    if (_submerged)
                        Tank(t, shifted, ref f);
                    Cloth(shifted, ref f);
                    break;
                case StrainedKg or ReceiverK:
                    Receiver(shifted, ref f);
                    Cloth(shifted, ref f);
                    break;
                default:
                    Cloth(shifted, ref f);
                    break;
            }

            Balance(shifted, f, out LaneBalance<TLanes> pond);
            Rates(shifted, f, pond, rates);
            TLanes perShift = One / (moved - y[j]);
            shifted[j] = y[j];
            for (int i = 0; i < n; i++)
                jacobian[(i * n) + j] = (rates[i] - derivative[i]) * perShift;

            // The pond takes what the others give, to the last bit.
            TLanes over = (pond.OverRimKgPerS - overNow) * perShift;
            jacobian[(PondKg * n) + j] = -(jacobian[(TankKg * n) + j] + jacobian[(StrainedKg * n) + j] + over);
        }

        TLanes step = TLanes.Of(Shift) * TLanes.Max(One, TLanes.Abs(t));
        Tank(t + step, y, ref unmoved);
        Balance(y, unmoved, out LaneBalance<TLanes> later);
        Rates(y, unmoved, later, rates);
        TLanes perStep = One / step;
        for (int i = 0; i < n; i++)
            timeDerivative[i] = (rates[i] - derivative[i]) * perStep;
        timeDerivative[PondKg] = -(timeDerivative[TankKg] + timeDerivative[StrainedKg] + ((later.OverRimKgPerS - overNow) * perStep));
    }

    private TLanes OverRimRate(ReadOnlySpan<TLanes> y, in LaneFlows<TLanes> f)
    {
        Balance(y, f, out LaneBalance<TLanes> pond);
        return pond.OverRimKgPerS;
    }

    private void Evaluate(TLanes t, ReadOnlySpan<TLanes> y, out LaneFlows<TLanes> f)
    {
        System.Runtime.CompilerServices.Unsafe.SkipInit(out f);
        Receiver(y, ref f);
        Pond(y, ref f);
        Tank(t, y, ref f);
        Cloth(y, ref f);
    }

    /// <summary>What has run over: what is missing.</summary>
    private TLanes OverRimKg(ReadOnlySpan<TLanes> y) => P.StartTankKg - y[TankKg] - y[PondKg] - y[StrainedKg];

    private void Receiver(ReadOnlySpan<TLanes> y, ref LaneFlows<TLanes> f)
    {
        ref LaneParameters<TLanes> p = ref P;
        ref LaneModes<TLanes> modes = ref Modes;
        TLanes came = _bypass ? p.StartTankKg - y[TankKg] - y[PondKg] : y[StrainedKg];
        f.ReceiverKg = TLanes.Select(modes.ReceiverFull, modes.FullReceiverKg, p.StartReceiverKg + came);
        f.ReceiverM3 = f.ReceiverKg / Density(ref p, y[ReceiverK]);
        f.ReceiverLevelM = _receiverIsPrism
            ? Clamp(f.ReceiverM3 * p.ReceiverPerFloor, p.ReceiverHeightM)
            : Each(_receivers, f.ReceiverM3, static (shape, v) => shape.LevelM(v));
        f.HeldBackM = TLanes.Max(f.ReceiverLevelM - p.ScreenAboveFloorM, p.MinimumHeadM);
    }

    private void Pond(ReadOnlySpan<TLanes> y, ref LaneFlows<TLanes> f)
    {
        ref LaneParameters<TLanes> p = ref P;
        f.PondDensity = Density(ref p, y[PondK]);
        f.PondM3 = y[PondKg] / f.PondDensity;
        f.PondCapacityJPerKgK = Capacity(ref p, y[PondK]);
        if (_pondIsPrism)
        {
            f.PondDepthM = Clamp(f.PondM3 * p.PondPerSurface, p.RimHeightM);
            f.PondSurfaceM2 = p.PondSurfaceM2;
            f.WettedClothM2 = TLanes.MultiplyAdd(p.WallClothM, f.PondDepthM, p.FloorClothM2);
        }
        else
        {
            f.PondDepthM = Each(_forms, f.PondM3, static (form, v) => form.PondDepthM(v));
            f.PondSurfaceM2 = Each(_forms, f.PondDepthM, static (form, d) => form.SurfaceAreaM2(d));
            f.WettedClothM2 = Each(_forms, f.PondDepthM, static (form, d) => form.WettedClothAreaM2(d));
        }

        // What the pond would pass per share of open cloth and metre of head, before the cloth's own resistance.
        f.ClothPerShareM = f.PondDensity * f.PondDensity * TLanes.Of(Physical.StandardGravity) * p.InverseScreenFactor / Viscosity(ref p, y[PondK]);
    }

    private void Tank(TLanes t, ReadOnlySpan<TLanes> y, ref LaneFlows<TLanes> f)
    {
        ref LaneParameters<TLanes> p = ref P;
        ref LaneModes<TLanes> modes = ref Modes;
        TLanes gravity = TLanes.Of(Physical.StandardGravity);
        TLanes density = Density(ref p, y[TankK]);
        TLanes viscosity = Viscosity(ref p, y[TankK]);
        TLanes volume = y[TankKg] / density;
        TLanes level = TankLevel(ref p, volume);
        if (_wallFilm)
        {
            TLanes fallen = modes.OpenedAtLevelM - level;
            TLanes since = t - modes.OpenedAtS;
            TLanes wets = (fallen > Zero) & (since > Zero);
            TLanes bared = modes.OpenedAtWettedM2 - TankWetted(ref p, level);
            TLanes thickness = TLanes.Sqrt(TLanes.Select(wets, viscosity * fallen / (density * gravity * since), Zero));
            TLanes film = TLanes.Min(volume, TLanes.Of(Vessels.WallFilm.MeanShareOfBottom) * thickness * bared);
            level = TankLevel(ref p, volume - TLanes.Select(wets, film, Zero));
        }

        f.TankLevelM = level;
        TLanes head = level - p.GateHeightM;
        if (_submerged)
            head -= TLanes.Max(Zero, f.PondDepthM - p.OutletAboveScreenM);
        TLanes pressure = density * gravity * TLanes.Max(Zero, head);
        TLanes resistance = viscosity * modes.GateViscous;
        TLanes inertial = TLanes.Of(4) * density * modes.GateInertial;
        TLanes root = TLanes.Sqrt(TLanes.MultiplyAdd(resistance, resistance, inertial * pressure));
        TLanes flow = TLanes.Of(2) * density * pressure / (resistance + root);
        f.GateCapacityKgPerS = TLanes.Select(modes.GateOpen, TLanes.Select(modes.AtHeel, Zero, flow), Zero);
    }

    private void Cloth(ReadOnlySpan<TLanes> y, ref LaneFlows<TLanes> f)
    {
        ref LaneParameters<TLanes> p = ref P;
        TLanes air = Zero;
        if (_sealedOn)
        {
            TLanes left = TLanes.Max(p.LeastAirM3, p.AirAtStartM3 - (y[StrainedKg] / p.StartDensity));
            air = TLanes.Of(Physical.StandardAtmospherePa) / (f.PondDensity * TLanes.Of(Physical.StandardGravity)) * ((p.AirAtStartM3 / left) - One);
        }

        f.AirHeadM = air;
        f.DrivingHeadM = f.PondDepthM - air - f.HeldBackM;
        TLanes head = HeadIntegral(ref p, f.PondDepthM - air) - HeadIntegral(ref p, f.HeldBackM);
        TLanes resistance = Zero;
        ReadOnlySpan<TLanes> cloths = ClothResistances;
        for (int j = 0; j < cloths.Length; j++)
            resistance += cloths[j] / TLanes.Max(y[FirstOpenShare + j], TLanes.Of(StrainingHydraulics.MinimumOpenShare));
        TLanes flow = f.ClothPerShareM * head / resistance;
        f.ClothKgPerS = TLanes.Select(head > Zero, TLanes.Select(Modes.ClothRests, Zero, flow), Zero);
    }

    private TLanes HeadIntegral(ref LaneParameters<TLanes> p, TLanes depth)
    {
        if (!_pondIsPrism)
            return Each(_forms, depth, static (form, d) => form.HeadIntegralM3(d));
        TLanes d = Clamp(depth, p.RimHeightM);
        return TLanes.MultiplyAdd(TLanes.Of(0.5) * p.WallClothM, d, p.FloorClothM2) * d;
    }

    /// <summary>As <see cref="PondBalance.Of"/>.</summary>
    private void Balance(ReadOnlySpan<TLanes> y, in LaneFlows<TLanes> f, out LaneBalance<TLanes> pond)
    {
        ref LaneParameters<TLanes> p = ref P;
        ref LaneModes<TLanes> modes = ref Modes;
        TLanes inverseMass = One / (y[PondKg] + p.PondThermalKg);
        TLanes warmth = (y[TankK] - y[PondK]) * inverseMass;
        TLanes cooling = p.PondLoss * (f.PondSurfaceM2 + f.WettedClothM2) * (y[PondK] - p.RoomK) / f.PondCapacityJPerKgK * inverseMass;
        TLanes swelling = f.PondM3 * DensitySlope(ref p, y[PondK]);
        TLanes keeping = (f.ClothKgPerS - (swelling * cooling)) / (One - (swelling * warmth));
        TLanes gate = TLanes.Select(modes.Ridden, TLanes.Max(Zero, keeping), f.GateCapacityKgPerS);
        pond.KelvinPerS = (gate * warmth) - cooling;
        pond.OverRimKgPerS = TLanes.Select(modes.OverRim, gate - f.ClothKgPerS - (swelling * pond.KelvinPerS), Zero);
        pond.GateKgPerS = gate;
        pond.SurplusKgPerS = f.GateCapacityKgPerS - keeping;
    }

    private void Rates(ReadOnlySpan<TLanes> y, in LaneFlows<TLanes> f, in LaneBalance<TLanes> pond, Span<TLanes> rates)
    {
        ref LaneParameters<TLanes> p = ref P;
        rates[TankKg] = -pond.GateKgPerS;
        rates[StrainedKg] = f.ClothKgPerS;
        rates[PondKg] = pond.GateKgPerS - (f.ClothKgPerS + pond.OverRimKgPerS);

        TLanes tankArea = TankWetted(ref p, f.TankLevelM) + (_tankIsPrism ? p.TankFloorM2 : Each(_tanks, f.TankLevelM, static (shape, h) => shape.SurfaceAreaM2(h)));
        rates[TankK] = -(p.TankLoss * tankArea * (y[TankK] - p.RoomK)) / (Capacity(ref p, y[TankK]) * (y[TankKg] + p.TankThermalKg));
        rates[PondK] = pond.KelvinPerS;

        TLanes receiverArea = _receiverIsPrism
            ? TLanes.MultiplyAdd(p.ReceiverPerimeterM, f.ReceiverLevelM, p.ReceiverFloorM2 + p.ReceiverFloorM2)
            : Each(_receivers, f.ReceiverLevelM, static (shape, h) => shape.WettedAreaM2(h) + shape.SurfaceAreaM2(h));
        TLanes loss = p.ReceiverLoss * receiverArea * (y[ReceiverK] - p.RoomK) / Capacity(ref p, y[ReceiverK]);
        TLanes inflow = TLanes.Select(Modes.ReceiverFull, Zero, _bypass ? f.ClothKgPerS + pond.OverRimKgPerS : f.ClothKgPerS);
        rates[ReceiverK] = ((inflow * (y[PondK] - y[ReceiverK])) - loss) / (f.ReceiverKg + p.ReceiverThermalKg);

        TLanes superficial = TLanes.Select(f.WettedClothM2 > Zero, f.ClothKgPerS / (f.PondDensity * f.WettedClothM2), Zero);
        ReadOnlySpan<TLanes> blinding = Blinding;
        for (int j = 0; j < blinding.Length; j++)
        {
            TLanes open = TLanes.Max(Zero, y[FirstOpenShare + j]);
            TLanes power = _law switch
            {
                BlockingLaw.Complete => TLanes.Select(open > Zero, One, Zero),
                BlockingLaw.Standard => TLanes.Sqrt(open),
                BlockingLaw.Intermediate => open,
                _ => open * open,
            };
            rates[FirstOpenShare + j] = -(blinding[j] * power * superficial);
        }
    }

    private TLanes TankLevel(ref LaneParameters<TLanes> p, TLanes volume) => _tankIsPrism
        ? Clamp(volume * p.TankPerFloor, p.TankHeightM)
        : Each(_tanks, volume, static (shape, v) => shape.LevelM(v));

    private TLanes TankWetted(ref LaneParameters<TLanes> p, TLanes level) => _tankIsPrism
        ? TLanes.MultiplyAdd(p.TankPerimeterM, level, p.TankFloorM2)
        : Each(_tanks, level, static (shape, h) => shape.WettedAreaM2(h));

    private static TLanes Density(ref LaneParameters<TLanes> p, TLanes kelvin)
    {
        TLanes x = kelvin - TLanes.Of(Physical.ZeroCelsiusK + 20);
        return TLanes.MultiplyAdd(x, TLanes.MultiplyAdd(p.DensityPerK2, x, p.DensityPerK), p.DensityAt20C);
    }

    private static TLanes DensitySlope(ref LaneParameters<TLanes> p, TLanes kelvin)
    {
        TLanes x = kelvin - TLanes.Of(Physical.ZeroCelsiusK + 20);
        return TLanes.MultiplyAdd(p.DensityPerK2 + p.DensityPerK2, x, p.DensityPerK);
    }

    private static TLanes Capacity(ref LaneParameters<TLanes> p, TLanes kelvin) =>
        TLanes.MultiplyAdd(p.HeatCapacityPerK, kelvin - TLanes.Of(Physical.ZeroCelsiusK), p.HeatCapacityAt0C);

    private static TLanes Viscosity(ref LaneParameters<TLanes> p, TLanes kelvin) => LaneMath.Exp(p.ViscosityA + (p.ViscosityB / (kelvin - p.ViscosityT0)));

    private static TLanes Clamp(TLanes value, TLanes high) => TLanes.Min(TLanes.Max(value, Zero), high);

    /// <summary>Asks a shape of every lane.</summary>
    private static TLanes Each<TShape>(TShape[] shapes, TLanes argument, Func<TShape, double, double> ask)
    {
        TLanes result = argument;
        for (int lane = 0; lane < shapes.Length; lane++)
        {
            ref double value = ref Lane.At(ref result, lane);
            value = shapes[lane] is { } shape ? ask(shape, value) : 0;
        }

        return result;
    }
}
