/* SPDX-License-Identifier: MIT */
/* Rows in rising order of time: a clock that was changed, memory that was written round, rows that stand twice. */
#include "farvessel/constants.h"
#include "datafile/parts.h"

#include <stdlib.h>
#include <string.h>

static const double HOUR = 3600;
static const double NEAR_AN_HOUR = 2700; /* s from an hour that a clock change may seem to be off by a long interval */

static double median_interval(const fv_logfile *log, double *scratch)
{
    size_t n = 0;
    for (size_t i = 1; i < log->count; i++)
        if (log->time[i] > log->time[i - 1])
            scratch[n++] = log->time[i] - log->time[i - 1];
    for (size_t gap = n / 2; gap > 0; gap /= 2) /* short lists; the middle one is wanted only */
        for (size_t i = gap; i < n; i++)
            for (size_t j = i; j >= gap && scratch[j - gap] > scratch[j]; j -= gap) {
                const double kept = scratch[j];
                scratch[j] = scratch[j - gap];
                scratch[j - gap] = kept;
            }
    return n ? scratch[n / 2] : NAN;
}

/* Moves all rows from `from` on. */
static void move(fv_logfile *log, size_t from, double by)
{
    for (size_t i = from; i < log->count; i++)
        log->time[i] += by;
    log->told.moved += by;
}

static bool went_back_an_hour(const fv_logfile *log, size_t i)
{
    const double drop = log->time[i - 1] - log->time[i];
    return drop > 0 && drop <= HOUR && drop + log->interval > HOUR - NEAR_AN_HOUR;
}

static fv_status set_clock(fv_logfile *log, fv_clock_change clock, fv_faults *faults)
{
    char before[32], after[32];
    for (size_t i = 1; i < log->count; i++) {
        const double step = log->time[i] - log->time[i - 1];
        if (clock == FV_CLOCK_FORWARD && step > HOUR) {
            move(log, i, -HOUR);
            return FV_OK;
        }
        if (step >= 0 || clock == FV_CLOCK_STEADY || clock == FV_CLOCK_FORWARD)
            continue;
        if (clock == FV_CLOCK_BACK) {
            move(log, i, HOUR);
            return FV_OK;
        }
        if (!went_back_an_hour(log, i) || !log->clock)
            continue;
        return fv_error(
            faults, FV_ERR_INPUT, (fv_loc){log->file, log->line[i]},
            "the time goes back here from %s (line %d) to %s: if the clock was set back an hour (end of summer "
            "time), say --clock back; if these rows only stand out of order, say --clock steady",
            fv_logfile_stamp(log, log->time[i - 1], before, sizeof before), log->line[i - 1],
            fv_logfile_stamp(log, log->time[i], after, sizeof after));
    }
    if (clock == FV_CLOCK_BACK || clock == FV_CLOCK_FORWARD)
        return fv_error(faults, FV_ERR_INPUT, (fv_loc){log->file, 0}, "--clock %s: nowhere does the time go %s an hour",
                        clock == FV_CLOCK_BACK ? "back" : "forward", clock == FV_CLOCK_BACK ? "back" : "forward");
    return FV_OK;
}

/* ---- sorting ---- */

typedef struct {
    double time;
    size_t row;
} place;

static int by_time(const void *a, const void *b)
{
    const place *x = a, *y = b;
    return x->time != y->time ? (x->time > y->time) - (x->time < y->time) : (x->row > y->row) - (x->row < y->row);
}

static void permute(double *values, const place *places, size_t n, double *scratch)
{
    for (size_t i = 0; i < n; i++)
        scratch[i] = values[places[i].row];
    memcpy(values, scratch, n * sizeof *values);
}

static bool sort(fv_logfile *log, double *scratch)
{
    const size_t n = log->count;
    size_t late = 0;
    for (size_t i = 1; i < n; i++)
        late += log->time[i] < log->time[i - 1];
    if (late == 0)
        return true;
    place *places = malloc(n * sizeof *places);
    if (!places)
        return false;
    for (size_t i = 0; i < n; i++)
        places[i] = (place){log->time[i], i};
    qsort(places, n, sizeof *places, by_time);
    for (size_t i = 0; i < n; i++)
        log->told.sorted += places[i].row != i;
    permute(log->time, places, n, scratch);
    for (size_t c = 0; c < log->channel_count; c++)
        permute(log->channels[c].value, places, n, scratch);
    for (size_t i = 0; i < n; i++)
        scratch[i] = log->line[places[i].row];
    for (size_t i = 0; i < n; i++)
        log->line[i] = (int)scratch[i];
    free(places);
    return true;
}

/* ---- twice ---- */

static bool same(double a, double b)
{
    return a == b || isnan(a) || isnan(b);
}

static void say_twice(const fv_logfile *log, size_t i, size_t channel, fv_faults *faults)
{
    char when[32];
    const fv_log_channel *c = &log->channels[channel];
    const double to = c->unit == FV_LOG_PRESSURE ? 0 : FV_CELSIUS;
    fv_error(faults, FV_ERR_INPUT, (fv_loc){log->file, log->line[i]},
             "%s stands twice, here and in line %d, and %s reads %.2f and %.2f %s: if the clock was set back, say "
             "--clock back; else take one of the two lines out",
             fv_logfile_stamp(log, log->time[i], when, sizeof when), log->line[i - 1], c->name, c->value[i] - to,
             c->value[i - 1] - to, c->unit == FV_LOG_PRESSURE ? "Pa" : "degC");
}

/* Rows of the same time become one where their readings agree. */
static fv_status merge(fv_logfile *log, fv_faults *faults)
{
    size_t kept = 0;
    for (size_t i = 0; i < log->count; i++) {
        const bool twice = kept > 0 && log->time[i] == log->time[kept - 1];
        for (size_t c = 0; c < log->channel_count && twice; c++)
            if (!same(log->channels[c].value[i], log->channels[c].value[kept - 1])) {
                say_twice(log, i, c, faults);
                return FV_FAIL;
            }
        const size_t to = twice ? kept - 1 : kept;
        for (size_t c = 0; c < log->channel_count; c++) {
            double *value = log->channels[c].value;
            value[to] = twice && isnan(value[i]) ? value[to] : value[i];
        }
        log->time[to] = log->time[i];
        log->line[to] = log->line[i];
        log->told.repeated += twice;
        kept += !twice;
    }
    log->count = kept;
    return FV_OK;
}

fv_status datafile_put_in_order(fv_logfile *log, const fv_datafile_options *options, fv_faults *faults)
{
    double *scratch = malloc((log->count + 1) * sizeof *scratch);
    fv_status status = scratch ? FV_OK : FV_FAIL;
    if (scratch) {
        log->interval = median_interval(log, scratch);
        status = set_clock(log, options->clock, faults);
    }
    if (status == FV_OK && !sort(log, scratch))
        status = FV_FAIL;
    if (status == FV_FAIL && fv_faults_errors(faults) == 0)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){log->file, 0}, "out of memory");
    if (status == FV_OK)
        status = merge(log, faults);
    for (size_t i = 1; i < log->count; i++)
        if (log->time[i] - log->time[i - 1] > log->told.gap) {
            log->told.gap = log->time[i] - log->time[i - 1];
            log->told.gap_at = log->time[i - 1];
        }
    free(scratch);
    return status;
}
