/* SPDX-License-Identifier: MIT */
/* Stepping a piece that starts frozen.
 *
 * The enthalpies go forward by a Runge-Kutta-Legendre method of second order: s explicit stages reach (s^2 + s - 2)/4
 * stable explicit steps, stay stable whatever the slope of temperature against enthalpy (zero while a cell melts), and
 * keep heat to rounding since each stage is a sum of flows. A step takes three leaps or more: a leap halves the fastest
 * modes only, and a jump of the surroundings and what the last ice leaves behind when it goes must fade within few.
 *
 * Accuracy: second order in step and cells, at the front, too, on the average (tests). 12 cells to the thinnest half of
 *           a block or short cylinder: hours to a core of 95 degC within 0.2 %; 40 to that of a slab or sphere. They go
 *           on once all is thawed. Cells see no thinner layer than themselves: in the first minute of a jump the heat
 *           is low by 1 % in 2 cm, 5 % in 5 cm, 16 % in 10 cm, 40 % in a cylinder of 20 cm, in the first ten minutes
 *           by a tenth of that.
 * Source:   C. D. Meyer, D. S. Balsara & T. D. Aslam, J. Comput. Phys. 257 (2014) 594, eq. (16) and (17), from memory;
 *           the order is tested. */
#include "farvessel/constants.h"
#include "heatup/frozen_grid.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    STAGES_LEAST = 3,
    STAGES_MOST = 15, /* longer leaps throw the middle of a sphere far beyond its surroundings when its last ice goes */
    LEAPS_LEAST = 3,
    LEAPS_MOST = 8,
    DEFAULT_CELLS_BLOCK = 12,
    DEFAULT_CELLS = 40
};

static const double LINE_MOST = 0.02; /* K */
static const double FADED = 0.5;      /* K */
static const double LINE_SHARE = 0.3;

typedef struct {
    bool condensing;
    double t_now; /* surroundings at the end of the last step, K */
} frozen_head;

/* A step that was tried from the present state; not known: none. */
typedef struct {
    bool known, condensing;
    double dt, tc0, tc1;
} tried_step;

struct heatup_frozen {
    heatup_frozen_grid grid;
    heatup_frozen_spec spec;
    double stable; /* s */
    frozen_head head;
    double start;          /* enthalpy at the start, J/m3 */
    double *enthalpy;      /* the state */
    double *trial, *other; /* where the last step tried leads, and the one before it */
    tried_step trial_of, other_of;
    double *before, *before_that, *rate, *rate_start, *potential;
};

static bool allocate(heatup_frozen *frozen)
{
    const size_t n = frozen->grid.cells;
    frozen->enthalpy = calloc(8 * n + 2, sizeof(double));
    if (!frozen->enthalpy)
        return false;
    frozen->trial = frozen->enthalpy + n;
    frozen->before = frozen->enthalpy + 2 * n;
    frozen->before_that = frozen->enthalpy + 3 * n;
    frozen->rate = frozen->enthalpy + 4 * n;
    frozen->rate_start = frozen->enthalpy + 5 * n;
    frozen->other = frozen->enthalpy + 6 * n;
    frozen->potential = frozen->enthalpy + 7 * n + 1;
    return true;
}

heatup_frozen *heatup_frozen_new(const heatup_geometry *geometry, const heatup_frozen_spec *spec)
{
    heatup_frozen *frozen = calloc(1, sizeof *frozen);
    if (!frozen)
        return NULL;
    int cells = spec->cells > 0 ? spec->cells : geometry->axes > 1 ? DEFAULT_CELLS_BLOCK : DEFAULT_CELLS;
    heatup_frozen_grid_init(&frozen->grid, geometry, cells < FROZEN_CELLS_MOST ? cells : FROZEN_CELLS_MOST);
    if (!allocate(frozen)) {
        free(frozen);
        return NULL;
    }
    frozen->spec = *spec;
    frozen->stable = heatup_frozen_grid_step(&frozen->grid, spec);
    frozen->start = (spec->t_start - FV_MELTING_POINT) * spec->c_ice;
    frozen->head = (frozen_head){true, spec->t_start};
    for (size_t i = 0; i < frozen->grid.cells; i++)
        frozen->enthalpy[i] = frozen->start;
    return frozen;
}

heatup_frozen *heatup_frozen_copy(const heatup_frozen *frozen)
{
    heatup_frozen *copy = malloc(sizeof *copy);
    if (!copy)
        return NULL;
    *copy = *frozen;
    if (!allocate(copy)) {
        free(copy);
        return NULL;
    }
    copy->trial_of.known = copy->other_of.known = false;
    memcpy(copy->enthalpy, frozen->enthalpy, frozen->grid.cells * sizeof(double));
    return copy;
}

void heatup_frozen_free(heatup_frozen *frozen)
{
    if (!frozen)
        return;
    free(frozen->enthalpy);
    free(frozen);
}

