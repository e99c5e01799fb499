# SPDX-License-Identifier: MIT
"""Reads the curves of a drawing back from its SVG by the scales that the drawing itself states, and holds them against
the numbers of the JSON answer. read_back.py DRAWING SVG JSON; prints failed lines and how many points were held."""
import json
import re
import sys

drawing, svg, answer = sys.argv[1], open(sys.argv[2]).read(), json.load(open(sys.argv[3]))
plot = re.search(r'<g class="plot[^"]*" data-box="([^"]*)" data-x="([^"]*)" data-y="([^"]*)"', svg)
left, top, width, height = map(float, plot.group(1).split())
x_from, x_to = (float(v) for v in plot.group(2).split()[:2])
y_from, y_to = (float(v) for v in plot.group(3).split()[:2])
curves = []
for points in re.findall(r'<polyline points="([^"]*)"', svg[plot.start():]):
    numbers = [float(v) for v in points.split()]
    curves.append([(x_from + (x - left) / width * (x_to - x_from), y_to - (y - top) / height * (y_to - y_from))
                   for x, y in zip(numbers[::2], numbers[1::2])])
# A tenth of a unit of drawing, and what thinning a curve may leave out.
near_x, near_y = 0.16 / width * (x_to - x_from), 0.16 / height * (y_to - y_from)
held = failed = 0


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
print("%s: %d points held, %d failed" % (drawing, held, failed))
sys.exit(failed > 0 or held < 4)
