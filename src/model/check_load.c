/* SPDX-License-Identifier: MIT */
/* Plain sense of a load: is its form described, does it fit, do mass, count and density agree. */
#include "farvessel/constants.h"
#include "model/check.h"

#define AGREES 0.05 /* mass, count, size and density, measured apart, may differ so much */
/* Volume of one piece or of the bed; NaN: not described. */
static double piece_volume(const fv_load *load)
{
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_BLOCK:
        return load->a.v * load->b.v * load->c.v;
    case FV_FORM_SLAB:
        return (fv_is_set(load->area) ? load->area.v : load->a.v * load->b.v) * load->c.v;
    case FV_FORM_CYLINDER:
        return FV_PI / 4 * load->diameter.v * load->diameter.v * load->height.v;
    case FV_FORM_SPHERE:
        return FV_PI / 6 * load->diameter.v * load->diameter.v * load->diameter.v;
    case FV_FORM_BED:
        return load->depth.v * load->area.v;
    }
    return NAN;
}

/* What the form needs and does not have, or NULL. */
static const char *missing_size(const fv_load *load)
{
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_BLOCK:
        return fv_is_set(load->a) && fv_is_set(load->b) && fv_is_set(load->c)
                   ? NULL
                   : "its load is in blocks, which need their three sides a, b and c";
    case FV_FORM_SLAB:
        return fv_is_set(load->c) && (fv_is_set(load->area) || (fv_is_set(load->a) && fv_is_set(load->b)))
                   ? NULL
                   : "its load is in slabs, which need their thickness c, and their area or sides a and b";
    case FV_FORM_CYLINDER:
        return fv_is_set(load->diameter) && fv_is_set(load->height)
                   ? NULL
                   : "its load is in cylinders, which need diameter and height";
    case FV_FORM_SPHERE:
        return fv_is_set(load->diameter) ? NULL : "its load is in spheres, which need their diameter";
    case FV_FORM_BED:
        return fv_is_set(load->depth) && fv_is_set(load->area) ? NULL : "its load is a bed, which needs depth and area";
    }
    return NULL;
}

const char *model_load_gap(const fv_load *load, model_load_gap_kind kind)
{
    int rows[3];
    bool stack = fv_is_set(load->stack_a) && fv_is_set(load->stack_b) && fv_is_set(load->stack_c);
    switch (kind) {
    case MODEL_GAP_SIZE:
        return missing_size(load);
    case MODEL_GAP_AMOUNT:
        return fv_word(load->form) == FV_FORM_BED || fv_is_set(load->count) || fv_is_set(load->mass)
                   ? NULL
                   : "its load has neither mass nor count; say how much there is, for example mass=\"460 kg\"";
    case MODEL_GAP_ROWS:
        return fv_word(load->packing) != FV_PACKING_ROWS || fv_load_rows(load, rows)
                   ? NULL
                   : "its load is packed in rows; say how many pieces to a brick, such as of=\"2 x 2 x 5\"";
    case MODEL_GAP_STACK:
        return fv_word(load->packing) != FV_PACKING_PACKED || stack
                   ? NULL
                   : "its load is packed and heats as one body; give its sides stack-a, stack-b and stack-c";
    case MODEL_GAPS:
        break;
    }
    return NULL;
}

static void check_agrees(const model_link *link, const char *who, const fv_load *load, double volume)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    double pieces = fv_word(load->form) == FV_FORM_BED ? 1.0 : load->count.v;
    double mass = pieces * volume * load->density.v;
    if (fv_is_set(load->mass) && fabs(mass - load->mass.v) > AGREES * load->mass.v)
        fv_error(link->faults, FV_ERR_INPUT, load->part.loc,
                 "%s: mass is %s, but count, size and density make %s; leave one of them out", who,
                 model_quantity(FV_DIM_MASS, load->mass.v, x, sizeof x),
                 model_quantity(FV_DIM_MASS, mass, y, sizeof y));
}

/* Of count, mass and mass of each, all three. */
static void check_each(const model_link *link, const char *who, const fv_load *load)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    const double mass = load->count.v * load->mass_each.v;
    if (load->mass.origin > FV_ASSUMED && load->count.origin > FV_ASSUMED &&
        fabs(mass - load->mass.v) > AGREES * load->mass.v)
        fv_error(link->faults, FV_ERR_INPUT, load->part.loc,
                 "%s: mass is %s, but count and mass-each make %s; leave one of them out", who,
                 model_quantity(FV_DIM_MASS, load->mass.v, x, sizeof x),
                 model_quantity(FV_DIM_MASS, mass, y, sizeof y));
}

static void check_stack(const model_link *link, const char *who, const fv_load *load)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    const double stack = load->stack_a.v * load->stack_b.v * load->stack_c.v, piece = piece_volume(load);
    if (fv_word(load->packing) == FV_PACKING_PACKED && stack < piece)
        fv_error(link->faults, FV_ERR_INPUT, load->part.loc, "%s: the stack is %s, less than one piece of %s", who,
                 model_quantity(FV_DIM_VOLUME, stack, x, sizeof x), model_quantity(FV_DIM_VOLUME, piece, y, sizeof y));
}

static void check_rows(const model_link *link, const char *who, const fv_load *load)
{
    int n[3];
    if (fv_word(load->packing) != FV_PACKING_ROWS || !fv_load_rows(load, n))
        return;
    const int brick = n[0] * n[1] * n[2];
    if (fv_word(load->form) != FV_FORM_BLOCK)
        fv_error(link->faults, FV_ERR_INPUT, load->part.loc, "%s: only blocks stand in rows; take loose or packed",
                 who);
    else if (fmod(load->count.v, brick) != 0 && fv_is_set(load->count))
        fv_error(link->faults, FV_ERR_INPUT, load->part.loc,
                 "%s: %.0f pieces are no whole number of bricks of %s, %d each", who, load->count.v, load->of, brick);
}

bool model_load_fits(const fv_vessel *vessel, double *takes)
{
    const fv_load *load = &vessel->load;
    double volume = piece_volume(load);
    *takes = fv_word(load->form) == FV_FORM_BED ? volume : load->count.v * volume;
    if (isnan(*takes))
        *takes = load->mass.v / load->density.v;
    if (isnan(*takes))
        *takes = load->stack_a.v * load->stack_b.v * load->stack_c.v;
    return !(*takes > vessel->volume.v);
}

void model_check_load(const model_link *link, const char *who, const fv_load *load)
{
    check_agrees(link, who, load, piece_volume(load));
    check_each(link, who, load);
    check_stack(link, who, load);
    check_rows(link, who, load);
}

bool model_has_load(const fv_load *load)
{
    return fv_is_set(load->mass) || fv_is_set(load->count) || fv_is_set(load->a) || fv_is_set(load->diameter) ||
           fv_is_set(load->depth) || fv_is_set(load->c);
}
