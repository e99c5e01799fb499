/* SPDX-License-Identifier: MIT */
/* The plan answer as a screen: what to do, when it is done, what else would do it, how to type it. */
#include "print/screen.h"
#include "report/plan/report.h"
#include "report/remedy.h"
#include "report/step.h"

#include <math.h>

static const double SECONDS_A_DAY = 86400, NIGHT_FROM = 22 * 3600, NIGHT_TO = 6 * 3600;

static const fv_plan_row *best(const report_plan *plan)
{
    return &plan->answer->rows[0];
}

static void say_to_do(const report_plan *plan, fv_text *out)
{
    const fv_plan_row *row = best(plan);
    fv_text what = {0};
    print_section(out, "What to do");
    for (size_t i = 0; i < row->move_count; i++) {
        report_remedy(plan->units, row->moves[i], &what);
        report_step_line("beforehand", &what, out);
    }
    report_steps(plan->answer->plant, plan->units, &plan->clock, row->steps, row->step_count, true, out);
    fv_text_add(&what, "light; all other valves as they are");
    report_step_line(print_when(&plan->clock, 0).text, &what, out);
    report_steps(plan->answer->plant, plan->units, &plan->clock, row->steps, row->step_count, false, out);
    print_sayf(out, "  ",
               "%s%zu thing%s to set before lighting, %zu to do in the course of the run, about %.0f min of work.",
               isnan(plan->clock.start) ? "Hours:minutes from lighting the fire. " : "", row->before,
               row->before == 1 ? "" : "s", row->during, row->minutes);
}

static void say_command(const report_plan *plan, fv_text *out)
{
    print_section(out, "To check it");
    fv_text_add(out, "  ");
    report_command(plan->answer->plant, "heat", &best(plan)->change, " \\\n    ", out);
    fv_text_add(out, "\n");
    print_sayf(out, "  ", "To keep it as a plant file: --save FILE.");
}

void report_plan_table(const report_frame *frame, fv_text *out)
{
    const report_plan *plan = frame->answer;
    if (best(plan)->step_count + best(plan)->move_count > 0)
        say_to_do(plan, out);
    report_frame_table(frame, PLAN_VESSELS, "When", out);
    print_sayf(out, "  ", "to spare: of the time allowed, which counts from the opening of its own steam.");
}

void report_plan_details(const report_frame *frame, fv_text *out)
{
    const report_plan *plan = frame->answer;
    report_frame_table(frame, PLAN_PLANS, "What else would do it", out);
    print_sayf(
        out, "  ",
        "last core: from lighting the fire; late: vessels not in their time, or whose hold breaks; cost: of what is "
        "bought; work: before and during the run; to do: things in the course of the run; a day: if the next fire is "
        "lit %s after the last hold. >: the plan above. Each is the best found for its cost.",
        print_shown_time(plan->answer->options.turnaround).text);
    if (best(plan)->step_count + best(plan)->move_count > 0)
        say_command(plan, out);
}

static bool at_night(const report_plan *plan, double time)
{
    const double of_day = fmod(plan->clock.start + time, SECONDS_A_DAY);
    return of_day >= NIGHT_FROM || of_day < NIGHT_TO;
}

void report_plan_notes(const report_frame *frame, print_notes *notes)
{
    const report_plan *plan = frame->answer;
    const fv_plan_row *row = best(plan);
    size_t nightly = 0;
    bool washer = false;
    for (size_t i = 0; i < row->step_count; i++) {
        const fv_plan_step *step = &row->steps[i];
        washer = washer || step->action == FV_PLAN_FIT_WASHER;
        nightly += step->action > FV_PLAN_FIT_WASHER && !isnan(plan->clock.start) && at_night(plan, step->time);
    }
    if (nightly > 0)
        print_note_add(notes, "night", "%zu of the things to do fall%s between 22:00 and 6:00.", nightly,
                       nightly == 1 ? "s" : "");
    if (washer)
        print_note_add(
            notes, "washer",
            "A washer is a flat disc with one drilled hole, put into the union at the hose's end: its loss is "
            "that of a thin plate with a sharp edge (Weisbach). A valve at the same place can be set to the "
            "same effect, and turned.");
    if (row->fuel < row->fuel_full)
        print_note_add(notes, "fire",
                       "Turning the fire down at the last core saves %.0f %% of the fuel; no hold breaks. That is a "
                       "twentieth above the least fire that holds: no lower, and watch the probes.",
                       100 * (1 - row->fuel / row->fuel_full));
    if (row->unsafe > 0)
        print_note_add(
            notes, "unsafe",
            "With every plan that was tried a boiler passes its relief pressure or runs dry, or a lid lifts: "
            "see to that first.");
    const size_t lifted = plan->answer->now.lifted;
    if (lifted > 0 && row->unsafe == 0)
        print_note_add(
            notes, "lids",
            row->lifted < lifted
                ? "As it is, the pressure in a chamber lifts its lid. Plans that leave that so are not shown."
                : "The pressure in a chamber lifts its lid, as it does now: check tells the vent it needs.");
    if (isfinite(plan->answer->options.span) && (isnan(row->done) || row->done > plan->answer->options.span))
        print_note_add(notes, "span", "No plan that was tried is done in the time given; this one comes nearest.");
}

/* How far the best of hands is from what no handling can beat. */
static void say_gap(const fv_plan_answer *a, fv_text *out)
{
    const double bound = fmax(a->conduction, a->energy), last = a->rows[0].last; /* a NaN is passed over */
    const bool bounded = a->rows[0].move_count == 0 && isfinite(last) && bound > 0;
    fv_text_add(out, " It is the best of these, not proven the best there is");
    if (bounded)
        fv_text_add(out, ": its last core comes %.0f %% after what no handling can beat, %s", 100 * (last / bound - 1),
                    print_shown_time(bound).text);
    fv_text_add(out, ".");
}

void report_plan_method(const report_frame *frame, fv_text *out)
{
    const fv_plan_answer *a = ((const report_plan *)frame->answer)->answer;
    fv_text_add(
        out,
        "Found by following %zu different plans in time: valves by twentieths of their way, starts by quarters of "
        "an hour%s.",
        a->looked_at, a->options.buy ? ", what could be mended or bought up to three at a time" : "");
    say_gap(a, out);
}
