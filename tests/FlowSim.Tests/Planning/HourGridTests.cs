using FlowSim.Planning;

namespace FlowSim.Tests.Planning;

/// <summary>Spans of whole minutes, minute by minute: 10 to 20 and 30 to 45.</summary>
public class HourGridTests
{
    private static HourGrid Two => new([(10, 20), (30, 45)]);
    private static HourGrid Nobody => new([]);

    [Fact]
    public void Spans_are_put_in_order_and_those_that_touch_become_one()
    {
        Assert.Equal([(1, 9), (11, 12)], new HourGrid([(11, 12), (5, 9), (1, 5)]).Spans);
        Assert.Equal([(1, 9)], new HourGrid([(1, 9), (3, 4)]).Spans);
        Assert.Equal([(1, 10)], new HourGrid([(1, 9), (3, 10)]).Spans);
        Assert.Equal([(1, 2), (3, 4)], new HourGrid([(1, 2), (3, 4)]).Spans);
        Assert.Equal([(-9, -5), (-4, 4)], new HourGrid([(-4, 4), (-9, -5)]).Spans);
    }

    [Fact]
    public void A_span_without_a_minute_is_none()
    {
        Assert.Empty(new HourGrid([(5, 5), (9, 8)]).Spans);
        Assert.Equal([(1, 2)], new HourGrid([(5, 5), (1, 2)]).Spans);
    }

    [Fact]
    public void The_longest_span_and_the_last_end()
    {
        Assert.Equal(15, Two.Longest);
        Assert.Equal(45, Two.End);
        Assert.Equal(30, new HourGrid([(10, 40), (50, 51)]).Longest);
        Assert.Equal(51, new HourGrid([(10, 40), (50, 51)]).End);
        Assert.Equal(0, Nobody.Longest);
        Assert.Equal(-HourGrid.Never, Nobody.End);
    }

    [Fact]
    public void What_lies_within_others_is_in_both()
    {
        Assert.Equal([(12, 20), (30, 33), (40, 44)], Two.Within(new HourGrid([(12, 33), (40, 44)])).Spans);
        Assert.Equal([(12, 20), (30, 33), (40, 44)], new HourGrid([(12, 33), (40, 44)]).Within(Two).Spans);
        Assert.Empty(Two.Within(new HourGrid([(20, 30)])).Spans);
        Assert.Empty(Two.Within(Nobody).Spans);
    }

    [Theory]
    [InlineData(0, 10, 10)]
    [InlineData(10, 10, 10)]
    [InlineData(0, 11, 30)]
    [InlineData(11, 10, 30)]
    [InlineData(19, 1, 19)]
    [InlineData(20, 1, 30)]
    [InlineData(20, 15, 30)]
    [InlineData(31, 14, 31)]
    [InlineData(31, 15, HourGrid.Never)]
    [InlineData(44, 1, 44)]
    [InlineData(45, 1, HourGrid.Never)]
    [InlineData(0, 16, HourGrid.Never)]
    public void Work_in_one_piece_begins_where_it_fits(int from, int minutes, int begin) => Assert.Equal(begin, Two.Fit(from, minutes));

    [Theory]
    [InlineData(0, 10)]
    [InlineData(10, 10)]
    [InlineData(19, 19)]
    [InlineData(20, 30)]
    [InlineData(29, 30)]
    [InlineData(44, 44)]
    [InlineData(45, HourGrid.Never)]
    public void Work_that_pauses_begins_when_somebody_is_there(int from, int begin) => Assert.Equal(begin, Two.Begin(from));

    [Theory]
    [InlineData(10, 10, 20)]
    [InlineData(10, 11, 31)]
    [InlineData(15, 5, 20)]
    [InlineData(15, 6, 31)]
    [InlineData(15, 20, 45)]
    [InlineData(15, 21, HourGrid.Never)]
    [InlineData(0, 25, 45)]
    [InlineData(0, 26, HourGrid.Never)]
    [InlineData(20, 15, 45)]
    [InlineData(40, 5, 45)]
    [InlineData(40, 6, HourGrid.Never)]
    public void Work_that_pauses_ends_when_its_minutes_are_had(int begin, int minutes, int end) => Assert.Equal(end, Two.EndOf(begin, minutes));

    [Fact]
    public void Pieces_are_what_of_a_time_lies_in_spans()
    {
        Assert.Equal([(12, 20), (30, 40)], Two.Pieces(12, 40));
        Assert.Equal([(12, 13)], Two.Pieces(12, 13));
        Assert.Equal([(30, 31)], Two.Pieces(20, 31));
        Assert.Equal([(19, 20)], Two.Pieces(19, 30));
        Assert.Empty(Two.Pieces(20, 30));
        Assert.Equal([(10, 20), (30, 45)], Two.Pieces(0, 100));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(10, 0)]
    [InlineData(11, 1)]
    [InlineData(20, 10)]
    [InlineData(25, 10)]
    [InlineData(30, 10)]
    [InlineData(31, 11)]
    [InlineData(45, 25)]
    [InlineData(HourGrid.Never, 25)]
    public void Minutes_before_a_moment_are_counted(int moment, int minutes) => Assert.Equal(minutes, Two.Before(moment));

    [Theory]
    [InlineData(9, -HourGrid.Never)]
    [InlineData(10, 10)]
    [InlineData(15, 15)]
    [InlineData(20, 20)]
    [InlineData(29, 20)]
    [InlineData(30, 30)]
    [InlineData(45, 45)]
    [InlineData(99, 45)]
    public void The_last_moment_with_somebody_there_has_the_ends_in_it(int moment, int last) => Assert.Equal(last, Two.LastUpTo(moment));

    [Theory]
    [InlineData(-5, 10)]
    [InlineData(10, 10)]
    [InlineData(20, 20)]
    [InlineData(21, 30)]
    [InlineData(30, 30)]
    [InlineData(45, 45)]
    [InlineData(46, HourGrid.Never)]
    public void The_first_moment_with_somebody_there_has_the_ends_in_it(int moment, int first) => Assert.Equal(first, Two.FirstFrom(moment));

    [Theory]
    [InlineData(9, 9)]
    [InlineData(10, 20)]
    [InlineData(20, 20)]
    [InlineData(21, 21)]
    [InlineData(30, 45)]
    [InlineData(45, 45)]
    [InlineData(46, 46)]
    public void The_end_of_a_span_is_that_of_the_one_a_moment_lies_in(int moment, int end) => Assert.Equal(end, Two.EndOfSpan(moment));

    [Fact]
    public void With_nobody_there_nothing_ever_begins()
    {
        Assert.Equal(HourGrid.Never, Nobody.Fit(0, 1));
        Assert.Equal(HourGrid.Never, Nobody.Begin(0));
        Assert.Equal(HourGrid.Never, Nobody.EndOf(0, 1));
        Assert.Equal(HourGrid.Never, Nobody.FirstFrom(0));
        Assert.Equal(-HourGrid.Never, Nobody.LastUpTo(0));
        Assert.Equal(0, Nobody.Before(HourGrid.Never));
        Assert.Empty(Nobody.Pieces(0, 10));
    }
}
