/* SPDX-License-Identifier: MIT */
/* From what the user said of a load to the figures that its heating needs. */
#ifndef FARVESSEL_HEATUP_LOAD_H
#define FARVESSEL_HEATUP_LOAD_H

#include "farvessel/steady.h"
#include "heatup/bed.h"
#include "heatup/body.h"

/* Coefficient while steam condenses, W/m2/K, where none is said: on a closed bag, whose film lies loosely on the medium
 * with air between; and on open medium. Common practice, no source. An air gap of 0.13 mm alone has 0.026/0.00013 =
 * 200; steam on a bare surface has thousands, but some air always lies on it. */
#define HEATUP_SURFACE_BAGGED 200.0
#define HEATUP_SURFACE_OPEN 1000.0

typedef struct {
    double mass;            /* kg, the whole load; 0: there is none, and nothing else is set */
    bool bed;               /* `loose` holds, else `piece` */
    heatup_body_spec piece; /* one piece, or one packed stack */
    double pieces;          /* how many of them, not always a whole number */
    heatup_bed_spec loose;
    double solid;            /* m3 that no gas takes: pieces are closed, a bed is open to its pores */
    double takes_condensate; /* share of its condensate that it soaks up */
} heatup_load_spec;

/* Density: of mass, count and size, else as said, else the medium's typical one. Specific heat and conductivity: as
 * said, else the medium's, at the mean of start and target (start or 0 degC where it is frozen). who: "vessel 'bin1'",
 * for messages. FV_DOUBTFUL: a property outside its range, said as a caution. */
fv_status heatup_load_spec_of(const fv_load *load, const char *who, double t_air, double t_target,
                              heatup_load_spec *out, fv_faults *faults);

#endif
