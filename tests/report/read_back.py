# SPDX-License-Identifier: MIT
"""Reads the curves of a drawing back from its SVG by the scales that the drawing itself states, and holds them against
the numbers of the JSON answer. read_back.py DRAWING SVG JSON; prints failed lines and how many points were held."""
import json
import re
import sys

drawing, svg, answer = sys.argv[1], open(sys.argv[2]).read(), json.load(open(sys.argv[3]))
plots = list(re.finditer(r'<g class="plot[^"]*" data-box="([^"]*)" data-x="([^"]*)" data-y="([^"]*)"', svg))
held = failed = 0


def read_plot(which):
    """The curves of a plot by its own scales, which stay behind."""
    global left, width, x_from, x_to, y_from, y_to, near_x, near_y
    plot, end = plots[which], plots[which + 1].start() if which + 1 < len(plots) else len(svg)
    left, top, width, height = map(float, plot.group(1).split())
    x_from, x_to = (float(v) for v in plot.group(2).split()[:2])
    y_from, y_to = (float(v) for v in plot.group(3).split()[:2])
    # A tenth of a unit of drawing, and what thinning a curve may leave out.
    near_x, near_y = 0.16 / width * (x_to - x_from), 0.16 / height * (y_to - y_from)
    found = []
    for points in re.findall(r'<polyline points="([^"]*)"', svg[plot.start():end]):
        numbers = [float(v) for v in points.split()]
        found.append([(x_from + (x - left) / width * (x_to - x_from), y_to - (y - top) / height * (y_to - y_from))
                      for x, y in zip(numbers[::2], numbers[1::2])])
    return found


def compare(what, got, expected, axis):
    """One value, to half a percent of its axis."""
    global held, failed
    held += 1
    if not abs(got - expected) <= 0.005 * axis:
        failed += 1
        print("%s: %g, but %g" % (what, got, expected))


def drawn(pattern):
    """Numbers of all elements that the pattern finds, one tuple each."""
    return [tuple(float(v) for v in found.groups()) for found in re.finditer(pattern, svg)]


curves = read_plot(0) if plots else []


def hold(what, curve, expected, slack_y):
    """Each point of the curve stands among those expected."""
    global held, failed
    for x, y in curve:
        close = [e for e in expected if abs(e[0] - x) <= near_x]
        if not close and x > x_to - near_x:
            continue  # between two samples, where the axis ends
        held += 1
        if not any(abs(min(max(e[1], y_from), y_to) - y) <= slack_y for e in close):
            failed += 1
            print("%s: (%g, %g) is none of %s" % (what, x, y, close))


if drawing == "turndown":
    need = {v["vessel"]: v["need_w"] for v in answer["vessels"]}
    for i, v in enumerate(answer["vessels"]):
        rows = [(100 * r["fire"], 100 * r["vessels"][i]["heat_w"] / need[v["vessel"]])
                for r in answer["turndown"] if r["solved"]]
        hold("turndown of " + v["vessel"], curves[i], rows, near_y)
elif drawing == "curves":
    for v in answer["series"]["vessels"]:
        if min(v["core_k"]) < v["core_k"][0] - 1 or max(v["core_k"]) > answer["boiling_point_k"] + 1:
            failed += 1
            print("the core of %s leaves what is between its start and the boiling point" % v["vessel"])
    hours = [t / 3600 for t in answer["series"]["time_s"]]
    for i, v in enumerate(answer["series"]["vessels"]):
        hold("core of " + v["vessel"], curves[i], [(h, k - 273.15) for h, k in zip(hours, v["core_k"])], 2 * near_y)
elif drawing == "demand":
    hours = [t / 3600 for t in answer["series"]["time_s"]]
    given = [0] * len(hours)
    for b in answer["series"]["boilers"]:
        given = [g + 3600 * s for g, s in zip(given, b["steam_kg_s"])]
    asked = [3600 * d for d in answer["series"]["demand_kg_s"]]
    both = [[(h, v) for h, v in zip(hours, values)] for values in (given, asked)]
    best = 0
    for curve in curves[:2]:
        best = max(best, max(y for _, y in curve))
        hold("steam", curve, both[0] + both[1], 2 * near_y)
    if best < 0.5 * max(given):
        failed += 1
        print("the curves lie at the bottom: %g of %g" % (best, max(given)))
elif drawing == "pressure":
    # A way ends in a chamber, begins at a boiler, and has its corners at joints and in coils.
    known = [j["pressure_pa_gauge"] / 100 for j in answer["joints"]]
    known += [v[k] / 100 for v in answer["vessels"] for k in ("coil_pressure_pa_gauge", "chamber_pressure_pa_gauge")]
    known += [l[k] / 100 for l in answer["lines"] for k in ("pressure_from_pa_gauge", "pressure_to_pa_gauge")]
    for i, curve in enumerate(curves):
        for _, y in curve:
            compare("pressure of curve %d" % i, y, min(known, key=lambda k: abs(k - y)), y_to - y_from)
        compare("boiler of curve %d" % i, curve[-1][1], max(b["pressure_pa_gauge"] for b in answer["boilers"]) / 100,
                y_to - y_from)
elif drawing == "holes":
    for i, v in enumerate(answer["vessels"]):
        hold("holes of " + v["vessel"], curves[i],
             [(h["position_m"], 3600 * h["flow_kg_s"]) for h in answer["holes"] if h["vessel"] == v["vessel"]], near_y)
