using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>What a heat dose costs a honey, as bands.</summary>
/// <remarks>
/// Low and high of HMF are the ends of the source's band times the floral multiplier (and of the spread between floral types,
/// if <see cref="HeatResponse.IncludeFloralSpread"/> is set). Low and high of diastase are the spread between honeys, half-lives
/// 0.5 to 6 times the stated.
/// </remarks>
public sealed record HoneyHeatDamage
{
    private const double SecondsPerDay = 86400;
    private const double ReferenceK = 20 + Physical.ZeroCelsiusK;

    /// <summary>Gain of HMF, low end, mg/kg.</summary>
    public required MassFraction HmfGainLow { get; init; }

    /// <summary>Gain of HMF, best estimate, mg/kg.</summary>
    public required MassFraction HmfGain { get; init; }

    /// <summary>Gain of HMF, high end, mg/kg.</summary>
    public required MassFraction HmfGainHigh { get; init; }

    /// <summary>Share of the diastase that is left, low end.</summary>
    public required Ratio DiastaseLeftLow { get; init; }

    /// <summary>Share of the diastase that is left, best estimate.</summary>
    public required Ratio DiastaseLeft { get; init; }

    /// <summary>Share of the diastase that is left, high end.</summary>
    public required Ratio DiastaseLeftHigh { get; init; }

    /// <summary>Time at 20 °C in which the same honey gains as much HMF, by the same rate law.</summary>
    public required Duration HmfEquivalentAt20C { get; init; }

    /// <summary>Time at 20 °C in which the same honey loses as large a share of its diastase.</summary>
    public required Duration DiastaseEquivalentAt20C { get; init; }

    /// <summary>Temperatures that the rate laws do not cover.</summary>
    public IReadOnlyList<Notice> Notices { get; init; } = [];

    /// <summary>Days at 20 °C that cost as much: by HMF and by diastase. The two differ, since diastase takes heat worse.</summary>
    public (double ByHmf, double ByDiastase) EquivalentDaysAt20C => (HmfEquivalentAt20C.Days, DiastaseEquivalentAt20C.Days);

    /// <summary>Damage of a dose.</summary>
    /// <param name="dose">Dose.</param>
    /// <param name="response">How the honey responds; null takes the defaults with the dose's rate law.</param>
    /// <exception cref="ArgumentException">The dose was taken with another rate law than the response names.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value of the response is outside its range.</exception>
    public static HoneyHeatDamage Of(HeatDose dose, HeatResponse? response = null)
    {
        response ??= new HeatResponse { Law = dose.Law ?? HmfRateLaws.From20To70C };
        response.Validate();
        if (dose.Law is not null)
            response.RequireLaw(dose.Law, nameof(dose));

        return OfGains(
            (dose.HmfLowMgPerKg * response.LowMultiplier, dose.HmfMgPerKg * response.FloralMultiplier, dose.HmfHighMgPerKg * response.HighMultiplier),
            (Left(dose.DiastaseExponent / DiastaseLoss.HalfLifeFactorLow), Left(dose.DiastaseExponent), Left(dose.DiastaseExponent / DiastaseLoss.HalfLifeFactorHigh)),
            dose.DiastaseExponent,
            response,
            dose.Notices());
    }

    /// <summary>Damage of one honey, or the average of several, from its figures. A kernel: arguments are not checked.</summary>
    /// <param name="hmfMgPerKg">Gain of HMF, mg/kg, the response applied.</param>
    /// <param name="diastaseLeft">Share of the diastase that is left, 0 to 1.</param>
    /// <param name="diastaseExponent">−ln of the best estimate of that share.</param>
    /// <param name="response">How the honey responds.</param>
    /// <param name="notices">Notices.</param>
    internal static HoneyHeatDamage OfGains(
        (double Low, double Best, double High) hmfMgPerKg,
        (double Low, double Best, double High) diastaseLeft,
        double diastaseExponent,
        HeatResponse response,
        IReadOnlyList<Notice> notices) => new()
    {
        HmfGainLow = MassFraction.FromMilligramsPerKilogram(hmfMgPerKg.Low),
        HmfGain = MassFraction.FromMilligramsPerKilogram(hmfMgPerKg.Best),
        HmfGainHigh = MassFraction.FromMilligramsPerKilogram(hmfMgPerKg.High),
        DiastaseLeftLow = Ratio.FromDecimalFractions(diastaseLeft.Low),
        DiastaseLeft = Ratio.FromDecimalFractions(diastaseLeft.Best),
        DiastaseLeftHigh = Ratio.FromDecimalFractions(diastaseLeft.High),
        HmfEquivalentAt20C = Days(hmfMgPerKg.Best / response.FloralMultiplier / response.Law.White1964MgPerKgPerS(ReferenceK)),
        DiastaseEquivalentAt20C = Days(diastaseExponent / DiastaseLoss.RatePerS(ReferenceK)),
        Notices = notices,
    };

    /// <summary>Damage of a history.</summary>
    /// <param name="history">Temperature over time.</param>
    /// <param name="response">How the honey responds; null takes the defaults.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value of the response is outside its range.</exception>
    public static HoneyHeatDamage Of(TemperatureHistory history, HeatResponse? response = null)
    {
        response ??= new HeatResponse();
        response.Validate();
        return Of(HeatDose.Of(history, response.Law), response);
    }

    /// <summary>This damage and then another to the same honey: gains add up, shares left multiply.</summary>
    /// <remarks>Exact for one piece of honey; for the average over a vessel, if what comes later comes to all of it alike.</remarks>
    /// <param name="later">What comes later.</param>
    public HoneyHeatDamage Then(HoneyHeatDamage later)
    {
        EquipmentCheck.Present(later);
        return new HoneyHeatDamage
        {
            HmfGainLow = HmfGainLow + later.HmfGainLow,
            HmfGain = HmfGain + later.HmfGain,
            HmfGainHigh = HmfGainHigh + later.HmfGainHigh,
            DiastaseLeftLow = Product(DiastaseLeftLow, later.DiastaseLeftLow),
            DiastaseLeft = Product(DiastaseLeft, later.DiastaseLeft),
            DiastaseLeftHigh = Product(DiastaseLeftHigh, later.DiastaseLeftHigh),
            HmfEquivalentAt20C = HmfEquivalentAt20C + later.HmfEquivalentAt20C,
            DiastaseEquivalentAt20C = DiastaseEquivalentAt20C + later.DiastaseEquivalentAt20C,
            Notices = [.. Notices.Union(later.Notices)],
        };
    }

    /// <summary>The honey after the heat.</summary>
    /// <param name="start">The honey before it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value of the start is outside its range.</exception>
    public HeatedHoney After(HoneyBeforeHeat start)
    {
        EquipmentCheck.Present(start);
        start.Validate();
        return new HeatedHoney
        {
            HmfLow = start.Hmf + HmfGainLow,
            Hmf = start.Hmf + HmfGain,
            HmfHigh = start.Hmf + HmfGainHigh,
            DiastaseNumberLow = start.DiastaseNumber * DiastaseLeftLow.DecimalFractions,
            DiastaseNumber = start.DiastaseNumber * DiastaseLeft.DecimalFractions,
            DiastaseNumberHigh = start.DiastaseNumber * DiastaseLeftHigh.DecimalFractions,
        };
    }

    private static double Left(double exponent) => Math.Exp(-exponent);

    private static Ratio Product(Ratio a, Ratio b) => Ratio.FromDecimalFractions(a.DecimalFractions * b.DecimalFractions);

    private static Duration Days(double seconds) => Duration.FromDays(seconds / SecondsPerDay);
}
