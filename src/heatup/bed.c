/* SPDX-License-Identifier: MIT */
/* A loose bed: the heat balance of a condensation front, then a lump, then a cooling brick.
 *
 * Front: heat taken = share below the front x heat content at the steam's temperature; the share is the front's height.
 *        A frozen bed melts at the front, too.
 *        A front does not rise evenly: with S = heat supplied / heat wanted, all is taken until S = 2 - phi, then a
 *        share that falls in a straight line to nothing at S = phi, where the last of the bed is hot:
 *            taken/wanted = S - (S - (2 - phi))^2 / (4 (phi - 1))    between the two
 *        phi = 1: an even front. What is not taken passes into the chamber.
 * Cooling: brick.h, thawed; water soaked up adds no heat capacity: it is booked as condensate at the steam's
 *        temperature.
 * Source: steam condenses in a narrow zone that moves through the medium: K. F. Baker (ed.), The U.C. System for
 *        Producing Healthy Container-Grown Plants, Calif. Agric. Exp. Stn. Manual 23 (1957), on steaming soil; that it
 *        breaks through at edges and channels first: Baker & Fuller, Phytopathology 66 (1976), for the cause; both from
 *        memory. 1/phi = 67 % agrees with the 60 to 75 % of sheet steaming (common practice, no source).
 */
#include "heatup/bed.h"
#include "farvessel/constants.h"
#include "farvessel/heat.h"

#include <math.h>
#include <stdlib.h>

#define MEETS 0.5 /* K: the chamber counts as being at the bed's temperature */

struct heatup_bed {
    heatup_bed_spec spec;
    heatup_bed_phase phase;
    bool follows;                   /* through, and the chamber has come up to it */
    double heat;                    /* J since the start */
    double t_steam;                 /* K: below the front; of all, once through */
    double t_top;                   /* K: above the front */
    double gain;                    /* kg */
    double from;                    /* J, heat when this front began to climb */
    double supplied;                /* J to this front */
    bool broken_off;                /* it cools from a front that was not through */
    double at_start, mean_at_start; /* J, K, of the brick when cooling began */
    heatup_brick *brick;
};

heatup_bed *heatup_bed_new(const heatup_bed_spec *spec)
{
    const double volume = spec->depth * spec->area;
    if (!(spec->t_start > 0) || !isfinite(spec->t_start) || !(spec->moisture >= 0 && spec->moisture < 1) ||
        !(spec->specific_heat_frozen >= 0) || !(volume > 0) || !isfinite(volume) || !(spec->mass > 0) ||
        !(spec->specific_heat > 0) || !(spec->conductivity > 0) || !(spec->h_cooling > 0) ||
        !(spec->front_factor >= 1 && spec->front_factor <= 2))
        return NULL;
    heatup_bed *bed = calloc(1, sizeof *bed);
    if (!bed)
        return NULL;
    *bed = (heatup_bed){.spec = *spec, .t_steam = spec->t_start, .t_top = spec->t_start};
    bed->brick = heatup_brick_new(&(heatup_brick_spec){.area = spec->area,
                                                       .depth = spec->depth,
                                                       .conductivity = spec->conductivity,
                                                       .heat_capacity = spec->mass * spec->specific_heat / volume});
    if (bed->brick)
        return bed;
    heatup_bed_free(bed);
    return NULL;
}

void heatup_bed_free(heatup_bed *bed)
{
    if (!bed)
        return;
    heatup_brick_free(bed->brick);
    free(bed);
}

static double capacity(const heatup_bed *bed)
{
    return bed->spec.mass * bed->spec.specific_heat;
}

bool heatup_bed_thaws(const heatup_bed *bed)
{
    return bed->spec.t_start < FV_MELTING_POINT && bed->spec.moisture > 0;
}

/* J that bring the whole bed from its start to t. */
static double content(const heatup_bed *bed, double t)
{
    const double start = bed->spec.t_start;
    if (!heatup_bed_thaws(bed))
        return capacity(bed) * (t - start);
    const double frozen = bed->spec.specific_heat_frozen > 0 ? bed->spec.specific_heat_frozen : bed->spec.specific_heat;
    if (t < FV_MELTING_POINT)
        return bed->spec.mass * frozen * (t - start);
    return bed->spec.mass * (frozen * (FV_MELTING_POINT - start) + bed->spec.moisture * FV_LATENT_ICE) +
           capacity(bed) * (t - FV_MELTING_POINT);
}

