using FlowSim.Bottling;
using FlowSim.Tests.Vessels;
using FlowSim.Vessels;

namespace FlowSim.Tests.Bottling;

/// <summary>Bottling tanks of a shape that a user derived and that answers with NaN: at once, high up, or in a gap that no check hits.</summary>
public sealed class OwnTanksTests
{
    private static FillingSetup Filled(string kernel, (double From, double To) gap)
    {
        FillingSetup plain = Fillings.Plain();
        VesselShape holey = new HoleyVessel(plain.Tank.Shape, kernel, gap);
        return plain with { Tank = plain.Tank with { Shape = holey, HeldAtTemperature = false, WallFilm = true } };
    }

    [Fact]
    public void A_tank_that_answers_with_nothing_is_refused_or_the_filling_says_so()
    {
        int refusals = 0, ended = 0;
        foreach ((double From, double To) gap in HoleyVessel.Gaps)
        {
            foreach (string kernel in HoleyVessel.Kernels)
            {
                try
                {
                    FillingResult result = FillingRun.Simulate(Filled(kernel, gap));
                    Assert.True(Figures.AreNumbers(result, typeof(FillingSetup)), $"{kernel}, {gap}: a figure is not a number");
                    Assert.NotEqual(FillingStatus.TooSlow, result.Status);
                }
                catch (ArgumentException refused)
                {
                    Assert.True(refused.ParamName == "Shape", $"{kernel}, {gap}: {refused.ParamName} is blamed: {refused.Message}");
                    refusals++;
                }
                catch (SimulationException)
                {
                    ended++;
                }
            }
        }

        Assert.True(refusals > 4 && ended > 0, $"{refusals} refusals and {ended} fillings that ended");
    }

    /// <summary>The level falls through the gap after some of the jars; how many were done by then is told.</summary>
    [Fact]
    public void A_filling_that_comes_to_no_number_tells_after_how_many_jars()
    {
        SimulationException ended = Assert.Throws<SimulationException>(() => FillingRun.Simulate(Filled("level", (0.30, 0.34))));
        Assert.Matches("after [1-9][0-9]* jars", ended.Message);
    }
}
