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
} props_sat_poly;

/* What lies beyond an end of the table: the tangent there, and whether the quantity must stay above zero. */
typedef struct {
    double value, slope;
    bool positive;
} props_sat_end;

/* Pressure cells: 16 to each doubling of the pressure, equal within it. Then the cell number is the exponent and
 * the top four bits of the mantissa, and the lower edge is p with the other bits cleared. The first cell starts at
 * 2^12 (1 + 3/16) Pa = 4864 Pa, the last ends at 2^20 (1 + 15/16) Pa = 2031616 Pa. */
enum { PROPS_SAT_P_CELLS = 140, PROPS_SAT_P_SHIFT = 48, PROPS_SAT_P_FIRST = (1023 + 12) * 16 + 3 };
#define PROPS_SAT_P_LOW 4864.0
#define PROPS_SAT_P_HIGH 2031616.0

/* Temperature cells: 2 K each, 273.15 to 481.15 K. */
enum { PROPS_SAT_T_CELLS = 104 };
#define PROPS_SAT_T_LOW 273.15
#define PROPS_SAT_T_WIDTH 2.0

enum {
    PROPS_SAT_RHO_G,
    PROPS_SAT_T,
    PROPS_SAT_H_G,
    PROPS_SAT_H_F,
    PROPS_SAT_MU_G,
    PROPS_SAT_RHO_F,
    PROPS_SAT_MU_F,
    PROPS_SAT_BY_P
};
enum { PROPS_SAT_T_P, PROPS_SAT_T_RHO_G, PROPS_SAT_T_H_G, PROPS_SAT_T_H_F, PROPS_SAT_BY_T };

/* Pieces of Phi, from low to high pressure: 0 the vanishing tail, 1 the tangent below the table, 2 .. the cells,
 * last the tangent above. */
enum {
    PROPS_SAT_TAIL,
    PROPS_SAT_BELOW,
    PROPS_SAT_FIRST,
    PROPS_SAT_ABOVE = PROPS_SAT_FIRST + PROPS_SAT_P_CELLS,
    PROPS_SAT_PIECES
};

struct fv_sat {
    props_sat_poly by_p[PROPS_SAT_P_CELLS][PROPS_SAT_BY_P];
    props_sat_poly by_t[PROPS_SAT_T_CELLS][PROPS_SAT_BY_T];
    props_sat_end p_low[PROPS_SAT_BY_P], p_high[PROPS_SAT_BY_P];
    props_sat_end t_low[PROPS_SAT_BY_T], t_high[PROPS_SAT_BY_T];
    double p_tail;                /* Pa: where the tangent of rho_g has fallen to half and the tail begins */
    double phi[PROPS_SAT_PIECES]; /* Phi at the lower edge of each piece but the tail; 0 at p_tail */
};

/* Cell number, or a number >= PROPS_SAT_P_CELLS outside the table (negative pressures and NaN too). */
static inline uint32_t props_sat_cell(double p, double *distance)
{
    uint64_t bits;
    memcpy(&bits, &p, sizeof bits);
    uint64_t edge_bits = bits >> PROPS_SAT_P_SHIFT << PROPS_SAT_P_SHIFT;
    double edge;
    memcpy(&edge, &edge_bits, sizeof edge);
    *distance = p - edge;
    return (uint32_t)(bits >> PROPS_SAT_P_SHIFT) - PROPS_SAT_P_FIRST;
}

/* Paired rather than nested: the shorter chain of dependent operations is what counts here. */
static inline double props_sat_value(const props_sat_poly *poly, double d, double *slope)
{
    const double *c = poly->c;
    double d2 = d * d;
    *slope = (c[1] + 2 * c[2] * d) + d2 * ((3 * c[3] + 4 * c[4] * d) + 5 * c[5] * d2);
    return (c[0] + c[1] * d) + d2 * ((c[2] + c[3] * d) + d2 * (c[4] + c[5] * d));
}

/* All of the tables, anew (sat_build.c); its last part, Phi (sat_phi.c). */
void props_sat_build(fv_sat *sat);
void props_sat_build_phi(fv_sat *sat);

#endif
