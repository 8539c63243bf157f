"""Results of mutation testing. FOLDER is as in FlowSim/Gates, or FlowSim/. for the files that are in no folder; STATE holds report.json and results.jsonl.
usage: results.py forget FOLDER STATE [but-noticed]   takes the results of a folder away, or those that no test noticed
       results.py show FOLDER STATE                   prints the score and writes what no test noticed to a file in STATE
"""
import datetime
import json
import os
import re
import sys

verb, folder, state = sys.argv[1:4]
library, name = folder.split("/", 1)
inside = rf"/src/{re.escape(library)}/" + ("[^/]*$" if name == "." else re.escape(name) + "/")
results = os.path.join(state, "results.jsonl")
with open(os.path.join(state, "report.json"), encoding="utf-8") as file:
    files = {path: found for path, found in json.load(file)["files"].items() if re.search(inside, path.replace("\\", "/"))}
with open(results, encoding="utf-8") as file:
    status = {result["Id"]: result for result in map(json.loads, file)}

if verb == "forget":
    own = {int(change["id"]) for found in files.values() for change in found["mutants"]}
    kept = ("Killed", "Timeout") if sys.argv[4:] else ()
    with open(results, "w", encoding="utf-8") as file:
        file.writelines(json.dumps(result) + "\n" for number, result in status.items() if number not in own or result["Status"] in kept)
    sys.exit()

counts: dict[str, int] = {}
lines: list[str] = []
for path in sorted(files):
    source = files[path]["source"].splitlines()
    left = []
    for change in files[path]["mutants"]:
        if int(change["id"]) not in status:
            continue
        came = status[int(change["id"])]["Status"]
        counts[came] = counts.get(came, 0) + 1
        if came in ("Survived", "NoCoverage"):
            line = change["location"]["start"]["line"]
            now = " ".join(change.get("replacement", "").split())
            left.append((line, f"- {line}{' (no test comes here)' if came == 'NoCoverage' else ''}, {change['mutatorName']}: `{source[line - 1].strip()}` → `{now}`"))
    if left:
        lines.append(f"\n## {os.path.basename(path)}\n")
        lines.extend(text for _, text in sorted(left))

noticed = counts.get("Killed", 0) + counts.get("Timeout", 0)
missed = counts.get("Survived", 0) + counts.get("NoCoverage", 0)
if noticed + missed == 0:
    sys.exit(f"{folder}: no change was tried")
score = (f"{folder}: {noticed} of {noticed + missed} changes noticed, {100 * noticed / (noticed + missed):.1f} % "
         f"({counts.get('Timeout', 0)} by running on), {counts.get('NoCoverage', 0)} where no test comes, {datetime.date.today()}")
with open(os.path.join(state, f"{'files' if name == '.' else name}.md"), "w", encoding="utf-8") as file:
    file.write(f"# {score}\n" + "\n".join(lines) + "\n")
print(score)
