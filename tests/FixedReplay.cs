using FsCheck.Xunit;

// Every run of the tests draws the same random cases, so that a change is judged by itself and not by luck. New cases:
// dotnet test FlowSim.sln -p:Explore=true
[assembly: Properties(Replay = "(15977798889180572859,9046270446798308047)")]
