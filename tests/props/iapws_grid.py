#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Prints a grid of water and steam properties computed with the python package iapws (Debian: python3-iapws).

One row a line: a word, the arguments, the values; SI units (Pa, K, m3/kg, J/kg, J/kg/K, m/s, kg/m3, Pa s, W/m/K).
The last line is `end` and the number of rows, so that the reader knows that nothing is missing."""
import sys

try:
    from iapws.iapws97 import _Region1, _Region2, _PSat_T, _TSat_P
    from iapws._iapws import _Viscosity, _ThCond
    from iapws.humidAir import Air
except ImportError as error:
    sys.exit("iapws_grid.py: the package python3-iapws is missing (apt-get install python3-iapws): %s" % error)

rows = 0


def row(word, *numbers):
    global rows
    rows += 1
    print(word, *("%.17g" % x for x in numbers))


def state(word, region, p_mpa, t):
    s = region(t, p_mpa)
    h = 1e3 * s["h"]
    row(word, 1e6 * p_mpa, t, s["v"], h, h - 1e6 * p_mpa * s["v"], 1e3 * s["s"], 1e3 * s["cp"], 1e3 * s["cv"], s["w"])


for t in range(280, 621, 20):
    p_sat = _PSat_T(t)
    for factor in (1.0, 1.001, 1.1, 2, 10):
        if p_sat * factor <= 100:
            state("region1", _Region1, p_sat * factor, t)
    for p in (1, 5, 20, 50, 100):
        if p > p_sat:
            state("region1", _Region1, p, t)
    for factor in (1.0, 0.999, 0.9, 0.3, 0.01):
        state("region2", _Region2, p_sat * factor, t)

for t in range(640, 1074, 48):
    for p in (0.001, 0.1, 1, 5, 10):
        state("region2", _Region2, p, t)

for t in range(274, 647, 4):
    row("pressure", t, 1e6 * _PSat_T(t))

p = 0.0007
while p < 22:
    row("temperature", 1e6 * p, _TSat_P(p))
    p *= 1.1

for t in range(274, 1173, 31):
    for rho in (0.001, 0.1, 0.6, 1, 3, 10, 50, 200, 600, 850, 950, 1000, 1100):
        row("viscosity", t, rho, _Viscosity(rho, t))
        row("conductivity", t, rho, _ThCond(rho, t))

# The saturated line as the tables hold it: p, T, rho_g, h_g, h_f, rho_f, mu_g, mu_f.
for k in range(121):
    p = 0.03 * (1.6 / 0.03) ** (k / 120)
    t = _TSat_P(p)
    steam, water = _Region2(t, p), _Region1(t, p)
    row("line", 1e6 * p, t, 1 / steam["v"], 1e3 * steam["h"], 1e3 * water["h"], 1 / water["v"],
        _Viscosity(1 / steam["v"], t), _Viscosity(1 / water["v"], t))

# Air as a real gas at 1 atm: p, T, rho, cp, mu, lambda.
for t in (233.15, 250, 273.15, 300, 325, 350, 373.15, 400, 450, 500, 550, 600, 650, 673.15):
    air = Air(T=t, P=0.101325)
    row("air", 101325, t, air.rho, 1e3 * air.cp, air.mu, air.k)

print("end", rows)
