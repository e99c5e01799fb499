#!/usr/bin/env python3
"""Every line of networks/far-bench.xml recomputed by other means than the program's.

Reads the JSON of `flow` on standard input. Takes from it only flows, water and upstream pressures; integrates
  -dp = (f phi^2 / D + K / L) rho u^2/2 dx     (friction and fittings; the small change of speed is left out)
in 2000 steps with densities and viscosities of python3-iapws (IAPWS-IF97, R12-08) on the saturation line, the flow
falling evenly along the line as it condenses, f from Colebrook-White by fixed-point iteration, fittings by the formulas
written out below (Crane TP-410 for elbow and ball valve, Borda-Carnot and 0.5 (1 - beta^2) for the barbs), the two-phase
factor by Lockhart-Martinelli in Chisholm's form (C = 20). Prints a row for each line and fails beyond 1 %.
"""
import json
import math
import sys

from iapws import IAPWS97
from iapws._iapws import _Viscosity

BARB_LENGTH = 0.05  # the documented default
LINES = {f"h{i}": dict(bore=0.035, rough=4.6e-5, length=4.0 if i == 1 else 6.0, elbows=2 if i == 1 else 0) for i in range(1, 7)}
LINES |= {f"s{i}": dict(bore=0.019, rough=3.0e-5, length=4.0 if i == 6 else 2.0, barb=0.016, valve=1) for i in range(1, 7)}


def table(lo, hi, n=40):
    rows = []
    for i in range(n + 1):
        p = lo + (hi - lo) * i / n
        v, l = IAPWS97(P=p / 1e6, x=1), IAPWS97(P=p / 1e6, x=0)
        rows.append((p, v.rho, _Viscosity(v.rho, v.T), l.rho, _Viscosity(l.rho, l.T)))
    return rows


def at(rows, p, column):
    for a, b in zip(rows, rows[1:]):
        if p <= b[0]:
            w = (p - a[0]) / (b[0] - a[0])
            return a[column] * (1 - w) + b[column] * w
    return rows[-1][column]


def colebrook(re, rel):
    if re < 2000:
        return 64 / re
    x = 7.0
    for _ in range(60):
        x = -2 * math.log10(rel / 3.7 + 2.51 * x / max(re, 4000))
    turbulent = 1 / x**2
    if re >= 4000:
        return turbulent
    t = (re - 2000) / 2000
    x = 7.0
    for _ in range(60):
        x = -2 * math.log10(rel / 3.7 + 2.51 * x / re)
    w = t * t * (3 - 2 * t)
    return (1 - w) * 64 / re + w / x**2


def fittings(line):
    rough_factor = (2 * math.log10(3.7 * line["bore"] / line["rough"])) ** -2
    k = 30 * rough_factor * line.get("elbows", 0) + 3 * rough_factor * line.get("valve", 0)
    if "barb" in line:
        beta2 = (line["barb"] / line["bore"]) ** 2
        rough_barb = (2 * math.log10(3.7 * line["barb"] / line["rough"])) ** -2
        k += 2 * (0.5 * (1 - beta2) + (1 - beta2) ** 2 + rough_barb * BARB_LENGTH / line["barb"]) / beta2**2
    return k


def chisholm(quality, rows, p):
    if quality >= 1:
        return 1.0
    rho_g, mu_g, rho_f, mu_f = (at(rows, p, c) for c in (1, 2, 3, 4))
    x = ((1 - quality) / quality) ** 0.9 * (rho_g / rho_f) ** 0.5 * (mu_f / mu_g) ** 0.1
    return 1 + 20 * x + x * x


def drop(line, m_in, m_out, water_mean, p_abs, rows):
    n, area = 2000, math.pi * line["bore"] ** 2 / 4
    p, k = p_abs, fittings(line)
    mean = 0.5 * (m_in + m_out)
    factor = chisholm(mean / (mean + water_mean), rows, p_abs)
    for i in range(n):
        m = m_in + (m_out - m_in) * (i + 0.5) / n
        rho, mu = at(rows, p, 1), at(rows, p, 2)
        g = m / area
        f = colebrook(abs(g) * line["bore"] / mu, line["rough"] / line["bore"])
        p -= g * abs(g) / (2 * rho) * (f * factor * line["length"] / line["bore"] + k) / n
    return p_abs - p


def main():
    flow = json.load(sys.stdin)
    site = flow["site"]["pressure_pa_absolute"]
    rows = table(site - 300, site + 6000)
    worst = 0
    for line in flow["lines"]:
        if line["condenses_all"]:
            continue
        made = line["condensate_kg_s"]
        water = line["water_kg_s"] - 0.5 * made
        by_other = drop(LINES[line["line"]], line["flow_from_kg_s"], line["flow_to_kg_s"], water, site + line["pressure_from_pa_gauge"], rows)
        off = line["drop_pa"] / by_other - 1
        worst = max(worst, abs(off))
        print(f"check | drop of {line['line']}, Pa | {by_other:.4g} | got {line['drop_pa']:.4g} | dev {off:+.2%} | momentum integrated with python3-iapws")
    print(f"[==========] 1 test(s) run.\n[  {'PASSED' if worst < 0.01 else 'FAILED'}  ] 1 test(s).")
    return worst >= 0.01


if __name__ == "__main__":
    sys.exit(main())
