"""Lines and branches that tests reach, folder by folder, from a Cobertura report. usage: by_folder.py Cobertura.xml"""
import re
import sys
import xml.etree.ElementTree as ET

# Per file and line: whether it was reached, and how many of its branches were.
lines: dict[tuple[str, int], tuple[bool, int, int]] = {}
for one in ET.parse(sys.argv[1]).getroot().iter("class"):
    name = one.get("filename", "").replace("\\", "/")
    # From the folder of the library on; what comes before depends on where it was built.
    place = re.search(r"(?:^|/src/)(FlowSim[^/]*(?:/[^/]+)*)/[^/]+$", name.removeprefix("src/"))
    if place is None or "/obj/" in name:
        continue
    for line in one.iter("line"):
        taken, ways = map(int, re.search(r"\((\d+)/(\d+)\)", line.get("condition-coverage", "(0/0)")).groups())
        key = (place.group(1) + "/" + name.rsplit("/", 1)[1], int(line.get("number")))
        before = lines.get(key, (False, 0, 0))
        lines[key] = (before[0] or int(line.get("hits")) > 0, max(before[1], taken), max(before[2], ways))
if not lines:
    sys.exit("the report holds no line of src")

folders: dict[str, list[int]] = {}
for (name, _), (reached, taken, ways) in lines.items():
    for folder in (name.rsplit("/", 1)[0], "all"):
        counts = folders.setdefault(folder, [0, 0, 0, 0])
        for i, more in enumerate((reached, 1, taken, ways)):
            counts[i] += more
print("| folder | lines | branches |\n|---|---|---|")
for folder, (reached, count, taken, ways) in sorted(folders.items(), key=lambda item: (item[0] == "all", item[0])):
    print(f"| {folder} | {100 * reached / count:.1f} % of {count} | {f'{100 * taken / ways:.1f} % of {ways}' if ways else 'none'} |")
