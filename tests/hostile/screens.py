# SPDX-License-Identifier: MIT
"""Types every code point below U+00A0, the bidirectional ones and the separators of lines into every text that can be
typed: arguments, file names, and every attribute of every element. Whatever comes of it, on standard output and on
standard error, holds no control character, no such code point, and no more lines than with a plain letter."""
import json
import os
import re
import subprocess
import sys

program, root, work = sys.argv[1:4]
CODES = [c for c in range(1, 0xA0)] + [0x061C, 0x200E, 0x200F, *range(0x2028, 0x202F), *range(0x2066, 0x206A)]
FORBIDDEN = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")
plant = os.path.join(root, "networks", "hand.xml")
faults, runs = 0, 0


def fault(what):
    global faults
    faults += 1
    if faults <= 20:
        print("not safe:", what)


def ask(arguments, **more):
    """All that the program says, as lines of text."""
    global runs
    runs += 1
    arguments = [a.encode() if isinstance(a, str) else a for a in arguments]
    done = subprocess.run([program, *arguments], capture_output=True, stdin=subprocess.DEVNULL, timeout=60, **more)
    if done.returncode not in (0, 2, 3, 4):
        fault(f"{arguments} ends with {done.returncode}")
    try:
        text = done.stdout.decode() + "\x0a--\x0a" + done.stderr.decode()
    except UnicodeDecodeError as error:
        fault(f"{arguments} gives what is no UTF-8: {error}")
        return []
    found = FORBIDDEN.search(text)
    if found:
        fault(f"{arguments} gives U+{ord(found.group()):04X}: {text[max(0, found.start() - 40):found.end() + 20]!r}")
    return text.split("\n")


# ---- arguments: what is asked with a plain letter in the place of '@' must have as many lines with any other ----
ARGUMENTS = [["@"], ["x@y"], ["help", "@"], ["flow", "--@", plant], ["flow", "-@", plant], ["flow", plant, "second@"],
             ["flow", plant, "--format", "@"], ["flow", plant, "--fire", "@"], ["check", plant, "--set", "x@y"],
             ["check", plant, "--set", "x@y.bore=1 m"], ["check", plant, "--set", "s1.x@y=1 m"],
             ["check", plant, "--set", "s1.bore=@"], ["check", plant, "--set", "near.at=x@y"], ["why", plant, "--vessel", "x@y"],
             ["heat", plant, "--start", "6@"], ["heat", plant, "--until", "6@"], ["report", plant, "--date", "2031@"],
             ["size", plant, "--vary", "x@y"], ["size", plant, "--spread", "@"], ["carry", plant, "--like", "x@y"],
             ["carry", plant, "--at", "x@y"], ["sweep", plant, "--vary", "x@y"], ["sweep", plant, "--vary", "s1.bore=x@y"],
             ["check", "missing@.xml"], ["check", plant, "-o", "missing/x@"], ["check", plant, "--save", "missing/x@"]]
