/* SPDX-License-Identifier: MIT */
/* What stands in the tables of the plan answer. */
#include "print/fields.h"
#include "report/plan/report.h"
#include "report/step.h"

#include <math.h>
#include <stdio.h>

static const report_plan *plan_of(const void *answer)
{
    return answer;
}

/* ---- plans: as it is, then the rows ---- */

static const fv_plan_row *row_of(const void *answer, size_t i)
{
    const fv_plan_answer *a = plan_of(answer)->answer;
    return i == 0 ? &a->now : &a->rows[i - 1];
}
static const char *name_of(const void *answer, size_t i, char *buffer)
{
    fv_text name = {0};
    report_plan_name(plan_of(answer), row_of(answer, i), &name);
    return print_word_take(&name, buffer);
}
static const char *name_shown(const void *answer, size_t i, char *buffer)
{
    fv_text name = {0};
    fv_text_add(&name, i == 1 ? "> " : "");
    report_plan_name(plan_of(answer), row_of(answer, i), &name);
    return print_word_take(&name, buffer);
}
static const char *core_of(const void *answer, size_t i, char *buffer)
{
    const fv_plan_row *row = row_of(answer, i);
    snprintf(buffer, PRINT_WORD_SIZE, "%s", isfinite(row->last) ? print_hours(row->last).text : "never");
    return buffer;
}
/* The plant as it is stands among the rows where nothing is better. */
ROWS(plan_rows, plan_of(answer)->answer->row_count + 1)
ROW(plan_row, row_of(answer, i))
WORD_OF(plan_money, SHOWN(report_plan_money(plan_of(answer), row_of(answer, i))))

static const char *work_shown(const void *answer, size_t i, char *buffer)
{
    snprintf(buffer, PRINT_WORD_SIZE, "%.0f", row_of(answer, i)->minutes);
    return buffer;
}

