/* SPDX-License-Identifier: MIT */
/* Blocks of rows: those of one block are answered side by side, then handed over in order. */
#include "study/sweep/inputs.h"
#include "study/parallel.h"
#include "study/settings.h"

#include <math.h>
#include <stdlib.h>
#include <stdio.h>

enum { BLOCK = 256, REASON_SIZE = 240 };

void fv_sweep_defaults(fv_sweep_options *options)
{
    if (!options)
        return;
    *options = (fv_sweep_options){.ask = FV_SWEEP_HEAT, .seed = 1, .part = 1, .parts = 1, .fire = 1.0};
}

typedef struct {
    fv_sweep_row row;
    char reason[REASON_SIZE];
} slot;

typedef struct {
    const fv_plant *plant;
    const fv_sweep_options *options;
    sweep_inputs inputs;
    study_caches caches;
    slot *slots; /* BLOCK of them */
    double *values;
    fv_sweep_vessel *vessels;
    size_t first; /* row of the block's first slot */
} sweep;

/* ---- one row ---- */

static void take_flow(fv_sweep_row *row, const fv_flow_answer *answer)
{
    const fv_steady_result *state = answer->state;
    row->steam = state->audit.steam_total;
    for (size_t i = 0; i < state->boiler_count; i++)
        row->fuel += state->boilers[i].fuel;
    for (size_t i = 0; i < state->vessel_count; i++) {
        const fv_vessel_result *v = &state->vessels[i];
        row->vessels[i] = (fv_sweep_vessel){
            .steam = v->steam, .heat = v->heat, .core = NAN, .hold = NAN, .took = NAN, .verdict = v->verdict};
    }
}

static void take_heat(fv_sweep_row *row, const fv_heat_result *result)
{
    row->last_core = 0.0;
    for (size_t i = 0; i < result->boiler_count; i++) {
        row->steam += result->boilers[i].steam;
        row->fuel += result->boilers[i].fuel;
        row->water += result->boilers[i].water;
    }
    for (size_t i = 0; i < result->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        row->vessels[i] = (fv_sweep_vessel){.steam = NAN,
                                            .heat = NAN,
                                            .core = h->core,
                                            .hold = h->hold,
                                            .took = h->core - h->opened,
                                            .verdict = h->verdict};
        if (h->verdict != FV_SHUT_OFF && !(h->core <= row->last_core))
            row->last_core = isnan(row->last_core) ? NAN : h->core;
    }
}

static bool ask_flow(const sweep *s, const fv_plant *plant, fv_sweep_row *row, fv_faults *faults)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.fire = s->options->fire;
    options.turndown = false;
    fv_flow_answer *answer = fv_flow_answer_new(plant, &options, NULL, faults);
    if (answer)
        take_flow(row, answer);
    fv_flow_answer_free(answer);
    return answer != NULL;
}

static bool ask_heat(sweep *s, const fv_plant *plant, size_t worker, const fv_progress *progress, fv_sweep_row *row,
                     fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.fire = s->options->fire;
    options.stop_at_hold = true;
    options.cache = study_cache(&s->caches, worker);
    fv_heat_result *result = fv_heat_run(plant, &options, progress, faults);
    if (result)
        take_heat(row, result);
    fv_heat_free(result);
    return result != NULL;
}

static void say_why(slot *slot, const fv_faults *faults)
{
    snprintf(slot->reason, sizeof slot->reason, "no answer");
    for (size_t i = 0; i < fv_faults_count(faults); i++) {
        const fv_fault *fault = fv_faults_at(faults, i);
        if (fault->caution)
            continue;
        snprintf(slot->reason, sizeof slot->reason, "%s", fault->text);
        break;
    }
    slot->row.reason = slot->reason;
}