unprintable = "".join(chr(c) for c in CODES if not chr(c).isprintable())
# Some six in one argument, for a command line each takes long: far ones together, and in both orders, so that where a
# message stops at the first it has met others of their kind.
GROUPS = [unprintable[at::-(-len(unprintable) // 6)] for at in range(-(-len(unprintable) // 6))]
for question in ARGUMENTS:
    plain = len(ask([a.replace("@", "z" * 6) for a in question]))
    for typed in GROUPS + [group[::-1] for group in GROUPS]:
        lines = len(ask([a.replace("@", typed) for a in question], cwd=work))
        if lines > plain:
            fault(f"{question} with {typed!a} makes {lines} lines instead of {plain}")
    # What can be printed may mean something ('-', '=', a letter of an option), so that lines are not counted.
    printable = "".join(chr(c) for c in CODES if chr(c).isprintable())
    for part in (printable, printable[::-1], printable[15:40]):
        ask([a.replace("@", part) for a in question], cwd=work)

# ---- file names ----
text = open(plant, encoding="utf-8").read()
verbs = [["check"], ["flow"], ["check", "--format", "json"], ["why", "--no-remedies"], ["size", "--vary", "holes"],
         ["report", "--no-run"], ["report", "--no-run", "--format", "md"], ["report", "--only", "drawing"]]
nasty = "".join(chr(c) for c in CODES if chr(c) != "/")
for name in [nasty[i:i + 80] for i in range(0, len(nasty), 80)]:
    path = os.path.join(work, "n" + name + ".xml")
    with open(path, "w", encoding="utf-8") as f:
        f.write(text)
    for verb in verbs:
        ask([*verb, path])
    ask(["check", path, "--set", "x=1"])
    ask(["check", path, "--set", "far.nothing=1"])
latin = os.path.join(work, "pl").encode() + b"\xe4\x9b[31m.xml"
with open(latin, "w", encoding="utf-8") as f:
    f.write(text)
for verb in verbs:
    ask([*verb, latin])

# ---- texts of a plant that is right: title, currency ----
legal = [c for c in CODES if c in (9, 10, 13) or c >= 0x20]
references = "".join(f"&#{c};" for c in legal)
path = os.path.join(work, "title.xml")
with open(path, "w", encoding="utf-8") as f:
    f.write(re.sub('title="[^"]*"', f'title="T{references}"', text).replace(
        "<boiler ", f'<stock currency="&#27;C{references}"><hose bore="25 mm" price="3"/></stock>\n<boiler '.replace(
            "&#27;", ""), 1))
for verb in [*verbs, ["heat"], ["why"], ["size"], ["carry", "--more", "0"], ["flow", "--format", "json"],
             ["flow", "--format", "csv"], ["heat", "--format", "json"], ["heat", "--format", "csv"], ["report"]]:
    ask([*verb, path])

# ---- every attribute of every element, and the elements' names, in one file for each code point ----
listed = subprocess.run([program, "check", "--list", "attributes", "--format", "json"], capture_output=True, check=True)
rows = json.loads(listed.stdout)["attributes"]
elements = {}
for row in rows:
    elements.setdefault(row["element"], []).append(row["attribute"])


def element(name, value):
    own = name.split("/")[-1]
    attributes = "".join(f' {a}="{value}"' for a in elements.get(name, [])) + f' known="{value}"'
    return own, attributes


def everything(value):
    inside = {"site": ["weather"], "stock": [e for e in elements if e.startswith("stock/")], "coil": ["hole"],
              "wall": ["layer"], "header": ["fitting", "barb", "union", "valve", "loss"],
              "vessel": ["coil", "load", "shell", "wall", "vent", "drain", "gap"]}

    def write(name):
        own, attributes = element(name, value)
        return f"<{own}{attributes}>\n" + "".join(write(child) for child in inside.get(name, [])) + f"</{own}>\n"

    top = ["site", "stock", "boiler", "header", "pipe", "hose", "tee", "drip", "kind", "vessel", "action"]
    title = f' title="{value}"'
    return ('<network xmlns="urn:farvessel:network:1"' + title + ">\n" + "".join(write(name) for name in top) +
            "<strange" + title + "/>" + value + "</network>\n")


def lines_of(value):
    path = os.path.join(work, "all.xml")
    with open(path, "w", encoding="utf-8", newline="") as f:
        f.write(everything(value))
    return len(ask(["check", path]))


plain = lines_of("xzy")
if plain < 100:
    fault(f"only {plain} faults of all attributes")
for code in CODES:
    if code in legal:
        lines = lines_of(f"x&#{code};y")
        if not chr(code).isprintable() and lines > plain + 200: # an id refused makes others unknown
            fault(f"U+{code:04X} in all attributes makes {lines} lines instead of {plain}")
    if not chr(code).isprintable():
        lines_of(f"x{chr(code)}y")
print(f"{runs} runs, {faults} faults")
sys.exit(faults > 0)
