/* SPDX-License-Identifier: MIT */
#include "report/slip.h"

#include "report/step.h"

#include <math.h>

static const double MOSTLY = 0.6; /* of its heat: walls that take so much are the reason */

/* "with v1 at 30 % instead of 35 %" */
static void say_missed(const fv_plant *plant, const fv_slip *s, fv_text *out)
{
    if (s->kind != FV_SLIP_LATER)
        fv_text_add(out, "with %s at %.0f %% instead of %.0f %%", report_valve(plant, s->part).text, 100 * s->to,
                    100 * s->from);
    else if (s->vessel)
        fv_text_add(out, "with the steam of %s opened 10 min late", s->vessel);
    else
        fv_text_add(out, "with %s turned 10 min late", report_valve(plant, s->part).text);
    if (s->after)
        fv_text_add(out, " after \"%s\"", s->after);
}

static void say_core(const print_clock *clock, double core, fv_text *out)
{
    if (isfinite(core))
        fv_text_add(out, "comes only %s", print_at(clock, core).text);
    else
        fv_text_add(out, "never comes");
}

static void say_edge(const fv_plant *plant, const print_clock *clock, const fv_slip *s, fv_text *out)
{
    const char *vessel = plant->vessels[s->last]->part.id;
    fv_text_add(out, " There is little room for a slip: ");
    say_missed(plant, s, out);
    if (s->lifts)
        fv_text_add(out, " a lid or a relief valve lifts, or a boiler runs dry, that would not%s",
                    s->late > 0 ? ", and" : ".");
    if (s->late == 0)
        return;
    if (s->breaks) {
        fv_text_add(out, " the hold of %s breaks", vessel);
    } else {
        fv_text_add(out, " the core of %s ", vessel);
        say_core(clock, s->core, out);
        fv_text_add(out, ", past its time");
    }
    if (s->walls > MOSTLY)
        fv_text_add(out,
                    ": its walls take %.0f parts in 10 of its heat, so a little less steam is a lot less for its load",
                    fmin(9, round(10 * s->walls)));
    else if (s->others_full)
        fv_text_add(out, ": the others are full long before it, and vent from then on the steam that it lacks");
    fv_text_add(out, ". Do that with its probe in view.");
}

void report_slip(const fv_plant *plant, const print_clock *clock, const fv_slip *s, double quickest, fv_text *out)
{
    if (s->kind == FV_SLIP_NONE || s->last < 0)
        return;
    if (s->late > 0 || s->lifts) {
        say_edge(plant, clock, s, out);
        return;
    }
    fv_text_add(out, " %s%s%s makes no vessel late that is in time",
                s->valves ? "A valve 5 points (or a tenth) off" : "", s->valves && s->others ? ", or one thing" : "",
                !s->others  ? ""
                : s->valves ? " 10 min late,"
                            : "One thing 10 min late");
    if (isfinite(s->core))
        fv_text_add(out, ": the last core comes %s at the latest", print_at(clock, s->core).text);
    if (!isnan(quickest))
        fv_text_add(out, "; a plan whose last core comes %s has no room for that", print_at(clock, quickest).text);
    fv_text_add(out, ".");
}

json_t *report_slip_json(const fv_plant *plant, const fv_slip *s)
{
    if (s->kind == FV_SLIP_NONE || s->last < 0)
        return json_null();
    return json_pack("{s:s, s:o, s:o, s:f, s:f, s:I, s:b, s:s, s:o, s:b, s:o, s:b}", "missed", fv_slip_word(s->kind),
                     "part", print_json_word(s->part ? s->part : s->vessel), "after", print_json_word(s->after), "from",
                     s->from, "to", s->to, "late_then", (json_int_t)s->late, "lifts_then", s->lifts, "vessel",
                     plant->vessels[s->last]->part.id, "core_s", print_json_number(s->core), "hold_breaks", s->breaks,
                     "wall_share", print_json_number(s->walls), "others_full", s->others_full);
}
