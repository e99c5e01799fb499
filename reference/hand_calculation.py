#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""networks/hand.xml by hand: writes hand-calculation.md, line by line, as one would with a calculator and a steam table.

    python3 reference/hand_calculation.py > reference/hand-calculation.md

Shares nothing with the program: the steam table is from python3-iapws (IAPWS R7-97(2012)), the plant's numbers are
copied from the file by eye, the equations are solved by fixed-point rounds instead of Newton's method."""
from math import log, pi, sqrt
from iapws import IAPWS97

SITE = 101325.0
TABLE = [101325, 104000, 105000, 106000, 107000]  # Pa absolute
ROWS = []
for p in TABLE:
    g = IAPWS97(P=p / 1e6, x=1)
    ROWS.append((p, round(1 / g.v, 6), round(g.h, 2)))
H_FEED = round(IAPWS97(T=288.15, x=0).h, 2)  # kJ/kg


def between(p, column):
    """Straight line between the rows of the table."""
    for low, high in zip(ROWS, ROWS[1:]):
        if low[0] <= p <= high[0]:
            return low[column] + (high[column] - low[column]) * (p - low[0]) / (high[0] - low[0])
    raise ValueError(p)


def rho(gauge):
    return between(SITE + gauge, 1)


def h_g(gauge):
    return between(SITE + gauge, 2)


Q, F, K, CD, GAMMA = 12.0, 0.02, 1.5, 0.62, 1.135
D_MAIN, L_MAIN, D_HOSE, L_HOSE, DRILL = 0.040, 2.0, 0.020, (2.0, 8.0), 0.008
A_MAIN, A_HOSE, A_HOLE = (pi * d * d / 4 for d in (D_MAIN, D_HOSE, DRILL))
N_MAIN = F * L_MAIN / D_MAIN / 2
N_HOSE = [F * length / D_HOSE / 2 + K / 2 for length in L_HOSE]


def y2(gauge):
    """Square of the expansibility: the isentropic nozzle's m^2 over 2 (Cd A)^2 rho dp."""
    r = SITE / (SITE + gauge)
    return GAMMA / (GAMMA - 1) * (r ** (2 / GAMMA) - r ** ((GAMMA + 1) / GAMMA)) / (1 - r)


class Branch:
    def __init__(self, n):
        self.n, self.p_coil, self.p_node, self.resistance = n, 4600.0, 4800.0, 1 + 0.1 * n

    def round(self, m):
        self.m = m
        self.rho_coil, self.y2 = rho(self.p_coil), y2(self.p_coil)
        self.p_coil = (m / (CD * A_HOLE)) ** 2 / (2 * self.rho_coil * self.y2)
        self.rho_node, self.rho_mean = rho(self.p_node), rho(0.5 * (self.p_node + self.p_coil))
        self.speed = log(self.rho_node / rho(self.p_coil))
        self.drop = (m / A_HOSE) ** 2 * (self.n + self.speed) / self.rho_mean
        self.p_node = self.p_coil + self.drop
        self.resistance = self.p_node / m ** 2


near, far = Branch(N_HOSE[0]), Branch(N_HOSE[1])
p_boiler, before, rounds = 4900.0, None, []
while True:
    h = h_g(p_boiler)
    m = Q / (h - H_FEED)
    m_near = m / (1 + sqrt(near.resistance / far.resistance))
    near.round(m_near)
    far.round(m - m_near)
    p_t = 0.5 * (near.p_node + far.p_node)
    rho_main = rho(0.5 * (p_boiler + p_t))
    speed = log(rho(p_boiler) / rho(p_t))
    drop = (m / A_MAIN) ** 2 * (N_MAIN + speed) / rho_main
    p_boiler = p_t + drop
    now = (m, near.m, far.m, near.p_coil, far.p_coil, near.p_node, far.p_node, p_boiler)
    rounds.append((now, h, near.y2, far.y2, near.rho_coil, far.rho_coil))
    if before and max(abs(a / b - 1) for a, b in zip(now, before)) < 1e-7:
        break
    before = now

kg_h = 3600.0
out = print
out(f"""# Two drums by hand

`networks/hand.xml`, worked as with a calculator and a steam table. `python3 reference/hand_calculation.py` writes this
page; it shares nothing with the program. `tests/steady/test_hand.c` reads the last table and holds the solver to it
within 0.1 %.

## The plant

A boiler of 12 kW at b0, fed at 15 degC, holding 0.3 bar at most. A pipe p1 (2 m, 40 mm) to t1; from there two hoses of
20 mm, s1 (2 m) to the near drum and s2 (8 m) to the far one, each with a loss K = 1.5. Friction factor 0.02 everywhere, no heat
lost. Each coil is one hole of 8 mm with Cd = 0.62; no loss, friction or regain in the coil, so that the hole stands at the
pressure of the hose's end. The chambers are at the air's pressure, 1013.25 hPa. Pressures below are gauge unless said.

## Steam table

Dry saturated steam by IAPWS R7-97(2012), from python3-iapws; straight lines between the rows.

| p, Pa absolute | rho, kg/m3 | h_g, kJ/kg |
|---|---|---|""")
for row in ROWS:
    out(f"| {row[0]:.0f} | {row[1]:.6f} | {row[2]:.2f} |")
