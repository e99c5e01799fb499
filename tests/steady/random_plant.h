/* SPDX-License-Identifier: MIT */
/* A plant drawn from a seed: trees and loops of headers, hoses with whatever may sit in them, one to four boilers. */
#ifndef TESTS_STEADY_RANDOM_PLANT_H
#define TESTS_STEADY_RANDOM_PLANT_H

#include "steady/plants.h"

enum { VESSELS_MOST = 60 };

typedef struct {
    bench *b;
    uint64_t state;
    bool harsh; /* one in ten: long bare headers and a fire turned down to almost nothing */
    int joints, vessels;
    int ends[2 * VESSELS_MOST + 8];        /* of lines at each joint, and whatever else stands there */
    int lines_at[2 * VESSELS_MOST + 8][3]; /* the first three of them */
    double height[2 * VESSELS_MOST + 8];   /* so that rises close around loops */
    bool taken[2 * VESSELS_MOST + 8];      /* by a boiler or a vessel */
} draw;

static inline bool chance(draw *d, double share)
{
    return next_random(&d->state) < share;
}

static inline int pick(draw *d, int count)
{
    const int k = (int)(next_random(&d->state) * count);
    return k < count ? k : count - 1;
}

static inline void furnish(draw *d, fv_line *line)
{
    fv_plant *plant = d->b->plant;
    if (chance(d, 0.3)) {
        fv_fitting *f = fv_line_add_fitting(plant, line, FV_FITTING_TYPE, HERE);
        f->type = "elbow";
        f->count = fv_given(1 + pick(d, 4));
    }
    if (line->kind == FV_LINE_HOSE && chance(d, 0.3)) {
        fv_fitting *f = fv_line_add_fitting(plant, line, FV_FITTING_BARB, HERE);
        f->bore = fv_given(line->bore.v * between(&d->state, 0.6, 0.95));
        f->count = fv_given(2);
    }
    if (line->kind == FV_LINE_HOSE && chance(d, 0.4)) {
        fv_fitting *f = fv_line_add_fitting(plant, line, FV_FITTING_VALVE, HERE);
        f->type = chance(d, 0.5) ? "ball-valve" : "globe-valve";
        const double open = next_random(&d->state);
        f->open = fv_given(open < 0.1 ? 0 : open < 0.5 ? 1 : open);
    }
    if (chance(d, 0.3))
        line->lagging = fv_given(between(&d->state, 0.01, 0.06));
    if (chance(d, 0.1))
        line->heat_loss = fv_given(chance(d, 0.5) ? 0 : scaled(&d->state, 1, 500));
    if (chance(d, 0.3))
        line->condensate = fv_given(pick(d, 3));
    if (chance(d, line->kind == FV_LINE_HOSE ? 0.15 : 0.03))
        line->sag = fv_given(fmin(scaled(&d->state, 0.005, 0.2), 0.4 * line->length.v));
    if (chance(d, 0.1))
        line->friction = fv_given(between(&d->state, 0.015, 0.05));
}

static inline void lay(draw *d, fv_line_kind kind, int from, int to, double length, double bore)
{
    char id[24], a[24], z[24];
    const int number = (int)d->b->plant->line_count;
    snprintf(id, sizeof id, "l%d", number);
    snprintf(a, sizeof a, "j%d", from);
    snprintf(z, sizeof z, "j%d", to);
    fv_line *line = add_line(d->b, kind, id, a, z, length, bore);
    const double rise = d->height[to] - d->height[from];
    if (fabs(rise) > length)
        line->length = fv_given(fabs(rise) + length);
    line->rise = fv_given(rise);
    furnish(d, line);
    const int joints[2] = {from, to};
    for (int k = 0; k < 2; k++) {
        if (d->ends[joints[k]] < 3)
            d->lines_at[joints[k]][d->ends[joints[k]]] = number;
        d->ends[joints[k]]++;
    }
}

static inline void draw_vessel(draw *d, int joint)
{
    char id[24], at[24];
    snprintf(id, sizeof id, "v%d", joint);
    snprintf(at, sizeof at, "j%d", joint);
    fv_vessel *v = add_vessel(d->b, id, at, 1 + pick(d, 40), between(&d->state, 0.0015, 0.008));
    v->coil.bore = fv_given(between(&d->state, 0.012, 0.05));
    v->coil.length = fv_given(between(&d->state, 0.3, 4));
    const double ratio = v->coil.holes.v * v->coil.drill.v * v->coil.drill.v / (v->coil.bore.v * v->coil.bore.v);
    if (ratio > 1.5 && !chance(d, 0.1))
        v->coil.drill.v *= sqrt(scaled(&d->state, 0.1, 1.5) / ratio);
    if (chance(d, 0.3))
        v->coil.shape = fv_given(FV_COIL_RING);
    if (chance(d, 0.5))
        v->coil.cd = fv_given(between(&d->state, 0.5, 0.95));
    if (chance(d, 0.2))
        v->water = fv_given(scaled(&d->state, 0.002, 0.15));
    const double phase = next_random(&d->state);
    if (phase < 0.25) {
        v->phase = fv_given(FV_PHASE_HOLDING);
        v->uptake = fv_given(scaled(&d->state, 50, 20000));
    } else if (phase < 0.35) {
        v->phase = fv_given(FV_PHASE_SHUT);
    }
    d->taken[joint] = true;
}

