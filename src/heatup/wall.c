/* SPDX-License-Identifier: MIT */
/* Stepping a layered wall.
 *
 * How:      two implicit stages with gamma = 1 - 1/sqrt(2), at gamma dt and dt: second order, L-stable (a jump of the
 *           chamber leaves no ringing), the last stage being the new state. Heat in and out are the stages' flows with
 *           the same weights, so that taken = stored + lost to rounding. Both stages share one factorised tridiagonal
 *           matrix, kept while dt and the outside coefficient stay. A step is linear in the chamber's temperature: once
 *           it has been probed for one that stands, the end is known for any other that stands.
 * Vapour:   conductances from the chamber to the cells behind the faces where it condenses (steady/lining.c), as they
 *           are when the step begins: first order in dt, and closed books. Where one goes to and fro from step to step,
 *           half of a change is taken, so that it settles to what short steps settle to.
 * Outside:  coefficient at the outer surface's temperature when the step begins; an error of first order in dt, small
 *           because the coefficient changes by some tenths of a per cent per kelvin.
 * Source:   method: R. Alexander, SIAM J. Numer. Anal. 14 (1977) 1006, the two-stage method, from memory; its order and
 *           the steady end are tested.
 */
#include "heatup/wall.h"
#include "heatup/wall_cells.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define NOTICED 0.01                 /* of what a layer's conductivity changes by from dry to wet */
#define GAMMA 0.29289321881345247560 /* 1 - 1/sqrt(2) */

typedef struct {
    double h_outside, t_outer;   /* as the next step sees them */
    double taken, lost, vapours; /* J/m2; vapours: brought by vapour, of what was taken */
} wall_head;

typedef struct {
    double in, out;                     /* J/m2 over the step */
    double vapours[STEADY_LAYERS_MOST]; /* of what goes in, by vapour to the face behind each layer */
} step_heat;

/* Vapour that gets into the layers; `count` 0: none does. */
typedef struct {
    size_t count;
    steady_lining layer[STEADY_LAYERS_MOST];
    double water[STEADY_LAYERS_MOST];  /* kg/m2 */
    double k[STEADY_LAYERS_MOST];      /* W/m/K that the cells have */
    size_t cell[STEADY_LAYERS_MOST];   /* behind its face */
    double now[STEADY_LAYERS_MOST];    /* conductance to there, W/m2/K, as the next step sees it */
    double change[STEADY_LAYERS_MOST]; /* of it, a step ago */
    double latent;                     /* J/kg */
} wall_vapour;

struct heatup_wall_heat {
    heatup_wall_cells cells;
    double area, height, t_start, capacity;
    fv_heat_outside outside;
    wall_head head;
    wall_vapour vapour;
    double dt, h;                                          /* that the factors belong to; dt < 0: none */
    double upper[WALL_CELLS_MOST], pivot[WALL_CELLS_MOST]; /* of the factorised matrix */
    double rise[WALL_CELLS_MOST]; /* above t_start, K: small figures keep heat to more digits */
    /* the step's end with the chamber at t_start all the time, and what a degree more of it adds */
    bool probed;
    step_heat base, per_degree;
    double base_end[WALL_CELLS_MOST], per_degree_end[WALL_CELLS_MOST];
    double trial[WALL_CELLS_MOST];
};

/* Middle of the last cell to the air. */
static double outward(const heatup_wall_heat *wall, double h)
{
    double g = wall->cells.conductance[wall->cells.count];
    return g * h / (g + h);
}

/* Outer surface and coefficient that agree with the last cell: from each guess of the surface to the one that follows
 * from it, and on along the line through two of them. */
static fv_status meet_outside(heatup_wall_heat *wall)
{
    const double g = wall->cells.conductance[wall->cells.count];
    const double inner = wall->t_start + wall->rise[wall->cells.count - 1];
    double guess = wall->head.t_outer, guess_before = NAN, gap_before = NAN;
    fv_status status = FV_OK;
    for (int i = 0; i < 50; i++) {
        double h;
        status = fv_heat_outside_wall(wall->height, guess, &wall->outside, &h);
        if (status == FV_FAIL || !(h >= 0))
            return FV_FAIL;
        const double follows = (g * inner + h * wall->outside.t_air) / (g + h), gap = follows - guess;
        wall->head.t_outer = follows;
        wall->head.h_outside = h;
        if (fabs(gap) < 1e-9)
            break;
        const double line = guess - gap * (guess - guess_before) / (gap - gap_before);
        guess_before = guess;
        gap_before = gap;
        guess = fabs(line - follows) < fabs(gap)
                    ? line
                    : follows; /* not where there is no line yet, or where it leads far away */
    }
    return status;
}