/* FV_FAIL where the system, not the row, is to blame. */
static fv_status answer_row(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    sweep *s = context;
    slot *slot = &s->slots[index];
    fv_setting settings[FV_SWEEP_AXES_MOST];
    fv_sweep_row *row = &slot->row;
    double *inputs = s->values + index * s->inputs.axis_count;
    fv_faults *faults = fv_faults_new();
    if (!faults)
        return FV_FAIL;
    *row = (fv_sweep_row){.index = s->first + index,
                          .inputs = inputs,
                          .last_core = NAN,
                          .vessels = s->vessels + index * s->plant->vessel_count};
    sweep_inputs_of(&s->inputs, row->index, inputs);
    size_t count = 0, vessels = s->plant->vessel_count;
    for (size_t i = 0; i < s->inputs.axis_count; i++)
        if (s->inputs.axes[i].path)
            settings[count++] = (fv_setting){s->inputs.axes[i].path, s->inputs.axes[i].attribute, inputs[i]};
        else
            vessels = (size_t)inputs[i];
    fv_plant *plant = fv_change_copy(&(fv_change){.settings = settings, .count = count}, s->plant, faults);
    const bool kept =
        plant && (vessels == s->plant->vessel_count || study_keep_vessels(plant, vessels, faults) == FV_OK);
    row->answered = kept && (s->options->ask == FV_SWEEP_FLOW ? ask_flow(s, plant, row, faults)
                                                              : ask_heat(s, plant, worker, progress, row, faults));
    if (!row->answered)
        say_why(slot, faults);
    const bool system = !row->answered && fv_faults_errors(faults) > 0 && fv_faults_blame_system(faults);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return system ? FV_FAIL : FV_OK;
}

/* ---- all rows ---- */

static bool hand_over(const sweep *s, size_t count, fv_sweep_take *take, void *context)
{
    for (size_t i = 0; i < count; i++)
        if (!take(context, &s->slots[i].row))
            return false;
    return true;
}

static fv_status run_blocks(sweep *s, size_t first, size_t end, const fv_progress *progress, fv_sweep_take *take,
                            void *context, fv_faults *faults)
{
    const size_t from = first + s->options->skip;
    for (s->first = from; s->first < end; s->first += BLOCK) {
        const size_t count = end - s->first < BLOCK ? end - s->first : BLOCK;
        const double whole = (double)(end - from);
        const study_work plan = {.threads = s->options->threads,
                                 .progress = progress,
                                 .from = (double)(s->first - from) / whole,
                                 .to = (double)(s->first - from + count) / whole,
                                 .what = "trying",
                                 .caches = &s->caches};
        const study_ending outcome = study_run(&plan, count, answer_row, s);
        if (outcome == STUDY_FAILED)
            fv_error(faults, FV_ERR_SYSTEM, s->plant->loc, "out of memory");
        if (outcome != STUDY_DONE || !hand_over(s, count, take, context))
            return FV_FAIL;
    }
    return FV_OK;
}

fv_status fv_sweep_run(const fv_plant *plant, const fv_sweep_axis *axes, size_t axis_count,
                       const fv_sweep_options *options, const fv_progress *progress, fv_sweep_take *take, void *context,
                       fv_faults *faults)
{
    if (!plant || !axes || !options || !take)
        return fv_error_null(faults, __func__);
    sweep s = {.plant = plant, .options = options};
    size_t first, end;
    fv_sweep_part(fv_sweep_rows(axes, axis_count, options), options, &first, &end);
    s.slots = calloc(BLOCK, sizeof *s.slots);
    s.values = calloc(BLOCK * (axis_count + 1), sizeof *s.values);
    s.vessels = calloc(BLOCK * (plant->vessel_count + 1), sizeof *s.vessels);
    fv_status status = FV_FAIL;
    if (sweep_inputs_open(&s.inputs, axes, axis_count, options) == FV_FAIL || !s.slots || !s.values || !s.vessels)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    else
        status = run_blocks(&s, first, end, progress, take, context, faults);
    sweep_inputs_close(&s.inputs);
    study_caches_free(&s.caches);
    free(s.slots);
    free(s.values);
    free(s.vessels);
    return status;
}
