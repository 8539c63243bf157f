using MathNet.Numerics.Integration;
using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>
/// What heat has done to a piece of honey so far: the time integrals of the rates of HMF formation and of diastase loss.
/// Doses of times that follow each other add up; how the time was cut makes no difference.
/// </summary>
public readonly record struct HeatDose
{
    /// <summary>Gauss–Legendre rule on [−1, 1]. Sixteen points over at most <see cref="PanelK"/> are exact to rounding: the rates change by at most e⁴ there.</summary>
    private static readonly GaussLegendreRule s_rule = new(-1, 1, 16);
    private static readonly double[] s_abscissas = s_rule.Abscissas;
    private static readonly double[] s_weights = s_rule.Weights;

    private const double PanelK = 20;

    /// <summary>A dose whose integrals were taken elsewhere. A kernel: arguments are not checked.</summary>
    internal HeatDose(HmfRateLaw law, double hmfLow, double hmf, double hmfHigh, double diastase, double seconds, double coldestK, double hottestK)
    {
        Law = law;
        HmfLowMgPerKg = hmfLow;
        HmfMgPerKg = hmf;
        HmfHighMgPerKg = hmfHigh;
        DiastaseExponent = diastase;
        Seconds = seconds;
        ColdestK = coldestK;
        HottestK = hottestK;
    }

    /// <summary>Rate law that the dose was taken with; null while nothing was added.</summary>
    public HmfRateLaw? Law { get; }

    /// <summary>How long it took.</summary>
    public Duration Time => Duration.FromSeconds(Seconds);

    /// <summary>∫k dt at the low end of the band, floral multiplier 1, mg/kg.</summary>
    internal double HmfLowMgPerKg { get; }

    /// <summary>∫k dt, floral multiplier 1, mg/kg.</summary>
    internal double HmfMgPerKg { get; }

    /// <summary>∫k dt at the high end of the band, floral multiplier 1, mg/kg.</summary>
    internal double HmfHighMgPerKg { get; }

    /// <summary>∫k dt of the diastase loss: what is left is e to the minus this.</summary>
    internal double DiastaseExponent { get; }

    /// <summary>How long it took, s.</summary>
    internal double Seconds { get; }

    /// <summary>Lowest temperature met, K.</summary>
    internal double ColdestK { get; }

    /// <summary>Highest temperature met, K.</summary>
    internal double HottestK { get; }

    /// <summary>Dose of a history.</summary>
    /// <param name="history">Temperature over time.</param>
    /// <param name="law">Rate law of HMF; null takes <see cref="HmfRateLaws.From20To70C"/>.</param>
    public static HeatDose Of(TemperatureHistory history, HmfRateLaw? law = null)
    {
        EquipmentCheck.Present(history);
        law ??= HmfRateLaws.From20To70C;
        HeatDose dose = default;
        ReadOnlySpan<double> times = history.TimesS;
        ReadOnlySpan<double> temperatures = history.TemperaturesK;
        for (int i = 1; i < times.Length; i++)
            dose += OfSegment(law, temperatures[i - 1], temperatures[i], times[i] - times[i - 1]);
        return dose;
    }

    /// <summary>The dose of one time and then another.</summary>
    /// <param name="left">First dose.</param>
    /// <param name="right">Second dose.</param>
    /// <exception cref="ArgumentException">They were taken with different rate laws.</exception>
    public static HeatDose operator +(HeatDose left, HeatDose right) => left.Add(right);

    /// <summary>This dose and then another.</summary>
    /// <param name="other">The other dose.</param>
    /// <exception cref="ArgumentException">They were taken with different rate laws.</exception>
    public HeatDose Add(HeatDose other)
    {
        if (Law is null)
            return other;
        if (other.Law is null)
            return this;
        if (!ReferenceEquals(Law, other.Law))
            throw EquipmentCheck.Refused(nameof(other), $"A dose by {Law.Name} and one by {other.Law.Name} do not add up.");

        return new HeatDose(
            Law,
            HmfLowMgPerKg + other.HmfLowMgPerKg,
            HmfMgPerKg + other.HmfMgPerKg,
            HmfHighMgPerKg + other.HmfHighMgPerKg,
            DiastaseExponent + other.DiastaseExponent,
            Seconds + other.Seconds,
            Math.Min(ColdestK, other.ColdestK),
            Math.Max(HottestK, other.HottestK));
    }

    /// <summary>Notices about temperatures that the rate laws do not cover; empty when all is covered.</summary>
    public IReadOnlyList<Notice> Notices()
    {
        if (Law is null)
            return [];

        // Below their range the rates are small and err little in all; only what is hotter than the data matters.
        double hottestC = HottestK - Physical.ZeroCelsiusK;
        return new[] { Law.TemperatureRange, DiastaseLoss.TemperatureRange }
            .Where(range => hottestC > range.High)
            .Select(range => range.NoticeFor(hottestC)!)
            .ToArray();
    }

    /// <summary>Dose of a stretch of time over which the temperature changes evenly. A kernel: arguments are not checked.</summary>
    /// <param name="law">Rate law of HMF.</param>
    /// <param name="startK">Temperature at its start, K.</param>
    /// <param name="endK">Temperature at its end, K.</param>
    /// <param name="seconds">Its length, s, at least 0.</param>
    internal static HeatDose OfSegment(HmfRateLaw law, double startK, double endK, double seconds)
    {
        double coldest = Math.Min(startK, endK);
        double hottest = Math.Max(startK, endK);
        double hmfLow, hmf, hmfHigh, diastase;
        if (hottest == coldest)
        {
            hmfLow = law.LowMgPerKgPerS(startK);
            hmf = law.White1964MgPerKgPerS(startK);
            hmfHigh = law.HighMgPerKgPerS(startK);
            diastase = DiastaseLoss.RatePerS(startK);
        }
        else
        {
            // The band has a step and a corner; between them all rates are smooth.
            (double Low, double Best, double High, double Diastase) sum = default;
            double from = coldest;
            AddUpTo(law, Math.Min(hottest, HmfRateLaw.WideBandFromK), ref from, ref sum);
            AddUpTo(law, Math.Min(hottest, law.LowHeldToK), ref from, ref sum);
            AddUpTo(law, hottest, ref from, ref sum);
            double span = hottest - coldest;
            hmfLow = sum.Low / span;
            hmf = sum.Best / span;
            hmfHigh = sum.High / span;
            diastase = sum.Diastase / span;
        }

        return new HeatDose(law, hmfLow * seconds, hmf * seconds, hmfHigh * seconds, diastase * seconds, seconds, coldest, hottest);
    }

    /// <summary>Adds ∫ rate dT from where the last call ended.</summary>
    private static void AddUpTo(HmfRateLaw law, double toK, ref double fromK, ref (double Low, double Best, double High, double Diastase) sum)
    {
        if (!(toK > fromK))
            return;

        int panels = (int)Math.Ceiling((toK - fromK) / PanelK);
        double half = (toK - fromK) / panels / 2;
        for (int panel = 0; panel < panels; panel++)
        {
            double middle = fromK + (2 * panel + 1) * half;
            for (int i = 0; i < s_weights.Length; i++)
            {
                double k = middle + half * s_abscissas[i];
                double weight = half * s_weights[i];
                sum.Low += weight * law.LowMgPerKgPerS(k);
                sum.Best += weight * law.White1964MgPerKgPerS(k);
                sum.High += weight * law.HighMgPerKgPerS(k);
                sum.Diastase += weight * DiastaseLoss.RatePerS(k);
            }
        }

        fromK = toK;
    }
}