heatup_wall_heat *heatup_wall_heat_new(const heatup_wall_heat_spec *spec)
{
    // a bare skin: thin steel that stores nothing, some 1e-8 m2 K/W
    static const fv_heat_layer skin = {1e-6, 50, 0, 0};
    if (!(spec->area > 0) || !(spec->height > 0) || !(spec->t_start > 0) || !isfinite(spec->t_start))
        return NULL;
    heatup_wall_heat *wall = calloc(1, sizeof *wall);
    if (!wall)
        return NULL;
    fv_status status =
        heatup_wall_cells_init(&wall->cells, spec->count > 0 ? spec->layers : &skin, spec->count > 0 ? spec->count : 1,
                               spec->h_inside, spec->refine > 0 ? spec->refine : 1);
    for (size_t i = 0; spec->linings && i < spec->count && i < STEADY_LAYERS_MOST; i++) {
        wall->vapour.layer[i] = spec->linings[i];
        wall->vapour.water[i] = spec->linings[i].water;
        wall->vapour.k[i] = spec->layers[i].k;
        wall->vapour.cell[i] = i + 1 < spec->count ? wall->cells.end[i] : wall->cells.count - 1;
        wall->vapour.count = i + 1;
    }
    wall->area = spec->area;
    wall->height = spec->height;
    wall->t_start = spec->t_start;
    wall->outside = spec->outside;
    wall->head.t_outer = spec->t_start;
    wall->dt = -1;
    for (size_t i = 0; i < wall->cells.count; i++)
        wall->capacity += wall->cells.capacity[i];
    if (status == FV_FAIL || meet_outside(wall) == FV_FAIL) {
        free(wall);
        return NULL;
    }
    return wall;
}

void heatup_wall_heat_free(heatup_wall_heat *wall)
{
    free(wall);
}

fv_status heatup_wall_heat_set_outside(heatup_wall_heat *wall, const fv_heat_outside *outside)
{
    fv_heat_outside before = wall->outside;
    if (before.t_air == outside->t_air && before.p_air == outside->p_air && before.wind == outside->wind &&
        before.emissivity == outside->emissivity && before.h_fixed == outside->h_fixed)
        return FV_OK;
    wall_head head = wall->head;
    wall->outside = *outside;
    wall->probed = false;
    fv_status status = meet_outside(wall);
    if (status == FV_FAIL) {
        wall->outside = before;
        wall->head = head;
    }
    return status;
}

/* Between the cells on both sides of a face, by their resistances. */
static double face_behind(const heatup_wall_heat *wall, size_t layer)
{
    const heatup_wall_cells *c = &wall->cells;
    const size_t next = c->end[layer];
    if (next == c->count)
        return wall->head.t_outer;
    const double before = c->half[next - 1], after = c->half[next];
    return wall->t_start + (wall->rise[next - 1] * after + wall->rise[next] * before) / (before + after);
}

/* What got wet conducts better; by steps, for the cells are joined anew each time. */
static void wet_layer(heatup_wall_heat *wall, size_t i)
{
    wall_vapour *v = &wall->vapour;
    const double k = steady_lining_k(&v->layer[i], v->water[i]);
    if (fabs(k - v->k[i]) < NOTICED * fabs(v->layer[i].wet_k - v->layer[i].dry_k))
        return;
    heatup_wall_cells_resist(&wall->cells, i > 0 ? wall->cells.end[i - 1] : 0, wall->cells.end[i], v->k[i] / k);
    v->k[i] = k;
    wall->dt = -1;
}

