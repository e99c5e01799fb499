# SPDX-License-Identifier: MIT
"""Numbers of the JSON answers that follow from others of the same answer. identities.py FLOW_JSON HEAT_JSON."""
import json
import sys

flow, heat = (json.load(open(name)) for name in sys.argv[1:3])
held = failed = 0


def equal(what, a, b, within=1e-9):
    global held, failed
    held += 1
    if a is None or b is None or abs(a - b) > within * max(abs(a), abs(b), 1e-12):
        failed += 1
        print("%s: %s is not %s" % (what, a, b))


steam = sum(v["steam_kg_s"] for v in flow["vessels"])
for v in flow["vessels"]:
    equal(v["vessel"] + ": share of the steam", v["share"], v["steam_kg_s"] / steam)
for l in flow["lines"]:
    parts = sum(l["drop_%s_pa" % part] for part in ("friction", "fittings", "sag", "rise", "speed"))
    if not (l["blocked"] or l["shut"] or l["condenses_all"]):
        equal(l["line"] + ": drop", l["drop_pa"], parts, 1e-6)
        equal(l["line"] + ": pressures", l["pressure_from_pa_gauge"] - l["pressure_to_pa_gauge"], l["drop_pa"], 1e-6)
        equal(l["line"] + ": condensate", l["flow_from_kg_s"] - l["flow_to_kg_s"], l["condensate_kg_s"], 1e-6)
first, last = flow["turndown"][0], flow["turndown"][-1]
slope = (first["output_w"] - last["output_w"]) / (first["fire"] - last["fire"])
for row in flow["turndown"]:  # in proportion, less what boilers lose while they stand
    equal("turndown: output", row["output_w"], first["output_w"] - (first["fire"] - row["fire"]) * slope)
equal("turndown: rating", slope, first["output_w"] / 0.97)  # the bundled plants leave the loss at 3 % of it
for v in heat["vessels"]:
    name = v["vessel"]
    if v["core_s"] is None:
        continue
    equal(name + ": time to the core", v["took_s"], v["core_s"] - v["opened_s"])
    equal(name + ": times ample", v["times_ample"], v["took_s"] / v["core_ample_s"])
    if v["hold_s"] is not None:
        equal(name + ": end of the hold", v["hold_s"], v["core_s"] + v["hold_wanted_s"], 1e-6)
fuel = sum(b["fuel_j"] for b in heat["boilers"])
equal("heat supplied", heat["audit"]["supplied_j"], fuel)
print("%d identities held, %d failed" % (held, failed))
sys.exit(failed > 0 or held < 10)
