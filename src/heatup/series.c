/* SPDX-License-Identifier: MIT */
/* Samples at regular times. They are gathered row by row and put into matrices, one quantity each, at the end. */
#include "heatup/series.h"
#include "heatup/boilerhouse.h"
#include "heatup/dense.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PER_VESSEL = 6, PER_BOILER = 3, PER_ROW = 2 };

void heatup_series_open(heatup_run *run)
{
    run->series.row_width =
        PER_ROW + PER_VESSEL * run->context.plant->vessel_count + PER_BOILER * run->context.plant->boiler_count;
    run->series.next_sample = 0;
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
        vessels[3 * n + i] = moves ? v->step.steam : 0;
        vessels[4 * n + i] =
            heatup_chamber_air_share(&v->chamber, vessels[n + i], v->chamber.pressure, run->context.site_pressure);
        vessels[5 * n + i] = moves ? v->trial.pressure : 0;
    }
    for (size_t i = 0; i < b; i++) {
        const fv_boiler_result *r = &run->state.network->boilers[i];
        boilers[i] = r->steam;
        boilers[b + i] = r->pressure;
        boilers[2 * b + i] = heatup_boiler_fuel(run, i);
    }
}

bool heatup_series_add(heatup_run *run, double dt)
{
    const double every = run->context.options->every;
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
    if (!good)
        fv_error(run->faults, FV_ERR_SYSTEM, run->context.plant->loc, "out of memory");
    return good;
}
