namespace FlowSim.Bottling;

/// <summary>Empties a bottling tank into jars.</summary>
public static class FillingRun
{
    /// <summary>Runs a setup from the first jar to the last.</summary>
    /// <param name="setup">What is filled, and with what.</param>
    /// <param name="cancellation">Ends the computation early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    public static FillingResult Simulate(FillingSetup setup, CancellationToken cancellation = default)
    {
        FillingSetupCheck.Require(setup);
        TargetFill target = TargetFill.Of(QuestionOf(setup));
        Headspace headspace = Headspace.Of(setup.Honey, setup.Jar, target.Target, setup.Temperature, setup.HottestStore, setup.LeastHeadspace);
        bool goesIn = headspace.HoneyAtFilling <= setup.Jar.Brimful;
        var parameters = new FillingParameters(goesIn ? setup : setup with { MostJars = 0 }, target.Target.Kilograms);
        FillingCourse course = FillingCourse.Run(parameters, cancellation);
        return FillingReport.Write(setup, parameters, course, target, headspace, goesIn ? course.Status : FillingStatus.JarTooSmall);
    }

    /// <summary>The question of the target fill; without a lot of the user's own it is the jars that the tank could fill.</summary>
    private static NetWeightQuestion QuestionOf(FillingSetup setup)
    {
        double densityKgPerM3 = Properties.HoneyProperties.Of(setup.Honey).DensityKgPerM3(setup.Temperature.Kelvins);
        double drainsKg = densityKgPerM3 * (setup.Tank.Shape.VolumeM3(setup.Tank.Level.Meters)
            - setup.Tank.Shape.VolumeM3(Gates.TankHeel.LevelM(setup.Tank.Shape, setup.Tank.GateHeight.Meters, setup.Gate.Bore.Meters)));
        int jars = Math.Max(1, (int)Math.Min(drainsKg / setup.Label.Kilograms, setup.MostJars ?? NetWeightQuestion.MostJars));
        return new NetWeightQuestion
        {
            Label = setup.Label,
            Scatter = setup.FillScatter,
            ScatterFrom = setup.ScatterFrom,
            Lot = setup.Lot ?? jars,
            Rule = setup.Rule,
            TolerableShortfall = setup.TolerableShortfall,
            Confidence = setup.Confidence,
        };
    }
}