/* The even temperature that holds that much heat. */
static double temperature_of(const heatup_bed *bed, double heat)
{
    const double start = bed->spec.t_start;
    if (!heatup_bed_thaws(bed))
        return start + heat / capacity(bed);
    const double thawed = content(bed, FV_MELTING_POINT), melt = bed->spec.mass * bed->spec.moisture * FV_LATENT_ICE;
    if (heat > thawed)
        return FV_MELTING_POINT + (heat - thawed) / capacity(bed);
    if (heat > thawed - melt)
        return FV_MELTING_POINT;
    return start + heat / (thawed - melt) * (FV_MELTING_POINT - start);
}

heatup_bed_phase heatup_bed_phase_of(const heatup_bed *bed)
{
    return bed->phase;
}

bool heatup_bed_follows(const heatup_bed *bed)
{
    return bed->phase == HEATUP_BED_THROUGH && bed->follows;
}

double heatup_bed_wants(const heatup_bed *bed, double t_steam)
{
    return bed->phase == HEATUP_BED_THROUGH ? 0 : fmax(0, content(bed, t_steam) - bed->heat);
}

/* Share taken of what is wanted when S of it has been supplied. */
static double taken_share(double phi, double s)
{
    if (s <= 2 - phi)
        return s;
    const double late = s - (2 - phi);
    return s >= phi ? 1 : s - late * late / (4 * (phi - 1));
}

/* The other way round: of what is wanted, how much has been supplied where a share has been taken. */
static double supplied_share(double phi, double taken)
{
    const double late = taken - (2 - phi);
    return late <= 0 ? taken : taken >= 1 ? phi : 2 - phi + 2 * (phi - 1) * (1 - sqrt(1 - late / (phi - 1)));
}

/* J at which this front began, or the next one will: one that was broken off goes on from where its heat has it. */
static double front_from(const heatup_bed *bed)
{
    return bed->phase != HEATUP_BED_COOLING ? bed->from : bed->broken_off ? fmin(bed->from, bed->heat) : bed->heat;
}

/* J that this front, or the next one, takes from its beginning; and what it has been supplied with. */
static double whole_front(const heatup_bed *bed, double t_steam, double *supplied)
{
    const double from = front_from(bed), whole = fmax(0, content(bed, t_steam) - from);
    *supplied = bed->phase != HEATUP_BED_COOLING ? bed->supplied
                : whole > 0 ? whole * supplied_share(bed->spec.front_factor, (bed->heat - from) / whole)
                            : 0;
    return whole;
}

double heatup_bed_to_supply(const heatup_bed *bed, double t_steam)
{
    double supplied;
    const double whole = whole_front(bed, t_steam, &supplied);
    return bed->phase == HEATUP_BED_THROUGH ? 0 : fmax(0, bed->spec.front_factor * whole - supplied);
}

double heatup_bed_accepts(const heatup_bed *bed, double supplied, double t_steam)
{
    double before;
    const double whole = whole_front(bed, t_steam, &before), phi = bed->spec.front_factor;
    if (bed->phase == HEATUP_BED_THROUGH || !(whole > 0))
        return 0;
    const double taken = whole * (taken_share(phi, (before + supplied) / whole) - taken_share(phi, before / whole));
    return fmax(0, fmin(taken, heatup_bed_wants(bed, t_steam)));
}

double heatup_bed_give(heatup_bed *bed, double supplied, double t_steam, double condensate)
{
    const double to_supply = heatup_bed_to_supply(bed, t_steam), wants = heatup_bed_wants(bed, t_steam);
    if (bed->phase == HEATUP_BED_THROUGH || (!(supplied > 0) && wants > 0))
        return 0;
    const bool through = supplied >= to_supply;
    const double taken = through ? wants : heatup_bed_accepts(bed, supplied, t_steam);
    if (bed->phase == HEATUP_BED_COOLING) {
        whole_front(bed, t_steam, &bed->supplied);
        bed->from = front_from(bed);
        bed->t_top = bed->broken_off ? temperature_of(bed, bed->from) : heatup_bed_top(bed);
    }
    bed->phase = through ? HEATUP_BED_THROUGH : HEATUP_BED_CLIMBING;
    bed->t_steam = t_steam;
    bed->heat += taken;
    bed->supplied += supplied;
    bed->gain += condensate;
    bed->follows = false;
    if (through)
        bed->t_top = bed->t_steam = temperature_of(bed, bed->heat);
    return taken;
}

