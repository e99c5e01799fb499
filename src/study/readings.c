/* SPDX-License-Identifier: MIT */
#include "study/readings.h"

#include "model/near.h"

#include <math.h>

const char *fv_reading_flaw_word(fv_reading_flaw flaw)
{
    static const char *const words[] = {"good", "open", "frozen", "pulled", "above_boiling"};
    return words[flaw];
}

static void say_no_column(const char *what, const fv_part *part, const char *column, const fv_logfile *log,
                          fv_faults *faults)
{
    char hint[2 * MODEL_NEAR_LONGEST];
    fv_text all = {0};
    model_near near = model_near_start(column);
    for (size_t i = 0; i < log->channel_count; i++) {
        model_near_try(&near, log->channels[i].name);
        fv_text_add(&all, "%s%s", i ? ", " : "", log->channels[i].name);
    }
    fv_error(faults, FV_ERR_INPUT, part->loc, "%s '%s': %s has no column \"%s\"%s It has: %s", what, part->id,
             log->file, column, near.best ? model_near_hint(&near, hint, sizeof hint) : ".",
             all.text ? all.text : "none");
    fv_text_free(&all);
}

static bool fill(fv_probe_readings *r, const fv_probe *probe, const fv_logfile *log, size_t channel, fv_arena *arena)
{
    *r = (fv_probe_readings){.probe = probe,
                             .name = probe ? probe->part.id : log->channels[channel].name,
                             .channel = (int)channel,
                             .vessel = probe ? probe->vessel_index : -1,
                             .boiler = -1,
                             .at = probe ? fv_probe_place(probe) : FV_PROBE_CORE,
                             .lag = probe ? probe->lag.v : 30,
                             .count = log->count,
                             .time = log->time,
                             .value = fv_arena_alloc(arena, log->count + 1, sizeof(double)),
                             .flaw = fv_arena_alloc(arena, log->count + 1, 1)};
    study_probe_error(probe, r);
    if (!r->value || !r->flaw)
        return false;
    for (size_t i = 0; i < log->count; i++)
        r->value[i] = log->channels[channel].value[i] - r->offset;
    return true;
}

fv_status study_readings_find(const fv_plant *plant, const fv_logfile *log, double boiling, fv_arena *arena,
                              study_readings *out, fv_faults *faults)
{
    const size_t most = plant ? plant->probe_count : log->channel_count, before = fv_faults_errors(faults);
    const size_t others = plant ? plant->gauge_count + plant->meter_count : 0;
    *out = (study_readings){.list = fv_arena_alloc(arena, most + others + 1, sizeof *out->list)};
    bool room = out->list != NULL;
    for (size_t i = 0; i < most && room; i++) {
        const fv_probe *probe = plant ? plant->probes[i] : NULL;
        const int channel = probe ? fv_logfile_channel(log, probe->column) : (int)i;
        if (channel < 0)
            say_no_column("probe", &probe->part, probe->column, log, faults);
        else if (log->channels[channel].unit != FV_LOG_PRESSURE)
            room = fill(&out->list[out->count++], probe, log, (size_t)channel, arena);
        else if (probe)
            fv_error(faults, FV_ERR_INPUT, probe->part.loc, "probe '%s': column \"%s\" of %s holds pressures",
                     probe->part.id, probe->column, log->file);
    }
    if (!room)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){log->file, 0}, "out of memory");
    else if (fv_faults_errors(faults) == before && out->count == 0)
        fv_error(faults, FV_ERR_INPUT, plant ? plant->loc : (fv_loc){log->file, 0},
                 plant ? "no <probe> says which column is measured where; add one for each, such as <probe id=\"p1\" "
                         "vessel=\"%s\" at=\"core\" column=\"%s\"/>"
                       : "there is no column of temperatures (%s%s)",
                 plant && plant->vessel_count ? plant->vessels[0]->part.id : "",
                 log->channel_count ? log->channels[0].name : "CH 1");
    if (fv_faults_errors(faults) > before)
        return FV_FAIL;
    study_readings_clean(out, boiling);
    return FV_OK;
}

/* ---- gauges and meters ---- */

