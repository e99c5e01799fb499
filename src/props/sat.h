/* SPDX-License-Identifier: MIT */
/* Inside of the saturation tables: cells, ends, and the evaluation that all readers share. */
#ifndef PROPS_SAT_H
#define PROPS_SAT_H

#include "farvessel/props.h"

#include <stdint.h>
#include <string.h>

/* Polynomial of degree 5 in the distance from the cell's lower edge, in SI units: value = sum of c[k] d^k. */
typedef struct {
    double c[6];
} fv_sat_poly;

/* What lies beyond an end of the table: the tangent there, and whether the quantity must stay above zero. */
typedef struct {
    double value, slope;
    bool positive;
} fv_sat_end;

/* Pressure cells: 16 to each doubling of the pressure, equal within it. Then the cell number is the exponent and
 * the top four bits of the mantissa, and the lower edge is p with the other bits cleared. The first cell starts at
 * 2^12 (1 + 3/16) Pa = 4864 Pa, the last ends at 2^20 (1 + 15/16) Pa = 2031616 Pa. */
enum { FV_SAT_P_CELLS = 140, FV_SAT_P_SHIFT = 48, FV_SAT_P_FIRST = (1023 + 12) * 16 + 3 };
#define FV_SAT_P_LOW 4864.0
#define FV_SAT_P_HIGH 2031616.0

/* Temperature cells: 2 K each, 273.15 to 481.15 K. */
enum { FV_SAT_T_CELLS = 104 };
#define FV_SAT_T_LOW 273.15
#define FV_SAT_T_WIDTH 2.0

enum { FV_SAT_RHO_G, FV_SAT_T, FV_SAT_H_G, FV_SAT_H_F, FV_SAT_MU_G, FV_SAT_RHO_F, FV_SAT_MU_F, FV_SAT_BY_P };
enum { FV_SAT_T_P, FV_SAT_T_RHO_G, FV_SAT_T_H_G, FV_SAT_T_H_F, FV_SAT_BY_T };

/* Pieces of Phi, from low to high pressure: 0 the vanishing tail, 1 the tangent below the table, 2 .. the cells,
 * last the tangent above. */
enum { FV_SAT_TAIL, FV_SAT_BELOW, FV_SAT_FIRST, FV_SAT_ABOVE = FV_SAT_FIRST + FV_SAT_P_CELLS, FV_SAT_PIECES };

struct fv_sat {
    fv_sat_poly by_p[FV_SAT_P_CELLS][FV_SAT_BY_P];
    fv_sat_poly by_t[FV_SAT_T_CELLS][FV_SAT_BY_T];
    fv_sat_end p_low[FV_SAT_BY_P], p_high[FV_SAT_BY_P];
    fv_sat_end t_low[FV_SAT_BY_T], t_high[FV_SAT_BY_T];
    double p_tail;             /* Pa: where the tangent of rho_g has fallen to half and the tail begins */
    double phi[FV_SAT_PIECES]; /* Phi at the lower edge of each piece but the tail; 0 at p_tail */
};

/* Cell number, or a number >= FV_SAT_P_CELLS outside the table (negative pressures and NaN too). */
static inline uint32_t fv_sat_cell(double p, double *distance)
{
    uint64_t bits;
    memcpy(&bits, &p, sizeof bits);
    uint64_t edge_bits = bits >> FV_SAT_P_SHIFT << FV_SAT_P_SHIFT;
    double edge;
    memcpy(&edge, &edge_bits, sizeof edge);
    *distance = p - edge;
    return (uint32_t)(bits >> FV_SAT_P_SHIFT) - FV_SAT_P_FIRST;
}

/* Paired rather than nested: the shorter chain of dependent operations is what counts here. */
static inline double fv_sat_value(const fv_sat_poly *poly, double d, double *slope)
{
    const double *c = poly->c;
    double d2 = d * d;
    *slope = (c[1] + 2 * c[2] * d) + d2 * ((3 * c[3] + 4 * c[4] * d) + 5 * c[5] * d2);
    return (c[0] + c[1] * d) + d2 * ((c[2] + c[3] * d) + d2 * (c[4] + c[5] * d));
}

/* All of the tables, anew (sat_build.c); its last part, Phi (sat_phi.c). */
void fv_sat_build(fv_sat *sat);
void fv_sat_build_phi(fv_sat *sat);

/* Value and slope at a signed distance beyond an end of the table. */
double fv_sat_beyond(const fv_sat_end *end, double distance, double *slope);

#endif