void heatup_wall_heat_let_vapour(heatup_wall_heat *wall, double t, double humidity)
{
    wall_vapour *v = &wall->vapour;
    double behind[STEADY_LAYERS_MOST], before[STEADY_LAYERS_MOST];
    if (v->count == 0)
        return;
    for (size_t i = 0; i < v->count; i++) {
        wet_layer(wall, i);
        behind[i] = face_behind(wall, i);
    }
    memcpy(before, v->now, sizeof before);
    v->latent = steady_vapour_into(v->layer, v->water, behind, v->count, t, humidity, v->now);
    for (size_t i = 0; i < v->count; i++) {
        const double change = v->now[i] - before[i];
        v->now[i] -= change * v->change[i] < 0 ? 0.5 * change : 0;
        v->change[i] = change;
    }
    if (memcmp(before, v->now, sizeof before) != 0)
        wall->dt = -1;
}

static void solve(const heatup_wall_heat *wall, double *x)
{
    const heatup_wall_cells *c = &wall->cells;
    double share = GAMMA * wall->dt;
    x[0] *= wall->pivot[0];
    for (size_t i = 1; i < c->count; i++)
        x[i] = (x[i] + share * c->conductance[i] * x[i - 1]) * wall->pivot[i];
    for (size_t i = c->count - 1; i-- > 0;)
        x[i] += wall->upper[i] * x[i + 1];
}

/* Two stages from `start`, which becomes the end state; all temperatures above one base. */
static step_heat two_stages(const heatup_wall_heat *wall, double dt, double tc0, double tc1, double t_air,
                            double *start)
{
    const heatup_wall_cells *c = &wall->cells;
    size_t n = c->count;
    double to_air = outward(wall, wall->h), share = GAMMA * dt, from_inside = c->conductance[0];
    const wall_vapour *v = &wall->vapour;
    double x[WALL_CELLS_MOST], tc = tc0 + GAMMA * (tc1 - tc0);
    for (size_t i = 0; i < n; i++)
        x[i] = c->capacity[i] * start[i];
    x[0] += share * from_inside * tc;
    for (size_t i = 0; i < v->count; i++)
        x[v->cell[i]] += share * v->now[i] * tc;
    x[n - 1] += share * to_air * t_air;
    solve(wall, x);
    double rest = (1 - GAMMA) * dt, flow = from_inside * (tc - x[0]); // into cell i
    step_heat heat = {.in = rest * flow};
    for (size_t i = 0; i < n; i++) {
        double next = i + 1 < n ? c->conductance[i + 1] * (x[i] - x[i + 1]) : to_air * (x[i] - t_air);
        start[i] = c->capacity[i] * start[i] + rest * (flow - next);
        flow = next;
    }
    heat.out = rest * flow;
    for (size_t i = 0; i < v->count; i++) {
        heat.vapours[i] = rest * v->now[i] * (tc - x[v->cell[i]]);
        start[v->cell[i]] += heat.vapours[i] + share * v->now[i] * tc1;
    }
    start[0] += share * from_inside * tc1;
    start[n - 1] += share * to_air * t_air;
    solve(wall, start);
    for (size_t i = 0; i < v->count; i++) {
        heat.vapours[i] += share * v->now[i] * (tc1 - start[v->cell[i]]);
        heat.in += heat.vapours[i];
    }
    heat.in += share * from_inside * (tc1 - start[0]);
    heat.out += share * to_air * (start[n - 1] - t_air);
    return heat;
}

static void factorise(heatup_wall_heat *wall, double dt)
{
    const heatup_wall_cells *c = &wall->cells;
    double h = wall->head.h_outside;
    if (wall->dt == dt && wall->h == h)
        return;
    wall->dt = dt;
    wall->h = h;
    double share = GAMMA * dt, before = 0, by_vapour[WALL_CELLS_MOST] = {0};
    for (size_t i = 0; i < wall->vapour.count; i++)
        by_vapour[wall->vapour.cell[i]] += share * wall->vapour.now[i];
    for (size_t i = 0; i < c->count; i++) {
        double inside = share * c->conductance[i];
        double next = share * (i + 1 < c->count ? c->conductance[i + 1] : outward(wall, h));
        wall->pivot[i] = 1 / (c->capacity[i] + next + by_vapour[i] + inside * (1 - before));
        wall->upper[i] = before = next * wall->pivot[i];
    }
    // from rest at 0 to a chamber that stands at 1
    memset(wall->per_degree_end, 0, c->count * sizeof(double));
    wall->per_degree = two_stages(wall, dt, 1, 1, 0, wall->per_degree_end);
    wall->probed = false;
}

static bool step_makes_sense(double dt, double tc0, double tc1)
{
    return dt >= 0 && isfinite(dt) && isfinite(tc0) && isfinite(tc1);
}