out(f"""
Water at 15 degC (boiling water at that temperature): h = {H_FEED:.2f} kJ/kg.

## Constants

| what | formula | value |
|---|---|---|
| area of the pipe | pi/4 x 0.040^2 | {A_MAIN:.6e} m2 |
| area of a hose | pi/4 x 0.020^2 | {A_HOSE:.6e} m2 |
| Cd A of a hole | 0.62 x pi/4 x 0.008^2 | {CD * A_HOLE:.6e} m2 |
| N of p1 | 0.02 x 2/(2 x 0.040) | {N_MAIN:.3f} |
| N of s1 | 0.02 x 2/(2 x 0.020) + 1.5/2 | {N_HOSE[0]:.3f} |
| N of s2 | 0.02 x 8/(2 x 0.020) + 1.5/2 | {N_HOSE[1]:.3f} |

## Formulas

1. Boiler, all it can make while below 0.3 bar: m = Q/(h_g(p_b) - h).
2. Hole: m = Cd A sqrt(2 rho p_c Y2), rho at the coil's pressure p_c, with the isentropic nozzle's
   Y2 = k/(k - 1) (r^(2/k) - r^((k + 1)/k))/(1 - r), r = p_site/(p_site + p_c), k = 1.135. So p_c = (m/(Cd A))^2/(2 rho Y2).
3. Line: the integral of rho dp along it = (m/A)^2 (N + ln(rho_1/rho_2)), N = f L/(2 D) + K/2. Over so small a step the
   integral is rho at the mean pressure times the drop: p_1 - p_2 = (m/A)^2 (N + ln(rho_1/rho_2))/rho_mean.
4. Split: both branches start at t1, and p_t1 = R m^2 with R nearly constant. So m_near = m/(1 + sqrt(R_near/R_far)).

## Rounds

Each round takes densities and Y2 at the pressures of the round before; it starts from p_b 4900, p_t1 4800, p_c 4600 Pa
and R as 1 + 0.1 N.

| round | m kg/h | near kg/h | far kg/h | p_c near | p_c far | p_t1 by near | p_t1 by far | p_b |
|---|---|---|---|---|---|---|---|---|""")
for i, (n, *_) in enumerate(rounds, 1):
    out(f"| {i} | " + " | ".join(f"{v * kg_h:.5f}" for v in n[:3]) + " | " + " | ".join(f"{v:.3f}" for v in n[3:]) + " |")
settled = next(i for i in range(1, len(rounds))
               if max(abs(a / b - 1) for a, b in zip(rounds[i][0], rounds[i - 1][0])) < 1e-5)
out(f"""
From round {settled + 1} on nothing changes by more than 1e-5; the table runs on to 1e-7.

## The last round, line by line

| step | numbers | result |
|---|---|---|
| h_g at p_b | between the rows of the table | {h:.3f} kJ/kg |
| m | 12/({h:.3f} - {H_FEED:.2f}) | {m:.8f} kg/s |""")
for name, b, line in (("near", near, "s1"), ("far", far, "s2")):
    out(f"""| {name}: m | by the split | {b.m:.8f} kg/s |
| {name}: rho at p_c | between the rows | {b.rho_coil:.6f} kg/m3 |
| {name}: Y2 | r = {SITE / (SITE + b.p_coil):.6f} | {b.y2:.6f} |
| {name}: p_c | ({b.m:.8f}/{CD * A_HOLE:.6e})^2/(2 x {b.rho_coil:.6f} x {b.y2:.6f}) | {b.p_coil:.3f} Pa |
| {line}: rho_mean | at the mean of {b.p_node:.2f} and {b.p_coil:.2f} Pa | {b.rho_mean:.6f} kg/m3 |
| {line}: ln(rho_1/rho_2) | ln({b.rho_node:.6f}/{rho(b.p_coil):.6f}) | {b.speed:.6f} |
| {line}: drop | ({b.m:.8f}/{A_HOSE:.6e})^2 x ({b.n:.3f} + {b.speed:.6f})/{b.rho_mean:.6f} | {b.drop:.3f} Pa |
| {name}: p_t1 | {b.p_coil:.3f} + {b.drop:.3f} | {b.p_node:.3f} Pa |
| {name}: R | {b.p_node:.3f}/{b.m:.8f}^2 | {b.resistance:.6e} Pa s2/kg2 |""")
out(f"""| p1: rho_mean | between the rows | {rho_main:.6f} kg/m3 |
| p1: ln(rho_1/rho_2) | | {speed:.7f} |
| p1: drop | ({m:.8f}/{A_MAIN:.6e})^2 x ({N_MAIN:.3f} + {speed:.7f})/{rho_main:.6f} | {drop:.4f} Pa |
| p_b | {p_t:.3f} + {drop:.4f} | {p_boiler:.3f} Pa |

p_b is below 0.3 bar: the boiler gives all it can, as assumed. Neither hole chokes: r is far above 0.577.

## Result

| quantity | unit | value |
|---|---|---|
| boiler steam | kg/h | {m * kg_h:.5f} |
| near steam | kg/h | {near.m * kg_h:.5f} |
| far steam | kg/h | {far.m * kg_h:.5f} |
| b0 pressure | Pa | {p_boiler:.3f} |
| t1 pressure | Pa | {p_t:.3f} |
| c1 pressure | Pa | {near.p_coil:.3f} |
| c2 pressure | Pa | {far.p_coil:.3f} |
| p1 drop | Pa | {drop:.4f} |
| s1 drop | Pa | {near.drop:.4f} |
| s2 drop | Pa | {far.drop:.4f} |""")
