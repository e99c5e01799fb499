/* SPDX-License-Identifier: MIT */
#include "print/screen.h"
#include "report/step.h"

#include <stdio.h>
#include <string.h>

static const char *vessel_of(const fv_plant *plant, const fv_plan_step *step)
{
    return plant->vessels[step->vessel]->part.id;
}

print_shown report_valve(const fv_plant *plant, const char *path)
{
    print_shown shown;
    const fv_element *element;
    const fv_part *fitting = fv_plant_find(plant, path, &element);
    const char *dot = strstr(path, ".fitting");
    if (dot && !(fitting && fitting->id))
        snprintf(shown.text, sizeof shown.text, "the valve of %.*s", (int)(dot - path), path);
    else
        snprintf(shown.text, sizeof shown.text, "%.80s", dot ? fitting->id : path);
    return shown;
}

void report_step(const fv_plant *plant, fv_unit_system units, const fv_plan_step *step, fv_text *out)
{
    const print_shown share = print_shown_said(units, FV_SHOW_SHARE, step->value);
    switch (step->action) {
    case FV_PLAN_FIT_WASHER:
        fv_text_add(out, "a washer at the end of %s, its hole %s", step->part,
                    print_shown_brief(units, FV_SHOW_BORE, step->value).text);
        break;
    case FV_PLAN_OPEN:
        fv_text_add(out, "open the steam of %s", vessel_of(plant, step));
        break;
    case FV_PLAN_FIRE_AT_CORE:
        fv_text_add(out, "fire of %s to %s", step->part, share.text);
        break;
    case FV_PLAN_FIRE_INSTEAD:
        fv_text_add(out, "fire of %s to %s, no lower", step->part, share.text);
        break;
    default:
        fv_text_add(out, "%s to %s", report_valve(plant, step->part).text, share.text);
    }
}

print_shown report_step_when(const fv_plant *plant, const print_clock *clock, const fv_plan_step *step)
{
    print_shown shown;
    switch (step->action) {
    case FV_PLAN_SET_VALVE:
    case FV_PLAN_FIT_WASHER:
        snprintf(shown.text, sizeof shown.text, "before lighting");
        break;
    case FV_PLAN_OPEN:
        shown = print_when(clock, step->time);
        break;
    case FV_PLAN_FIRE_AT_CORE:
    case FV_PLAN_FIRE_INSTEAD:
        snprintf(shown.text, sizeof shown.text,
                 step->delay > 0 ? "%.40s + %.16s, about %.24s" : "%.40s%.0s, about %.24s", step->after,
                 print_shown_time(step->delay).text, print_when(clock, step->time).text);
        break;
    default:
        snprintf(shown.text, sizeof shown.text, "%.40s %s, about %.24s", vessel_of(plant, step),
                 step->action == FV_PLAN_AT_FULL ? "full" : "core", print_when(clock, step->time).text);
    }
    return shown;
}

void report_step_line(const char *when, fv_text *what, fv_text *out)
{
    char lead[64];
    snprintf(lead, sizeof lead, "  %-24.40s ", when);
    print_say(out, lead, what);
}

static bool is_before(const fv_plan_step *step)
{
    return step->action <= FV_PLAN_FIT_WASHER;
}

size_t report_step_group(const fv_plant *plant, fv_unit_system units, const print_clock *clock,
                         const fv_plan_step *steps, size_t count, size_t from, print_shown *when, fv_text *what)
{
    size_t i = from;
    *when = report_step_when(plant, clock, &steps[from]);
    for (; i < count && is_before(&steps[i]) == is_before(&steps[from]) &&
           strcmp(report_step_when(plant, clock, &steps[i]).text, when->text) == 0;
         i++) {
        fv_text_add(what, "%s", i > from ? ", " : "");
        if (steps[i].action == FV_PLAN_OPEN && i > from)
            fv_text_add(what, "%s", vessel_of(plant, &steps[i]));
        else
            report_step(plant, units, &steps[i], what);
    }
    return i;
}

void report_steps(const fv_plant *plant, fv_unit_system units, const print_clock *clock, const fv_plan_step *steps,
                  size_t count, bool before, fv_text *out)
{
    for (size_t i = 0; i < count;) {
        fv_text what = {0};
        print_shown when;
        const size_t from = i;
        i = report_step_group(plant, units, clock, steps, count, i, &when, &what);
        if (is_before(&steps[from]) == before)
            report_step_line(when.text, &what, out);
        else
            fv_text_free(&what);
    }
}
