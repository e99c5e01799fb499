/* SPDX-License-Identifier: MIT */
/* IAPWS-IF97 region 2: steam.
 *
 * Given: p (Pa), t (K). Returned: v, h, u, s, cp, cv, w.
 * Valid: 273.15 to 1073.15 K, up to the saturation pressure (to 623.15 K), up to the boundary to region 3 (to
 * 863.15 K), up to 100 MPa (above). Outside: FV_DOUBTFUL. A pressure up to 1e-8 above the boundary counts as on it.
 * Accuracy: reproduces Table 15 of the release to every printed digit.
 * Source: IAPWS R7-97(2012), eqs 15 to 17, Tables 10 and 11; boundary to region 3: eq 5, Table 1. */
#include "props/gibbs.h"

static const props_gibbs_term ideal[] = {
    {0, 0, -0.96927686500217e1},  {0, 1, 0.10086655968018e2}, {0, -5, -0.5608791128302e-2},
    {0, -4, 0.71452738081455e-1}, {0, -3, -0.40710498223928}, {0, -2, 0.14240819171444e1},
    {0, -1, -0.4383951131945e1},  {0, 2, -0.28408632460772},  {0, 3, 0.21268463753307e-1},
};
static const props_gibbs_term residual[] = {
    {1, 0, -0.17731742473213e-2},    {1, 1, -0.17834862292358e-1},    {1, 2, -0.45996013696365e-1},
    {1, 3, -0.57581259083432e-1},    {1, 6, -0.5032527872793e-1},     {2, 1, -0.33032641670203e-4},
    {2, 2, -0.18948987516315e-3},    {2, 4, -0.39392777243355e-2},    {2, 7, -0.43797295650573e-1},
    {2, 36, -0.26674547914087e-4},   {3, 0, 0.20481737692309e-7},     {3, 1, 0.43870667284435e-6},
    {3, 3, -0.3227767723857e-4},     {3, 6, -0.15033924542148e-2},    {3, 35, -0.40668253562649e-1},
    {4, 1, -0.78847309559367e-9},    {4, 2, 0.12790717852285e-7},     {4, 3, 0.48225372718507e-6},
    {5, 7, 0.22922076337661e-5},     {6, 3, -0.16714766451061e-10},   {6, 16, -0.21171472321355e-2},
    {6, 35, -0.23895741934104e2},    {7, 0, -0.5905956432427e-17},    {7, 11, -0.12621808899101e-5},
    {7, 25, -0.38946842435739e-1},   {8, 8, 0.11256211360459e-10},    {8, 36, -0.82311340897998e1},
    {9, 13, 0.19809712802088e-7},    {10, 4, 0.10406965210174e-18},   {10, 10, -0.10234747095929e-12},
    {10, 14, -0.10018179379511e-8},  {16, 29, -0.80882908646985e-10}, {16, 50, 0.10693031879409},
    {18, 57, -0.33662250574171},     {20, 20, 0.89185845355421e-24},  {20, 35, 0.30629316876232e-12},
    {20, 48, -0.42002467698208e-5},  {21, 21, -0.59056029685639e-25}, {22, 53, 0.37826947613457e-5},
    {23, 39, -0.12768608934681e-14}, {24, 26, 0.73087610595061e-28},  {24, 40, 0.55414715350778e-16},
    {24, 58, -0.9436970724121e-6},
};

static const props_gibbs_series ideal_series = {ideal, sizeof ideal / sizeof ideal[0], 0, -5, 3};
static const props_gibbs_series residual_series = {residual, sizeof residual / sizeof residual[0], 24, 0, 58};

static const double pressure_slack = 1e-8;

props_gibbs props_gibbs_region2(double p, double t)
{
    return props_gibbs_steam(&ideal_series, &residual_series, p, t);
}

static double upper_pressure(double t)
{
    double p = 100e6;
    if (t <= 623.15)
        fv_if97_saturation_pressure(t, &p);
    else if (t < 863.15)
        p = 1e6 * (0.34805185628969e3 + t * (-0.11671859879975e1 + t * 0.10192970039326e-2));
    return p;
}

fv_status fv_if97_region2(double p, double t, fv_if97_state *out)
{
    if (!props_if97_usable(p, t))
        return FV_FAIL;
    props_gibbs gibbs = props_gibbs_region2(p, t);
    if (props_gibbs_state(&gibbs, out) == FV_FAIL)
        return FV_FAIL;
    if (t < 273.15 || t > 1073.15)
        return FV_DOUBTFUL;
    return p > upper_pressure(t) * (1 + pressure_slack) ? FV_DOUBTFUL : FV_OK;
}
