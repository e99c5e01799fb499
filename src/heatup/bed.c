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
    fv_bed_phase phase;
    bool follows;    /* through, and the chamber has come up to it */
    double heat;     /* J since the start */
    double t_steam;  /* K: below the front; of all, once through */
    double t_top;    /* K: above the front */
    double gain;     /* kg */
    double shift;    /* K, of the cooling layer */
    double at_shift; /* J, heat when cooling began */
} bed_head;

struct fv_bed {
    fv_bed_spec spec;
    bed_head head;
    fv_body *layer; /* for cooling */
    void *even;     /* its state before anything happened */
};

fv_bed *fv_bed_new(const fv_bed_spec *spec)
{
    fv_body_spec layer = {
        .shape = FV_BODY_SLAB,
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
    fv_bed *bed = calloc(1, sizeof *bed);
    if (!bed)
        return NULL;
    bed->spec = *spec;
    bed->head = (bed_head){.phase = FV_BED_CLIMBING, .t_steam = spec->t_start, .t_top = spec->t_start};
    bed->layer = fv_body_new(&layer);
    bed->even = bed->layer ? malloc(fv_body_state_size(bed->layer)) : NULL;
    if (!bed->even) {
        fv_bed_free(bed);
        return NULL;
    }
    fv_body_save(bed->layer, bed->even);
    return bed;
}

void fv_bed_free(fv_bed *bed)
{
    if (!bed)
        return;
    fv_body_free(bed->layer);
    free(bed->even);
    free(bed);
}

static double capacity(const fv_bed *bed)
{
    return bed->spec.mass * bed->spec.specific_heat;
}

/* J that bring the whole bed from its start to t. */
static double content(const fv_bed *bed, double t)
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
static double temperature_of(const fv_bed *bed, double heat)
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

fv_bed_phase fv_bed_phase_of(const fv_bed *bed)
{
    return bed->head.phase;
}

double fv_bed_wants(const fv_bed *bed, double t_steam)
{
    return bed->head.phase == FV_BED_THROUGH ? 0 : fmax(0, content(bed, t_steam) - bed->head.heat);
}

double fv_bed_give(fv_bed *bed, double heat, double t_steam, double condensate)
{
    bed_head *head = &bed->head;
    double wanted = fv_bed_wants(bed, t_steam);
    double taken = fmin(fmax(heat, 0), wanted);
    if (head->phase == FV_BED_THROUGH || (taken == 0 && wanted > 0))
        return 0;
    if (head->phase == FV_BED_COOLING)
        head->t_top = fv_bed_top(bed);
    head->phase = taken < wanted ? FV_BED_CLIMBING : FV_BED_THROUGH;
    head->t_steam = t_steam;
    head->heat += taken;
    head->gain += condensate;
    head->follows = false;
    if (head->phase == FV_BED_THROUGH)
        head->t_top = head->t_steam = temperature_of(bed, head->heat);
    return taken;
}

void fv_bed_begin_cooling(fv_bed *bed)
{
    if (bed->head.phase == FV_BED_COOLING)
        return;
    bed->head.phase = FV_BED_COOLING;
    bed->head.at_shift = bed->head.heat;
    bed->head.shift = temperature_of(bed, bed->head.heat) - SHIFT_BASE;
    fv_body_restore(bed->layer, bed->even);
}

static bool step_makes_sense(double dt, double tc0, double tc1)
{
    return dt >= 0 && isfinite(dt) && isfinite(tc0) && isfinite(tc1);
}

/* The two probes differ only in how a cooling layer sees the step: a bed that follows takes the chamber's change. */
static fv_status probe(fv_bed *bed, double dt, double tc0, bool held, double *a, double *b)
{
    const bed_head *head = &bed->head;
    *a = *b = 0;
    if (!step_makes_sense(dt, tc0, tc0))
        return FV_FAIL;
    if (head->phase == FV_BED_COOLING) {
        double from = tc0 - head->shift;
        fv_status status = held ? fv_body_probe_held(bed->layer, dt, from, false, a, b)
                                : fv_body_probe(bed->layer, dt, from, false, a, b);
        *a -= *b * head->shift;
        return status;
    }
    if (head->phase == FV_BED_THROUGH && head->follows) {
        *b = capacity(bed);
        *a = -*b * head->t_steam;
    }
    return FV_OK;
}

fv_status fv_bed_probe(fv_bed *bed, double dt, double tc0, double *a, double *b)
{
    return probe(bed, dt, tc0, false, a, b);
}

fv_status fv_bed_probe_held(fv_bed *bed, double dt, double tc0, double *a, double *b)
{
    return probe(bed, dt, tc0, true, a, b);
}

static fv_status advance(fv_bed *bed, double dt, double tc0, double tc1, bool held)
{
    bed_head *head = &bed->head;
    if (!step_makes_sense(dt, tc0, tc1))
        return FV_FAIL;
    if (head->phase == FV_BED_COOLING) {
        double to = tc1 - head->shift;
        fv_status status = fv_body_advance(bed->layer, dt, held ? to : tc0 - head->shift, to, false);
        head->heat = head->at_shift + fv_body_heat(bed->layer);
        return status;
    }
    if (head->phase == FV_BED_THROUGH && head->follows) {
        head->heat += capacity(bed) * (tc1 - head->t_steam);
        head->t_steam = head->t_top = temperature_of(bed, head->heat);
    }
    if (head->phase == FV_BED_THROUGH && tc1 > head->t_steam - MEETS)
        head->follows = true;
    return FV_OK;
}

fv_status fv_bed_advance(fv_bed *bed, double dt, double tc0, double tc1)
{
    return advance(bed, dt, tc0, tc1, false);
}

fv_status fv_bed_advance_held(fv_bed *bed, double dt, double tc0, double t)
{
    return advance(bed, dt, tc0, t, true);
}

double fv_bed_core(const fv_bed *bed)
{
    if (bed->head.phase == FV_BED_COOLING)
        return fv_body_core(bed->layer) + bed->head.shift;
    return bed->head.t_top;
}

double fv_bed_top(const fv_bed *bed)
{
    if (bed->head.phase == FV_BED_COOLING)
        return fv_body_surface_mean(bed->layer) + bed->head.shift;
    return bed->head.t_top;
}

/* Share of the bed below the front. */
static double below(const fv_bed *bed)
{
    const bed_head *head = &bed->head;
    if (head->phase != FV_BED_CLIMBING)
        return 1;
    double full = content(bed, head->t_steam);
    return full > 0 ? fmin(head->heat / full, 1) : 0;
}

double fv_bed_front(const fv_bed *bed)
{
    return bed->spec.depth * below(bed);
}

double fv_bed_mean(const fv_bed *bed)
{
    if (bed->head.phase == FV_BED_COOLING)
        return fv_body_mean(bed->layer) + bed->head.shift;
    double share = below(bed);
    return share * bed->head.t_steam + (1 - share) * bed->head.t_top;
}

double fv_bed_heat(const fv_bed *bed)
{
    return bed->head.heat;
}

double fv_bed_gain(const fv_bed *bed)
{
    return bed->head.gain;
}

double fv_bed_moisture(const fv_bed *bed)
{
    double wet = bed->spec.mass + bed->head.gain;
    return (bed->spec.mass * bed->spec.moisture + bed->head.gain) / wet;
}

size_t fv_bed_state_size(const fv_bed *bed)
{
    return sizeof(bed_head) + fv_body_state_size(bed->layer);
}

void fv_bed_save(const fv_bed *bed, void *state)
{
    memcpy(state, &bed->head, sizeof bed->head);
    fv_body_save(bed->layer, (char *)state + sizeof bed->head);
}

void fv_bed_restore(fv_bed *bed, const void *state)
{
    memcpy(&bed->head, state, sizeof bed->head);
    fv_body_restore(bed->layer, (const char *)state + sizeof bed->head);
}