/* Coefficient b_j of the method; its first three are equal. */
static double coefficient(int j)
{
    return j < 2 ? 1.0 / 3 : (double)(j * j + j - 2) / (2.0 * j * (j + 1));
}

/* Stable explicit steps that a leap of so many stages reaches. */
static double reach(int stages)
{
    return (stages * stages + stages - 2) / 4.0;
}

/* frozen->trial goes on by `step` with the surroundings running from tc at `slope`. */
static void leap(heatup_frozen *frozen, int stages, double step, double tc, double slope, double h)
{
    size_t n = frozen->grid.cells;
    double w = 1 / reach(stages), first = w / 3;
    double *start = frozen->trial, *before = frozen->before, *before_that = frozen->before_that;
    heatup_frozen_grid_rate(&frozen->grid, &frozen->spec, h, tc, start, frozen->potential, frozen->rate_start);
    for (size_t i = 0; i < n; i++) {
        before_that[i] = start[i];
        before[i] = start[i] + first * step * frozen->rate_start[i];
    }
    double when = first, when_before = 0; // of `before` and `before_that`, as shares of the step
    for (int j = 2; j <= stages; j++) {
        double mu = (2.0 * j - 1) / j * coefficient(j) / coefficient(j - 1);
        double nu = -(j - 1.0) / j * coefficient(j) / coefficient(j - 2);
        double fresh = mu * w, old = -(1 - coefficient(j - 1)) * fresh;
        heatup_frozen_grid_rate(&frozen->grid, &frozen->spec, h, tc + slope * when * step, before, frozen->potential,
                                frozen->rate);
        for (size_t i = 0; i < n; i++)
            before_that[i] = mu * before[i] + nu * before_that[i] + (1 - mu - nu) * start[i] +
                             step * (fresh * frozen->rate[i] + old * frozen->rate_start[i]);
        double now = mu * when + nu * when_before + fresh + old; // the same recursion for dt/dt = 1
        when_before = when;
        when = now;
        double *swap = before;
        before = before_that;
        before_that = swap;
    }
    memcpy(frozen->trial, before, n * sizeof(double));
}

/* A leap halves the fastest modes only: as many as let a jump of the surroundings fade within the step. */
static double leaps_for(double jump)
{
    return fmax(LEAPS_LEAST, fmin(LEAPS_MOST, ceil(log2(fabs(jump) / FADED))));
}

/* The state dt later, into frozen->trial. */
static void go(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing)
{
    memcpy(frozen->trial, frozen->enthalpy, frozen->grid.cells * sizeof(double));
    if (!(dt > 0))
        return;
    const double wanted = dt / frozen->stable;
    const double leaps = fmax(ceil(wanted / reach(STAGES_MOST)),
                              fmin(leaps_for(tc0 - frozen->head.t_now), ceil(wanted / reach(STAGES_LEAST))));
    const double step = dt / leaps, slope = (tc1 - tc0) / dt;
    int stages = STAGES_LEAST; // odd numbers only: even ones do not damp
    while (reach(stages) * leaps < wanted)
        stages += 2;
    for (double i = 0; i < leaps; i++)
        leap(frozen, stages, step, tc0 + slope * step * i, slope, frozen->spec.h[condensing]);
}

/* Both in surroundings that stand. */
static bool same_but_for_tc(const tried_step *one, const tried_step *other)
{
    return one->known && other->known && one->dt == other->dt && one->condensing == other->condensing &&
           one->tc0 == one->tc1 && other->tc0 == other->tc1;
}

/* The step wanted is so near to the last one tried, and that so far from the one before, that it lies on the line
 * through both. */
static bool on_line(const heatup_frozen *frozen, const tried_step *wanted)
{
    const tried_step *last = &frozen->trial_of, *before = &frozen->other_of;
    if (!same_but_for_tc(last, before) || !same_but_for_tc(last, wanted))
        return false;
    const double beyond = fabs(wanted->tc1 - last->tc1), base = fabs(last->tc1 - before->tc1);
    return beyond < LINE_MOST && beyond < LINE_SHARE * base;
}

/* The state dt later, into frozen->trial, unless it is there already. */
static void try_step(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing)
{
    const tried_step wanted = {true, condensing, dt, tc0, tc1}, last = frozen->trial_of;
    if (last.known && last.dt == dt && last.tc0 == tc0 && last.tc1 == tc1 && last.condensing == condensing)
        return;
    double *new = frozen->other;
    const bool line = on_line(frozen, &wanted);
    if (line) {
        const double share = (tc1 - last.tc1) / (last.tc1 - frozen->other_of.tc1);
        for (size_t i = 0; i < frozen->grid.cells; i++)
            new[i] = frozen->trial[i] + share *(frozen->trial[i] - new[i]);
    }
    frozen->other = frozen->trial;
    frozen->other_of = last;
    frozen->trial = new;
    frozen->trial_of = wanted;
    if (!line)
        go(frozen, dt, tc0, tc1, condensing);
}

