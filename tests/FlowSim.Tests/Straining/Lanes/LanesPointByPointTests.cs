using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining.Lanes;

/// <summary>The equations in lanes against those of the single system, state by state and event by event; no integration stands between them.</summary>
public class LanesPointByPointTests
{
    // Places among the events, in the order in which both watch them.
    private const int RimReached = 0, SurplusEnds = 1, RideBegins = 2, RideEnds = 3, ReceiverFull = 4, AtHeel = 5, RunThrough = 6, Stalled = 7, ScrapeDepth = 8, ClothTurns = 9, BackUp = 10;

    private const int Setups = 40;

    private static readonly (double, double, double) s_warm = (-0.7, -3, 2.5);

    /// <summary>The same setups with somebody at the gate who holds the pond half-way between rim and wet cloth.</summary>
    private static IEnumerable<LanePair> Ridden()
    {
        for (int seed = 1; seed <= Setups; seed++)
        {
            StrainingSetup setup = Any(seed);
            Length depth = (setup.Strainer.MinimumHead + setup.Strainer.Shape.RimHeight) / 2;
            yield return new LanePair(setup with { Control = GateControl.RideAt(depth, Percent(70)) }, $"ridden seed {seed}");
        }
    }

    private static LanePair[] Pairs() => [.. Enumerable.Range(1, Setups).Select(seed => new LanePair(Any(seed), $"seed {seed}"))];

    /// <summary>Full and nearly empty tank, empty, middling and brim-full pond, clean and blinded cloth.</summary>
    private static void Look(LanePair pair, double t)
    {
        pair.Put(1, 0, 0, default, 1);
        pair.Compare(t);
        pair.Put(0.9, 0.3, 0, s_warm, 0.8);
        pair.Compare(t);
        pair.Put(0.6, 0.71, 0.2, (-2, 1, 0), 0.3);
        pair.Compare(t);
        pair.Put(0.55, 1, 0.1, s_warm, 0.05);
        pair.Compare(t + 40);
        pair.Put(0.03, 0.02, 0, (-4, -5, 3), 0.6);
        pair.Compare(t + 900);
        pair.Put(0.3, 0.5, 0, s_warm, -1e-9);
        pair.Compare(t + 3000);
    }

    [Fact]
    public void Before_anything_happens()
    {
        foreach (LanePair pair in Pairs())
        {
            Look(pair, 0);
            Look(pair, 12);
        }
    }

    [Fact]
    public void While_the_cloth_runs_rests_and_runs_again()
    {
        foreach (LanePair pair in Pairs())
        {
            for (int turn = 0; turn < 4; turn++)
            {
                pair.Put(0.8, 0.4, 0, s_warm, 0.9);
                pair.Happen(ClothTurns, 20 + turn);
                pair.Put(0.7, 0.6, 0, s_warm, 0.7);
                pair.Compare(25 + turn);
                pair.Put(0.95, 0, 0, s_warm, 1);
                pair.Compare(25 + turn);
            }
        }
    }

    [Fact]
    public void While_the_pond_runs_over_and_after()
    {
        int over = 0;
        foreach (LanePair pair in Pairs())
        {
            pair.Put(0.5, 1, 0, s_warm, 0.02);
            pair.Happen(RimReached, 30, PondMode.Free);
            over += pair.Mode(0).Pond == PondMode.OverRim ? 1 : 0;
            Look(pair, 31);

            // No head at the gate: nothing is gained any more, and the pond is put a little below the rim.
            pair.Put(0.001, 1, 0.3, s_warm, 1);
            pair.Happen(SurplusEnds, 60, PondMode.OverRim);
            Look(pair, 61);
            pair.Put(0.4, 1 - 1e-14, 0.3, s_warm, 0.02);
            pair.Happen(RimReached, 70, PondMode.Free);
            pair.Finish(80);
        }

        Assert.True(over > 10, $"only {over} run over");
    }

