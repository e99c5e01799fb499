# SPDX-License-Identifier: MIT
"""Wrong plant files, drawn from a seed: wrong_files.py PROGRAM ROOT WORK COUNT SEED [KIND...]. A kind of wrongness is a
function below; what it is done to is drawn from the schema (`check --list attributes`, network.xsd) and the bundled
plants. Each file must be refused with exit code 2 (0 where the kind may leave it right), a message that begins with the
file and a line of it, the wrong line where that is known, text that is safe on a terminal, and nothing written; within
2 s of processor time and 256 MB (neither under a sanitizer, which needs ten times as much)."""
import json
import os
import random
import re
import resource
import subprocess
import sys
import xml.etree.ElementTree as ET

program, root, work, count, seed = *sys.argv[1:4], int(sys.argv[4]), int(sys.argv[5])
only = sys.argv[6:]
sanitized = "san" in os.path.basename(os.path.dirname(program))
SPACE = "{urn:farvessel:network:1}"
UNSAFE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")
rows = json.loads(subprocess.run([program, "check", "--list", "attributes", "--format", "json"], capture_output=True,
                                 check=True).stdout)["attributes"]
attributes = {(r["element"], r["attribute"]): r for r in rows}
chance = random.Random(seed)


# ---- a plant as lines that know what stands on them ----
class Part:
    def __init__(self, name, given=(), inside=()):
        self.name, self.given, self.inside, self.text, self.tail = name, list(given), list(inside), "", ">"
        self.line = 0

    def walk(self, above=None):
        yield self, above
        for part in self.inside:
            yield from part.walk(self)


def load(path):
    def made(element):
        return Part(element.tag.replace(SPACE, ""), [list(pair) for pair in element.attrib.items()],
                    [made(child) for child in element if isinstance(child.tag, str)])
    return made(ET.parse(path).getroot())


PLANTS = [os.path.join(root, "networks", name) for name in ("mixed.xml", "week-line.xml", "ring.xml", "hand.xml")]
XSD = "{http://www.w3.org/2001/XMLSchema}"
holds = {t.get("name"): {e.get("name"): e.get("type") for e in t.iter(XSD + "element")}
         for t in ET.parse(os.path.join(root, "networks", "network.xsd")).getroot().iter(XSD + "complexType")}


def escaped(value):
    for raw, safe in (("&", "&amp;"), ("<", "&lt;"), ('"', "&quot;"), ("\n", "&#10;"), ("\t", "&#9;"), ("\r", "&#13;")):
        value = value.replace(raw, safe)
    return value


class Raw(bytes):
    """What goes into the file as it is, quotes and all."""


def written(plant):
    """The file's bytes: each tag and each attribute on a line of its own, whose number the part and the pair remember."""
    lines = []

    def add(piece):
        lines.append(piece if isinstance(piece, bytes) else piece.encode("utf-8", "surrogateescape"))

    def write(part):
        add("<" + part.name)
        part.line = sum(line.count(b"\n") + 1 for line in lines)
        if part is plant:
            add('xmlns="urn:farvessel:network:1"')
        for pair in part.given:
            if isinstance(pair[1], Raw):
                add(pair[0].encode() + b"=" + pair[1])
            else:
                add(f'{pair[0]}="{escaped(pair[1])}"')
        add(part.tail)
        if part.text:
            add(part.text)
        for child in part.inside:
            write(child)
        if part.tail == ">":
            add(f"</{part.name}>")
    write(plant)
    return b"\n".join(lines) + b"\n"


def key(part, above):
    return ("stock/" + part.name) if above is not None and above.name == "stock" else part.name