static inline void draw_headers(draw *d, int joints)
{
    const bool chain = chance(d, 0.5);
    const double bore = scaled(&d->state, 0.015, 0.12);
    for (int i = 0; i < joints; i++)
        d->height[i] = chance(d, 0.3) ? between(&d->state, -1, 2) : 0;
    for (int i = 1; i < joints; i++)
        lay(d, FV_LINE_HEADER, chain ? i - 1 : pick(d, i), i, scaled(&d->state, 0.2, d->harsh ? 30 : 8),
            bore * between(&d->state, 0.7, 1.4));
    const int loops = chance(d, 0.5) ? pick(d, 1 + joints / 3 + 1) : 0;
    for (int i = 0; i < loops; i++) {
        const int a = pick(d, joints), z = pick(d, joints);
        if (a != z)
            lay(d, chance(d, 0.5) ? FV_LINE_HEADER : FV_LINE_HOSE, a, z, scaled(&d->state, 0.2, 20),
                scaled(&d->state, 0.012, 0.1));
    }
}

static inline void draw_boilers(draw *d, int joints)
{
    const int count = chance(d, 0.6) ? 1 : 2 + pick(d, 3);
    const double each = fmin(d->vessels * scaled(&d->state, d->harsh ? 500 : 2000, 25000) / count, 9e5);
    for (int i = 0; i < count; i++) {
        char id[24], at[24];
        /* The first header must not lead nowhere. */
        const int joint = i == 0 && d->ends[0] < 2 ? 0 : pick(d, joints);
        snprintf(id, sizeof id, "b%d", i);
        snprintf(at, sizeof at, "j%d", joint);
        fv_boiler *boiler = add_boiler(d->b, id, at, each * between(&d->state, 0.3, 1.7),
                                       chance(d, 0.4) ? 10000 : scaled(&d->state, 1000, 50000));
        boiler->fire = fv_given(chance(d, 0.5)            ? 1
                                : i > 0 && chance(d, 0.2) ? 0
                                                          : scaled(&d->state, d->harsh ? 0.02 : 0.1, 1));
        if (chance(d, 0.3))
            boiler->dryness = fv_given(between(&d->state, 0.9, 1));
        if (chance(d, 0.3))
            boiler->loss = fv_given(0.02 * boiler->output.v);
        d->taken[joint] = true;
    }
}

/* Some of the joints where three lines meet and nothing else stands become tees. */
static inline void draw_tees(draw *d, int joints)
{
    fv_plant *plant = d->b->plant;
    for (int i = 0; i < joints; i++) {
        if (d->ends[i] != 3 || d->taken[i] || !chance(d, 0.5))
            continue;
        fv_tee *tee = fv_plant_add_tee(plant, HERE);
        tee->at = fv_arena_printf(plant->arena, "j%d", i);
        tee->main = plant->lines[d->lines_at[i][0]]->part.id;
        tee->run = plant->lines[d->lines_at[i][1]]->part.id;
        tee->branch = plant->lines[d->lines_at[i][2]]->part.id;
        d->taken[i] = true;
    }
    for (int i = 0; i < joints; i++)
        if (!d->taken[i] && chance(d, 0.05)) {
            fv_drip *drip = fv_plant_add_drip(plant, HERE);
            drip->at = fv_arena_printf(plant->arena, "j%d", i);
        }
}

/* An open bench with a random plant in it, not yet linked. */
static inline void draw_plant(bench *b, uint64_t seed)
{
    draw d = {.b = b, .state = seed * 0x9e3779b97f4a7c15u + 1};
    next_random(&d.state);
    bench_open(b);
    b->plant->site.tees = fv_given(FV_TEES_FOUND);
    b->plant->site.air = fv_given(between(&d.state, 258, 308));
    b->plant->site.wind = fv_given(chance(&d, 0.5) ? 0 : between(&d.state, 0, 8));
    if (chance(&d, 0.3))
        b->plant->site.altitude = fv_given(between(&d.state, 0, 4000));
    d.harsh = chance(&d, 0.1);
    d.vessels = (int)scaled(&d.state, 1, VESSELS_MOST + 0.99);
    const int joints = 1 + d.vessels;
    draw_headers(&d, joints);
    for (int i = 0; i < d.vessels; i++) {
        d.height[joints + i] = d.height[1 + i];
        lay(&d, FV_LINE_HOSE, 1 + i, joints + i, scaled(&d.state, 0.5, 15), between(&d.state, 0.01, 0.04));
        draw_vessel(&d, joints + i);
    }
    draw_boilers(&d, joints);
    draw_tees(&d, joints);
}

/* Chambers by the phases of the vessels. */
static inline void draw_conditions(bench *b)
{
    fv_sat_point at;
    fv_sat_at(b->sat, fv_network_site_pressure(b->net), &at);
    for (size_t i = 0; i < b->plant->vessel_count; i++) {
        const fv_vessel *v = b->plant->vessels[i];
        fv_chamber *c = &b->chambers[i];
        c->density = at.rho_g;
        if (fv_word(v->phase) == FV_PHASE_SHUT)
            c->kind = FV_CHAMBER_SHUT;
        if (fv_word(v->phase) == FV_PHASE_HOLDING) {
            c->kind = FV_CHAMBER_VENTED;
            c->condenses = v->uptake.v / (at.h_g - at.h_f);
        }
    }
}

#endif
