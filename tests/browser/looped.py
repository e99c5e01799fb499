# SPDX-License-Identifier: MIT
"""A plant with loops, drawn from a seed, to standard output: a tree of headers with one to four further headers that
close loops, one to twelve vessels, one or two boilers. Invented. Argument: the seed."""

import random
import sys

KIND = """<kind id="bin" volume="0.6 m3" target="85 degC" within="12 h"><coil bore="21 mm" length="2 m" holes="24" drill="3 mm"/>
<load form="block" medium="wood" a="10 cm" b="10 cm" c="20 cm" count="60" mass="120 kg" moisture="55 %" packing="loose"/>
<drain diameter="32 mm"/><vent diameter="25 mm"/></kind>"""
NAMES = ["", "-north", "-behind-the-potting-shed", "-by-the-door"]


def main():
    seed = int(sys.argv[1])
    draw = random.Random(seed)
    joints = draw.randint(4, 14)
    lines, vessels = [], []

    def header(a, b):
        lines.append(f'<header id="h{len(lines) + 1}" from="j{a}" to="j{b}" length="{draw.randint(1, 8)} m" bore="{draw.choice([35, 41, 53])} mm"/>')

    joined = set()
    for j in range(1, joints):
        far = draw.choice([j - 1, j - 1, draw.randrange(j)])
        joined.add((far, j))
        header(far, j)
    for _ in range(draw.randint(1, 4)):
        a, b = sorted(draw.sample(range(joints), 2))
        if (a, b) not in joined:
            joined.add((a, b))
            header(a, b)
    if len(lines) < joints:
        header(0, joints - 1)
    ends = [j for j in range(1, joints) if sum(f'"j{j}"' in line for line in lines) == 1]
    drips = [f'<drip at="j{j}"/>' for j in ends[12:]]
    for v in range(1, max(draw.randint(1, 12), len(ends[:12])) + 1):
        at, name = ends[v - 1] if v <= len(ends) else draw.randrange(joints), f"bin{v}{draw.choice(NAMES)}"
        lines.append(f'<hose id="s{v}" from="j{at}" to="c{v}" length="{draw.randint(1, 6)} m" bore="25 mm">'
                     + ('<valve type="ball-valve"/>' if draw.random() < 0.5 else "") + "</hose>")
        vessels.append(f'<vessel id="{name}" like="bin" at="c{v}"/>')
    print(f'<network xmlns="urn:farvessel:network:1" title="Loops of seed {seed}">')
    print('<site altitude="120 m" air="12 degC" wind="0 m/s"/>')
    print('<boiler id="boiler" at="j0" output="60 kW" holds="0.3 bar" relief="0.5 bar" feed="15 degC" fuel="propane"/>')
    if draw.random() < 0.4:
        print(f'<boiler id="second" at="j{draw.randrange(1, joints)}" output="24 kW" holds="0.3 bar" relief="0.5 bar" feed="15 degC" fuel="oil"/>')
    print("\n".join(lines + drips), KIND, "\n".join(vessels), "</network>", sep="\n")


main()
