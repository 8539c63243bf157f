using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Tests.Calibration;

public class IndistinctSearchTests
{
    private static FittedInput Fitted(StrainingInput input, double left, Distribution? posterior = null)
    {
        Distribution known = posterior ?? new LogNormalDistribution(1, 0.1);
        return new FittedInput { Input = input, Run = null, Prior = new UncertainInput(input, known, new Source("made up", Standing.EngineeringChoice)), Posterior = known, Left = left };
    }

    /// <summary>Correlations that are none but for those given.</summary>
    private static double[][] Correlated(int count, params (int One, int Other, double Strength)[] pairs)
    {
        double[][] all = [.. Enumerable.Range(0, count).Select(i => (double[])[.. Enumerable.Range(0, count).Select(j => i == j ? 1.0 : 0)])];
        foreach ((int one, int other, double strength) in pairs)
            all[one][other] = all[other][one] = strength;
        return all;
    }

    private static StrainingInput[][] Groups(FittedInput[] inputs, params (int One, int Other, double Strength)[] pairs) =>
        [.. IndistinctSearch.Find(inputs, Correlated(inputs.Length, pairs)).Select(group => group.Inputs.ToArray())];

    private static string Words(StrainingInput[] inputs, double strength = 0.9)
    {
        (int, int, double)[] pairs = [.. Enumerable.Range(1, inputs.Length - 1).Select(i => (0, i, strength))];
        return Assert.Single(IndistinctSearch.Find([.. inputs.Select(input => Fitted(input, 0.5))], Correlated(inputs.Length, pairs))).Words;
    }

    private static readonly FittedInput[] Four = [Fitted(StrainingInputs.Moisture, 0.5), Fitted(StrainingInputs.LotFactor, 0.6), Fitted(StrainingInputs.GateFactor, 0.7), Fitted(StrainingInputs.ScreenFactor, 0.8)];

    [Fact]
    public void Inputs_that_go_together_closely_are_a_group()
    {
        Assert.Empty(Groups(Four));
        Assert.Empty(Groups(Four, (0, 1, 0.799), (1, 2, -0.799)));
        Assert.Equal([[StrainingInputs.Moisture, StrainingInputs.LotFactor]], Groups(Four, (0, 1, 0.8)));
        Assert.Equal([[StrainingInputs.Moisture, StrainingInputs.LotFactor]], Groups(Four, (0, 1, -0.8)));
    }

    [Fact]
    public void A_chain_is_one_group_in_the_order_in_which_it_is_followed()
    {
        Assert.Equal([[StrainingInputs.Moisture, StrainingInputs.GateFactor, StrainingInputs.LotFactor]], Groups(Four, (0, 2, 0.9), (1, 2, -0.9)));
        Assert.Equal([[StrainingInputs.LotFactor, StrainingInputs.GateFactor, StrainingInputs.ScreenFactor]], Groups(Four, (1, 2, 0.9), (2, 3, 0.9)));
    }

    [Fact]
    public void Groups_come_with_the_least_known_first()
    {
        Assert.Equal(
            [[StrainingInputs.GateFactor, StrainingInputs.ScreenFactor], [StrainingInputs.Moisture, StrainingInputs.LotFactor]],
            Groups(Four, (0, 1, 0.9), (2, 3, 0.9)));

        // Of a group the least known member counts.
        FittedInput[] uneven = [Fitted(StrainingInputs.Moisture, 0.5), Fitted(StrainingInputs.LotFactor, 0.6), Fitted(StrainingInputs.GateFactor, 0.3), Fitted(StrainingInputs.ScreenFactor, 0.9)];
        Assert.Equal(StrainingInputs.GateFactor, Groups(uneven, (0, 1, 0.9), (2, 3, 0.9))[0][0]);
    }

