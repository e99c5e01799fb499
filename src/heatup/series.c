/* SPDX-License-Identifier: MIT */
/* Samples at regular times. They are gathered row by row and put into matrices, one quantity each, at the end. */
#include "heatup/series.h"
#include "heatup/boilerhouse.h"
#include "heatup/dense.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PER_VESSEL = 6, PER_BOILER = 3, PER_ROW = 2 };

/* At each probe that stands at a depth. */
static void look_deep(const heatup_run *run, double *t)
{
    for (size_t p = 0; p < run->series.depths; p++) {
        const fv_probe *probe = run->context.plant->probes[p];
        t[p] = probe->vessel_index >= 0 && fv_is_set(probe->depth)
                   ? heatup_chamber_depth(&run->state.vessels[probe->vessel_index].chamber, probe->depth.v)
                   : NAN;
    }
}

bool heatup_series_open(heatup_run *run)
{
    const fv_plant *plant = run->context.plant;
    heatup_rows *s = &run->series;
    for (size_t p = 0; p < plant->probe_count && run->context.options->every > 0; p++)
        s->depths = fv_is_set(plant->probes[p]->depth) ? plant->probe_count : s->depths;
    s->row_width = PER_ROW + PER_VESSEL * plant->vessel_count + PER_BOILER * plant->boiler_count + s->depths;
    s->next_sample = 0;
    s->deep = malloc((2 * s->depths + 1) * sizeof *s->deep);
    if (s->deep)
        look_deep(run, s->deep);
    else
        fv_error(run->faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    return s->deep != NULL;
}

static void fill_row(const heatup_run *run, double *row, double part, double dt)
{
    const size_t n = run->context.plant->vessel_count, b = run->context.plant->boiler_count;
    double *vessels = row + PER_ROW, *boilers = vessels + PER_VESSEL * n;
    row[0] = run->state.t + part;
    row[1] = heatup_demand_within(run, part, dt);
    for (size_t i = 0; i < n; i++) {
        const heatup_vessel *v = &run->state.vessels[i];
        const bool moves = heatup_followed(v);
        const double after = v->core_end, share = part / dt;
        vessels[i] = !moves                    ? after
                     : v->chamber.body         ? heatup_core_within(v, part, dt)
                     : isnan(v->trial.through) ? v->core + share * (after - v->core)
                     : part < v->trial.through ? v->core /* the front is not there yet */
                                               : after;
        vessels[n + i] = moves ? heatup_chamber_within(run, v, part, dt) : v->chamber.t;
        vessels[2 * n + i] = v->surface + share * (v->surface_end - v->surface);
        vessels[3 * n + i] =
            moves ? fmax(0, heatup_mean_within(run, &v->steam_mean, v->step.steam, 0.5 * dt, part)) : 0;
        vessels[5 * n + i] = moves ? heatup_mean_within(run, &v->pressure_mean, v->trial.pressure, 0.5 * dt, part) : 0;
        vessels[4 * n + i] =
            heatup_chamber_air_share(&v->chamber, vessels[n + i], vessels[5 * n + i], run->context.site_pressure);
    }
    for (size_t i = 0; i < b; i++) {
        const fv_boiler_result *r = &run->state.network->boilers[i];
        const heatup_boiler *boiler = &run->state.boilers[i];
        const double middle = 0.5 * dt, fuel = heatup_boiler_fuel(run, i);
        boilers[i] = fmax(0, heatup_mean_within(run, &boiler->steam_mean, r->steam, middle, part));
        boilers[b + i] = heatup_mean_within(run, &boiler->pressure_mean, r->pressure, middle, part);
        boilers[2 * b + i] = fmax(0, heatup_mean_within(run, &boiler->fuel_mean, fuel, middle, part));
    }
    const double *before = run->series.deep, *after = before + run->series.depths;
    for (size_t p = 0; p < run->series.depths; p++)
        boilers[PER_BOILER * b + p] = before[p] + part / dt * (after[p] - before[p]);
}

bool heatup_series_add(heatup_run *run, double dt)
{
    const double every = run->context.options->every;
    look_deep(run, run->series.deep + run->series.depths);
    while (every > 0 && run->series.next_sample <= run->state.t + dt) {
        void *rows = run->series.rows;
        if (!fv_grow(&rows, &run->series.row_capacity, (run->series.row_count + 1) * run->series.row_width,
                     sizeof(double))) {
            fv_error(run->faults, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
            return false;
        }
        run->series.rows = rows;
        fill_row(run, run->series.rows + run->series.row_count * run->series.row_width,
                 fmax(0, run->series.next_sample - run->state.t), dt);
        run->series.row_count++;
        run->series.next_sample += every;
    }
    memcpy(run->series.deep, run->series.deep + run->series.depths, run->series.depths * sizeof(double));
    return true;
}

/* One quantity of all samples: columns first.. of each row, `width` of them. */
static double *matrix(const heatup_run *run, size_t first, size_t width)
{
    double *m = calloc(run->series.row_count * width + 1, sizeof *m);
    for (size_t i = 0; m && i < run->series.row_count; i++)
        memcpy(m + i * width, run->series.rows + i * run->series.row_width + first, width * sizeof *m);
    return m;
}

void heatup_note_means(heatup_run *run, double dt)
{
    const double middle = run->state.t + 0.5 * dt;
    for (size_t i = 0; i < run->context.sizes.vessels; i++) {
        heatup_vessel *v = &run->state.vessels[i];
        const bool moves = heatup_followed(v);
        v->steam_mean = (heatup_mean){middle, moves ? v->step.steam : NAN};
        v->pressure_mean = (heatup_mean){middle, moves ? v->trial.pressure : NAN};
    }
    for (size_t i = 0; i < run->context.sizes.boilers; i++) {
        const fv_boiler_result *r = &run->state.network->boilers[i];
        heatup_boiler *b = &run->state.boilers[i];
        b->steam_mean = (heatup_mean){middle, r->steam};
        b->pressure_mean = (heatup_mean){middle, r->pressure};
        b->fuel_mean = (heatup_mean){middle, heatup_boiler_fuel(run, i)};
    }
}

bool heatup_series_close(heatup_run *run)
{
    fv_series *s = &run->result->series;
    const size_t n = run->context.plant->vessel_count, b = run->context.plant->boiler_count,
                 boilers = PER_ROW + PER_VESSEL * n;
    double **vessel[] = {&s->core, &s->chamber, &s->surface, &s->vessel_steam, &s->air_share, &s->vessel_pressure};
    double **boiler[] = {&s->boiler_steam, &s->boiler_pressure, &s->boiler_fuel};
    bool good = true;
    s->count = run->series.row_count;
    good = (s->time = matrix(run, 0, 1)) && (s->demand = matrix(run, 1, 1));
    for (size_t k = 0; k < PER_VESSEL; k++)
        good = (*vessel[k] = matrix(run, PER_ROW + k * n, n)) && good;
    for (size_t k = 0; k < PER_BOILER; k++)
        good = (*boiler[k] = matrix(run, boilers + k * b, b)) && good;
    good = (s->depth = matrix(run, boilers + PER_BOILER * b, run->series.depths)) && good;
    if (!good)
        fv_error(run->faults, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
    return good;
}
