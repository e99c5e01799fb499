/* SPDX-License-Identifier: MIT */
/* One piece of a load that is heated, or cooled, through its surface: a bag, a block, a log, a packed stack.
 *
 * All pieces of a vessel are alike; the caller multiplies by their number. A piece is warmed evenly from all sides by
 * surroundings whose temperature runs linearly from tc0 to tc1 over a step dt, through a surface coefficient that
 * depends on whether steam condenses. Its heat over a step is a + b tc1: exactly so for a piece whose properties do not
 * change, near the guess for a frozen one.
 *
 * SI throughout: K, s, J, m, kg. Functions that return fv_status fail for want of memory or for a step that makes no
 * sense (dt < 0, temperatures that are not finite). */
#ifndef FARVESSEL_HEATUP_BODY_H
#define FARVESSEL_HEATUP_BODY_H

#include "farvessel/base.h"

typedef enum { HEATUP_BODY_BLOCK, HEATUP_BODY_SLAB, HEATUP_BODY_CYLINDER, HEATUP_BODY_SPHERE } heatup_body_shape;

typedef struct {
    heatup_body_shape shape;
    double a, b, c;          /* m; block: its sides; slab: c thickness, both faces heated */
    double along[3];         /* block: conductivity along a, b and c over `conductivity`; 0: the same */
    double area;             /* m2, slab: one face */
    double diameter, height; /* m; cylinder; sphere: diameter */
    double conductivity;     /* W/m/K, thawed */
    double density;          /* kg/m3 */
    double specific_heat;    /* J/kg/K, thawed */
    double h_condensing;     /* W/m2/K while steam condenses; may be INFINITY */
    double h_cooling;        /* W/m2/K otherwise; may be INFINITY */
    double t_start;          /* K */
    double moisture;         /* kg water / kg; below 0 degC it is ice */
    double conductivity_frozen, specific_heat_frozen; /* used below 0 degC; 0: as thawed */
    int cells; /* frozen pieces: cells per half thickness; 0: default. For convergence tests */
} heatup_body_spec;

typedef struct heatup_body heatup_body;

/* NULL: out of memory, or a size, property or coefficient that is not positive. */
heatup_body *heatup_body_new(const heatup_body_spec *spec);
/* Another one in the same state, without the work of making one anew: both share what they have worked out, and must
 * stay in one thread. NULL: out of memory. */
heatup_body *heatup_body_copy(const heatup_body *body);
bool heatup_body_is_of(const heatup_body *body, const heatup_body_spec *spec); /* made from figures equal to these */
bool heatup_body_is_like(const heatup_body *one, const heatup_body *other);    /* made from the same spec */
void heatup_body_free(heatup_body *body);

double heatup_body_mass(const heatup_body *body);    /* kg, of one piece */
double heatup_body_area(const heatup_body *body);    /* m2, its surface */
bool heatup_body_is_linear(const heatup_body *body); /* heat = a + b tc1 holds exactly, until something freezes */

/* Heat (J) that the piece takes over the next dt if the surroundings stand at t all of it, whatever they were before:
 * a + b t. A frozen piece is linearised about the guess of t and exact there, so that a caller who repeats it with the
 * t just found ends at the very heat that heatup_body_advance(dt, t, t) books. */
fv_status heatup_body_probe_held(heatup_body *body, double dt, double guess, bool condensing, double *a, double *b);
/* Goes on by dt. */
fv_status heatup_body_advance(heatup_body *body, double dt, double tc0, double tc1, bool condensing);

/* Between steps: a piece in which no ice is left goes over to modes, far cheaper. States saved before are then lost.
 */
fv_status heatup_body_settle(heatup_body *body);

double heatup_body_core(const heatup_body *body);       /* K, the centre: coldest while heated, hottest while cooled */
double heatup_body_half(const heatup_body_spec *spec);  /* m from its surface to its middle on its shortest axis */
double heatup_body_at(heatup_body *body, double depth); /* K, so far (m) below its surface on its shortest axis */
double heatup_body_mean(const heatup_body *body);       /* K, heat-weighted; frozen: volume mean of the temperature */
double heatup_body_surface_mean(const heatup_body *body); /* K, at the end of the last step */
/* K/s of the centre with the surroundings at t; NaN where it is not at hand. */
double heatup_body_core_slope(const heatup_body *body, double t, bool condensing);
double heatup_body_heat(const heatup_body *body); /* J taken since the start: the sum of all a + b tc1 */
/* The centre dt later, surroundings tc0 + slope * time, without changing the state: to find when it passes a target.
 * NaN where a step would fail. */
double heatup_body_core_after(heatup_body *body, double dt, double tc0, double slope, bool condensing);

/* It in the open, made from that spec and as warm: inside, too, where the spec is that of the same shape, else even at
 * its mean. NULL: out of memory, or it is still frozen. */
heatup_body *heatup_body_unloaded(heatup_body *body, const heatup_body_spec *spec);

#endif
