/* SPDX-License-Identifier: MIT */
#include "study/schedule.h"

#include <math.h>
#include <stdlib.h>

static double due(const study_knob *knob, double value, const study_outcome *o)
{
    switch (knob->kind) {
    case STUDY_KNOB_START:
        return value;
    case STUDY_KNOB_AT_FULL:
        return o && o->ran ? o->full[knob->vessel] : NAN;
    case STUDY_KNOB_AT_CORE:
        return o && o->ran ? o->core[knob->vessel] : NAN;
    default:
        return 0;
    }
}

static int by_time(const void *a, const void *b)
{
    const fv_plan_step *x = a, *y = b;
    const bool x_before = x->action <= FV_PLAN_FIT_WASHER, y_before = y->action <= FV_PLAN_FIT_WASHER;
    if (x_before != y_before)
        return x_before ? -1 : 1;
    if (x->time != y->time)
        return isnan(y->time) || x->time < y->time ? -1 : 1;
    return x->vessel - y->vessel;
}

bool study_steps_of(const study_handling *h, const int *point, const study_outcome *outcome, fv_arena *arena,
                    fv_plan_step **steps, size_t *count)
{
    static const fv_plan_action actions[] = {[STUDY_KNOB_OPEN] = FV_PLAN_SET_VALVE,
                                             [STUDY_KNOB_WASHER] = FV_PLAN_FIT_WASHER,
                                             [STUDY_KNOB_START] = FV_PLAN_OPEN,
                                             [STUDY_KNOB_AT_FULL] = FV_PLAN_AT_FULL,
                                             [STUDY_KNOB_AT_CORE] = FV_PLAN_AT_CORE};
    fv_plan_step *list = fv_arena_alloc(arena, h->count + 1, sizeof *list);
    bool good = list != NULL;
    *count = 0;
    for (size_t i = 0; i < h->count && good; i++) {
        const study_knob *knob = &h->knobs[i];
        const double value = study_knob_value(knob, point[i]);
        if (!study_handling_turns(h, point, i))
            continue;
        fv_plan_step *step = &list[(*count)++];
        *step = (fv_plan_step){.action = actions[knob->kind],
                               .part = fv_arena_copy(arena, knob->part),
                               .vessel = (int)knob->vessel,
                               .value = value,
                               .time = due(knob, value, outcome)};
        good = step->part != NULL;
    }
    if (good && *count > 1)
        qsort(list, *count, sizeof *list, by_time);
    *steps = list;
    return good;
}
