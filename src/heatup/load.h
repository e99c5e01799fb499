/* SPDX-License-Identifier: MIT */
/* From what the user said of a load to the figures that its heating needs. */
#ifndef FARVESSEL_HEATUP_LOAD_H
#define FARVESSEL_HEATUP_LOAD_H

#include "farvessel/steady.h"
#include "heatup/bed.h"
#include "heatup/body.h"

typedef struct {
    double mass;            /* kg, the whole load; 0: there is none, and nothing else is set */
    bool bed;               /* `loose` holds, else `piece` */
    heatup_body_spec piece; /* one piece, brick of rows or packed stack */
    double pieces;          /* how many of them, not always a whole number */
    heatup_bed_spec loose;
    double solid;            /* m3 that no gas takes: pieces are closed, a bed is open to its pores */
    double takes_condensate; /* share of its condensate that it soaks up */
} heatup_load_spec;

/* who: "vessel 'bin1'",
 * for messages. FV_DOUBTFUL: a property outside its range, said as a caution. */
fv_status heatup_load_spec_of(const fv_load *load, const char *who, double t_air, double t_target,
                              heatup_load_spec *out, fv_faults *faults);

/* One piece of the load in the open, out of its rows or stack if `apart`; both coefficients are that of the shelf.
 * water: kg that evaporate from it for each J that it gives up. */
fv_status heatup_load_in_open(const fv_vessel *vessel, double t_air, double site_pressure, double t_site, bool apart,
                              heatup_body_spec *piece, double *water);

#endif
