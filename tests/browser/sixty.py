# SPDX-License-Identifier: MIT
"""A plant of sixty vessels on four wings of a main, to standard output. Invented."""

KIND = """<kind id="chest" volume="1.2 m3" target="95 degC" hold="4 h" within="10 h">
<coil bore="27 mm" length="2.4 m" holes="40" drill="3 mm"/>
<load form="block" medium="wood" a="13 cm" b="13 cm" c="20 cm" count="140" mass="320 kg" moisture="60 %" packing="loose"/>
<wall area="5.5 m2" height="0.9 m"><layer material="plywood" thickness="15 mm"/></wall>
<drain diameter="32 mm"/><vent diameter="20 mm" height="0.9 m"/></kind>"""


def main():
    lines, vessels, number, before = [], [], 0, "m0"
    for wing in range(4):
        if wing:
            lines.append(f'<header id="main{wing}" from="{before}" to="m{wing}" length="6 m" bore="150 mm"/>')
            before = f"m{wing}"
        at = f"m{wing}"
        for i in range(15):
            number += 1
            tee, sag = f"w{wing}t{i}", ' sag="30 mm"' if number == 41 else ""
            lines.append(f'<header id="w{wing}h{i}" from="{at}" to="{tee}" length="2 m" bore="{80 if i < 8 else 50} mm"/>')
            lines.append(f'<hose id="s{number}" from="{tee}" to="c{number}" length="{2 + number % 3} m" bore="19 mm"{sag}>'
                         '<valve type="ball-valve"/></hose>')
            vessels.append(f'<vessel id="chest-{number}" like="chest" at="c{number}"/>')
            at = tee
    print('<network xmlns="urn:farvessel:network:1" title="Sixty chests">')
    print('<site altitude="120 m" air="12 degC" wind="0 m/s"/>')
    print('<boiler id="boiler" at="b0" output="600 kW" holds="0.4 bar" relief="0.5 bar" feed="15 degC" fuel="oil"/>')
    print('<header id="main" from="b0" to="m0" length="4 m" bore="150 mm"/>')
    print("\n".join(lines), KIND, "\n".join(vessels), "</network>", sep="\n")


main()
