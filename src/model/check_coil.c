/* SPDX-License-Identifier: MIT */
/* Plain sense of a coil: do the holes fit on it, are they narrower than it, what do the two published rules on hole
 * area say. */
#include "model/check.h"

#include <stdlib.h>

#define SLACK 1e-9     /* of a length: rounding of sums */
#define EVEN_SHARE 0.5 /* hole area / bore area for even flow: hole drop ten times the velocity head (spargers) */

static int by_place(const void *a, const void *b)
{
    const fv_hole *const *x = a, *const *y = b;
    return ((*x)->at.v > (*y)->at.v) - ((*x)->at.v < (*y)->at.v);
}

static void check_drill(const model_link *link, fv_loc loc, const char *who, double drill, double bore)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    if (drill >= bore)
        fv_error(link->faults, FV_ERR_INPUT, loc, "%s: holes of %s in a pipe of %s bore; a hole must be narrower", who,
                 model_quantity(FV_DIM_LENGTH, drill, x, sizeof x), model_quantity(FV_DIM_LENGTH, bore, y, sizeof y));
}

/* Total hole area / bore area; a ring is fed from both ends. */
static double area_share(const fv_coil *coil)
{
    double sum = 0.0;
    for (size_t i = 0; i < coil->hole_count; i++)
        sum += coil->hole[i]->count.v * coil->hole[i]->drill.v * coil->hole[i]->drill.v;
    if (!coil->hole_count)
        sum = coil->holes.v * coil->drill.v * coil->drill.v;
    double ends = fv_word(coil->shape) == FV_COIL_RING ? 2.0 : 1.0;
    return sum * (1.0 - coil->clogged.v) / (ends * coil->bore.v * coil->bore.v);
}

static void check_area(const model_link *link, fv_loc loc, const char *who, const fv_coil *coil)
{
    double share = area_share(coil);
    if (share > 1.0)
        fv_caution(
            link->faults, FV_ERR_INPUT, loc,
            "%s: the holes add up to %.2f times the bore's area: the flow along the coil will be uneven; for even "
            "flow keep it to 0.5 (spargers), the 1.5 to 2 of retort spreaders are right only with ample pressure",
            who, share);
    else if (share > EVEN_SHARE)
        fv_caution(link->faults, FV_ERR_INPUT, loc,
                   "%s: the holes add up to %.2f times the bore's area; for even flow along the coil keep it to 0.5 "
                   "(spargers); retort spreaders have 1.5 to 2, right only with ample pressure",
                   who, share);
}

static void check_row(const model_link *link, fv_loc loc, const char *who, const fv_coil *coil)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    double n = coil->holes.v;
    check_drill(link, loc, who, coil->drill.v, coil->bore.v);
    double spacing = fv_or(coil->spacing, coil->length.v / n);
    double first = fv_or(coil->first, spacing / 2);
    double last = first + (n - 1.0) * spacing;
    if (last > coil->length.v * (1.0 + SLACK))
        fv_error(link->faults, FV_ERR_INPUT, loc,
                 "%s: the last of %.0f holes would be at %s, beyond the coil's %s; make spacing or holes smaller", who,
                 n, model_quantity(FV_DIM_LENGTH, last, x, sizeof x),
                 model_quantity(FV_DIM_LENGTH, coil->length.v, y, sizeof y));
    else if (n > 1.0 && spacing < coil->drill.v)
        fv_error(link->faults, FV_ERR_INPUT, loc, "%s: holes of %s every %s run into each other", who,
                 model_quantity(FV_DIM_LENGTH, coil->drill.v, x, sizeof x),
                 model_quantity(FV_DIM_LENGTH, spacing, y, sizeof y));
    else if (n > 1.0 && spacing < 3.0 * coil->drill.v)
        fv_caution(link->faults, FV_ERR_INPUT, loc, "%s: holes of %s every %s; keep three diameters between them", who,
                   model_quantity(FV_DIM_LENGTH, coil->drill.v, x, sizeof x),
                   model_quantity(FV_DIM_LENGTH, spacing, y, sizeof y));
}

static void check_list(const model_link *link, const char *who, fv_coil *coil)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    qsort(coil->hole, coil->hole_count, sizeof *coil->hole, by_place);
    for (size_t i = 0; i < coil->hole_count; i++) {
        const fv_hole *hole = coil->hole[i];
        check_drill(link, hole->part.loc, who, hole->drill.v, coil->bore.v);
        if (hole->at.v > coil->length.v * (1.0 + SLACK))
            fv_error(link->faults, FV_ERR_INPUT, hole->part.loc, "%s: a hole at %s, beyond the coil's %s", who,
                     model_quantity(FV_DIM_LENGTH, hole->at.v, x, sizeof x),
                     model_quantity(FV_DIM_LENGTH, coil->length.v, y, sizeof y));
    }
}

void model_check_coil(const model_link *link, const char *who, fv_coil *coil)
{
    fv_loc loc = coil->part.loc;
    if (coil->hole_count && (fv_is_set(coil->holes) || fv_is_set(coil->spacing) || fv_is_set(coil->first)))
        fv_error(
            link->faults, FV_ERR_INPUT, loc,
            "%s: holes are given both by number and one by one; keep either holes, drill and spacing or the <hole> "
            "elements",
            who);
    else if (coil->hole_count)
        check_list(link, who, coil);
    else
        check_row(link, loc, who, coil);
    check_area(link, loc, who, coil);
}
