using FlowSim.FieldMeasurements;

namespace FlowSim.Tests.FieldMeasurements;

public class MeasurementRefusedExceptionTests
{
    [Fact]
    public void The_message_says_why_and_what_to_do_instead()
    {
        var refused = new MeasurementRefusedException("Too fast.", "Take a smaller ball.", "Times");
        Assert.Equal("Too fast. Take a smaller ball. (Parameter 'Times')", refused.Message);
        Assert.Equal(("Too fast.", "Take a smaller ball.", "Times"), (refused.Reason, refused.Instead, refused.ParamName));
    }

    [Fact]
    public void Without_advice_the_message_is_the_reason()
    {
        var cause = new FormatException();
        var caused = new MeasurementRefusedException("Too fast.", cause);
        var plain = new MeasurementRefusedException("Too fast.");
        Assert.Same(cause, caused.InnerException);
        Assert.All([caused, plain], refused => Assert.Equal(("Too fast.", "Too fast.", string.Empty), (refused.Message, refused.Reason, refused.Instead)));
        Assert.Equal((string.Empty, string.Empty), (new MeasurementRefusedException().Reason, new MeasurementRefusedException().Instead));
    }
}
