#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes colebrook.csv, expansibility.csv and saturation.csv into this folder.

The first two need nothing but Python (decimal, 50 digits); the last needs python3-iapws.
Nothing here comes from the program that is tested with it.
"""
import os
from decimal import Decimal as D, getcontext

getcontext().prec = 50
HERE = os.path.dirname(os.path.abspath(__file__))
PSI = 6894.757293


def write(name, head, rows):
    with open(os.path.join(HERE, name), "w") as out:
        for line in head:
            out.write(line + "\n")
        for row in rows:
            out.write(",".join(row) + "\n")


def colebrook(re, e):
    """Newton on x = 1/sqrt(f) in 50 digits."""
    ln10 = D(10).ln()
    a, b, x = D(e) / D("3.7"), D("2.51") / D(re), D(8)
    for _ in range(60):
        s = a + b * x
        step = (x + 2 * s.ln() / ln10) / (1 + 2 * b / (s * ln10))
        x -= step
        if abs(step) < D("1e-45"):
            return 1 / (x * x)
    raise ArithmeticError


def colebrook_table():
    res = "4000 6000 1e4 2e4 3e4 5e4 1e5 2e5 5e5 1e6 1e7 1e8".split()
    es = "0 1e-6 1e-5 1e-4 2e-4 5e-4 0.001 0.002 0.005 0.01 0.02 0.05".split()
    rows = [(r, e, "%.15e" % colebrook(r, e)) for r in res for e in es]
    write("colebrook.csv", ["# Darcy f of 1/sqrt(f) = -2 log10((eps/D)/3.7 + 2.51/(Re sqrt(f))), Newton in 50 digits (make_tables.py)",
                            "Re,eps_over_D,f_darcy"], rows)


def expansibility(x, k):
    """Y2 and dY2/dx of the isentropic hole; beyond the critical drop the flow is held."""
    x, k = D(x), D(k)
    xc = 1 - (k / (k - 1) * (2 / (k + 1)).ln()).exp()

    def flow(r):
        return k / (k - 1) * ((2 / k * r.ln()).exp() - ((k + 1) / k * r.ln()).exp())

    if x >= xc:
        y2 = flow(1 - xc) / x
        return y2, -y2 / x
    r = 1 - x
    y2 = flow(r) / x
    slope = -(2 * ((2 / k - 1) * r.ln()).exp() - (k + 1) * (r.ln() / k).exp()) / (k - 1)
    return y2, (slope - y2) / x


def expansibility_table():
    xs = "-0.2 -0.049 -1e-6 1e-12 1e-9 1e-6 1e-4 0.001 0.01 0.03 0.0499 0.0501 0.07 0.1 0.2 0.3 0.4 0.42 0.43 0.46 0.5 0.7 0.95".split()
    rows = [(k, x) + tuple("%.16e" % v for v in expansibility(x, k)) for k in ("1.135", "1.3", "1.4") for x in xs]
    write("expansibility.csv", ["# Y2 and dY2/dx of the isentropic hole, 50 digits (make_tables.py)", "k,x,y2,dy2_dx"], rows)


def saturation_table():
    import iapws
    bars = ["1.01325", "1.05", "1.1", "1.2", "1.3", "1.5", "1.7", "2", "3", "4", "6"]
    rows = [(b + " bar", float(b) * 1e5) for b in bars]
    rows += [("%g psig" % g, (14.696 + g) * PSI) for g in (1, 3.5, 10, 12, 20, 50, 100)]
    rows += [("%g psia" % a, a * PSI) for a in (50, 75, 100, 125, 150)]
    rows.sort(key=lambda row: row[1])
    out = []
    for name, p in rows:
        s = iapws.IAPWS97(P=p / 1e6, x=1)
        out.append((name, "%.10g" % p, "%.10g" % s.rho, "%.7g" % s.mu))
    write("saturation.csv", ["# Dry saturated steam by IAPWS-IF97 (R7-97(2012)), viscosity R12-08; python3-iapws %s (make_tables.py)"
                             % iapws.__version__, "name,p_Pa,rho_g_kg_m3,mu_g_Pa_s"], out)


if __name__ == "__main__":
    colebrook_table()
    expansibility_table()
    saturation_table()
