#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Reads the symbols of all objects below BUILD/src. What other files can call is named after its folder (heatup_...),
or fv_... where a public header declares it; in a folder inside a floor the inner name serves as well (study/size:
size_...). Within a folder, files that call each other in a circle are counted: no circle may be larger than its row
allows, and a row larger than the circle that is there is an error too, so that the table only shrinks. No name stands
twice: an archive would take either without a word."""
import glob
import os
import re
import subprocess
import sys

BUILD = sys.argv[1] if len(sys.argv) > 1 else "build"
# Files in the largest circle of a folder; 1 where a folder is not named.
CIRCLES = {
    "model": 2,
}


def symbols(path):
    defined, used = set(), set()
    for line in subprocess.run(["nm", "-g", path], check=True, capture_output=True, text=True).stdout.splitlines():
        kind, name = line.split()[-2:]
        (used if kind in "Uw" else defined).add(name)
    return defined, used


def largest_circle(calls):
    """Largest strongly connected component, by reachability: folders are small."""
    reach = {}
    for start in calls:
        seen, todo = set(), [start]
        while todo:
            for other in calls[todo.pop()]:
                if other not in seen:
                    seen.add(other)
                    todo.append(other)
        reach[start] = seen
    return max((sorted({b for b in reach[a] if a in reach[b]} | {a}) for a in calls), key=len)


def main():
    public = set()
    for header in glob.glob("include/farvessel/*.h"):
        with open(header, encoding="utf-8") as text:
            public |= set(re.findall(r"\bfv_\w+", text.read()))
    folders, faults, places = {}, [], {}
    for path in sorted(glob.glob(f"{BUILD}/src/*/*.o") + glob.glob(f"{BUILD}/src/*/*/*.o")):
        source = os.path.relpath(path, BUILD)[:-2] + ".c"
        if not os.path.exists(source):
            continue  # left from a file that has moved
        defined, used = symbols(path)
        folder = os.path.dirname(source)[len("src/"):]
        folders.setdefault(folder, {})[source] = (defined, used)
        prefixes = tuple(part + "_" for part in folder.split("/"))
        for name in sorted(defined):
            if name != "main" and places.setdefault(name, source) != source:
                faults.append(f"{source}: {name} stands in {places[name]} already")
            if name in public or name == "main" or name.startswith(prefixes):
                continue
            faults.append(f"{source}: {name} begins with none of {', '.join(prefixes)} and stands in no public header")
    for folder, files in folders.items():
        calls = {a: {b for b in files if b != a and files[a][1] & files[b][0]} for a in files}
        circle = largest_circle(calls)
        allowed = CIRCLES.get(folder, 1)
        if len(circle) > allowed:
            faults.append(f"src/{folder}: {len(circle)} files call each other in a circle, {allowed} may: "
                          + " ".join(os.path.basename(name) for name in circle))
        elif len(circle) < allowed:
            faults.append(f"tests/lint/symbols.py: the largest circle of src/{folder} has {len(circle)} files now, not {allowed}")
    for fault in faults:
        print(fault)
    if not faults:
        print("symbols: every name is its folder's, and no circle of files has grown")
    return 1 if faults else 0


sys.exit(main())