class Case:
    """A plant to be spoilt. `at`: the part that is wrong, where one alone is; `maybe`: it may be right all the same;
    `bytes`: the file, where it is not the plant as written."""

    def __init__(self):
        self.plant, self.maybe, self.at, self.bytes = load(chance.choice(PLANTS)), False, None, None

    def parts(self, *names):
        return [(p, a) for p, a in self.plant.walk() if not names or p.name in names]

    def part(self, *names):
        found = self.parts(*names)
        while not found: # this plant has none of them
            self.plant = load(chance.choice(PLANTS))
            found = self.parts(*names)
        return chance.choice(found)

    def some_attribute(self, wanted):
        """A part and one of the attributes of its element that is `wanted`, drawn from the schema."""
        row = chance.choice([r for r in rows if wanted(r)])
        found = [(p, a) for p, a in self.plant.walk() if key(p, a) == row["element"]]
        if not found:
            for path in PLANTS:
                self.plant = load(path)
                found += [(p, a) for p, a in self.plant.walk() if key(p, a) == row["element"]]
                if found:
                    break
        if not found: # no bundled plant has it: put one where it may stand
            name = row["element"].split("/")[-1]
            above = [p for p, a in self.plant.walk() if name in holds.get(p.name, {})]
            if not above:
                return self.some_attribute(wanted)
            found = [(Part(name), chance.choice(above))]
            found[0][1].inside.append(found[0][0])
        return chance.choice(found)[0], row

    def put(self, part, name, value):
        part.given = [pair for pair in part.given if pair[0] != name] + [[name, value]]
        self.at = part


KINDS = {}


def kind(function):
    KINDS[function.__name__] = function
    return function


# ---- every attribute with every kind of wrong value ----
def is_number(row):
    return row["unit"] != "" or row["least_si"] is not None


def with_unit(row):
    return row["unit"] not in ("", None)


def value_kind(name, wanted, value, maybe=False):
    def spoil(case):
        part, row = case.some_attribute(wanted)
        case.put(part, row["attribute"], value(row) if callable(value) else value)
        case.maybe = maybe
        case.at = None if maybe else part # what others say of it may be what is wrong
    spoil.__name__ = name
    KINDS[name] = spoil


def out_of(row, least):
    limit = row["least_si"] if least else row["most_si"]
    return f"{limit + (-1 if least else 1) * (abs(limit) + 1):.17g} {row['unit']}".strip()


def everywhere(row):
    return True


value_kind("empty_number", is_number, "")
value_kind("blank_number", is_number, "  ")
value_kind("bare_number", lambda r: with_unit(r) and "share" not in r["dimension"], "7", maybe=True)
value_kind("other_dimension", with_unit, lambda r: "3 mol" if "mol" not in r["unit"] else "3 cd")
value_kind("unit_unknown", with_unit, "3 qqzzx")
value_kind("unit_twice", with_unit, lambda r: f"1 {r['unit']} {r['unit']} {r['unit']}")
value_kind("under_least", lambda r: r["least_si"] is not None, lambda r: out_of(r, True))
value_kind("over_most", lambda r: r["most_si"] is not None, lambda r: out_of(r, False))
value_kind("not_a_number", is_number, lambda r: f"nan {r['unit']}")
value_kind("infinite", is_number, lambda r: f"inf {r['unit']}")
value_kind("exponent_huge", is_number, lambda r: f"1e999999999 {r['unit']}")
value_kind("exponent_broken", is_number, lambda r: f"1e {r['unit']}")
value_kind("word_for_number", is_number, "wet")
value_kind("comma_decimal", is_number, lambda r: f"1,5 {r['unit']}")
value_kind("two_numbers", is_number, "3 4 5")
value_kind("minus_alone", is_number, "-")
value_kind("hexadecimal", is_number, lambda r: f"0x1p3 {r['unit']}")
value_kind("slashes", with_unit, lambda r: f"3 {r['unit']}//m")
value_kind("power_huge", with_unit, lambda r: f"3 {r['unit']}^99999999999")
value_kind("parentheses", with_unit, "3 " + "(" * 60 + "m")
value_kind("divided_by_zero", is_number, lambda r: f"1/0 {r['unit']}")
value_kind("digits_many", is_number, lambda r: "1" * 900 + f" {r['unit']}")
value_kind("percent_signs", is_number, "%s%n%999999d%p")
value_kind("minus_signs", is_number, lambda r: f"--3 {r['unit']}")
value_kind("thousands", is_number, lambda r: f"1'000 {r['unit']}")
value_kind("other_digits", is_number, "\u0663 m")
value_kind("trailing_text", is_number, lambda r: f"3 {r['unit']} or so")
value_kind("value_too_long", everywhere, "x" * 1001)
value_kind("value_of_2_mb", everywhere, "> " * 1000000)
value_kind("forged_line", is_number, lambda r: f"3\n{path_now()}:1: all is well")
value_kind("escape_sequence", is_number, "\x9b31m3")
value_kind("bidirectional", is_number, "\u202e3 mm\u2066")
value_kind("names_odd", lambda r: r["dimension"] == "a name", "a b")
value_kind("names_unsafe", lambda r: r["dimension"] == "a name", "a\u202eb")
value_kind("names_empty", lambda r: r["dimension"] == "a name", "", maybe=True)
value_kind("names_long", lambda r: r["dimension"] == "a name", "n" * 900, maybe=True)
value_kind("texts_odd", lambda r: r["dimension"] == "a text", "\x85\u2028\u200f%s\t\n=1+1", maybe=True)
value_kind("words_wrong", lambda r: not is_number(r) and r["dimension"] not in ("a name", "a text"), "qqzzx")
value_kind("control_character", everywhere, Raw(b'"a\x07b"'))
value_kind("control_reference", everywhere, Raw(b'"&#7;"'))
value_kind("surrogate", everywhere, Raw(b'"&#xD800;"'))
value_kind("bytes_wrong", everywhere, Raw(b'"\xff\xfe\xc0\x80"'))
value_kind("nul_byte", everywhere, Raw(b'"a\x00b"'))
value_kind("tag_in_value", everywhere, Raw(b'"<hose/>"'))
value_kind("no_quotes", everywhere, Raw(b"25"))
value_kind("quote_open", everywhere, Raw(b'"25 mm'))
value_kind("entity_unknown", everywhere, Raw(b'"&nothing;"'))
value_kind("ampersand", everywhere, Raw(b'"a & b"'))


