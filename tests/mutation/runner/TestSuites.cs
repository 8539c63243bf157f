using System.Globalization;
using System.Reflection;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace FlowSim.Mutation;

/// <summary>The tests of some assemblies, found once and run in this process as often as asked.</summary>
internal sealed class TestSuites
{
    private readonly List<(string Name, ITestFrameworkExecutor Executor, ITestCase Case)> _all = [];
    private readonly Dictionary<string, int> _places = [];

    /// <summary>Finds the tests.</summary>
    /// <param name="assemblies">Where they are.</param>
    public TestSuites(IEnumerable<Assembly> assemblies)
    {
        foreach (Assembly assembly in assemblies)
        {
            var framework = new XunitTestFramework(new Listener());
            var listener = new Listener();
            framework.GetDiscoverer(Reflector.Wrap(assembly)).Find(false, listener, new Options());
            listener.Finished.Wait();
            ITestFrameworkExecutor executor = framework.GetExecutor(assembly.GetName());
            foreach (ITestCase test in listener.Found.Where(test => test.SkipReason is null))
            {
                string once = NameOf(test), name = once;
                // Rows of a theory whose long values begin alike have one name.
                for (int again = 2; !_places.TryAdd(name, _all.Count); again++)
                    name = string.Create(CultureInfo.InvariantCulture, $"{once} ({again})");
                _all.Add((name, executor, test));
            }
        }
    }

    /// <summary>The tests by their names: class, and what the runner shows.</summary>
    public IEnumerable<string> Names => _all.Select(test => test.Name);

    /// <summary>Runs tests until one fails.</summary>
    /// <param name="names">Which.</param>
    /// <param name="limit">How long they may take.</param>
    /// <returns>The test that failed, if one did, and the work; where this is not done, time was up.</returns>
    public (string? Failed, Task Work) Run(IEnumerable<string> names, TimeSpan limit)
    {
        DateTime until = DateTime.UtcNow + limit;
        Task work = Task.CompletedTask;
        foreach (var suite in names.Select(name => _all[_places[name]]).GroupBy(test => test.Executor, test => test.Case))
        {
            var listener = new Listener();
            ITestCase[] cases = [.. suite];
            work = Task.Factory.StartNew(Suite, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
            TimeSpan left = until - DateTime.UtcNow;
            if (!work.Wait(left > TimeSpan.Zero ? left : TimeSpan.Zero) || listener.Failed is not null)
                return (listener.Failed, work);

            void Suite()
            {
                suite.Key.RunTests(cases, listener, new Options());
                listener.Finished.Wait();
            }
        }

        return (null, work);
    }

    private static string NameOf(ITestCase test) => $"{test.TestMethod.TestClass.Class.Name}: {test.DisplayName}";

    /// <summary>Hears what is found and how it goes; stops a run at the first failure.</summary>
    private sealed class Listener : LongLivedMarshalByRefObject, IMessageSink
    {
        public List<ITestCase> Found { get; } = [];

        public string? Failed { get; private set; }

        public ManualResetEventSlim Finished { get; } = new();

        public bool OnMessage(IMessageSinkMessage message)
        {
            switch (message)
            {
                case ITestCaseDiscoveryMessage found:
                    Found.Add(found.TestCase);
                    break;
                case ITestFailed failed:
                    Failed ??= NameOf(failed.TestCase);
                    break;
                case IFailureInformation:
                    Failed ??= message.GetType().Name;
                    break;
                case IDiscoveryCompleteMessage or ITestAssemblyFinished:
                    Finished.Set();
                    break;
            }

            return Failed is null;
        }
    }

    /// <summary>One test after the other.</summary>
    private sealed class Options : ITestFrameworkDiscoveryOptions, ITestFrameworkExecutionOptions
    {
        private readonly Dictionary<string, object?> _values = new()
        {
            ["xunit.discovery.PreEnumerateTheories"] = true,
            ["xunit.execution.DisableParallelization"] = true,
            ["xunit.execution.SynchronousMessageReporting"] = true,
            ["xunit.execution.MaxParallelThreads"] = 1,
        };

        public TValue GetValue<TValue>(string name) => _values.GetValueOrDefault(name) is TValue value ? value : default!;

        public void SetValue<TValue>(string name, TValue value) => _values[name] = value;
    }
}