    [Fact]
    public void While_the_gate_is_ridden_and_after()
    {
        int ridden = 0;
        foreach (LanePair pair in Ridden())
        {
            StrainingParameters p = pair.Parameters(1);
            double depth = Math.Max(p.RideDepthM, pair.Parameters(0).RideDepthM);
            double share = Math.Min(0.9999, 1.001 * p.Form.PondVolumeM3(depth) / p.RimVolumeM3);
            pair.Put(0.8, share, 0, s_warm, 0.1);
            pair.Happen(RideBegins, 30, PondMode.Free);
            ridden += pair.Mode(0).Pond == PondMode.Ridden ? 1 : 0;
            Look(pair, 31);
            pair.Put(0.001, share, 0, s_warm, 1);
            pair.Happen(RideEnds, 60, PondMode.Ridden);
            Look(pair, 61);
            pair.Finish(70);
        }

        Assert.True(ridden > 10, $"only {ridden} are ridden");
    }

    [Fact]
    public void Once_the_receiver_is_full()
    {
        int shut = 0, spilling = 0;
        foreach (LanePair pair in Pairs())
        {
            pair.Put(0.5, 0.5, 0, s_warm, 0.9);
            pair.Happen(ReceiverFull, 100);
            (shut, spilling) = pair.Alive == 0 ? (shut + 1, spilling) : (shut, spilling + 1);
            Look(pair, 101);
            pair.Put(0.2, 0.4, 0, s_warm, 0.5);
            pair.Finish(150);
        }

        Assert.True(shut > 10 && spilling > 10, $"{shut} are shut, {spilling} run over");
    }

    /// <summary>What went over the rim before and after the receiver was full counts apart.</summary>
    [Fact]
    public void A_receiver_that_fills_under_a_strainer_that_runs_over()
    {
        foreach (LanePair pair in Pairs())
        {
            pair.Put(0.7, 1, 0.1, s_warm, 0.02);
            pair.Happen(RimReached, 30, PondMode.Free);
            pair.Put(0.5, 1, 0.4, s_warm, 0.02);
            pair.Happen(ReceiverFull, 100);
            pair.Put(0.2, 1, 0.5, s_warm, 0.02);
            pair.Compare(120);
            pair.Finish(150);
        }
    }

    [Fact]
    public void Once_the_tank_is_at_its_heel()
    {
        int drained = 0, held = 0;
        foreach (LanePair pair in Pairs())
        {
            // First a pond that is deep, so that nothing ends yet.
            pair.Put(0.1, 0.9, 0, s_warm, 0.9);
            pair.Happen(ClothTurns, 90);
            pair.Put(0.1, 0.9, 0, s_warm, 0.9);
            pair.Happen(AtHeel, 100);
            Look(pair, 101);
            pair.Put(0.1, pair.Parameters(0).RimVolumeM3 > 0.01 ? 0.2 : 0.001, 0, s_warm, 0.9);
            uint before = pair.Alive;
            pair.Happen(RunThrough, 5000);
            pair.Finish(5000);
            if (before == 0)
                continue;
            (drained, held) = pair.Told(0).Ending == StrainingStatus.Drained ? (drained + 1, held) : (drained, held + 1);
        }

        Assert.True(drained > 5 && held > 5, $"{drained} are through, {held} are held up");
    }

    [Fact]
    public void A_stall_ends_the_run()
    {
        foreach (LanePair pair in Pairs())
        {
            pair.Put(0.5, 0.2, 0, s_warm, 0.4);
            pair.Happen(Stalled, 300);
            Assert.Equal(0u, pair.Alive);
            pair.Finish(300);
            Assert.Equal(StrainingStatus.Stalled, pair.Told(0).Ending);
        }
    }

