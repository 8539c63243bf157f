using FlowSim.Heating;

namespace FlowSim.Warming;

/// <summary>
/// The film coefficients of the four faces and the enhancement by free convection inside: equations 3 to 5 of the model, which
/// hang together through the temperatures of the wall and are solved together.
/// </summary>
internal sealed class FaceFilms
{
    /// <summary>Where the body touches the side.</summary>
    public const int BodySide = 0;

    /// <summary>The rest of the side.</summary>
    public const int RoomSide = 1;

    public const int Floor = 2;

    public const int Top = 3;

    public const int Count = 4;

    /// <summary>Crystals from which the honey does not stir, share of mass (engineering choice).</summary>
    public const double StillFromCrystals = 0.05;

    /// <summary>First zero of J₀: the slowest mode of a cylinder's conduction in radius.</summary>
    private const double FirstZeroOfJ0 = 2.404825557695773;

    private const double Accuracy = 1e-8;
    private const int MostSweeps = 100;

    // h falls by up to a third of what its surface's difference falls by; this much of a correction is right in the middle of that.
    private const double Relaxation = 0.85;

    // Where walls and honey are about alike, E turns so steeply on their difference that this much would swing for ever.
    private const int SwingsFrom = 20;

    private const double LeastWPerM2K = 1e-9;
    private const double FirstGuessWPerM2K = 5;

    private readonly WarmingParameters _p;
    private readonly Film[] _film = new Film[Count];
    private readonly double[] _areaM2 = new double[Count];
    private readonly double[] _wallM2KPerW = new double[Count];
    private readonly double[] _ratio = [1, 1, 1, 1];
    private readonly double[] _halfM = new double[Count];
    private readonly double _elementLengthM;
    private readonly double _outerDiameterM;
    private readonly double _conductionPerM;

    public FaceFilms(WarmingParameters p, double bodySideShare)
    {
        _p = p;
        CylinderGrid grid = p.Grid;
        KitContacts contacts = p.Contacts;
        _film[BodySide] = contacts.BodySide;
        _film[RoomSide] = contacts.RoomSide;
        _film[Floor] = contacts.Floor;
        _film[Top] = contacts.Top;
        double sideM2 = 2 * Math.PI * grid.RadiusM * grid.HeightM;
        _areaM2[BodySide] = sideM2 * bodySideShare;
        _areaM2[RoomSide] = sideM2 * (1 - bodySideShare);
        _areaM2[Floor] = _areaM2[Top] = grid.EndAreaM2;
        _wallM2KPerW[BodySide] = _wallM2KPerW[RoomSide] = p.SideWallM2KPerW;
        _wallM2KPerW[Floor] = p.FloorWallM2KPerW;
        _wallM2KPerW[Top] = p.TopWallM2KPerW;
        _ratio[BodySide] = _ratio[RoomSide] = p.SideRadiusRatio;
        bool mixed = p.Inside == InsideHeat.WellMixed;
        _halfM[BodySide] = _halfM[RoomSide] = mixed ? 0 : grid.RadialStepM / 2;
        _halfM[Floor] = _halfM[Top] = mixed ? 0 : grid.AxialStepM / 2;
        _elementLengthM = contacts.ElementRadiusM > 0 ? Math.Max(0, Math.Min(grid.HeightM, contacts.ElementToM) - contacts.ElementFromM) : 0;
        _outerDiameterM = 2 * grid.RadiusM * p.SideRadiusRatio;

        double volumeM3 = grid.EndAreaM2 * grid.HeightM, surfaceM2 = sideM2 + 2 * grid.EndAreaM2;
        double radial = FirstZeroOfJ0 / grid.RadiusM, axial = Math.PI / grid.HeightM;
        _conductionPerM = volumeM3 / surfaceM2 * (radial * radial + axial * axial);
        Array.Fill(Coefficient, FirstGuessWPerM2K);
    }

    /// <summary>Film coefficient of each face, W/(m²·K).</summary>
    public double[] Coefficient { get; } = new double[Count];

    /// <summary>Enhancement E of the conductivity of liquid honey.</summary>
    public double Enhancement { get; private set; } = 1;

    /// <summary>Mean temperature of the cells at each face, K; written before <see cref="Solve"/>.</summary>
    public double[] FaceK { get; } = new double[Count];

    /// <summary>Mean conductivity of those cells without enhancement, W/(m·K); written before <see cref="Solve"/>.</summary>
    public double[] FaceConductivity { get; } = new double[Count];

    /// <summary>Mean of conductivity times share that stirs; written before <see cref="Solve"/>.</summary>
    public double[] FaceStirred { get; } = new double[Count];

    /// <summary>Whether heat passes a face at all.</summary>
    public bool Passes(int face) => _film[face].Kind != FilmKind.None && _areaM2[face] > 0;

    /// <summary>Wall and film of a face, m²·K/W per area of the inside.</summary>
    public double OutsideM2KPerW(int face) => 1 / (Coefficient[face] * _ratio[face]) + _wallM2KPerW[face];

    /// <summary>Half a cell at a face, m; 0 when well mixed.</summary>
    public double HalfCellM(int face) => _halfM[face];

