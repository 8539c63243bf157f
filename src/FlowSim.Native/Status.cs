namespace FlowSim.Native;

/// <summary>What a call returns: <c>flowsim_status</c> of flowsim.h, number by number.</summary>
internal enum Status
{
    Ok = 0,
    Null = 1,
    TooLarge = 2,
    NotUtf8 = 3,
    NotJson = 4,
    BadRequest = 5,
    NoMemory = 6,
    Failed = 7,
}
