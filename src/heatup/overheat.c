/* SPDX-License-Identifier: MIT */
/* Between core and surface a body's temperature is taken as a power of the share v of it that lies further in:
 *
 *     T = core + (surface - core) v^p,    mean = core + (surface - core)/(p + 1)
 *
 * which is exact where the profile is a parabola: slab p = 2, cylinder 1, sphere 2/3. Accuracy: within 0.04 of the
 * share that the series gives, from a Fourier number of 0.05 on (tests/heatup/test_overheat.c). Edges and corners of a
 * block are above a limit somewhat before the mean of its surface. A bed is above it by its front, or cell by cell. */
#include "heatup/overheat.h"

#include <math.h>

double heatup_share_above(double core, double mean, double surface, double limit)
{
    const double range = surface - core, filled = (mean - core) / range, reached = (limit - core) / range;
    if (fmin(core, surface) > limit)
        return 1;
    if (!(fmax(core, surface) > limit))
        return 0;
    if (!(filled > 0 && filled < 1))
        return mean > limit;
    const double inside = pow(reached, filled / (1 - filled)); /* v at the limit, 1/p = filled/(1 - filled) */
    return range > 0 ? 1 - inside : inside;
}

static double share_above(const heatup_vessel *v, double limit)
{
    if (v->chamber.bed)
        return heatup_bed_above(v->chamber.bed, limit);
    return v->chamber.body ? heatup_share_above(v->core_end, heatup_chamber_mean(&v->chamber), v->surface_end, limit)
                           : 0;
}

/* Of a step in which something runs straight from one temperature to another, the part above a limit. */
static double part_above(double from, double to, double limit)
{
    const double above = fmax(0, fmax(from, to) - limit), range = fabs(to - from);
    return range > 0 ? fmin(1, above / range) : to > limit;
}

void heatup_note_overheating(heatup_run *run, size_t i, double dt)
{
    heatup_vessel *v = &run->state.vessels[i];
    fv_vessel_history *h = &run->result->vessels[i];
    const fv_vessel *vessel = run->context.plant->vessels[i];
    const double now = v->chamber.bed ? heatup_bed_hottest(v->chamber.bed) : fmax(v->core_end, v->surface_end);
    const double limit = fv_vessel_limit(vessel), bag = fv_bag_limit(&vessel->load);
    if (v->chamber.load_mass > 0) {
        h->hottest = fmax(h->hottest, now);
        h->bag_over += part_above(v->outermost, now, bag) * dt;
        h->over += part_above(v->outermost, now, limit) * dt;
        if (now > limit && h->over_share < 1)
            h->over_share = fmax(h->over_share, share_above(v, limit));
    }
    v->outermost = now;
}