elif drawing == "coils":
    largest = max(abs(h["flow_kg_s"]) for h in answer["holes"])
    radii = sorted(r for (r,) in drawn(r'<circle [^>]*cx="[^"]*" r="([^"]*)"'))
    shares = sorted(abs(h["flow_kg_s"]) / largest for h in answer["holes"])
    for r, share in zip(radii, shares):
        compare("area of a disc", max(0.01, (r / radii[-1]) ** 2), max(0.01, share), 1)
    compare("discs", len(radii), len(shares), 1)
elif drawing == "boilers":
    hours = [t / 3600 for t in answer["series"]["time_s"]]
    b = answer["series"]["boilers"][0]
    hold("pressure of the boiler", curves[0], [(h, p / 100) for h, p in zip(hours, b["pressure_pa_gauge"])], 2 * near_y)
    # Each sample's steam until the next one; what was taken at the end of the axis.
    taken = read_plot(1)[0]
    steps = zip(answer["series"]["time_s"][1:], answer["series"]["time_s"], b["steam_kg_s"][1:], b["steam_kg_s"])
    total = sum((t1 - t0) * 0.5 * (s0 + s1) for t1, t0, s1, s0 in steps if t1 / 3600 <= x_to)
    whole = answer["boilers"][0]  # what steam carries along is fed, too
    compare("water taken", taken[-1][1], total * whole["water_kg"] / whole["steam_kg"], y_to - y_from)
elif drawing == "needs":
    got = drawn(r'class="bar useful" x="4" y="[^"]*" width="([^"]*)"')
    needed = drawn(r'class="aimline" x1="([^"]*)"')
    vessels = answer["vessels"]
    most = max(max(v["heat_w"], v["need_w"]) for v in vessels)
    for bars, key, off in ((got, "heat_w", 0), (needed, "need_w", 4)):
        lengths = sorted((b[0] - off) / 308 for b in bars[:len(vessels)])
        for length, value in zip(lengths, sorted(v[key] / most for v in vessels)):
            compare(key, length, value, 1)
elif drawing == "heat":
    bars = sorted((w for (w,) in drawn(r'class="bar[^"]*" x="4" y="[^"]*" width="([^"]*)"')), reverse=True)
    heats = sorted((s["heat_j"] for s in answer["split"]), reverse=True)
    compare("bars", len(bars) > 5, True, 0)
    for bar, heat in zip(bars, heats):
        compare("where the heat went", bar / 308, heat / heats[0], 1)
elif drawing == "drops":
    # The bars of a way stand behind each other, from what is at the boiler down to what is in the chamber.
    boiler = max(b["pressure_pa_gauge"] for b in answer["boilers"])
    for card in svg.split('<g class="card"')[1:]:
        bars = re.findall(r'class="(bar largest|bar useful|bar gain|bar)" x="[^"]*" y="[^"]*" width="([^"]*)"', card)
        widths = [-float(w) if css == "bar gain" else float(w) for css, w in bars]
        vessel = next(v for v in answer["vessels"] if "to %s<" % v["vessel"] in card)
        compare("lost on the way to " + vessel["vessel"], sum(widths) / 308,
                1 - vessel["chamber_pressure_pa_gauge"] / boiler, 2)
elif drawing == "timeline":
    for css, first, last in (("heating", "steam_on_s", "core_s"), ("holding", "core_s", "hold_s")):
        found = sorted(drawn(r'class="%s" x="([^"]*)" y="[^"]*" width="([^"]*)"' % css), key=sum)
        wanted = sorted((v[last], v[first]) for v in answer["vessels"] if v[last] is not None)
        compare("bars of " + css, len(found), len(wanted), 1)
        for (x, w), (end, begin) in zip(found, wanted):
            scale = (x_to - x_from) / width
            compare(css + " begins", x_from + (x - left) * scale, begin / 3600, x_to - x_from)
            compare(css + " ends", x_from + (x + w - left) * scale, min(end / 3600, x_to), x_to - x_from)
    due = drawn(r'class="due" x1="([^"]*)"')
    for (x,), v in zip(due, answer["vessels"]):
        compare("allowed", x_from + (x - left) * (x_to - x_from) / width, (v["opened_s"] + v["within_s"]) / 3600,
                x_to - x_from)
elif drawing == "week":
    # Lengths of all bars of the boiler and the vessels on the steam: each batch as often as it has vessels, and once.
    batches = {int(b["vessels"]): b for b in answer["batches"]}
    lit = [l for l in answer["timetable"] if l["what"] == "light"]
    slot = answer["slot_s"]
    wanted = sum((l["vessels"] + 1) * -(-batches[l["vessels"]]["steam_end_s"] // slot) * slot for l in lit)
    bars = drawn(r'class="heating" x="([^"]*)" y="[^"]*" width="([^"]*)"')
    compare("hours on the steam", sum(w for _, w in bars) / (316 - 62 - 6) * 7 * 86400, wanted, 7 * 86400)
    compare("bars", len(bars), sum(l["vessels"] + 1 for l in lit), 1)
    held += len(bars)
print("%s: %d points held, %d failed" % (drawing, held, failed))
sys.exit(failed > 0 or held < 4)
