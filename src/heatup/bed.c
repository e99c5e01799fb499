/* SPDX-License-Identifier: MIT */
/* A loose bed: the heat balance of a condensation front, then a lump, then a cooling layer.
 *
 * Front: heat taken = share below the front x heat content at the steam's temperature; the share is the front's height.
 *        A frozen bed melts at the front, too. When the steam's temperature changes, what is below follows it.
 * Cooling: a layer of the bed's depth with a tight bottom is half of a layer twice as deep (body.h); the piece is
 *        linear, so it is kept 'even at SHIFT_BASE' and its temperatures are shifted by where the bed began to cool.
 *        Water soaked up adds no heat capacity: it is booked as condensate at the steam's temperature.
 * Source: steam condenses in a narrow zone that moves through the medium: K. F. Baker (ed.), The U.C. System for
 *        Producing Healthy Container-Grown Plants, Calif. Agric. Exp. Stn. Manual 23 (1957), on steaming soil, from
 *        memory. Checked against the heat balance and against steam per volume in practice.
 */
#include "heatup/bed.h"
#include "heatup/body.h"
#include "farvessel/heat.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MELTING_POINT 273.15
#define SHIFT_BASE 273.15 /* K; any temperature above 0 degC serves */
#define MEETS 0.5         /* K: the chamber counts as being at the bed's temperature */

typedef struct {
    heatup_bed_phase phase;
    bool follows;    /* through, and the chamber has come up to it */
    double heat;     /* J since the start */
    double t_steam;  /* K: below the front; of all, once through */
    double t_top;    /* K: above the front */
    double gain;     /* kg */
    double shift;    /* K, of the cooling layer */
    double at_shift; /* J, heat when cooling began */
} bed_head;

struct heatup_bed {
    heatup_bed_spec spec;
    bed_head head;
    heatup_body *layer; /* for cooling */
    void *even;         /* its state before anything happened */
};

heatup_bed *heatup_bed_new(const heatup_bed_spec *spec)
{
    heatup_body_spec layer = {
        .shape = HEATUP_BODY_SLAB,
        .c = 2 * spec->depth,
        .area = spec->area / 2,
        .conductivity = spec->conductivity,
        .density = spec->mass / (spec->depth * spec->area),
        .specific_heat = spec->specific_heat,
        .h_condensing = spec->h_cooling,
        .h_cooling = spec->h_cooling,
        .t_start = SHIFT_BASE,
    };
    if (!(spec->t_start > 0) || !isfinite(spec->t_start) || !(spec->moisture >= 0 && spec->moisture < 1) ||
        !(spec->specific_heat_frozen >= 0))
        return NULL;
    heatup_bed *bed = calloc(1, sizeof *bed);
    if (!bed)
        return NULL;
    bed->spec = *spec;
    bed->head = (bed_head){.phase = HEATUP_BED_CLIMBING, .t_steam = spec->t_start, .t_top = spec->t_start};
    bed->layer = heatup_body_new(&layer);
    bed->even = bed->layer ? malloc(heatup_body_state_size(bed->layer)) : NULL;
    if (!bed->even) {
        heatup_bed_free(bed);
        return NULL;
    }
    heatup_body_save(bed->layer, bed->even);
    return bed;
}

void heatup_bed_free(heatup_bed *bed)
{
    if (!bed)
        return;
    heatup_body_free(bed->layer);
    free(bed->even);
    free(bed);
}

static double capacity(const heatup_bed *bed)
{
    return bed->spec.mass * bed->spec.specific_heat;
}

/* J that bring the whole bed from its start to t. */
static double content(const heatup_bed *bed, double t)
{
    double start = bed->spec.t_start;
    if (start >= MELTING_POINT || bed->spec.moisture == 0)
        return capacity(bed) * (t - start);
    double frozen = bed->spec.specific_heat_frozen > 0 ? bed->spec.specific_heat_frozen : bed->spec.specific_heat;
    if (t < MELTING_POINT)
        return bed->spec.mass * frozen * (t - start);
    return bed->spec.mass * (frozen * (MELTING_POINT - start) + bed->spec.moisture * FV_LATENT_ICE) +
           capacity(bed) * (t - MELTING_POINT);
}

/* The even temperature that holds that much heat. */
static double temperature_of(const heatup_bed *bed, double heat)
{
    double start = bed->spec.t_start;
    if (start >= MELTING_POINT || bed->spec.moisture == 0)
        return start + heat / capacity(bed);
    double thawed = content(bed, MELTING_POINT), melt = bed->spec.mass * bed->spec.moisture * FV_LATENT_ICE;
    if (heat > thawed)
        return MELTING_POINT + (heat - thawed) / capacity(bed);
    if (heat > thawed - melt)
        return MELTING_POINT;
    return start + heat / (thawed - melt) * (MELTING_POINT - start);
}

