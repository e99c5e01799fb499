/* SPDX-License-Identifier: MIT */
/* A state's text is read as any plant file is, and answered for: one moment and the run in time. */
#include "desk/session.h"

#include <stdlib.h>

void desk_answers_free(desk_answers *answers)
{
    fv_heat_free(answers->heat);
    fv_flow_answer_free(answers->flow);
    fv_plant_free(answers->plant);
    fv_faults_free(answers->remarks);
    fv_text_free(&answers->text);
    *answers = (desk_answers){.plant = NULL};
}

bool desk_write(const fv_desk *desk, const desk_state *state, fv_text *text, fv_faults *faults)
{
    size_t count = 0;
    for (size_t i = 0; i < state->count; i++)
        count += state->changes[i].count;
    fv_edit *edits = malloc((count + 1) * sizeof *edits);
    if (!edits)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){NULL, 0}, "out of memory");
    count = 0;
    for (size_t i = 0; edits && i < state->count; i++)
        for (size_t k = 0; k < state->changes[i].count; k++)
            edits[count++] = state->changes[i].edits[k];
    const bool good = edits && fv_plantfile_edit(desk->began, desk->began_length, edits, count, text, faults) == FV_OK;
    free(edits);
    return good;
}

static bool answer(const fv_desk *desk, desk_answers *a)
{
    fv_flow_options flow;
    fv_heat_options heat;
    fv_flow_defaults(&flow);
    fv_heat_defaults(&heat);
    flow.turndown = true;
    a->plant = fv_plantfile_read_memory(a->text.text, a->text.length, desk->name, NULL, a->remarks);
    if (a->plant && !desk->options.units_of_plant) /* trade sizes follow; the text says what it said */
        a->plant->units = (fv_value){.v = desk->options.units, .origin = FV_ASSUMED};
    if (a->plant && desk->options.unanswered)
        return true;
    a->flow = a->plant ? fv_flow_answer_new(a->plant, &flow, NULL, a->remarks) : NULL;
    a->heat = a->flow ? fv_heat_run(a->plant, &heat, NULL, a->remarks) : NULL;
    fv_faults_sort(a->remarks);
    return a->heat != NULL;
}

bool desk_answers_make(const fv_desk *desk, const desk_state *state, desk_answers *a, fv_faults *faults)
{
    *a = (desk_answers){.remarks = fv_faults_new()};
    if (!a->remarks)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){NULL, 0}, "out of memory");
    const bool good = a->remarks && desk_write(desk, state, &a->text, faults);
    if (good && answer(desk, a))
        return true;
    for (size_t i = 0; i < fv_faults_count(a->remarks); i++) {
        const fv_fault *f = fv_faults_at(a->remarks, i);
        if (!f->caution)
            fv_error(faults, f->blame, (fv_loc){f->file, f->line}, "%s", f->text);
    }
    desk_answers_free(a);
    return false;
}
