/* SPDX-License-Identifier: MIT */
/* Names of the parts that a vessel's first cause lies in. */
#include "study/why/question.h"

static bool has_losses(const fv_line *line)
{
    return line->fitting_count > 0 || line->k.v > 0;
}

/* Lines on the way that the cause concerns. */
static bool concerns(const study_question *q, fv_why_cause cause, size_t line)
{
    const fv_line *l = q->answer->plant->lines[line];
    switch (cause) {
    case FV_WHY_HEADER:
        return q->ways.kind[line] == WAY_SHARED;
    case FV_WHY_HOSE:
        return q->ways.kind[line] == WAY_OWN;
    case FV_WHY_FITTINGS:
        return has_losses(l);
    case FV_WHY_SAG:
        return l->sag.v > 0;
    case FV_WHY_LINE_LOSS:
        return true;
    default:
        return false;
    }
}

static bool is_about_lines(fv_why_cause cause)
{
    return cause == FV_WHY_HEADER || cause == FV_WHY_HOSE || cause == FV_WHY_FITTINGS || cause == FV_WHY_SAG ||
           cause == FV_WHY_LINE_LOSS;
}

/* The lines on the vessel's way; where the cause lies elsewhere, none of them. */
static void name_lines(const study_question *q, size_t vessel, fv_why_vessel *v)
{
    for (size_t i = 0; i < q->ways.line_count && v->part_here != 0; i++)
        if (study_on_way(&q->ways, vessel, i) && concerns(q, v->first, i))
            v->parts[v->part_count++] = q->answer->plant->lines[i]->part.id;
}

bool study_name_parts(study_question *q)
{
    const fv_plant *plant = q->answer->plant;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_why_vessel *v = &q->answer->vessels[i];
        v->part_count = 0;
        if (!v->asked || v->first == FV_WHY_NOTHING)
            continue;
        v->parts = fv_arena_alloc(q->answer->arena, plant->line_count + plant->boiler_count + 1, sizeof *v->parts);
        if (!v->parts)
            return false;
        if (v->first == FV_WHY_BOILER)
            for (size_t k = 0; k < plant->boiler_count; k++)
                v->parts[v->part_count++] = plant->boilers[k]->part.id;
        else if (is_about_lines(v->first))
            name_lines(q, i, v);
        else if (v->part_here != 0)
            v->parts[v->part_count++] = plant->vessels[i]->part.id;
    }
    return true;
}
