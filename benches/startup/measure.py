"""Runs programs one after the other, again and again, and prints how long each takes. usage: measure.py REPETITIONS PROGRAM"""

import os
import platform
import statistics
import sys
import time

repetitions, program = int(sys.argv[1]), sys.argv[2]
python = "/usr/bin/python3"
commands = {
    "flowsim strain --json": [program, "strain", "--json"],
    "python3, nothing": [python, "-c", ""],
    "python3, import scipy": [python, "-c", "import scipy"],
    "python3, import scipy.integrate": [python, "-c", "import scipy.integrate"],
}
null = os.open(os.devnull, os.O_WRONLY)
wall = {name: [] for name in commands}
processor = {name: [] for name in commands}
for repetition in range(repetitions + 1):
    for name, command in commands.items():
        begun = time.perf_counter()
        child = os.posix_spawn(command[0], command, os.environ, file_actions=[(os.POSIX_SPAWN_DUP2, null, 1)])
        _, status, usage = os.wait4(child, 0)
        elapsed = time.perf_counter() - begun
        if status != 0:
            sys.exit(f"{name} returned {os.waitstatus_to_exitcode(status)}")
        if repetition > 0:  # The first brings files into memory.
            wall[name].append(elapsed)
            processor[name].append(usage.ru_utime + usage.ru_stime)

own = "flowsim strain --json"
print(f"{repetitions} interleaved runs, Python {platform.python_version()}, load {os.getloadavg()[0]:.1f}")
print(f"{'':32}{'time, ms':>10}{'ratio':>8}{'fastest':>10}{'ratio':>8}{'processor':>12}{'ratio':>8}")
for name in commands:
    columns = [(statistics.median(wall[name]), statistics.median(wall[own])), (min(wall[name]), min(wall[own])), (statistics.median(processor[name]), statistics.median(processor[own]))]
    print(f"{name:32}" + "".join(f"{1000 * value:{width}.0f}{value / ours:8.1f}" for (value, ours), width in zip(columns, (10, 10, 12))))
