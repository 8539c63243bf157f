using FlowSim.ShelfLife;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Whether honey ferments: less than 17.1 % not, regardless of yeast; 17.1–18 not if below 1000/g; 18.1–19 if below 10/g; 19.1–20 if below 1/g; above 20 always in danger.
/// </summary>
[Publication("Lochhead 1933", "As given in USDA Agriculture Handbook 335 and in a table \"Moisture content and honey's liability to ferment\" of a manual of beekeeping", Standing.SecondaryCopy)]
public class Lochhead1933Tests
{
    [Theory]
    [InlineData(14, 1e6, FermentationRisk.NotExpected)]
    [InlineData(17.0, 1e6, FermentationRisk.NotExpected)]
    [InlineData(17.1, 999, FermentationRisk.NotExpected)]
    [InlineData(17.1, 1000, FermentationRisk.Likely)]
    [InlineData(18.0, 999, FermentationRisk.NotExpected)]
    [InlineData(18.05, 999, FermentationRisk.Likely)] // between two printed figures: the wetter class
    [InlineData(18.1, 9, FermentationRisk.NotExpected)]
    [InlineData(18.1, 10, FermentationRisk.Likely)]
    [InlineData(19.0, 9, FermentationRisk.NotExpected)]
    [InlineData(19.1, 0.5, FermentationRisk.NotExpected)]
    [InlineData(19.1, 1, FermentationRisk.Likely)]
    [InlineData(20.0, 0.5, FermentationRisk.NotExpected)]
    [InlineData(20.1, 0, FermentationRisk.Likely)]
    public void The_table(double moisturePercent, double yeastsPerGram, FermentationRisk risk) => Published.Agrees(
        risk,
        FermentationClasses.RiskOf(FermentationClasses.OfMoistureLochhead1933(moisturePercent), yeastsPerGram),
        $"fermentation at {moisturePercent} % with {yeastsPerGram} yeasts per gram");

    [Theory]
    [InlineData(17.0, FermentationRisk.NotExpected)]
    [InlineData(17.5, FermentationRisk.DependsOnYeasts)]
    [InlineData(20.5, FermentationRisk.Likely)]
    public void Without_a_count(double moisturePercent, FermentationRisk risk) =>
        Assert.Equal(risk, FermentationClasses.RiskOf(FermentationClasses.OfMoistureLochhead1933(moisturePercent), null));
}