/* The step with the chamber standing at t_start. */
static void take_base(heatup_wall_heat *wall, double dt)
{
    factorise(wall, dt);
    if (wall->probed)
        return;
    memcpy(wall->base_end, wall->rise, wall->cells.count * sizeof(double));
    wall->base = two_stages(wall, dt, 0, 0, wall->outside.t_air - wall->t_start, wall->base_end);
    wall->probed = true;
}

fv_status heatup_wall_heat_probe_held(heatup_wall_heat *wall, double dt, double *a, double *b)
{
    *a = *b = 0;
    if (!step_makes_sense(dt, 0, 0))
        return FV_FAIL;
    if (dt == 0)
        return FV_OK;
    take_base(wall, dt);
    *b = wall->area * wall->per_degree.in;
    *a = wall->area * wall->base.in - *b * wall->t_start;
    return FV_OK;
}

fv_status heatup_wall_heat_advance(heatup_wall_heat *wall, double dt, double tc0, double tc1)
{
    if (!step_makes_sense(dt, tc0, tc1))
        return FV_FAIL;
    if (dt == 0)
        return FV_OK;
    const double base = wall->t_start, over = tc0 - base;
    step_heat heat;
    factorise(wall, dt);
    if (tc0 == tc1 && wall->probed) {
        for (size_t i = 0; i < wall->cells.count; i++)
            wall->rise[i] = wall->base_end[i] + over * wall->per_degree_end[i];
        heat = wall->base;
        heat.in += over * wall->per_degree.in;
        heat.out += over * wall->per_degree.out;
        for (size_t i = 0; i < wall->vapour.count; i++)
            heat.vapours[i] += over * wall->per_degree.vapours[i];
    } else {
        heat = two_stages(wall, dt, over, tc1 - base, wall->outside.t_air - base, wall->rise);
    }
    wall->probed = false;
    wall->head.taken += heat.in;
    wall->head.lost += heat.out;
    for (size_t i = 0; i < wall->vapour.count; i++) {
        wall->head.vapours += heat.vapours[i];
        if (wall->vapour.now[i] > 0)
            wall->vapour.water[i] += heat.vapours[i] / wall->vapour.latent;
    }
    return meet_outside(wall);
}

double heatup_wall_heat_taken(const heatup_wall_heat *wall)
{
    return wall->area * wall->head.taken;
}

double heatup_wall_heat_by_vapour(const heatup_wall_heat *wall)
{
    return wall->area * wall->head.vapours;
}

double heatup_wall_heat_lets_vapour(const heatup_wall_heat *wall)
{
    double sum = 0;
    for (size_t i = 0; i < wall->vapour.count; i++)
        sum += wall->vapour.now[i];
    return wall->area * sum;
}

double heatup_wall_heat_water(const heatup_wall_heat *wall)
{
    double more = 0;
    for (size_t i = 0; i < wall->vapour.count; i++)
        more += wall->vapour.water[i] - wall->vapour.layer[i].water;
    return wall->area * more;
}

double heatup_wall_heat_lost(const heatup_wall_heat *wall)
{
    return wall->area * wall->head.lost;
}

double heatup_wall_heat_stored(const heatup_wall_heat *wall)
{
    double stored = 0;
    for (size_t i = 0; i < wall->cells.count; i++)
        stored += wall->cells.capacity[i] * wall->rise[i];
    return wall->area * stored;
}

double heatup_wall_heat_loss(const heatup_wall_heat *wall)
{
    return wall->area * wall->head.h_outside * (wall->head.t_outer - wall->outside.t_air);
}

double heatup_wall_heat_outer(const heatup_wall_heat *wall)
{
    return wall->head.t_outer;
}

double heatup_wall_heat_capacity(const heatup_wall_heat *wall)
{
    return wall->area * wall->capacity;
}

double heatup_wall_heat_at(const heatup_wall_heat *wall, double depth)
{
    const double *x = wall->cells.middle, *t = wall->rise, base = wall->t_start;
    size_t i = 1;
    if (wall->cells.count == 1)
        return base + t[0];
    while (i + 1 < wall->cells.count && x[i] < depth)
        i++;
    return base + t[i - 1] + (t[i] - t[i - 1]) * (depth - x[i - 1]) / (x[i] - x[i - 1]);
}