# ---- attributes where they do not belong ----
@kind
def attribute_twice(case):
    part, row = case.some_attribute(everywhere)
    part.given = [p for p in part.given if p[0] != row["attribute"]] + [[row["attribute"], "1"], [row["attribute"], "2"]]


@kind
def attribute_of_another(case):
    part, above = case.part()
    row = chance.choice([r for r in rows if (key(part, above), r["attribute"]) not in attributes])
    case.put(part, row["attribute"], "1")


@kind
def attribute_misspelt(case):
    part, row = case.some_attribute(lambda r: len(r["attribute"]) > 3)
    name = row["attribute"]
    case.put(part, name[1] + name[0] + name[2:] + "q", "1")


@kind
def attribute_in_capitals(case):
    part, row = case.some_attribute(everywhere)
    case.put(part, row["attribute"].upper(), "1")


@kind
def attribute_with_prefix(case):
    part, row = case.some_attribute(everywhere)
    case.put(part, "no:" + row["attribute"], "1")


@kind
def attribute_missing(case):
    part, row = case.some_attribute(lambda r: r["required"])
    part.given = [pair for pair in part.given if pair[0] not in (row["attribute"], "like")]
    case.maybe = True # what others say may make up for it


@kind
def attributes_many(case):
    part, _ = case.part()
    part.given += [[f"a{i}", "1"] for i in range(101)]


@kind
def known_wrong(case):
    part, _ = case.part("boiler", "hose", "vessel", "coil")
    case.put(part, "known", chance.choice(["sure", "tape bore", "nothing:tape", ":", "tape tape"]))
    case.maybe = True


@kind
def spread_wrong(case):
    part, _ = case.part("boiler", "hose", "vessel", "coil")
    case.put(part, "spread", chance.choice(["-5 %", "nothing:5 %", "factor", "factor 0", "nan %", "%"]))


# ---- elements where they do not belong ----
@kind
def element_misplaced(case):
    above, over = case.part()
    while above.name not in holds:
        above, over = case.part()
    every = sorted({n for inside in holds.values() for n in inside} | {"network"})
    name = chance.choice([n for n in every if n not in holds[above.name]])
    above.inside.append(Part(name))
    case.at = above.inside[-1]


@kind
def element_unknown(case):
    above, _ = case.part()
    above.inside.append(Part(chance.choice(["retort", "hosee", "Vessel", "_", "x" * 900, "h\u00f6se"])))
    case.at = above.inside[-1]