/* The front falls back to where the heat that is left had it; one that has not begun will begin from less. */
void heatup_bed_lose(heatup_bed *bed, double heat)
{
    double supplied;
    const double whole = whole_front(bed, bed->t_steam, &supplied);
    bed->heat -= heat;
    if (bed->heat > bed->from) {
        bed->supplied = whole * supplied_share(bed->spec.front_factor, (bed->heat - bed->from) / whole);
        return;
    }
    bed->t_top += temperature_of(bed, bed->heat) - temperature_of(bed, bed->from);
    bed->from = bed->heat;
    bed->supplied = 0;
}

void heatup_bed_begin_cooling(heatup_bed *bed)
{
    if (bed->phase == HEATUP_BED_COOLING)
        return;
    if (heatup_bed_thaws(bed) && bed->phase == HEATUP_BED_CLIMBING) {
        const double even = temperature_of(bed, bed->heat);
        heatup_brick_set(bed->brick, 0, even, even);
    } else {
        heatup_brick_set(bed->brick, heatup_bed_front(bed), bed->t_steam, bed->t_top);
    }
    bed->broken_off = bed->phase == HEATUP_BED_CLIMBING;
    bed->phase = HEATUP_BED_COOLING;
    bed->at_start = bed->heat;
    bed->mean_at_start = heatup_brick_mean(bed->brick);
}

void heatup_bed_prepare(heatup_bed *bed, const heatup_bed_step *step, heatup_line *chamber, heatup_line *walls)
{
    *chamber = *walls = (heatup_line){0, 0};
    if (bed->phase == HEATUP_BED_COOLING) {
        const heatup_brick_step s = {.dt = step->dt,
                                     .skin = step->skin / heatup_brick_skin_area(bed->brick),
                                     .t_skin = step->t_skin,
                                     .h_top = step->h_top};
        heatup_brick_prepare(bed->brick, &s, chamber, walls);
    } else if (heatup_bed_follows(bed)) {
        *chamber = (heatup_line){-capacity(bed) * bed->t_steam, capacity(bed)};
    }
}

void heatup_bed_advance(heatup_bed *bed, double t)
{
    if (bed->phase == HEATUP_BED_COOLING) {
        heatup_brick_advance(bed->brick, t);
        bed->heat = bed->at_start + capacity(bed) * (heatup_brick_mean(bed->brick) - bed->mean_at_start);
        return;
    }
    if (heatup_bed_follows(bed)) {
        bed->heat += capacity(bed) * (t - bed->t_steam);
        bed->t_steam = bed->t_top = temperature_of(bed, bed->heat);
    }
    if (bed->phase == HEATUP_BED_THROUGH && t > bed->t_steam - MEETS)
        bed->follows = true;
}

double heatup_bed_core(const heatup_bed *bed)
{
    return bed->phase == HEATUP_BED_COOLING ? heatup_brick_coldest(bed->brick) : fmin(bed->t_top, bed->t_steam);
}

double heatup_bed_top(const heatup_bed *bed)
{
    return bed->phase == HEATUP_BED_COOLING ? heatup_brick_top(bed->brick) : bed->t_top;
}

/* Share of the bed below the front; nothing once what it had taken is lost again. */
static double below(const heatup_bed *bed)
{
    if (bed->phase != HEATUP_BED_CLIMBING)
        return 1;
    const double full = content(bed, bed->t_steam) - bed->from;
    return full > 0 ? fmax(0, fmin((bed->heat - bed->from) / full, 1)) : 0;
}

double heatup_bed_front(const heatup_bed *bed)
{
    return bed->spec.depth * below(bed);
}

double heatup_bed_mean(const heatup_bed *bed)
{
    if (bed->phase == HEATUP_BED_COOLING)
        return heatup_brick_mean(bed->brick);
    const double share = below(bed);
    return share * bed->t_steam + (1 - share) * bed->t_top;
}

double heatup_bed_hottest(const heatup_bed *bed)
{
    if (bed->phase == HEATUP_BED_COOLING)
        return heatup_brick_hottest(bed->brick);
    return below(bed) > 0 ? fmax(bed->t_top, bed->t_steam) : bed->t_top;
}

double heatup_bed_above(const heatup_bed *bed, double limit)
{
    if (bed->phase == HEATUP_BED_COOLING)
        return heatup_brick_above(bed->brick, limit);
    const double share = below(bed);
    return (bed->t_steam > limit ? share : 0) + (bed->t_top > limit ? 1 - share : 0);
}

double heatup_bed_heat(const heatup_bed *bed)
{
    return bed->heat;
}

double heatup_bed_gain(const heatup_bed *bed)
{
    return bed->gain;
}
