/* SPDX-License-Identifier: MIT */
/* A piece of the load: geometry, and which of the two methods it takes. A piece that starts above 0 degC, or has no
 * water, is linear (modal.c); one that starts frozen melts on the way (frozen.c). Water that would freeze later, in a
 * vessel left out in the cold, is not followed. */
#include "farvessel/constants.h"
#include "heatup/body.h"
#include "heatup/frozen.h"
#include "heatup/modal.h"
#include "heatup/thaw.h"

#include <math.h>
#include <stdlib.h>

#define SECANT 0.5 /* K, over which a frozen piece is linearised */
#define SECANT_LEAST 1e-4

/* What a frozen piece answered last, J/m3. */
typedef struct {
    bool known;      /* in this step */
    bool condensing; /* what the slope was for */
    double dt, t, heat, slope;
} asked;

struct heatup_body {
    heatup_body_spec spec;
    double volume, area;
    heatup_modal *modal; /* one of the two */
    heatup_frozen *frozen;
    heatup_modal *thawed; /* of a frozen piece: what it goes over to */
    asked last;
    double heat_before, mean_before; /* J, K: what modes started with */
};

static fv_status geometry_of(const heatup_body_spec *s, heatup_geometry *g, double *volume, double *area)
{
    switch (s->shape) {
    case HEATUP_BODY_BLOCK:
        *g = (heatup_geometry){.axis = {{FV_SLAB, s->a / 2, s->along[0]},
                                        {FV_SLAB, s->b / 2, s->along[1]},
                                        {FV_SLAB, s->c / 2, s->along[2]}},
                               .axes = 3};
        *volume = s->a * s->b * s->c;
        *area = 2 * (s->a * s->b + s->b * s->c + s->c * s->a);
        break;
    case HEATUP_BODY_SLAB:
        *g = (heatup_geometry){.axis = {{FV_SLAB, s->c / 2, 1}}, .axes = 1};
        *volume = s->area * s->c;
        *area = 2 * s->area;
        break;
    case HEATUP_BODY_CYLINDER:
        *g = (heatup_geometry){.axis = {{FV_CYLINDER, s->diameter / 2, 1}, {FV_SLAB, s->height / 2, 1}}, .axes = 2};
        *volume = FV_PI / 4 * s->diameter * s->diameter * s->height;
        *area = FV_PI * s->diameter * (s->height + s->diameter / 2);
        break;
    case HEATUP_BODY_SPHERE:
        *g = (heatup_geometry){.axis = {{FV_SPHERE, s->diameter / 2, 1}}, .axes = 1};
        *volume = FV_PI / 6 * pow(s->diameter, 3);
        *area = FV_PI * s->diameter * s->diameter;
        break;
    default:
        return FV_FAIL;
    }
    bool positive = *volume > 0 && isfinite(*volume);
    for (int d = 0; d < g->axes; d++)
        positive = positive && g->axis[d].size > 0;
    return positive ? FV_OK : FV_FAIL;
}

static bool sound(const heatup_body_spec *s)
{
    return s->conductivity > 0 && isfinite(s->conductivity) && s->density > 0 && isfinite(s->density) &&
           s->specific_heat > 0 && isfinite(s->specific_heat) && s->h_condensing > 0 && s->h_cooling > 0 &&
           s->t_start > 0 && isfinite(s->t_start) && s->moisture >= 0 && s->moisture <= 1 &&
           s->conductivity_frozen >= 0 && s->specific_heat_frozen >= 0 && s->along[0] >= 0 && s->along[1] >= 0 &&
           s->along[2] >= 0;
}

heatup_body *heatup_body_new(const heatup_body_spec *spec)
{
    heatup_geometry geometry;
    double volume, area;
    if (!sound(spec) || geometry_of(spec, &geometry, &volume, &area) == FV_FAIL)
        return NULL;
    heatup_body *body = calloc(1, sizeof *body);
    if (!body)
        return NULL;
    body->spec = *spec;
    body->volume = volume;
    body->area = area;
    geometry.conductivity = spec->conductivity;
    geometry.diffusivity = spec->conductivity / (spec->density * spec->specific_heat);
    if (spec->t_start < FV_MELTING_POINT && spec->moisture > 0) {
        double c_ice = spec->specific_heat_frozen > 0 ? spec->specific_heat_frozen : spec->specific_heat;
        heatup_frozen_spec frozen = {
            .k_ice = spec->conductivity_frozen > 0 ? spec->conductivity_frozen : spec->conductivity,
            .k_water = spec->conductivity,
            .c_ice = c_ice * spec->density,
            .c_water = spec->specific_heat * spec->density,
            .latent = spec->moisture * FV_LATENT_ICE * spec->density,
            .h = {spec->h_cooling, spec->h_condensing},
            .t_start = spec->t_start,
            .cells = spec->cells,
        };
        body->frozen = heatup_frozen_new(&geometry, &frozen);
        body->thawed = heatup_modal_new(&geometry, spec->h_condensing, spec->h_cooling, FV_MELTING_POINT);
    } else {
        body->modal = heatup_modal_new(&geometry, spec->h_condensing, spec->h_cooling, spec->t_start);
    }
    body->mean_before = spec->t_start;
    if (body->modal || (body->frozen && body->thawed))
        return body;
    heatup_body_free(body);
    return NULL;
}

