using FlowSim.Properties;

namespace FlowSim.Tests.Properties;

public class HoneyRefusedExceptionTests
{
    [Fact]
    public void The_message_says_why_and_what_to_measure()
    {
        var refused = new HoneyRefusedException("It sets.", "Measure it.", "honey");
        Assert.Equal("It sets. Measure it. (Parameter 'honey')", refused.Message);
        Assert.Equal(("It sets.", "Measure it.", "honey"), (refused.Reason, refused.WhatToMeasure, refused.ParamName));
    }

    [Fact]
    public void Without_a_measurement_the_message_is_the_reason()
    {
        var cause = new FormatException();
        var caused = new HoneyRefusedException("It sets.", cause);
        Assert.Same(cause, caused.InnerException);
        Assert.All([caused, new HoneyRefusedException("It sets.")], refused => Assert.Equal(("It sets.", "It sets.", string.Empty), (refused.Message, refused.Reason, refused.WhatToMeasure)));
        Assert.Equal((string.Empty, string.Empty), (new HoneyRefusedException().Reason, new HoneyRefusedException().WhatToMeasure));
    }
}
