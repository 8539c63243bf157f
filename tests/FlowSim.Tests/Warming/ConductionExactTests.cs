using FlowSim.Heating;
using FlowSim.Numerics.Ode;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>
/// The cells and the stepping of a warming run against the exact series of a finite cylinder (Newman 1936, <see cref="CylinderConduction"/>),
/// with properties and coefficients held constant.
/// </summary>
public class ConductionExactTests
{
    private const double RadiusM = 0.142;

    /// <summary>Half that of the cylinder: no heat passes its middle, here the floor.</summary>
    private const double HeightM = 0.15;

    private const double ConductivityWPerMK = 0.35;
    private const double DensityKgPerM3 = 1420;
    private const double HeatCapacityJPerKgK = 2250;
    private const double StartK = 290;
    private const double BathK = 310;
    private const double DiffusivityM2PerS = ConductivityWPerMK / (DensityKgPerM3 * HeatCapacityJPerKgK);

    /// <summary>Biot number by radius, on all faces the same coefficient, and Fourier numbers early and late in the warming.</summary>
    public static TheoryData<double, double> Cases => new()
    {
        { 0.03, 2 }, { 0.03, 20 }, { 0.3, 0.3 }, { 0.3, 2 }, { 3, 0.1 }, { 3, 0.4 }, { 30, 0.1 }, { 30, 0.3 },
        { double.PositiveInfinity, 0.1 }, { double.PositiveInfinity, 0.3 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_cell_is_where_the_series_has_it(double biot, double fourier)
    {
        // Centre and corner are the cells nearest to them; every cell is compared at its middle. Cells of 1.8 by 2.5 mm.
        Errors errors = Against(biot, fourier, 80, 60, 5e-4);
        Assert.True(errors.Centre < 1e-4 && errors.Mean < 1e-4 && errors.Corner < 1e-4 && errors.Worst < 1e-4, errors.ToString());
    }

    [Theory]
    [InlineData(0.3, 1)]
    [InlineData(3, 0.2)]
    [InlineData(double.PositiveInfinity, 0.1)]
    public void Halving_the_cells_quarters_the_error(double biot, double fourier)
    {
        double At(int cells) => Against(biot, fourier, cells, cells, 5e-5).Worst;

        double coarse = At(8), fine = At(16), finest = At(32);
        Assert.True(coarse / fine is > 3.5 and < 4.5 && fine / finest is > 3.5 and < 4.5, FormattableString.Invariant($"{coarse:g3} {fine:g3} {finest:g3}"));
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(3)]
    [InlineData(30)]
    public void Halving_the_steps_quarters_the_error(double biot)
    {
        double[] exact = Steps(biot, 3200);
        double[] error = [.. new[] { 50, 100, 200 }.Select(n => Steps(biot, n).Zip(exact, (a, b) => Math.Abs(a - b)).Max())];
        Assert.True(error[0] / error[1] is > 3.4 and < 4.6 && error[1] / error[2] is > 3.4 and < 4.6, string.Join(' ', error.Select(e => FormattableString.Invariant($"{e:g3}"))));
    }

    private sealed record Errors(double Centre, double Mean, double Corner, double Worst);

    /// <summary>Errors as shares of the gap at the start, at a Fourier number by radius.</summary>
    private static Errors Against(double biot, double fourier, int radialCells, int axialCells, double toleranceK)
    {
        double seconds = fourier * RadiusM * RadiusM / DiffusivityM2PerS;
        WarmingParameters p = Parameters(biot, radialCells, axialCells);
        var run = new WarmingIntegration(p, Setup(seconds), toleranceK, []);
        run.Run(new WarmingRecorder(p, Setup(seconds), 0), CancellationToken.None);

        double axialBiot = biot * HeightM / RadiusM, axialFourier = fourier * RadiusM * RadiusM / (HeightM * HeightM);
        double[] radial = [.. Enumerable.Range(0, radialCells)
            .Select(i => TransientConduction.GapLeft(ConductionShape.InfiniteCylinder, biot, (i + 0.5) / radialCells, fourier))];
        double[] axial = [.. Enumerable.Range(0, axialCells)
            .Select(k => TransientConduction.GapLeft(ConductionShape.PlaneWall, axialBiot, (k + 0.5) / axialCells, axialFourier))];
        double worst = 0, mass = 0, mean = 0;
        double[] error = new double[p.Grid.Count];
        for (int c = 0; c < error.Length; c++)
        {
            double gap = (BathK - run.System.TemperatureK[c]) / (BathK - StartK);
            error[c] = Math.Abs(gap - radial[c / axialCells] * axial[c % axialCells]);
            worst = Math.Max(worst, error[c]);
            mass += run.System.MassKg[c];
            mean += run.System.MassKg[c] * gap;
        }

        double exactMean = TransientConduction.MeanGapLeft(ConductionShape.InfiniteCylinder, biot, fourier)
            * TransientConduction.MeanGapLeft(ConductionShape.PlaneWall, axialBiot, axialFourier);
        return new Errors(error[0], Math.Abs(mean / mass - exactMean), error[^1], worst);
    }

    /// <summary>Temperatures after a quarter of the radius' time, in equal steps.</summary>
    private static double[] Steps(double biot, int count)
    {
        var system = new WarmingSystem(Parameters(biot, 10, 16)) { Mode = HeaterMode.Follows };
        var step = new FactoredRosenbrock(system.Dimension);
        double h = 0.25 * RadiusM * RadiusM / DiffusivityM2PerS / count;
        system.Start(step.Start);
        step.Begin(system, 0);
        for (int i = 0; i < count; i++)
        {
            step.Step(system, i * h, h);
            step.EvaluateEnd(system, (i + 1) * h);
            step.Accept(system);
        }

        return system.TemperatureK.ToArray();
    }

    private static WarmingParameters Parameters(double biot, int radialCells, int axialCells)
    {
        // A surface held at the bath's temperature: a coefficient that half a cell's resistance hides.
        Film film = Film.Coefficient(double.IsPositiveInfinity(biot) ? 1e12 : biot * ConductivityWPerMK / RadiusM);
        return new WarmingParameters
        {
            Honey = new ConstantHeat(),
            Grid = new CylinderGrid(RadiusM, HeightM, radialCells, axialCells),
            Inside = InsideHeat.ConductionOnly,
            Contacts = new KitContacts
            {
                BodySide = film,
                BodySideToM = double.PositiveInfinity,
                Top = film,
                TopFacesBody = true,
            },
            StartK = StartK,
            RoomK = BathK,
            Setpoint = new SetpointCurve([new SetpointStep(Duration.Zero, Temperature.FromKelvins(BathK))]),
        };
    }

    /// <summary>What the stepping needs of a setup: how long. The rest stands in the parameters.</summary>
    private static WarmingSetup Setup(double seconds) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17) },
        StartTemperature = Temperature.FromKelvins(StartK),
        Vessel = new WarmedVessel { Shape = new UprightCylinder(Length.FromMeters(2 * RadiusM), Length.FromMeters(HeightM)), Level = Length.FromMeters(HeightM) },
        Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromKelvins(BathK)) },
        Longest = Duration.FromSeconds(seconds),
    };

    private sealed class ConstantHeat : IHeatProperties
    {
        public HoneyEnthalpy Enthalpy { get; } = new(HeatCapacityJPerKgK, 0);

        public double CrystalShare => 0;

        public double ConductivityWPerMK(double temperatureK) => ConductionExactTests.ConductivityWPerMK;

        public double DensityKgPerM3(double temperatureK) => ConductionExactTests.DensityKgPerM3;

        public double ExpansionPerK(double temperatureK) => 4e-4;

        public double ViscosityPaS(double temperatureK) => 10;
    }
}