@kind
def element_with_prefix(case):
    above, _ = case.part("network", "vessel", "hose")
    above.inside.append(Part("no:vent"))


@kind
def element_of_another_space(case):
    above, _ = case.part("network", "vessel", "hose")
    above.inside.append(Part("site", [["xmlns", "urn:other"]]))
    case.at = above.inside[-1]


@kind
def element_twice(case):
    part, above = case.part("site", "stock", "work", "coil", "load", "shell")
    above.inside.append(part)


@kind
def element_missing(case):
    part, above = case.part()
    if above is None:
        case.bytes = b"\n"
    else:
        above.inside.remove(part)
    case.maybe = True


@kind
def element_renamed(case):
    part, above = case.part()
    part.name = chance.choice(sorted(holds))
    case.maybe = True


@kind
def element_moved(case):
    part, above = case.part()
    while above is None:
        part, above = case.part()
    above.inside.remove(part)
    chance.choice([p for p, _ in case.plant.walk()]).inside.append(part)
    case.maybe = True


@kind
def text_inside(case):
    part, _ = case.part()
    part.text = chance.choice(["25 mm", "]]", "\u202eabc", "<![CDATA[x]]>"])


@kind
def element_open(case):
    part, _ = case.part()
    part.tail = " "


@kind
def elements_deep(case):
    part, _ = case.part()
    part.text = "<coil>" * 100 + "</coil>" * 100


@kind
def elements_many(case):
    above, _ = case.part("network", "vessel", "hose", "coil")
    above.text = chance.choice(["<hole/>", "<action/>", '<vessel id="v"/>', "<x/>", "<loss k='1'/>"]) * 60000


# ---- names ----
@kind
def id_twice(case):
    ids = [pair for p, _ in case.plant.walk() for pair in p.given if pair[0] == "id"]
    chance.choice(ids[1:])[1] = ids[0][1]


@kind
def like_nothing(case):
    part, _ = case.part("vessel", "kind")
    case.put(part, "like", "nobody")


@kind
def like_itself(case):
    part, _ = case.part("vessel", "kind")
    case.put(part, "like", dict(part.given)["id"])
    case.at = None # said of whatever takes after it


@kind
def joint_unknown(case):
    part, row = case.part("header", "pipe", "hose")
    case.put(part, "from", "nowhere")


# ---- the file as a whole ----
def whole_kind(name, spoil, maybe=False):
    def whole(case):
        case.bytes, case.maybe = spoil(written(case.plant)), maybe
    whole.__name__ = name
    KINDS[name] = whole


def cut(text):
    return text[:chance.randrange(len(text) - 12)]


def flipped(text):
    at = chance.randrange(len(text))
    return text[:at] + bytes([text[at] ^ 1 << chance.randrange(8)]) + text[at + 1:]


def swapped(text):
    lines = text.split(b"\n")
    i, j = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[i], lines[j] = lines[j], lines[i]
    return b"\n".join(lines)


def expanded(text):
    levels = b"".join(b'<!ENTITY e%d "%s">' % (i + 1, b"&e%d;" % i * 10) for i in range(9))
    return b'<!DOCTYPE network [<!ENTITY e0 "0123456789">' + levels + b"]>\n" + text.replace(b'="', b'="&e9;', 1)


whole_kind("nothing", lambda text: b"")
whole_kind("blanks", lambda text: b" \n" * 1000)
whole_kind("cut_off", cut)
whole_kind("bit_flipped", flipped, maybe=True)
whole_kind("lines_swapped", swapped, maybe=True)
whole_kind("two_roots", lambda text: text + text)
whole_kind("text_after", lambda text: text + b"and so on")
whole_kind("doctype", lambda text: b"<!DOCTYPE network>\n" + text)
whole_kind("entities", expanded)
whole_kind("entity_outside", lambda text: b'<!DOCTYPE n [<!ENTITY e SYSTEM "file:///etc/hostname">]>\n' +
           text.replace(b'="', b'="&e;', 1))