heatup_bed_phase heatup_bed_phase_of(const heatup_bed *bed)
{
    return bed->head.phase;
}

double heatup_bed_wants(const heatup_bed *bed, double t_steam)
{
    return bed->head.phase == HEATUP_BED_THROUGH ? 0 : fmax(0, content(bed, t_steam) - bed->head.heat);
}

double heatup_bed_give(heatup_bed *bed, double heat, double t_steam, double condensate)
{
    bed_head *head = &bed->head;
    double wanted = heatup_bed_wants(bed, t_steam);
    double taken = fmin(fmax(heat, 0), wanted);
    if (head->phase == HEATUP_BED_THROUGH || (taken == 0 && wanted > 0))
        return 0;
    if (head->phase == HEATUP_BED_COOLING)
        head->t_top = heatup_bed_top(bed);
    head->phase = taken < wanted ? HEATUP_BED_CLIMBING : HEATUP_BED_THROUGH;
    head->t_steam = t_steam;
    head->heat += taken;
    head->gain += condensate;
    head->follows = false;
    if (head->phase == HEATUP_BED_THROUGH)
        head->t_top = head->t_steam = temperature_of(bed, head->heat);
    return taken;
}

void heatup_bed_begin_cooling(heatup_bed *bed)
{
    if (bed->head.phase == HEATUP_BED_COOLING)
        return;
    bed->head.phase = HEATUP_BED_COOLING;
    bed->head.at_shift = bed->head.heat;
    bed->head.shift = temperature_of(bed, bed->head.heat) - SHIFT_BASE;
    heatup_body_restore(bed->layer, bed->even);
}

static bool step_makes_sense(double dt, double tc0, double tc1)
{
    return dt >= 0 && isfinite(dt) && isfinite(tc0) && isfinite(tc1);
}

fv_status heatup_bed_probe_held(heatup_bed *bed, double dt, double tc0, double *a, double *b)
{
    const bed_head *head = &bed->head;
    *a = *b = 0;
    if (!step_makes_sense(dt, tc0, tc0))
        return FV_FAIL;
    if (head->phase == HEATUP_BED_COOLING) {
        fv_status status = heatup_body_probe_held(bed->layer, dt, tc0 - head->shift, false, a, b);
        *a -= *b * head->shift;
        return status;
    }
    if (head->phase == HEATUP_BED_THROUGH && head->follows) {
        *b = capacity(bed);
        *a = -*b * head->t_steam;
    }
    return FV_OK;
}

fv_status heatup_bed_advance_held(heatup_bed *bed, double dt, double t)
{
    bed_head *head = &bed->head;
    if (!step_makes_sense(dt, t, t))
        return FV_FAIL;
    if (head->phase == HEATUP_BED_COOLING) {
        const double to = t - head->shift;
        fv_status status = heatup_body_advance(bed->layer, dt, to, to, false);
        head->heat = head->at_shift + heatup_body_heat(bed->layer);
        return status;
    }
    if (head->phase == HEATUP_BED_THROUGH && head->follows) {
        head->heat += capacity(bed) * (t - head->t_steam);
        head->t_steam = head->t_top = temperature_of(bed, head->heat);
    }
    if (head->phase == HEATUP_BED_THROUGH && t > head->t_steam - MEETS)
        head->follows = true;
    return FV_OK;
}

double heatup_bed_core(const heatup_bed *bed)
{
    if (bed->head.phase == HEATUP_BED_COOLING)
        return heatup_body_core(bed->layer) + bed->head.shift;
    return bed->head.t_top;
}

double heatup_bed_top(const heatup_bed *bed)
{
    if (bed->head.phase == HEATUP_BED_COOLING)
        return heatup_body_surface_mean(bed->layer) + bed->head.shift;
    return bed->head.t_top;
}

/* Share of the bed below the front. */
static double below(const heatup_bed *bed)
{
    const bed_head *head = &bed->head;
    if (head->phase != HEATUP_BED_CLIMBING)
        return 1;
    double full = content(bed, head->t_steam);
    return full > 0 ? fmin(head->heat / full, 1) : 0;
}

double heatup_bed_front(const heatup_bed *bed)
{
    return bed->spec.depth * below(bed);
}

double heatup_bed_mean(const heatup_bed *bed)
{
    if (bed->head.phase == HEATUP_BED_COOLING)
        return heatup_body_mean(bed->layer) + bed->head.shift;
    double share = below(bed);
    return share * bed->head.t_steam + (1 - share) * bed->head.t_top;
}

double heatup_bed_heat(const heatup_bed *bed)
{
    return bed->head.heat;
}

double heatup_bed_gain(const heatup_bed *bed)
{
    return bed->head.gain;
}
