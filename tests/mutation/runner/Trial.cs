using System.Globalization;
using System.Text.Json;

namespace FlowSim.Mutation;

/// <summary>Tries changes on the tests that come to them, some at a time.</summary>
internal sealed class Trial
{
    private sealed record Result(int Id, string Status, string? By);

    private readonly Lock _lock = new();
    private readonly string[] _worker;
    private readonly Coverage _coverage;
    private readonly double _seconds;
    private readonly StreamWriter _results;
    private readonly Queue<Change> _queue;
    private readonly ILookup<int, int> _testsOf;
    private readonly HashSet<int> _atStart;
    private readonly ILookup<string, int> _changesOf;
    private readonly Dictionary<string, int> _places;
    private readonly Dictionary<(string File, int Test), int> _noticed = [];
    private readonly int _count;
    private int _done;

    private Trial(IEnumerable<string> worker, Coverage coverage, double seconds, StreamWriter results, Change[] changes)
    {
        _worker = [.. worker];
        _coverage = coverage;
        _seconds = seconds;
        _results = results;
        _queue = new Queue<Change>(changes);
        _count = changes.Length;
        _testsOf = coverage.Tests.SelectMany((test, place) => test.Changes.Select(id => (id, place))).ToLookup(of => of.id, of => of.place);
        _atStart = [.. coverage.AtStart];
        _changesOf = changes.ToLookup(change => change.File, change => change.Id, StringComparer.Ordinal);
        _places = coverage.Tests.Select((test, place) => (test.Name, place)).ToDictionary(of => of.Name, of => of.place, StringComparer.Ordinal);
    }

    /// <summary>Tries all changes that have no result yet and adds what came of them to the results.</summary>
    /// <param name="worker">How a worker is called.</param>
    /// <param name="coverage">Which tests come to them.</param>
    /// <param name="seconds">A change is tried on so many seconds of tests, the quick ones first.</param>
    /// <param name="lanes">So many at a time.</param>
    /// <param name="changes">The changes.</param>
    /// <param name="file">The results, a line each.</param>
    public static void Run(IEnumerable<string> worker, Coverage coverage, double seconds, int lanes, IEnumerable<Change> changes, string file)
    {
        HashSet<int> known = File.Exists(file) ? [.. File.ReadLines(file).Select(line => JsonSerializer.Deserialize<Result>(line)!.Id)] : [];
        using var results = new StreamWriter(file, append: true) { AutoFlush = true };
        var trial = new Trial(worker, coverage, seconds, results, [.. changes.Where(change => change.IsTried && !known.Contains(change.Id))]);
        Thread[] threads = [.. Enumerable.Range(0, lanes).Select(_ => new Thread(trial.Lane))];
        foreach (Thread thread in threads)
            thread.Start();
        foreach (Thread thread in threads)
            thread.Join();
    }

    private void Lane()
    {
        WorkerProcess? worker = null;
        while (Next() is { } change)
        {
            Verdict verdict = _testsOf.Contains(change.Id) || _atStart.Contains(change.Id) ? Verdict.NotNoticed : Verdict.NotReached;
            if (_testsOf.Contains(change.Id))
            {
                worker ??= new WorkerProcess(_worker, Switches.None);
                if (!worker.Started)
                    throw new InvalidOperationException("A process that has no change on does not get as far as to try one.");
                verdict = worker.Try(change.Id, InOrder(change, _testsOf[change.Id]));
                if (verdict.WorkerIsLost)
                {
                    worker.Dispose();
                    worker = null;
                }
            }

            // In what a process makes once: a process of its own, and all tests of whatever else is in that file.
            if (_atStart.Contains(change.Id) && !verdict.IsNoticed)
            {
                using var own = new WorkerProcess(_worker, change.Id);
                int[] near = [.. _changesOf[change.File].SelectMany(id => _testsOf[id]).Distinct()];
                verdict = own.Started ? own.Try(change.Id, InOrder(change, near.Length > 0 ? near : Enumerable.Range(0, _coverage.Tests.Length))) : Verdict.Ended;
            }

            Note(change, verdict);
        }

        worker?.Dispose();
    }

    private Change? Next()
    {
        lock (_lock)
            return _queue.TryDequeue(out Change? change) ? change : null;
    }

    /// <summary>First the tests that are quick and come to little else, and those that have noticed something in that file.</summary>
    private int[] InOrder(Change change, IEnumerable<int> tests)
    {
        lock (_lock)
        {
            double spent = 0;
            return
            [
                .. tests.Where(test => _coverage.Tests[test].Seconds <= _seconds)
                    .OrderBy(test => _coverage.Tests[test].Seconds * _coverage.Tests[test].Changes.Length / (1 + (3 * _noticed.GetValueOrDefault((change.File, test)))))
                    .TakeWhile(test => (spent += _coverage.Tests[test].Seconds) <= _seconds),
            ];
        }
    }

    private void Note(Change change, Verdict verdict)
    {
        lock (_lock)
        {
            _results.WriteLine(JsonSerializer.Serialize(new Result(change.Id, verdict.Status, verdict.By)));
            if (verdict.By is { } by && _places.TryGetValue(by, out int test))
                _noticed[(change.File, test)] = _noticed.GetValueOrDefault((change.File, test)) + 1;
            if (++_done % 500 == 0 || _done == _count)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{_done} of {_count} changes tried"));
        }
    }
}