    /// <summary>By depth, with the pause after it and the look at its end; and at set times, with the gate moved at others.</summary>
    [Fact]
    public void Scrapes_and_what_is_due_at_set_times()
    {
        int stops = 0;
        foreach (LanePair pair in Pairs())
        {
            pair.Put(0.8, 0.8, 0, s_warm, 0.5);
            if (!double.IsInfinity(pair.Parameters(0).ScrapeDepthM))
            {
                pair.Happen(ScrapeDepth, 10);
                pair.Compare(11);
            }

            for (int i = 0; i < 12; i++)
            {
                pair.Put(0.8 - (0.02 * i), i % 3 == 0 ? 0.05 : 0.9, 0, s_warm, i % 2 == 0 ? 0.6 : 0.995);
                if (pair.Stop() == 0)
                    break;
                stops++;
                pair.Put(0.5, 0.6, 0, s_warm, 0.7);
                pair.Compare(5000 + i);
            }

            pair.Put(0.4, 0.4, 0, s_warm, 0.6);
            pair.Finish(20000);
        }

        Assert.True(stops > 100, $"only {stops} stops");
    }

    /// <summary>A corner of the equations changes nothing but that the steps begin anew.</summary>
    [Fact]
    public void Corners_change_nothing()
    {
        foreach (LanePair pair in Pairs())
        {
            pair.Put(0.7, 0.5, 0, s_warm, 0.9);
            pair.Happen(BackUp, 50);
            Look(pair, 51);
        }
    }

    /// <summary>Nothing is left of a run in the lane that takes the next.</summary>
    [Fact]
    public void A_lane_that_has_seen_everything_begins_anew()
    {
        foreach (LanePair pair in Pairs().Concat(Ridden()))
        {
            pair.Put(0.5, 0.9, 0, s_warm, 0.1);
            pair.Happen(ClothTurns, 3);
            pair.Happen(ClothTurns, 4);
            if (!double.IsInfinity(pair.Parameters(0).ScrapeDepthM))
                pair.Happen(ScrapeDepth, 5);
            pair.Stop();
            pair.Put(0.5, 1, 0, s_warm, 0.02);
            pair.Happen(RimReached, 6, PondMode.Free);
            pair.Happen(AtHeel, 7);
            pair.Happen(ReceiverFull, 8);
            pair.Finish(10);

            pair.BeginAnew();
            uint alive = pair.Alive;
            Look(pair, 0);
            Look(pair, 50);
            pair.Put(1, 0, 0, default, 1);
            pair.Finish(60, first: false);
            for (int lane = 0; lane < 2; lane++)
            {
                Assert.Equal(0, pair.Told(2 + lane).PeakPondShare);
                Assert.False(pair.Told(2 + lane).RanOver);
                Assert.Equal((alive >> lane & 1) != 0 ? StrainingStatus.TimeLimit : StrainingStatus.Stalled, pair.Told(2 + lane).Ending);
            }
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_receiver_that_is_full_at_the_start(bool shut)
    {
        // Among them some whose capacity does not come back to the bit when it is weighed and divided by the density again.
        for (int seed = 1; seed <= 30; seed++)
        {
            StrainingSetup setup = Any(seed);
            var pair = new LanePair(setup with { Receiver = setup.Receiver with { AlreadyIn = setup.Receiver.Shape.Capacity, ShutWhenFull = shut } }, $"full seed {seed}");
            Assert.True(!shut || (pair.Alive & 1) == 0);
            Look(pair, 10);
            pair.Finish(20);
            Assert.Equal(0, pair.Told(0).ReceiverFullSeconds);
        }
    }

    /// <summary>1000, as docs/guides/model.md says (engineering choice): then nobody scrapes by depth any more.</summary>
    [Fact]
    public void The_thousandth_scrape_is_the_last_that_the_depth_asks_for()
    {
        StrainingSetup setup = Any(3) with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(1), Recovery = 0.1 } };
        var pair = new LanePair(setup, "scraped");
        for (int i = 0; i < StrainingParameters.MostScrapesByDepth; i++)
        {
            pair.Put(0.8, 0.8, 0, s_warm, 0.5);
            pair.Happen(ScrapeDepth, i);
        }

        pair.Compare(1000);
        pair.Finish(1100);
        Assert.Equal(1000, pair.Told(0).Scrapes);
    }
}
