namespace FlowSim.Tests;

/// <summary>Rules that the lists of vessel shapes and of screen forms share.</summary>
internal static class ShapeListRules
{
    public static void EveryClassIsListed<TShape>(IReadOnlyList<ShapeEntry<TShape>> list)
        where TShape : class
    {
        Type[] classes = [.. typeof(TShape).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(TShape)) && !type.IsAbstract)];
        Assert.NotEmpty(classes);
        Assert.Equal(classes.OrderBy(type => type.FullName, StringComparer.Ordinal), list.Select(entry => entry.Type).OrderBy(type => type.FullName, StringComparer.Ordinal));
    }

    public static void EntriesAreWellFormed<TShape>(IReadOnlyList<ShapeEntry<TShape>> list)
        where TShape : class
    {
        Assert.Equal(list.Count, list.Select(entry => entry.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.All(list, entry =>
        {
            Assert.Matches("^[a-z]+(-[a-z]+)*$", entry.Name);
            Assert.NotEmpty(entry.Description);
            Assert.NotEmpty(entry.Parameters);
            Assert.All(entry.Parameters, parameter =>
            {
                Assert.Matches("^[a-z]+(_[a-z]+)*$", parameter.Key);
                Assert.True(parameter.Min < parameter.Max);
                Assert.NotEmpty(parameter.Description);
                Assert.False(parameter.IsRequired && parameter.Default is not null);
            });
        });
    }

    public static void EntriesCreate<TShape>(IReadOnlyList<ShapeEntry<TShape>> list)
        where TShape : class
        => Assert.All(list, entry => Assert.IsType(entry.Type, entry.Create(key => SampleValue(entry, key))));

    public static void MissingKeysAreNamed<TShape>(IReadOnlyList<ShapeEntry<TShape>> list)
        where TShape : class
    {
        foreach (ShapeEntry<TShape> entry in list)
        {
            foreach (ShapeParameter parameter in entry.Parameters.Where(parameter => parameter is { IsRequired: true, Kind: ShapeParameterKind.Length }))
            {
                ArgumentException refused = Assert.Throws<ArgumentException>(() => entry.Create(key => key == parameter.Key ? null : SampleValue(entry, key)));
                Assert.Equal(parameter.Key, refused.ParamName);
            }
        }
    }

    public static void ValuesOutsideAreNamed<TShape>(IReadOnlyList<ShapeEntry<TShape>> list)
        where TShape : class
    {
        foreach (ShapeEntry<TShape> entry in list)
        {
            foreach (ShapeParameter parameter in entry.Parameters.Where(parameter => parameter.IsRequired))
            {
                bool isList = parameter.Kind is ShapeParameterKind.LengthList or ShapeParameterKind.VolumeList;
                string target = isList ? parameter.Key + "[1]" : parameter.Key;
                foreach (double wrong in new[] { parameter.Max * 1.001, parameter.Min - 1, double.NaN, double.PositiveInfinity })
                {
                    ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => entry.Create(key => key == target ? wrong : SampleValue(entry, key)));
                    Assert.Equal(target, refused.ParamName);
                }
            }
        }
    }

    /// <summary>Lengths fall from parameter to parameter so that a rim stands above half a diameter and an outlet below one.</summary>
    private static double? SampleValue<TShape>(ShapeEntry<TShape> entry, string key)
        where TShape : class
    {
        for (int i = 0; i < entry.Parameters.Count; i++)
        {
            ShapeParameter parameter = entry.Parameters[i];
            switch (parameter.Kind)
            {
                case ShapeParameterKind.Length when parameter.Key == key:
                    return 0.5 - 0.1 * i;
                case ShapeParameterKind.LengthList or ShapeParameterKind.VolumeList when key.StartsWith(parameter.Key + "[", StringComparison.Ordinal):
                    int index = key[^2] - '0';
                    return index < 3 ? 0.1 * index : null;
            }
        }

        return null;
    }
}