whole_kind("no_namespace", lambda text: text.replace(b'xmlns="urn:farvessel:network:1"', b"", 1))
whole_kind("encoding_unknown", lambda text: b'<?xml version="1.0" encoding="x-odd"?>\n' + text)
whole_kind("encoding_wrong", lambda text: b'<?xml version="1.0" encoding="UTF-16"?>\n' + text, maybe=True)
whole_kind("wide_without_mark", lambda text: text.decode("utf-8").encode("utf-16-be"), maybe=True)
whole_kind("comment_open", lambda text: text.replace(b">\n", b"><!-- \n", 1))
whole_kind("instruction_open", lambda text: text.replace(b">\n", b"><?x \n", 1))
whole_kind("noise", lambda text: chance.randbytes(4096))
whole_kind("comments_of_17_mb", lambda text: b"<!-- -->\n" * 1900000 + text)
whole_kind("zeros_after", lambda text: text + bytes(4096))


# ---- asking ----
def path_now():
    return os.path.join(work, "wrong.xml")


def limited():
    if not sanitized:
        resource.setrlimit(resource.RLIMIT_AS, (256 << 20, 256 << 20))
        resource.setrlimit(resource.RLIMIT_CPU, (2, 2))
    else:
        resource.setrlimit(resource.RLIMIT_CPU, (20, 20))


def faults_of(case, text):
    """What is wrong with how the file was answered."""
    path, out, saved = path_now(), os.path.join(work, "answer.txt"), os.path.join(work, "saved.xml")
    with open(path, "wb") as file:
        file.write(text)
    done = subprocess.run([program, "check", "--no-ranking", path, "-o", out, "--save", saved], capture_output=True,
                          stdin=subprocess.DEVNULL, preexec_fn=limited)
    files = set(os.listdir(work)) - {"wrong.xml"}
    for name in files:
        os.remove(os.path.join(work, name))
    if done.returncode not in ((0, 2) if case.maybe else (2,)):
        yield f"ends with {done.returncode}"
        return
    try:
        said = done.stderr.decode()
    except UnicodeDecodeError:
        yield "says what is no UTF-8"
        return
    if UNSAFE.search(said):
        yield "says what is not safe on a terminal"
    if done.stdout:
        yield "writes to standard output"
    if done.returncode == 0:
        if files != {"answer.txt", "saved.xml"}:
            yield f"writes {sorted(files)}"
        return
    if files:
        yield f"is refused and leaves {sorted(files)}"
    lines = said.splitlines()
    places = [re.match(re.escape(path) + r":(?:(\d+):)? ", line) for line in lines]
    if not lines or not all(places):
        yield "says a line without file and line: " + next((line for line, p in zip(lines, places) if not p), "nothing")
        return
    numbers = {int(place.group(1)) for place in places if place.group(1)}
    if not numbers and len(text) <= 16 << 20: # only of a file that is too long as a whole
        yield "names no line"
    if not all(1 <= n <= text.count(b"\n") + 1 for n in numbers):
        yield f"names lines {sorted(numbers)} of {text.count(bytes([10])) + 1}"
    # An open quote is told where the next part begins: behind each attribute on a line of its own, the network's xmlns
    # among them, and the bracket.
    if case.at is not None and case.at.line and not any(
            case.at.line <= n <= case.at.line + len(case.at.given) + 3 for n in numbers) and len(lines) < 400:
        yield f"does not name line {case.at.line}"


unknown = set(only) - set(KINDS)
if unknown:
    sys.exit(f"no kinds: {sorted(unknown)}; there are {' '.join(KINDS)}")
kinds = only or list(KINDS)
bad, refused = 0, 0
for n in range(count):
    name = kinds[n % len(kinds)]
    case = Case()
    KINDS[name](case)
    text = case.bytes if case.bytes is not None else written(case.plant)
    found = list(faults_of(case, text))
    bad += bool(found)
    for fault in found:
        print(f"{name}, number {n} of seed {seed}: {fault}")
        if bad <= 20:
            with open(os.path.join(os.path.dirname(work), f"{name}-{n}.xml"), "wb") as file:
                file.write(text)
print(f"{count} files in {len(kinds)} kinds, {bad} answered wrongly")
sys.exit(bad > 0)
