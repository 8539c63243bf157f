"""Calls flowsim from Python through ctypes: every command against the console, texts in place of files, refusals, the time limit, signals.

usage: border.py LIBRARY CONSOLE README     CONSOLE is FlowSim.Console.dll, README the file whose table of readings is fitted
Prints what fails and, last, `N passed, N failed`. Needs nothing beside Python 3.8.
"""

import concurrent.futures
import ctypes
import json
import os
import re
import signal
import subprocess
import sys
import tempfile
import time

LIBRARY, CONSOLE, README = sys.argv[1:4]
passed = failed = 0


def check(holds, what):
    global passed, failed
    if holds:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def signals(kind):
    """Numbers of the signals that this process catches (SigCgt) or ignores (SigIgn)."""
    mask = int(re.search(rf"^{kind}:\s*([0-9a-f]+)", open("/proc/self/status").read(), re.M).group(1), 16)
    return {number for number in range(1, 65) if mask >> (number - 1) & 1}


before = {kind: signals(kind) for kind in ("SigCgt", "SigIgn")}
library = ctypes.CDLL(LIBRARY)
library.flowsim_version.restype = ctypes.c_char_p
library.flowsim_answer.argtypes = [ctypes.c_char_p, ctypes.c_size_t, ctypes.POINTER(ctypes.c_void_p), ctypes.POINTER(ctypes.c_size_t)]
library.flowsim_free.argtypes = [ctypes.c_void_p]
library.flowsim_free.restype = None


def raw(request):
    """Status and reply as bytes."""
    reply, length = ctypes.c_void_p(), ctypes.c_size_t()
    status = library.flowsim_answer(request, len(request), ctypes.byref(reply), ctypes.byref(length))
    try:
        return status, ctypes.string_at(reply, length.value) if reply.value else None
    finally:
        library.flowsim_free(reply)


def ask(command, *arguments, files=None, **more):
    request = {"contract": 1, "command": command, "arguments": list(arguments), "files": files or {}, **more}
    status, reply = raw(json.dumps(request).encode())
    check(status == 0, f"{command} {arguments}: status {status}, {reply}")
    return reply


folder = tempfile.TemporaryDirectory()


def console(*arguments):
    return subprocess.run(["dotnet", CONSOLE, *arguments], cwd=folder.name, capture_output=True)


console("new", "run.toml")
console("new", "--day", "day.toml")
files = {name: open(os.path.join(folder.name, name), encoding="utf-8").read() for name in ("run.toml", "day.toml")}
files["pail.csv"] = re.search(r"```csv\n(.*?)```", open(README, encoding="utf-8").read(), re.S).group(1)
files["bad.toml"] = "[gate]\nbore = \"1 parsec\"\nopenig = 3\n"
for name in ("pail.csv", "bad.toml"):
    open(os.path.join(folder.name, name), "w", encoding="utf-8").write(files[name])

# Everything that answers in JSON: what the console prints, byte for byte, with the same exit code and the same words beside it.
COMMANDS = [
    ["strain", "run.toml"],
    ["strain", "run.toml", "--set", "honey.temperature=95 F", "--set", "debris.load=0.3 g/kg x/ 3"],
    ["strain", "--set", "gate.opening=80 %", "--fail-on-overflow"],
    ["strain", "run.toml", "--scan", "gate.opening=10%..60%:4"],
    ["settle", "run.toml", "--set", "settling.for=48h"],
    ["warm", "run.toml"],
    ["setpoint", "run.toml", "--ceiling", "45 °C"],
    ["risk", "run.toml", "--runs", "512", "--seed", "7"],
    ["fill", "run.toml"],
    ["yield", "run.toml"],
    ["shelf", "run.toml", "--set", "shelf.glucose=33 %"],
    ["honey", "--table"],
    ["measure", "ball", "--ball", "3 mm", "--jar", "50 mm", "--distance", "100 mm", "--time", "10.9 s", "--temperature", "35 °C", "--moisture", "17.8%"],
    ["measure", "jar", "--net-weight", "5 kg", "--time", "35 s", "--level", "298 mm", "--opening", "20%", "--temperature", "35 °C", "--batch", "run.toml"],
    ["fit", "pail.csv", "--batch", "run.toml", "--no-sampler"],
    ["watch", "run.toml", "--log", "pail.csv", "--at", "3 min"],
    ["plan", "day.toml"],
    ["strain", "bad.toml"],
    ["strain", "missing.toml"],
    ["strain", "--nonsense"],
    ["nonsense"],
]


def compare(arguments):
    words = 2 if arguments[0] == "measure" else 1
    seen = console(*arguments, "--json")
    reply = ask(" ".join(arguments[:words]), *arguments[words:], files=files)
    answer = reply[reply.index(b',"answer":') + len(b',"answer":'):-1]
    said = json.loads(reply)
    name = " ".join(arguments)
    # The day of a fit is that of the machine here and of UTC there; run around midnight they may differ.
    check(answer == (seen.stdout.rstrip(b"\n") or b"null"), f"{name}: the same bytes")
    check(said["exitCode"] == seen.returncode, f"{name}: exit code {said['exitCode']}, not {seen.returncode}")
    check((said["answer"] is None) == (seen.stdout == b""), f"{name}: an answer or none")
    if "missing.toml" not in name:
        check(said["messages"] == [line for line in seen.stderr.decode().split("\n") if line], f"{name}: the same messages")
    return said


