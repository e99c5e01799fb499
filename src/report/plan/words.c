/* SPDX-License-Identifier: MIT */
/* Plans in a grower's words. */
#include "report/plan/report.h"
#include "report/remedy.h"
#include "report/slip.h"
#include "report/slow_load.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const double CLOSE = 1.15; /* times a bound: so near to it, the bound is worth saying */
static const double NEAR = 0.98;  /* of the plan's last core: an estimate above it promises nothing */

bool report_plan_make(const fv_plan_answer *answer, const fv_report_options *options, report_plan *plan)
{
    const fv_plant *plant = answer->plant;
    *plan = (report_plan){.answer = answer,
                          .units = options->units,
                          .clock = {.start = options->clock, .twelve_hours = options->twelve_hours},
                          .vessels = calloc(plant->vessel_count + 1, sizeof *plan->vessels)};
    for (size_t i = 0; i < plant->vessel_count && plan->vessels; i++)
        if (fv_word(plant->vessels[i]->phase) != FV_PHASE_SHUT)
            plan->vessels[plan->vessel_count++] = i;
    return plan->vessels != NULL;
}

void report_plan_free(report_plan *plan)
{
    free(plan->vessels);
}

void report_plan_name(const report_plan *plan, const fv_plan_row *row, fv_text *out)
{
    for (size_t i = 0; i < row->move_count; i++) {
        fv_text_add(out, "%s", i ? "; " : "");
        report_remedy(plan->units, row->moves[i], out);
    }
    if (row->step_count > 0)
        fv_text_add(out, row->move_count ? "; and hands" : "hands alone");
    else if (row->move_count == 0)
        fv_text_add(out, "as it is");
}

print_shown report_plan_money(const report_plan *plan, const fv_plan_row *row)
{
    print_shown shown;
    const char *currency = plan->answer->currency;
    if (isnan(row->money))
        snprintf(shown.text, sizeof shown.text, "?");
    else
        snprintf(shown.text, sizeof shown.text, "%.10s%s%.0f", row->money > 0 && currency ? currency : "",
                 row->money > 0 && currency ? " " : "", row->money);
    return shown;
}

/* "All 6 in time", "4 of 6 in time". */
static void say_in_time(const report_plan *plan, const fv_plan_row *row, fv_text *out)
{
    if (row->late == 0 && plan->vessel_count > 1)
        fv_text_add(out, "All %zu in time", plan->vessel_count);
    else if (plan->vessel_count == 1)
        fv_text_add(out, row->late ? "Not in time" : "In time");
    else
        fv_text_add(out, "%zu of %zu in time", plan->vessel_count - row->late, plan->vessel_count);
}

/* `now` NULL: there is nothing to compare with. */
static void say_last_core(const fv_plant *plant, const fv_plan_row *row, const fv_plan_row *now, fv_text *out)
{
    const bool mends = now && now->broken >= 0 && row->broken < 0;
    if (!isfinite(row->last)) {
        fv_text_add(out, "a core never comes");
        return;
    }
    fv_text_add(out, "last core %s after lighting", print_shown_time(row->last).text);
    fv_text_add(out, "%s", mends ? " and every hold kept" : "");
    if (now)
        fv_text_add(out, ", not %s", isfinite(now->last) ? print_shown_time(now->last).text : "never");
    if (mends)
        fv_text_add(out, " and the hold of %s broken", plant->vessels[now->broken]->part.id);
}

static void say_clock(const report_plan *plan, const fv_plan_row *row, fv_text *out)
{
    if (isnan(plan->clock.start) || isnan(row->done))
        return;
    fv_text_add(out, "; light %s and the last hold has ended %s", print_at(&plan->clock, 0).text,
                print_by(&plan->clock, row->done).text);
}

static void say_best(const report_plan *plan, const fv_plan_row *row, fv_text *out)
{
    const fv_plan_row *now = &plan->answer->now;
    say_in_time(plan, row, out);
    if (!plan->answer->gains)
        fv_text_add(out, " as it is, and nothing that was tried is worth doing: ");
    else if (row->move_count == 0)
        fv_text_add(out, " with nothing to buy: ");
    else {
        fv_text name = {0};
        report_plan_name(plan, row, &name);
        fv_text_add(out, " with %s (%s): ", name.text && !name.failed ? name.text : "",
                    isnan(row->money) ? "price not known"
                    : row->money > 0  ? report_plan_money(plan, row).text
                                      : "nothing to buy");
        out->failed = out->failed || name.failed;
        fv_text_free(&name);
    }
    say_last_core(plan->answer->plant, row, plan->answer->gains && now->ran ? now : NULL, out);
    say_clock(plan, row, out);
    fv_text_add(out, ".");
}

/* Of the vessel whose load is furthest from its time. */
static void say_slow_load(const report_plan *plan, fv_text *out)
{
    const fv_plan_answer *a = plan->answer;
    if (a->slow < 0)
        return;
    const fv_vessel *vessel = a->plant->vessels[a->slow];
    fv_text_add(out, " Even with steam in plenty the load of %s takes %s, ", vessel->part.id,
                print_shown_time(a->slow_takes).text);
    report_slow_load(vessel, out);
    fv_text_add(out, ".");
}

static void say_bounds(const fv_plan_answer *a, const fv_plan_row *row, fv_text *out)
{
    const double bound = fmax(a->conduction, a->energy); /* a NaN is passed over */
    const bool buys = row->move_count > 0;
    if (buys)
        return;
    if (row->last <= CLOSE * bound)
        fv_text_add(out, " No handling can be earlier than %s.", print_shown_time(bound).text);
    else if (a->sharing > NEAR * row->last) /* an estimate, which a good plan may beat */
        fv_text_add(out, " Sharing the steam otherwise gains next to nothing.");
    else if (!isnan(a->sharing))
        fv_text_add(out, " With all steam shared perfectly it would be about %s.", print_shown_time(a->sharing).text);
}

void report_plan_sentence(const report_frame *frame, fv_text *out)
{
    const report_plan *plan = frame->answer;
    const fv_plan_row *row = &plan->answer->rows[0];
    if (plan->answer->stopped)
        fv_text_add(out, "Stopped early, the best so far: ");
    say_best(plan, row, out);
    say_slow_load(plan, out);
    say_bounds(plan->answer, row, out);
    if (row->late < plan->vessel_count) /* else there is nobody whom a slip could make late */
        report_slip(plan->answer->plant, &plan->clock, &plan->answer->slip, plan->answer->quickest, out);
}