heatup_body *heatup_body_copy(const heatup_body *body)
{
    heatup_body *copy = malloc(sizeof *copy);
    if (!copy)
        return NULL;
    *copy = *body;
    copy->modal = body->modal ? heatup_modal_copy(body->modal) : NULL;
    copy->frozen = body->frozen ? heatup_frozen_copy(body->frozen) : NULL;
    copy->thawed = body->thawed ? heatup_modal_copy(body->thawed) : NULL;
    if (copy->modal || (copy->frozen && copy->thawed))
        return copy;
    heatup_body_free(copy);
    return NULL;
}

bool heatup_body_is_of(const heatup_body *body, const heatup_body_spec *spec)
{
    const heatup_body_spec *a = &body->spec, *b = spec;
    return a->shape == b->shape && a->a == b->a && a->b == b->b && a->c == b->c && a->along[0] == b->along[0] &&
           a->along[1] == b->along[1] && a->along[2] == b->along[2] && a->area == b->area &&
           a->diameter == b->diameter && a->height == b->height && a->conductivity == b->conductivity &&
           a->density == b->density && a->specific_heat == b->specific_heat && a->h_condensing == b->h_condensing &&
           a->h_cooling == b->h_cooling && a->t_start == b->t_start && a->moisture == b->moisture &&
           a->conductivity_frozen == b->conductivity_frozen && a->specific_heat_frozen == b->specific_heat_frozen &&
           a->cells == b->cells;
}

bool heatup_body_is_like(const heatup_body *one, const heatup_body *other)
{
    return heatup_body_is_of(one, &other->spec);
}

void heatup_body_free(heatup_body *body)
{
    if (!body)
        return;
    heatup_modal_free(body->modal);
    heatup_frozen_free(body->frozen);
    heatup_modal_free(body->thawed);
    free(body);
}

double heatup_body_mass(const heatup_body *body)
{
    return body->spec.density * body->volume;
}

double heatup_body_area(const heatup_body *body)
{
    return body->area;
}

bool heatup_body_is_linear(const heatup_body *body)
{
    return body->modal || heatup_frozen_thawed(body->frozen);
}

static double capacity(const heatup_body *body)
{
    return body->spec.density * body->volume * body->spec.specific_heat;
}

static bool step_makes_sense(double dt, double tc0, double tc1)
{
    return dt >= 0 && isfinite(dt) && isfinite(tc0) && isfinite(tc1);
}

/* Its heat at a guess and the slope there: that of the last step, for a longer or shorter one about in proportion to
 * what conduction takes; asked again, between the two guesses. At first, to a point beside it. */
static void ask_frozen(heatup_body *body, double dt, double guess, bool condensing)
{
    asked *last = &body->last;
    const bool again = last->known && last->dt == dt && last->condensing == condensing;
    if (again && last->t == guess)
        return;
    double heat = heatup_frozen_heat_over(body->frozen, dt, guess, guess, condensing), slope = last->slope;
    if (again && fabs(guess - last->t) > SECANT_LEAST)
        slope = (heat - last->heat) / (guess - last->t);
    else if (!again && slope > 0 && last->condensing == condensing)
        slope *= sqrt(dt / last->dt);
    else if (!again)
        slope = (heatup_frozen_heat_over(body->frozen, dt, guess + SECANT, guess + SECANT, condensing) - heat) / SECANT;
    *last = (asked){true, condensing, dt, guess, heat, slope};
}

fv_status heatup_body_probe_held(heatup_body *body, double dt, double guess, bool condensing, double *a, double *b)
{
    if (!step_makes_sense(dt, guess, guess))
        return FV_FAIL;
    if (body->modal) {
        heatup_modal_probe_held(body->modal, dt, condensing, a, b);
        *a *= capacity(body);
        *b *= capacity(body);
        return FV_OK;
    }
    ask_frozen(body, dt, guess, condensing);
    *b = body->last.slope * body->volume;
    *a = body->last.heat * body->volume - *b * guess;
    return FV_OK;
}