    /// <summary>Finds coefficients and enhancement for the means written.</summary>
    /// <param name="bodyK">Temperature of the body, K.</param>
    /// <param name="stirredK">Mean of the honey that stirs, K; not a number when none does.</param>
    public void Solve(double bodyK, double stirredK)
    {
        bool convects = _p.Inside == InsideHeat.BestEstimate && !double.IsNaN(stirredK);
        if (!convects || !double.IsFinite(Enhancement))
            Enhancement = 1;
        for (int face = 0; face < Count; face++)
        {
            // A trial state that was nonsense must not spoil the guess for the next.
            if (!double.IsFinite(Coefficient[face]))
                Coefficient[face] = FirstGuessWPerM2K;
        }

        double byElement = convects ? EnhancementByElement(bodyK, stirredK) : 1;
        for (int sweep = 0; sweep < MostSweeps; sweep++)
        {
            double relaxation = Relaxation * Math.Min(1, (double)SwingsFrom / (sweep + 1));
            double worst = 0, passing = 0, difference = 0, wallSum = 0;
            for (int face = 0; face < Count; face++)
            {
                if (!Passes(face))
                    continue;

                double outsideK = Outside(face, bodyK);
                double gap = outsideK - FaceK[face];
                double film = 1 / (Coefficient[face] * _ratio[face]);
                double half = _halfM[face] == 0 ? 0 : _halfM[face] / (FaceConductivity[face] + (Enhancement - 1) * FaceStirred[face]);
                double flux = gap / (film + _wallM2KPerW[face] + half);
                double wallK = FaceK[face] + flux * half;
                passing += _areaM2[face];
                difference += _areaM2[face] * Math.Abs(wallK - stirredK);
                wallSum += _areaM2[face] * wallK;
                if (_film[face].Kind == FilmKind.Fixed)
                {
                    Coefficient[face] = _p.FilmFactor * _film[face].FixedWPerM2K;
                    continue;
                }

                double next = Math.Max(LeastWPerM2K, _p.FilmFactor * AirWPerM2K(_film[face], outsideK - flux * film, outsideK));
                worst = Math.Max(worst, Math.Abs(next / Coefficient[face] - 1));
                Coefficient[face] += relaxation * (next - Coefficient[face]);
            }

            if (convects && passing > 0)
            {
                double next = Math.Max(byElement, EnhancementAt(difference / passing, (wallSum / passing + stirredK) / 2));
                worst = Math.Max(worst, Math.Abs(next / Enhancement - 1));
                Enhancement += relaxation * (next - Enhancement);
            }

            // The first sweep may have used a fixed coefficient before it was set.
            if (worst < Accuracy && sweep > 0)
                return;
        }
    }

    private double Outside(int face, double bodyK) => face switch
    {
        BodySide => bodyK,
        RoomSide => _p.RoomK,
        Floor => _p.Contacts.FloorFacesBody ? bodyK : _p.RoomK,
        _ => _p.Contacts.TopFacesBody ? bodyK : _p.RoomK,
    };

    private double EnhancementAt(double differenceK, double meanK)
    {
        double heightM = _p.Grid.HeightM;
        (double rayleigh, _) = RayleighAndPrandtl(differenceK, meanK, heightM);
        return Math.Max(1, FreeConvection.ClosedCylinderEvansStefany1966(rayleigh) / (heightM * _conductionPerM));
    }

    /// <summary>What gives an element its own published coefficient, though the heat has to creep out to the wall in rings.</summary>
    private double EnhancementByElement(double bodyK, double stirredK)
    {
        if (!(_elementLengthM > 0))
            return 1;

        (double rayleigh, double prandtl) = RayleighAndPrandtl(Math.Abs(bodyK - stirredK), (bodyK + stirredK) / 2, _elementLengthM);
        double radiusM = _p.Contacts.ElementRadiusM;
        return Math.Max(1, FreeConvection.VerticalPlateChurchillChu1975(rayleigh, prandtl) * radiusM * Math.Log(_p.Grid.RadiusM / radiusM) / _elementLengthM);
    }

    private (double Rayleigh, double Prandtl) RayleighAndPrandtl(double differenceK, double meanK, double lengthM)
    {
        IHeatProperties honey = _p.Honey;
        double density = honey.DensityKgPerM3(meanK);
        double diffusivity = honey.ConductivityWPerMK(meanK) / (density * honey.Enthalpy.SensibleCapacity(meanK));
        double viscosity = honey.ViscosityPaS(meanK) / density;
        return (FreeConvection.Rayleigh(honey.ExpansionPerK(meanK), differenceK, lengthM, viscosity, diffusivity), viscosity / diffusivity);
    }

    private double AirWPerM2K(Film film, double surfaceK, double airK)
    {
        double heightM = _p.Grid.HeightM;
        switch (film.Kind)
        {
            case FilmKind.AirOnSide:
                return OutsideCoefficient.MovingAirWallWPerM2K(surfaceK, airK, heightM, _outerDiameterM, _p.Emissivity, film.AirSpeedMPerS);
            case FilmKind.AirOnTop:
                return OutsideCoefficient.MovingAirDiscWPerM2K(surfaceK, airK, _outerDiameterM, _p.Emissivity, film.AirSpeedMPerS, facesUp: true);
            default:
                return OutsideCoefficient.MovingAirDiscWPerM2K(surfaceK, airK, _outerDiameterM, _p.Emissivity, film.AirSpeedMPerS, facesUp: false);
        }
    }
}