#define R(name, member, unit, where, show) NUMBER(fv_plan_row, name, member, unit, where, show)
static const print_field plan_fields[] = {
    WORD("plan", IN_TEXT, name_shown),
    WORD("plan", IN_DATA, name_of),
    FLAG(fv_plan_row, "followed", ran, IN_DATA),
    WORD("last_core", IN_TEXT, core_of),
    R("last_core", last, "_s", IN_DATA, FV_SHOW_NUMBER),
    R("first_core", first, "_s", IN_DATA, FV_SHOW_NUMBER),
    R("batch_end", done, "_s", IN_DATA, FV_SHOW_NUMBER),
    COUNT(fv_plan_row, "late", late, IN_ALL),
    COUNT(fv_plan_row, "unsafe", unsafe, IN_DATA),
    COUNT(fv_plan_row, "lifted", lifted, IN_DATA),
    WORD("cost", IN_TEXT, plan_money),
    R("cost", money, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("work_min", IN_TEXT, work_shown),
    R("work_min", minutes, "", IN_DATA, FV_SHOW_NUMBER),
    COUNT(fv_plan_row, "set_before", before, IN_DATA),
    COUNT(fv_plan_row, "to_do", during, IN_TEXT),
    COUNT(fv_plan_row, "done_during", during, IN_DATA),
    R("spread", spread, "", IN_DATA, FV_SHOW_NUMBER),
    R("fuel", fuel, "_j", IN_DATA, FV_SHOW_ENERGY),
    R("water", water, "_kg", IN_DATA, FV_SHOW_MASS),
    R("treated", mass, "_kg", IN_DATA, FV_SHOW_MASS),
    R("a day", mass_per_day, "_kg", IN_TEXT, FV_SHOW_MASS),
    R("treated_a_day", mass_per_day, "_kg", IN_DATA, FV_SHOW_MASS),
    R("boiler", boiler_pressure, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
    R("chamber", chamber_pressure, "_pa_gauge", IN_DATA, FV_SHOW_PRESSURE),
};

/* ---- steps of the answer ---- */

static const fv_plan_row *best(const void *answer)
{
    return &plan_of(answer)->answer->rows[0];
}
static const fv_plan_step *step_of(const void *answer, size_t i)
{
    return &best(answer)->steps[i];
}
static const char *action_of(const void *answer, size_t i, char *buffer)
{
    static const char *const words[] = {"set_valve",    "fit_washer",   "open",        "turn_at_full",
                                        "turn_at_core", "fire_at_core", "fire_instead"};
    (void)buffer;
    return words[step_of(answer, i)->action];
}
static const char *what_of(const void *answer, size_t i, char *buffer)
{
    fv_text what = {0};
    report_step(plan_of(answer)->answer->plant, plan_of(answer)->units, step_of(answer, i), &what);
    return print_word_take(&what, buffer);
}
ROWS(step_rows, best(answer)->step_count)
ROW(step_row, step_of(answer, i))
ROW(step_vessel, plan_of(answer)->answer->plant->vessels[step_of(answer, i)->vessel])
WORD_OF(step_when, SHOWN(report_step_when(plan_of(answer)->answer->plant, &plan_of(answer)->clock, step_of(answer, i))))

static const print_field step_fields[] = {
    WORD("when", IN_ALL, step_when),
    NUMBER(fv_plan_step, "due", time, "_s", IN_DATA, FV_SHOW_NUMBER),
    WORD("action", IN_DATA, action_of),
    TEXT(fv_plan_step, "part", part, IN_DATA),
    PART_TEXT(fv_vessel, "vessel", part.id, IN_DATA),
    NUMBER(fv_plan_step, "value", value, "", IN_DATA, FV_SHOW_NUMBER),
    WORD("what", IN_ALL, what_of),
};

/* ---- vessels of the answer ---- */

static size_t vessel_at(const void *answer, size_t i)
{
    return plan_of(answer)->vessels[i];
}
static double time_of(const void *answer, size_t i, const double *times)
{
    return times ? times[vessel_at(answer, i)] : (double)NAN;
}
static double spare_of(const void *answer, size_t i)
{
    const fv_plan_row *row = best(answer);
    const double within = plan_of(answer)->answer->plant->vessels[vessel_at(answer, i)]->within.v;
    return row->ran ? within - (time_of(answer, i, row->core) - time_of(answer, i, row->opened)) : (double)NAN;
}
static const char *spare_shown(const void *answer, size_t i, char *buffer)
{
    const double spare = spare_of(answer, i);
    const double minutes = floor(spare / 60.0); /* what is short by seconds is short */
    snprintf(buffer, PRINT_WORD_SIZE, "%s%s", spare < 0 ? "-" : "",
             isnan(spare) ? "-" : print_hours(60.0 * fabs(minutes)).text);
    return buffer;
}
static const char *core_shown(const void *answer, size_t i, char *buffer)
{
    const double core = time_of(answer, i, best(answer)->core);
    return isnan(core) ? "never" : SHOWN(print_when(&plan_of(answer)->clock, core));
}
ROWS(vessel_rows, plan_of(answer)->vessel_count)
ROW(vessel_part, plan_of(answer)->answer->plant->vessels[vessel_at(answer, i)])
NUMBER_OF(vessel_opened, time_of(answer, i, best(answer)->opened))
NUMBER_OF(vessel_core, time_of(answer, i, best(answer)->core))
NUMBER_OF(vessel_hold, time_of(answer, i, best(answer)->hold))
WORD_OF(opened_shown, SHOWN(print_when(&plan_of(answer)->clock, vessel_opened(answer, i))))
WORD_OF(hold_shown, SHOWN(print_when(&plan_of(answer)->clock, vessel_hold(answer, i))))
WORD_OF(vessel_verdict, best(answer)->ran ? fv_verdict_word(best(answer)->verdicts[vessel_at(answer, i)]) : "")

static const print_field vessel_fields[] = {
    PART_TEXT(fv_vessel, "vessel", part.id, IN_ALL),
    WORD("steam_opened", IN_TEXT, opened_shown),
    CELL("opened", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_opened),
    WORD("core_at_target", IN_TEXT, core_shown),
    CELL("core", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_core),
    WORD("hold_ends", IN_TEXT, hold_shown),
    CELL("hold_ends", "_s", IN_DATA, FV_SHOW_NUMBER, vessel_hold),
    WORD("to_spare", IN_TEXT, spare_shown),
    CELL("to_spare", "_s", IN_DATA, FV_SHOW_NUMBER, spare_of),
    WORD("verdict", IN_ALL, vessel_verdict),
};

ROW(vessel_row, best(answer))

const print_table report_plan_tables[PLAN_TABLES] = {
    [PLAN_PLANS] = {"plans", FIELDS(plan_fields), plan_rows, plan_row, NULL},
    [PLAN_STEPS] = {"steps", FIELDS(step_fields), step_rows, step_row, step_vessel},
    [PLAN_VESSELS] = {"vessels", FIELDS(vessel_fields), vessel_rows, vessel_row, vessel_part},
};