fv_status heatup_body_advance(heatup_body *body, double dt, double tc0, double tc1, bool condensing)
{
    if (!step_makes_sense(dt, tc0, tc1))
        return FV_FAIL;
    body->last.known = false;
    if (body->modal)
        heatup_modal_advance(body->modal, dt, tc0, tc1, condensing);
    else
        heatup_frozen_advance(body->frozen, dt, tc0, tc1, condensing);
    return FV_OK;
}

fv_status heatup_body_settle(heatup_body *body)
{
    if (!body->frozen || !heatup_frozen_thawed(body->frozen))
        return FV_OK;
    const double heat = heatup_body_heat(body), mean = heatup_frozen_mean(body->frozen);
    if (heatup_thaw(body->frozen, body->thawed) == FV_FAIL)
        return FV_FAIL;
    body->heat_before = heat;
    body->mean_before = mean;
    body->modal = body->thawed;
    body->thawed = NULL;
    heatup_frozen_free(body->frozen);
    body->frozen = NULL;
    return FV_OK;
}

double heatup_body_core(const heatup_body *body)
{
    return body->modal ? heatup_modal_core(body->modal) : heatup_frozen_core(body->frozen);
}

static double shortest(const heatup_body_spec *spec, int *axis)
{
    heatup_geometry g;
    double volume, area;
    *axis = 0;
    if (geometry_of(spec, &g, &volume, &area) == FV_FAIL)
        return (double)NAN;
    for (int d = 1; d < g.axes; d++)
        *axis = g.axis[d].size < g.axis[*axis].size ? d : *axis;
    return g.axis[*axis].size;
}

double heatup_body_half(const heatup_body_spec *spec)
{
    int axis;
    return shortest(spec, &axis);
}

double heatup_body_at(heatup_body *body, double depth)
{
    int axis;
    const double position = fmax(0, 1 - depth / shortest(&body->spec, &axis));
    return body->modal ? heatup_modal_at(body->modal, axis, position) : heatup_frozen_at(body->frozen, axis, position);
}

double heatup_body_mean(const heatup_body *body)
{
    return body->modal ? heatup_modal_mean(body->modal) : heatup_frozen_mean(body->frozen);
}

double heatup_body_surface_mean(const heatup_body *body)
{
    if (body->frozen)
        return heatup_frozen_surface_mean(body->frozen);
    // what the whole piece gains has come through the film
    bool condensing;
    double tc = heatup_modal_surroundings(body->modal, &condensing);
    double h = condensing ? body->spec.h_condensing : body->spec.h_cooling;
    if (isinf(h))
        return tc;
    return tc - capacity(body) * heatup_modal_mean_slope(body->modal) / (h * body->area);
}

double heatup_body_core_slope(const heatup_body *body, double t, bool condensing)
{
    bool now;
    if (!body->modal)
        return (double)NAN;
    heatup_modal_surroundings(body->modal, &now);
    return now == condensing ? heatup_modal_core_slope(body->modal, t) : (double)NAN;
}

double heatup_body_heat(const heatup_body *body)
{
    if (body->frozen)
        return heatup_frozen_heat(body->frozen) * body->volume;
    return body->heat_before + capacity(body) * (heatup_modal_mean(body->modal) - body->mean_before);
}

double heatup_body_core_after(heatup_body *body, double dt, double tc0, double slope, bool condensing)
{
    double tc1 = tc0 + slope * dt;
    if (!step_makes_sense(dt, tc0, tc1))
        return (double)NAN;
    return body->modal ? heatup_modal_core_after(body->modal, dt, tc0, slope, condensing)
                       : heatup_frozen_core_after(body->frozen, dt, tc0, tc1, condensing);
}

static bool same_shape(const heatup_body_spec *a, const heatup_body_spec *b)
{
    return a->shape == b->shape && a->a == b->a && a->b == b->b && a->c == b->c && a->along[0] == b->along[0] &&
           a->along[1] == b->along[1] && a->along[2] == b->along[2] && a->diameter == b->diameter &&
           a->height == b->height;
}

heatup_body *heatup_body_unloaded(heatup_body *body, const heatup_body_spec *spec)
{
    heatup_body_spec now = *spec;
    now.t_start = heatup_body_mean(body);
    heatup_body *open = body->modal ? heatup_body_new(&now) : NULL;
    if (!open || !open->modal) {
        heatup_body_free(open);
        return NULL;
    }
    open->heat_before = heatup_body_heat(body) * open->volume / body->volume;
    if (same_shape(&body->spec, spec))
        heatup_modal_carry(body->modal, open->modal);
    return open;
}
