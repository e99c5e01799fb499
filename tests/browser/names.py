# SPDX-License-Identifier: MIT
"""A plant whose title is markup and script, and whose names are long: it must come out as text. Invented."""

import html

LONG = "the-northernmost-vessel-behind-the-second-potting-shed-of-the-nursery-with-a-name-that-goes-on"
TITLE = """</title><script>document.title='caught'</script><img src=x onerror="alert(1)"> & "quotes" 'single' `ticks` ]]> \u202eknurls"""


def main():
    print(f'<network xmlns="urn:farvessel:network:1" title="{html.escape(TITLE)}">')
    print('<site altitude="120 m" air="12 degC"/>')
    print('<boiler id="boiler" at="b0" output="24 kW" holds="0.25 bar" relief="0.5 bar" fuel="propane"/>')
    print(f'<header id="{LONG}-header" from="b0" to="t1" length="2 m" bore="35 mm"/>')
    print(f'<hose id="{LONG}-hose" from="t1" to="c1" length="3 m" bore="19 mm"/>')
    print('<hose id="s2" from="t1" to="c2" length="3 m" bore="19 mm" sag="80 mm"/>')
    print('<kind id="bin" volume="0.5 m3" target="80 degC" within="8 h"><coil bore="25 mm" length="2 m" holes="20" drill="3 mm"/>')
    print('<load medium="wood" form="block" a="13 cm" b="13 cm" c="20 cm" count="60" mass="140 kg" packing="loose"/>')
    print('<vent diameter="40 mm"/><drain diameter="25 mm"/></kind>')
    print(f'<vessel id="{LONG}" like="bin" at="c1"/><vessel id="bin2" like="bin" at="c2"/></network>')


main()
