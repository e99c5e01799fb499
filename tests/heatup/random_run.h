/* SPDX-License-Identifier: MIT */
/* A plant and its day drawn from a seed: one to six vessels with whatever loads, walls, openings, waits and actions may
 * be put on them. */
#ifndef TESTS_HEATUP_RANDOM_RUN_H
#define TESTS_HEATUP_RANDOM_RUN_H

#include "heatup/run_plants.h"

typedef struct {
    bench *b;
    uint64_t state;
    int vessels, boilers;
} draw;

static inline fv_value unsaid(void)
{
    return (fv_value){.v = NAN, .origin = FV_UNSET};
}

static inline bool chance(draw *d, double share)
{
    return next_random(&d->state) < share;
}

static inline int pick(draw *d, int count)
{
    const int k = (int)(next_random(&d->state) * count);
    return k < count ? k : count - 1;
}

static inline double between(draw *d, double low, double high)
{
    return low + next_random(&d->state) * (high - low);
}

/* Evenly in the logarithm. */
static inline double scaled(draw *d, double low, double high)
{
    return low * pow(high / low, next_random(&d->state));
}

static inline void draw_pieces(draw *d, fv_vessel *v)
{
    fv_load *load = &v->load;
    const double each = scaled(d, 0.0005, 0.03); /* m3 of one piece */
    const double side = cbrt(each), density = between(d, 250, 900);
    const double count = fmax(1, floor(v->volume.v * between(d, 0.05, 0.6) / each));
    load->form = fv_given(chance(d, 0.6) ? FV_FORM_BLOCK : FV_FORM_SLAB + pick(d, 3));
    load->a = load->b = load->c = unsaid();
    if (fv_word(load->form) == FV_FORM_BLOCK) {
        load->a = fv_given(side * between(d, 0.6, 1.2));
        load->b = fv_given(side * between(d, 0.6, 1.2));
        load->c = fv_given(each / load->a.v / load->b.v);
    } else if (fv_word(load->form) == FV_FORM_SLAB) {
        load->c = fv_given(side * between(d, 0.3, 0.8));
        load->area = fv_given(each / load->c.v);
    } else {
        load->diameter = fv_given(cbrt(each / (fv_word(load->form) == FV_FORM_SPHERE ? 0.5235987755982988 : 1.2)));
        if (fv_word(load->form) == FV_FORM_CYLINDER)
            load->height = fv_given(each / (0.7853981633974483 * load->diameter.v * load->diameter.v));
    }
    load->count = fv_given(count);
    load->packing = fv_given(FV_PACKING_LOOSE); /* must be said where it fills the vessel */
    load->mass = fv_given(count * each * density);
    if (chance(d, 0.3))
        load->surface = fv_given(scaled(d, 10, 400));
    if (chance(d, 0.3))
        load->cooling_surface = chance(d, 0.3) && fv_is_set(load->surface) ? load->surface : fv_given(scaled(d, 3, 40));
}

static inline void draw_load(draw *d, fv_vessel *v)
{
    fv_load *load = &v->load;
    static const double moisture[] = {0.6, 0.72, 0.45, 0.55, 0.2};
    const int medium = pick(d, 5);
    load->medium = fv_given(medium);
    load->moisture = fv_given(moisture[medium] * between(d, 0.8, 1.1));
    if (chance(d, 0.2)) {
        load->form = fv_given(FV_FORM_BED);
        load->a = load->b = load->c = load->count = unsaid();
        load->depth = fv_given(cbrt(v->volume.v) * between(d, 0.2, 0.8));
        load->area = fv_given(0.9 * v->volume.v / cbrt(v->volume.v));
        load->mass = fv_given(load->depth.v * load->area.v * between(d, 250, 700));
    } else {
        draw_pieces(d, v);
    }
    if (chance(d, 0.3))
        load->takes_condensate = fv_given(chance(d, 0.5) ? 1 : next_random(&d->state));
    if (chance(d, 0.3))
        load->start_temperature = fv_given(between(d, 258, 305));
}