    /// <summary>0.25 of its spread left is well known, whichever of the two it is.</summary>
    [Fact]
    public void What_is_well_known_by_itself_is_in_no_group()
    {
        FittedInput known = Fitted(StrainingInputs.LotFactor, 0.25), hardly = Fitted(StrainingInputs.LotFactor, 0.251);
        Assert.Empty(Groups([Four[0], known], (0, 1, 0.9)));
        Assert.Empty(Groups([known, Four[0]], (0, 1, 0.9)));
        Assert.Single(Groups([Four[0], hardly], (0, 1, 0.9)));
    }

    /// <summary>Both ×/÷ e^0.1 and correlated by −0.9: their product has √(0.01 + 0.01 − 0.018) = 0.0447.</summary>
    [Theory]
    [InlineData(-0.9, "product", "4.5 %")]
    [InlineData(0.9, "ratio", "4.5 %")]
    [InlineData(-0.82, "product", "6 %")]
    public void Of_two_factors_product_or_ratio_is_said(double strength, string what, string together)
    {
        string words = Words([StrainingInputs.Moisture, StrainingInputs.ScreenFactor], strength);
        Assert.Contains($"their {what} is known to {together}, each alone to 10 and 10 %", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Different_spreads_are_added_as_they_are()
    {
        FittedInput[] two = [Fitted(StrainingInputs.Moisture, 0.5, new LogNormalDistribution(2, 0.3)), Fitted(StrainingInputs.ScreenFactor, 0.5, new LogNormalDistribution(1, 0.2))];
        string words = Assert.Single(IndistinctSearch.Find(two, Correlated(2, (0, 1, 0.8)))).Words;
        Assert.Contains("to 18.4 %, each alone to 30 and 20 %", words, StringComparison.Ordinal); // √(0.09 + 0.04 − 2·0.8·0.06) = 0.184.
    }

    [Fact]
    public void Of_three_or_of_what_is_no_factor_neither()
    {
        Assert.DoesNotContain("%", Words([StrainingInputs.Moisture, StrainingInputs.LotFactor, StrainingInputs.ScreenFactor]), StringComparison.Ordinal);
        FittedInput[] either = [Four[0], Fitted(StrainingInputs.Spacer, 0.5, new NormalDistribution(0, 0.1))];
        Assert.DoesNotContain("%", Assert.Single(IndistinctSearch.Find(either, Correlated(2, (0, 1, 0.9)))).Words, StringComparison.Ordinal);
        Assert.DoesNotContain("%", Assert.Single(IndistinctSearch.Find([either[1], either[0]], Correlated(2, (0, 1, 0.9)))).Words, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Remedies => new()
    {
        { "honey.lot_factor honey.moisture", "refractometer" },
        { "honey.lot_factor gate.factor", "falling ball" },
        { "honey.lot_factor screen.factor", "falling ball" },
        { "honey.lot_factor gate.tube_length", "falling ball" },
        { "honey.lot_factor honey.moisture gate.factor", "falling ball" },
        { "honey.lot_factor honey.moisture debris.load", "Vary one" },
        { "honey.moisture gate.factor", "Vary one" },
        { "honey.lot_factor debris.median_size", "Vary one" },
        { "debris.load debris.median_size", "two cloths" },
        { "debris.load debris.capture", "two cloths" },
        { "debris.load debris.size_spread", "two cloths" },
        { "debris.median_size debris.capture", "Vary one" },
        { "debris.load honey.moisture", "Vary one" },
        { "screen.factor debris.load", "pond's depth early" },
        { "gate.factor screen.factor", "tank and receiver" },
        { "gate.factor honey.moisture", "Vary one" },
        { "screen.factor honey.moisture", "Vary one" },
    };

    [Theory]
    [MemberData(nameof(Remedies))]
    public void What_would_tell_them_apart_is_said(string names, string remedy) =>
        Assert.Contains(remedy, Words([.. names.Split(' ').Select(StrainingInputs.ByName)]), StringComparison.Ordinal);
}
