/* SPDX-License-Identifier: MIT */
#include "study/readings.h"

#include "model/near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *fv_reading_flaw_word(fv_reading_flaw flaw)
{
    static const char *const words[] = {"good", "open", "frozen", "pulled", "above_boiling"};
    return words[flaw];
}

static void say_no_column(const fv_plant *plant, const fv_probe *probe, const fv_logfile *log, fv_faults *faults)
{
    char hint[2 * MODEL_NEAR_LONGEST];
    fv_text all = {0};
    model_near near = model_near_start(probe->column);
    (void)plant;
    for (size_t i = 0; i < log->channel_count; i++) {
        model_near_try(&near, log->channels[i].name);
        fv_text_add(&all, "%s%s", i ? ", " : "", log->channels[i].name);
    }
    fv_error(faults, FV_ERR_INPUT, probe->part.loc, "probe '%s': %s has no column \"%s\"%s It has: %s", probe->part.id,
             log->file, probe->column, near.best ? model_near_hint(&near, hint, sizeof hint) : ".",
             all.text ? all.text : "none");
    fv_text_free(&all);
}

static bool fill(fv_probe_readings *r, const fv_probe *probe, const fv_logfile *log, size_t channel, fv_arena *arena)
{
    *r = (fv_probe_readings){.probe = probe,
                             .name = probe ? probe->part.id : log->channels[channel].name,
                             .channel = (int)channel,
                             .vessel = probe ? probe->vessel_index : -1,
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
    *out = (study_readings){.list = fv_arena_alloc(arena, most + 1, sizeof *out->list)};
    bool room = out->list != NULL;
    for (size_t i = 0; i < most && room; i++) {
        const fv_probe *probe = plant ? plant->probes[i] : NULL;
        const int channel = probe ? fv_logfile_channel(log, probe->column) : (int)i;
        if (channel < 0)
            say_no_column(plant, probe, log, faults);
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