static inline void draw_skin(draw *d, fv_vessel *v)
{
    const double face = 1.5 * pow(v->volume.v, 2.0 / 3);
    const int walls = pick(d, 4);
    for (int i = 0; i < walls; i++) {
        const bool foam = chance(d, 0.4);
        fv_wall *w = fv_vessel_add_wall(d->b->plant, v, HERE);
        const int layers = 1 + pick(d, 3);
        w->area = fv_given(face * between(d, 0.3, 2));
        for (int k = 0; k < layers; k++) {
            fv_wall_layer *layer = fv_wall_add_layer(d->b->plant, w, HERE);
            layer->thickness = fv_given(scaled(d, 0.001, 0.12));
            layer->conductivity = fv_given(foam ? 0.03 : scaled(d, 0.1, 40));
            layer->density = fv_given(foam ? 30 : between(d, 300, 2500));
            layer->specific_heat = fv_given(foam ? 1400 : 900);
        }
        if (chance(d, 0.2))
            w->inside = fv_given(scaled(d, 5, 500));
    }
    if (chance(d, 0.4)) {
        v->shell.mass = fv_given(scaled(d, 1, 100));
    }
    v->opening_count = 0;
    add_opening(d->b, v, chance(d, 0.5) ? FV_OPENING_DRAIN : FV_OPENING_VENT, scaled(d, 0.01, 0.08), 0);
    if (chance(d, 0.5))
        add_opening(d->b, v, chance(d, 0.5) ? FV_OPENING_GAP : FV_OPENING_VENT, scaled(d, 0.003, 0.06),
                    between(d, 0.1, 1.5));
}

static inline void draw_vessel(draw *d, int i)
{
    bench *b = d->b;
    fv_vessel *v = add_vessel(b, numbered(b, "v", i), numbered(b, "c", i));
    v->volume = fv_given(scaled(d, 0.05, 5));
    v->coil.holes = fv_given(4 + pick(d, 40));
    v->coil.drill = fv_given(between(d, 0.002, 0.006));
    draw_load(d, v);
    draw_skin(d, v);
    v->target = fv_given(KELVIN + (chance(d, 0.2) ? between(d, 55, 80) : between(d, 80, 98)));
    v->hold = fv_given(chance(d, 0.2) ? 0 : scaled(d, 600, 40000));
    v->cool = fv_given(fmax(b->plant->site.air.v, v->load.start_temperature.v > 0 ? v->load.start_temperature.v : 0) +
                       between(d, 3, 40));
    if (chance(d, 0.2)) {
        v->sump_area = fv_given(scaled(d, 0.05, 2));
    }
    if (chance(d, 0.1))
        v->water = fv_given(scaled(d, 0.002, 0.1));
    if (chance(d, 0.2))
        v->start = fv_given(scaled(d, 60, 20000));
    if (i > 0 && chance(d, 0.2)) {
        static const char *const events[] = {"full", "core", "hold", "cool"};
        v->start_after = fv_arena_printf(b->plant->arena, "v%d %s", pick(d, i), events[pick(d, 4)]);
    }
    if (chance(d, 0.05))
        v->phase = fv_given(FV_PHASE_SHUT);
}

