namespace FlowSim.Warming;

/// <summary>Enthalpy of honey with crystals that melt over a range and do not come back.</summary>
/// <remarks>
/// <para><b>Equation</b>: h = e(t) + L x₀ F, e = a t + b t²/2, t in °C; F = (T − T_from)/(T_to − T_from), between 0 and 1, of the highest
/// temperature so far. Honey below its highest enthalpy keeps its F.</para>
/// <para><b>Range</b>: −40 to 150 °C; x₀ 0 to 0.4.</para>
/// <para><b>Error</b>: that of the heat capacity (8 %), of L (6 %) and of the melting range, which is the most of it.</para>
/// <para><b>Source</b>: derived, a heat balance; an even melting over the range is an engineering choice.</para>
/// <para><b>Checked by</b>: HoneyEnthalpyTests.cs.</para>
/// </remarks>
internal readonly struct HoneyEnthalpy
{
    private readonly double _a;
    private readonly double _b;
    private readonly double _latent;
    private readonly double _fromC;
    private readonly double _perK;
    private readonly double _atFrom;
    private readonly double _atTo;

    /// <summary>Honey without crystals.</summary>
    /// <param name="a">Heat capacity at 0 °C, J/(kg·K).</param>
    /// <param name="b">Its slope, J/(kg·K²).</param>
    public HoneyEnthalpy(double a, double b)
        : this(a, b, 0, 0, 1)
    {
    }

    /// <summary>Honey with crystals.</summary>
    /// <param name="a">Heat capacity at 0 °C, J/(kg·K).</param>
    /// <param name="b">Its slope, J/(kg·K²).</param>
    /// <param name="latentJPerKg">Latent heat of all crystals per kg of honey, L x₀, J/kg.</param>
    /// <param name="fromC">Start of melting, °C.</param>
    /// <param name="toC">End of melting, °C.</param>
    public HoneyEnthalpy(double a, double b, double latentJPerKg, double fromC, double toC)
    {
        _a = a;
        _b = b;
        _latent = latentJPerKg;
        _fromC = fromC;
        _perK = 1 / (toC - fromC);
        _atFrom = Sensible(fromC);
        _atTo = Sensible(toC) + latentJPerKg;
    }

    /// <summary>Whether there are crystals to melt.</summary>
    public bool Melts => _latent > 0;

    /// <summary>Enthalpy on the melting curve: of honey at its highest temperature so far, J/kg.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    public double OnCurve(double temperatureK)
    {
        double t = temperatureK - Physical.ZeroCelsiusK;
        return Sensible(t) + _latent * Math.Clamp((t - _fromC) * _perK, 0, 1);
    }

    /// <summary>Enthalpy at a temperature with a melted share, J/kg.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    /// <param name="melted">Melted share F.</param>
    public double At(double temperatureK, double melted) => Sensible(temperatureK - Physical.ZeroCelsiusK) + _latent * melted;

    /// <summary>Melted share of honey whose highest enthalpy so far is given.</summary>
    /// <param name="highest">Highest enthalpy so far, J/kg.</param>
    public double MeltedAt(double highest)
    {
        if (highest <= _atFrom)
            return 0;
        if (highest >= _atTo)
            return 1;
        return Math.Clamp((MeltingC(highest) - _fromC) * _perK, 0, 1);
    }

    /// <summary>Temperature, K, and heat capacity including what melts, J/(kg·K).</summary>
    /// <param name="h">Enthalpy, J/kg.</param>
    /// <param name="highest">Highest enthalpy before, J/kg.</param>
    public (double TemperatureK, double HeatCapacity, double Melted) Of(double h, double highest)
    {
        double melted, t;
        if (h < highest || h <= _atFrom || h >= _atTo)
        {
            melted = MeltedAt(Math.Max(h, highest));
            t = SensibleC(h - _latent * melted);
            return (t + Physical.ZeroCelsiusK, _a + _b * t, melted);
        }

        t = MeltingC(h);
        return (t + Physical.ZeroCelsiusK, _a + _b * t + _latent * _perK, Math.Clamp((t - _fromC) * _perK, 0, 1));
    }

    /// <summary>Temperature, K, of honey without crystals.</summary>
    /// <param name="h">Enthalpy, J/kg.</param>
    public double LiquidK(double h) => SensibleC(h) + Physical.ZeroCelsiusK;

    /// <summary>Heat capacity without melting, J/(kg·K).</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    public double SensibleCapacity(double temperatureK) => _a + _b * (temperatureK - Physical.ZeroCelsiusK);

    private double Sensible(double t) => t * (_a + 0.5 * _b * t);

    private double SensibleC(double e) => Inverse(_a, e);

    private double MeltingC(double h)
    {
        // Within the range the curve is again a parabola: h = e(t) + s (t − from).
        double slope = _latent * _perK;
        return Inverse(_a + slope, h + slope * _fromC);
    }

    // The root of e = a t + b t²/2 without cancellation. A trial state that no parabola reaches gets 2e/a, on or beyond its vertex: its error is seen.
    private double Inverse(double a, double e) => 2 * e / (a + Math.Sqrt(Math.Max(0, a * a + 2 * _b * e)));
}