/* Mean enthalpy, J/m3. */
static double content(const heatup_frozen_grid *grid, const double *enthalpy, double start)
{
    const heatup_frozen_axis *a = &grid->axis[0], *b = &grid->axis[1], *c = &grid->axis[2];
    double total = 0;
    size_t cell = 0;
    for (int i = 0; i < a->count; i++)
        for (int j = 0; j < b->count; j++)
            for (int k = 0; k < c->count; k++, cell++)
                total += a->volume[i] * b->volume[j] * c->volume[k] * (enthalpy[cell] - start);
    return total / grid->volume;
}

double heatup_frozen_heat_over(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing)
{
    try_step(frozen, dt, tc0, tc1, condensing);
    return content(&frozen->grid, frozen->trial, frozen->start) - heatup_frozen_heat(frozen);
}

void heatup_frozen_advance(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing)
{
    try_step(frozen, dt, tc0, tc1, condensing);
    memcpy(frozen->enthalpy, frozen->trial, frozen->grid.cells * sizeof(double));
    frozen->trial_of.known = frozen->other_of.known = false;
    frozen->head = (frozen_head){condensing, tc1};
}

const heatup_frozen_grid *heatup_frozen_cells(const heatup_frozen *frozen)
{
    return &frozen->grid;
}

double heatup_frozen_cell(const heatup_frozen *frozen, size_t cell)
{
    return frozen_temperature(&frozen->spec, frozen->enthalpy[cell]);
}

double heatup_frozen_surroundings(const heatup_frozen *frozen, bool *condensing)
{
    *condensing = frozen->head.condensing;
    return frozen->head.t_now;
}

bool heatup_frozen_thawed(const heatup_frozen *frozen)
{
    for (size_t i = 0; i < frozen->grid.cells; i++)
        if (!(frozen->enthalpy[i] > frozen->spec.latent))
            return false;
    return true;
}

double heatup_frozen_heat(const heatup_frozen *frozen)
{
    return content(&frozen->grid, frozen->enthalpy, frozen->start);
}

/* The centre from the innermost cells, by the parabola without slope there; while any of them melts, the innermost. */
static double core_of(const heatup_frozen *frozen, const double *enthalpy)
{
    const heatup_frozen_axis *axis = frozen->grid.axis;
    int reach[3];
    for (int d = 0; d < 3; d++)
        reach[d] = axis[d].count > 1 ? 2 : 1;
    double core = 0;
    bool thawed = true;
    for (int i = 0; i < reach[0]; i++)
        for (int j = 0; j < reach[1]; j++)
            for (int k = 0; k < reach[2]; k++) {
                double h = enthalpy[(i * axis[1].count + j) * axis[2].count + k], share = 1;
                int place[] = {i, j, k};
                for (int d = 0; d < 3; d++)
                    if (reach[d] == 2)
                        share *= place[d] ? -0.125 : 1.125;
                thawed = thawed && h > frozen->spec.latent;
                core += share * frozen_temperature(&frozen->spec, h);
            }
    double innermost = frozen_temperature(&frozen->spec, enthalpy[0]);
    return thawed && core > FV_MELTING_POINT ? core : innermost;
}

double heatup_frozen_core(const heatup_frozen *frozen)
{
    return core_of(frozen, frozen->enthalpy);
}

double heatup_frozen_core_after(heatup_frozen *frozen, double dt, double tc0, double tc1, bool condensing)
{
    try_step(frozen, dt, tc0, tc1, condensing);
    return core_of(frozen, frozen->trial);
}

double heatup_frozen_at(const heatup_frozen *frozen, int axis, double position)
{
    const int count = frozen->grid.axis[axis].count;
    const double place = fmax(0, position * count - 0.5);
    const size_t i = (size_t)fmin(place, count - 1), next = i + 1 < (size_t)count ? i + 1 : i;
    size_t stride = 1;
    for (int d = axis + 1; d < 3; d++)
        stride *= (size_t)frozen->grid.axis[d].count;
    const double here = heatup_frozen_cell(frozen, i * stride);
    return here + (place - (double)i) * (heatup_frozen_cell(frozen, next * stride) - here);
}

double heatup_frozen_mean(const heatup_frozen *frozen)
{
    const heatup_frozen_axis *a = &frozen->grid.axis[0], *b = &frozen->grid.axis[1], *c = &frozen->grid.axis[2];
    double total = 0;
    size_t cell = 0;
    for (int i = 0; i < a->count; i++)
        for (int j = 0; j < b->count; j++)
            for (int k = 0; k < c->count; k++, cell++)
                total += a->volume[i] * b->volume[j] * c->volume[k] *
                         frozen_temperature(&frozen->spec, frozen->enthalpy[cell]);
    return total / frozen->grid.volume;
}

double heatup_frozen_surface_mean(const heatup_frozen *frozen)
{
    return heatup_frozen_grid_surface(&frozen->grid, &frozen->spec, frozen->spec.h[frozen->head.condensing],
                                      frozen->head.t_now, frozen->enthalpy);
}