static inline void draw_lines(draw *d)
{
    bench *b = d->b;
    for (int i = 0; i < d->vessels; i++) {
        const bool first = i == 0, spur = chance(d, 0.4);
        if (!first)
            add_line(b, FV_LINE_HEADER, numbered(b, "header", i), numbered(b, "b", spur ? 0 : i - 1),
                     numbered(b, "b", i), scaled(d, 0.3, 10), scaled(d, 0.02, 0.08));
        fv_line *hose = add_line(b, FV_LINE_HOSE, numbered(b, "hose", i), numbered(b, "b", i), numbered(b, "c", i),
                                 scaled(d, 0.5, 10), scaled(d, 0.01, 0.035));
        if (chance(d, 0.4)) {
            fv_fitting *f = fv_line_add_fitting(b->plant, hose, FV_FITTING_VALVE, HERE);
            f->type = "ball-valve";
            f->part.id = numbered(b, "valve", i);
            f->open = fv_given(chance(d, 0.1) ? 0 : chance(d, 0.5) ? 1 : next_random(&d->state));
        }
        if (chance(d, 0.1))
            hose->sag = fv_given(scaled(d, 0.01, 0.2));
        if (chance(d, 0.3))
            hose->lagging = fv_given(0.02);
    }
}

static inline void draw_actions(draw *d)
{
    bench *b = d->b;
    const int count = chance(d, 0.5) ? 0 : 1 + pick(d, 4);
    static const char *const events[] = {"full", "core", "hold", "cool"};
    for (int i = 0; i < count; i++) {
        fv_action *a = add_action(b, scaled(d, 60, 100000), NULL);
        if (chance(d, 0.4)) {
            a->at = unsaid();
            a->after = fv_arena_printf(b->plant->arena, "v%d %s", pick(d, d->vessels), events[pick(d, 4)]);
            if (chance(d, 0.5))
                a->delay = fv_given(scaled(d, 10, 10000));
        }
        if (chance(d, 0.5)) {
            a->boiler = "boiler";
            a->fire = fv_given(chance(d, 0.3) ? (double)pick(d, 2) : next_random(&d->state));
        } else {
            act_on(b, a, numbered(b, "v", pick(d, d->vessels)), chance(d, 0.6) ? FV_ACT_SHUT : FV_ACT_OPEN);
        }
    }
}

/* An open bench with a random plant in it, not yet linked. */
static inline void draw_run(bench *b, uint64_t seed)
{
    draw d = {.b = b, .state = seed * 0x9e3779b97f4a7c15u + 1};
    next_random(&d.state);
    open_bench(b, 0);
    b->plant->site.tees = fv_given(FV_TEES_FOUND);
    b->plant->site.air = fv_given(between(&d, 258, 308));
    b->plant->site.wind = fv_given(chance(&d, 0.5) ? 0 : between(&d, 0, 6));
    if (chance(&d, 0.3))
        b->plant->site.pressure = fv_given(between(&d, 70e3, 104e3));
    d.vessels = (int)scaled(&d, 1, 6.99);
    b->boiler->output = fv_given(d.vessels * scaled(&d, 1000, 40000));
    b->boiler->holds = fv_given(scaled(&d, 2000, 45000));
    b->boiler->water = fv_given(scaled(&d, 0.005, 0.2));
    if (chance(&d, 0.3))
        b->boiler->fire = fv_given(scaled(&d, 0.05, 1));
    if (chance(&d, 0.3))
        b->boiler->loss = fv_given(0.03 * b->boiler->output.v);
    if (chance(&d, 0.2))
        b->boiler->dryness = fv_given(between(&d, 0.9, 1));
    if (chance(&d, 0.15)) {
        b->boiler->feeding = fv_given(FV_FEED_BY_HAND);
        b->boiler->usable = fv_given(b->boiler->water.v * between(&d, 0.3, 1));
    }
    draw_lines(&d);
    for (int i = 0; i < d.vessels; i++)
        draw_vessel(&d, i);
    draw_actions(&d);
    b->options.until = 3 * 86400.0;
}

/* No waits and no actions, which one moment cannot know; surfaces said, so that no default moves a verdict. */
static inline void at_once(fv_plant *plant)
{
    plant->action_count = 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_vessel *v = plant->vessels[i];
        v->start = fv_given(0);
        v->start_after = NULL;
        if (!fv_is_set(v->load.surface))
            v->load.surface = fv_given(fv_or(v->load.takes_condensate, 0) > 0 ? 1000 : 200);
    }
}

#endif