static const double METER_ERROR = 0.03; /* of the value. Common practice, no source */
static const double WATER = 999;        /* kg/m3, within 0.2 % from 0 to 22 degC: IAPWS-IF97 (from memory) */
static const double COLD_MOST = 2e4;    /* Pa that a gauge may show before there is steam, else it is absolute */

/* Half of a gauge's or a meter's error, in squares, stays the same over a run; the other half comes and goes. */
static bool add_gauge(const fv_gauge *gauge, const fv_logfile *log, size_t channel, fv_arena *arena,
                      study_readings *out)
{
    fv_probe_readings *r = &out->list[out->count++];
    *r = (fv_probe_readings){.reads = FV_READS_PRESSURE,
                             .name = gauge->part.id,
                             .channel = (int)channel,
                             .vessel = -1,
                             .boiler = gauge->boiler,
                             .error = gauge->error.v / sqrt(2.0),
                             .count = log->count,
                             .time = log->time,
                             .value = log->channels[channel].value,
                             .flaw = fv_arena_alloc(arena, log->count + 1, 1)};
    for (size_t i = 0; i < log->count && r->flaw; i++)
        if (isnan(r->value[i])) {
            r->flaw[i] = FV_READING_OPEN;
            r->left_out[FV_READING_OPEN]++;
        }
    return r->flaw != NULL;
}

static bool add_meter(const fv_meter *meter, double ended, fv_arena *arena, study_readings *out)
{
    fv_probe_readings *r = &out->list[out->count++];
    double *room = fv_arena_alloc(arena, 2, sizeof *room);
    *r = (fv_probe_readings){.reads = FV_READS_WATER,
                             .name = meter->part.id ? meter->part.id : "water",
                             .channel = -1,
                             .vessel = -1,
                             .boiler = meter->boiler_index,
                             .error = WATER * fv_or(meter->error, METER_ERROR * meter->value.v) / sqrt(2.0),
                             .count = 1,
                             .time = room,
                             .value = room ? room + 1 : NULL,
                             .flaw = fv_arena_alloc(arena, 1, 1)};
    if (!room || !r->flaw)
        return false;
    room[0] = ended;
    room[1] = WATER * meter->value.v;
    return true;
}

fv_status study_readings_instruments(const fv_plant *plant, const fv_logfile *log, double ended, fv_arena *arena,
                                     study_readings *out, fv_faults *faults)
{
    const size_t before = fv_faults_errors(faults);
    bool room = true;
    for (size_t i = 0; i < plant->gauge_count && room; i++) {
        const fv_gauge *gauge = plant->gauges[i];
        const int channel = fv_logfile_channel(log, gauge->column);
        if (channel < 0)
            say_no_column("gauge", &gauge->part, gauge->column, log, faults);
        else if (log->channels[channel].unit != FV_LOG_PRESSURE)
            fv_error(faults, FV_ERR_INPUT, gauge->part.loc,
                     "gauge '%s': column \"%s\" of %s holds temperatures; its heading should say mbar, kPa, bar or psi",
                     gauge->part.id, gauge->column, log->file);
        else if (log->channels[channel].value[0] > COLD_MOST)
            fv_error(faults, FV_ERR_INPUT, gauge->part.loc,
                     "gauge '%s': column \"%s\" of %s begins at %.0f mbar, so it is absolute, or there was steam "
                     "already; a gauge shows what is above the air's pressure",
                     gauge->part.id, gauge->column, log->file, 0.01 * log->channels[channel].value[0]);
        else
            room = add_gauge(gauge, log, (size_t)channel, arena, out);
    }
    for (size_t i = 0; i < plant->meter_count && room; i++) {
        if (!isnan(ended))
            room = add_meter(plant->meters[i], ended, arena, out);
        else
            fv_caution(faults, FV_ERR_INPUT, plant->meters[i]->part.loc,
                       "the meter of '%s' is of the whole run, so it is not used before that ends",
                       plant->meters[i]->boiler);
    }
    if (!room)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){log->file, 0}, "out of memory");
    return fv_faults_errors(faults) > before ? FV_FAIL : FV_OK;
}
