/* SPDX-License-Identifier: MIT */
#include "print/screen.h"
#include "report/step.h"

#include <stdio.h>
#include <string.h>

static const char *vessel_of(const fv_plant *plant, const fv_plan_step *step)
{
    return plant->vessels[step->vessel]->part.id;
}

/* "v1", or "the valve of s2" for "s2.fitting1". */
static print_shown valve_of(const fv_plan_step *step)
{
    print_shown shown;
    const char *dot = strstr(step->part, ".fitting");
    if (dot)
        snprintf(shown.text, sizeof shown.text, "the valve of %.*s", (int)(dot - step->part), step->part);
    else
        snprintf(shown.text, sizeof shown.text, "%.80s", step->part);
    return shown;
}

void report_step(const fv_plant *plant, fv_unit_system units, const fv_plan_step *step, fv_text *out)
{
    const print_shown share = print_shown_said(units, FV_SHOW_SHARE, step->value);
    switch (step->doing) {
    case FV_PLAN_FIT_WASHER:
        fv_text_add(out, "a washer at the end of %s, its hole %s", step->part,
                    print_shown_brief(units, FV_SHOW_BORE, step->value).text);
        break;
    case FV_PLAN_OPEN:
        fv_text_add(out, "open the steam of %s", vessel_of(plant, step));
        break;
    default:
        fv_text_add(out, "%s to %s", valve_of(step).text, share.text);
    }
}

print_shown report_step_when(const fv_plant *plant, const print_clock *clock, const fv_plan_step *step)
{
    print_shown shown;
    switch (step->doing) {
    case FV_PLAN_SET_VALVE:
    case FV_PLAN_FIT_WASHER:
        snprintf(shown.text, sizeof shown.text, "before lighting");
        break;
    case FV_PLAN_OPEN:
        shown = print_when(clock, step->time);
        break;
    default:
        snprintf(shown.text, sizeof shown.text, "%.40s %s, about %.24s", vessel_of(plant, step),
                 step->doing == FV_PLAN_AT_FULL ? "full" : "core", print_when(clock, step->time).text);
    }
    return shown;
}

void report_step_line(const char *when, fv_text *what, fv_text *out)
{
    char lead[64];
    snprintf(lead, sizeof lead, "  %-24.40s ", when);
    print_say(out, lead, what);
}

void report_steps(const fv_plant *plant, fv_unit_system units, const print_clock *clock, const fv_plan_step *steps,
                  size_t count, bool before, fv_text *out)
{
    fv_text what = {0};
    for (size_t i = 0; i < count; i++) {
        const fv_plan_step *step = &steps[i], *next = i + 1 < count ? step + 1 : NULL;
        if ((step->doing <= FV_PLAN_FIT_WASHER) != before)
            continue;
        const print_shown when = report_step_when(plant, clock, step);
        if (step->doing == FV_PLAN_OPEN && what.length > 0)
            fv_text_add(&what, "%s", vessel_of(plant, step));
        else
            report_step(plant, units, step, &what);
        const bool joined = next && (next->doing <= FV_PLAN_FIT_WASHER) == before &&
                            strcmp(report_step_when(plant, clock, next).text, when.text) == 0;
        if (joined)
            fv_text_add(&what, ", ");
        else
            report_step_line(when.text, &what, out);
    }
}
