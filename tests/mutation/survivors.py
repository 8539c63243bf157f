"""Reads a report of mutation testing: prints the score of a folder, and writes what no test noticed to a file. FOLDER is as in FlowSim/Gates. usage: survivors.py FOLDER REPORT.json SURVIVORS.md
"""
import datetime
import json
import os
import sys

folder, report, target = sys.argv[1:]
with open(report, encoding="utf-8") as file:
    files = json.load(file)["files"]

counts: dict[str, int] = {}
lines: list[str] = []
for path in sorted(path for path in files if f"src/{folder}/" in path.replace("\\", "/")):
    source = files[path]["source"].splitlines()
    left = []
    for mutant in files[path]["mutants"]:
        status = mutant["status"]
        counts[status] = counts.get(status, 0) + 1
        if status in ("Survived", "NoCoverage"):
            line = mutant["location"]["start"]["line"]
            was = source[line - 1].strip()
            now = " ".join(mutant.get("replacement", "").split())
            left.append((line, f"- {line}{' (no test comes here)' if status == 'NoCoverage' else ''}, {mutant['mutatorName']}: `{was}` → `{now}`"))
    if left:
        lines.append(f"\n## {os.path.basename(path)}\n")
        lines.extend(text for _, text in sorted(left))

noticed = counts.get("Killed", 0) + counts.get("Timeout", 0)
missed = counts.get("Survived", 0) + counts.get("NoCoverage", 0)
if noticed + missed == 0:
    sys.exit(f"{folder}: no change was tried")
score = (f"{folder}: {noticed} of {noticed + missed} changes noticed, {100 * noticed / (noticed + missed):.1f} % "
         f"({counts.get('Timeout', 0)} by running on), {counts.get('NoCoverage', 0)} where no test comes, {datetime.date.today()}")
with open(target, "w", encoding="utf-8") as file:
    file.write(f"# {score}\n" + "\n".join(lines) + "\n")
print(score)