with concurrent.futures.ThreadPoolExecutor(2) as pool:
    said = dict(zip((" ".join(arguments) for arguments in COMMANDS), pool.map(compare, COMMANDS)))

bad = said["strain bad.toml"]["problems"]
check(all(p["source"] == "bad.toml" and p["line"] > 0 and p["column"] > 0 and p["what"] for p in bad), f"problems say where and what: {bad}")
check([p["column"] for p in bad if p["line"] == 2 and "parsec" in p["what"]] == [11] and [p["column"] for p in bad if p["line"] == 3 and "opening" in p["what"]] == [1], f"the right place: {bad}")
check(said["strain missing.toml"]["exitCode"] == 3, "a text that is not given is a file that is not there")
check(said["nonsense"]["problems"][0]["source"] == "arguments", "wrong usage is a problem of the arguments")
check(json.loads(ask("strain", form="text"))["text"].endswith("\n"), "text for people")
check("barrel" in json.loads(ask("kit", form="text"))["text"] or "pail" in json.loads(ask("kit", form="text"))["text"], "what has no JSON answers as text")

# What needs a disk, a terminal or a pen.
for arguments, code in [
    (["strain", "--csv", "run.csv"], 3),
    (["strain", "--plot", "run.svg"], 2),
    (["strain", "--report", "run.html"], 2),
    (["honey", "--plot", "v.svg"], 2),
    (["fit", "pail.csv", "--batch", "run.toml", "--no-sampler", "--save"], 3),
    (["watch", "run.toml", "--log", "pail.csv"], 3),
    (["watch", "run.toml", "--log", "new.csv"], 3),
]:
    begun = time.perf_counter()
    reply = json.loads(ask(*arguments, files=files))
    check(reply["exitCode"] == code and reply["answer"] is None and "here" in " ".join(reply["messages"]), f"{arguments}: refused with {code}: {reply}")
reply = json.loads(ask("new", "mine.toml", form="text"))
check(reply["exitCode"] == 3 and "no files are written here" in reply["messages"][0], f"new: {reply}")
check(sorted(os.listdir(folder.name)) == sorted(files), "nothing was written")

# The limit.
reply = json.loads(ask("risk", "--runs", "10000000", seconds=0.3))
check(reply["exitCode"] == 130 and reply["answer"] is None, f"ten million runs in 0.3 s: {reply['exitCode']}")
for arguments in (["strain", "--set", "run.points=1000000000"], ["risk", "--runs", "1e15"], ["strain", "--scan", "gate.opening=1%..99%:1000000"], ["warm", "--set", "run.points=1000000000"]):
    reply = json.loads(ask(*arguments, seconds=20))
    check(reply["exitCode"] == 2 and reply["problems"], f"{arguments}: refused, with what is allowed: {reply}")

# Requests that are none say why.
for request, status in [
    (b'{"contract":1,"command":"strain","x":1}', 5), (b'{"contract":1,"command":7}', 5), (b'{"contract":1}', 5), (b'{"contract":1,"command":" "}', 5),
    (b'{"contract":1,"command":"strain","seconds":0}', 5), (b'{"contract":1,"command":"strain","seconds":1e9}', 5), (b'{"contract":1,"command":"strain","form":"xml"}', 5),
    (b'{"contract":1,"command":"strain","arguments":[1]}', 5), (b'{"contract":1,"command":"strain","files":{"a":1}}', 5), (b'{"contract":1,"command":"strain","files":{"a":{"b":{}}}}', 4),
    (b'{"contract":1,"command":"strain","arguments":' + json.dumps(["x"] * 1001).encode() + b"}", 5), (b"nonsense", 4),
]:
    given, reply = raw(request)
    check(given == status and json.loads(reply)["exitCode"] is None and json.loads(reply)["problems"][0]["what"], f"{request[:80]}: status {given}, {reply}")

# Signals: none that a program uses is taken, and none is ignored that was not.
taken = signals("SigCgt") - before["SigCgt"]
print("signals that are caught now and were not before:", *(signal.Signals(n).name if n in set(signal.Signals) else n for n in sorted(taken)))
check(not taken & {signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGCHLD, signal.SIGALRM, signal.SIGUSR1, signal.SIGUSR2, signal.SIGWINCH, signal.SIGPIPE}, "signals of the program stay its own")
check(signals("SigIgn") == before["SigIgn"], "no signal is ignored that was not before")
caught = []
signal.signal(signal.SIGUSR1, lambda *_: caught.append(1))
signal.setitimer(signal.ITIMER_REAL, 0)
os.kill(os.getpid(), signal.SIGUSR1)
ask("strain")
check(caught == [1], "a handler of the program still runs")

print(f"{passed} passed, {failed} failed")
sys.exit(failed > 0)
